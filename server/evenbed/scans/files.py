"""A scan's file, whatever its format: told by what is in it, never by its name."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from evenbed.scans.cloud import Cloud, Spool, Tell
from evenbed.scans.faults import ScanError
from evenbed.scans.ply import MAGIC, BinaryPoints, head_from
from evenbed.scans.text import spool_rows

PACKED = {
    b"PK\x03\x04": "zip",
    b"\x1f\x8b": "gzip",
    b"7z\xbc\xaf": "7z",
    b"Rar!": "rar",
    b"BZh": "bzip2",
    b"\xfd7zX": "xz",
}


@contextmanager
def opened_scan(path: Path, tell: Tell) -> Iterator[Cloud]:
    """The points of a PLY, XYZ or CSV file, as long as it is open. Raises ScanError, OSError."""
    with path.open("rb") as file, Spool() as spool:
        start = file.read(4)
        file.seek(0)
        packed = next((kind for mark, kind in PACKED.items() if start.startswith(mark)), None)
        if packed:
            raise ScanError("scan_packed", kind=packed)
        cloud = _ply(path, spool, tell) if start in MAGIC else _text(path, spool, tell)
        if cloud.count == 0:
            raise ScanError("scan_empty")
        yield cloud


def _ply(path: Path, spool: Spool, tell: Tell) -> Cloud:
    with path.open("rb") as file:
        head = head_from(file)
        if not head.is_text:
            return BinaryPoints(path, head)
        spool_rows(file, spool, path.stat().st_size, tell, head.rows, head.lines + 1)
    return spool


def _text(path: Path, spool: Spool, tell: Tell) -> Cloud:
    with path.open("rb") as file:
        spool_rows(file, spool, path.stat().st_size, tell)
    return spool
