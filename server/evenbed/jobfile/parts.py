"""The parts of the zip, with nothing believed that it says of itself.

Every byte that comes out is counted as it comes, whatever a header announces. Names are the few that a job file has,
so that no part can lead out of a folder, or stand in for another.
"""

import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.shapes import MOST_PHOTOS
from evenbed.wire.values import MOST_PHOTO_BYTES

JOB, ABOUT = "job.json", "README.txt"
PHOTO = re.compile(r"photos/([0-9a-f]{64})\.(jpg|png|webp)", re.ASCII)
MOST_JOB = 64_000_000
MOST_ABOUT = 100_000
MOST_BYTES = 400_000_000
"""Of the file, and of all that comes out of it."""
AT_ONCE = 65_536
LOCKED = 0x1
FAULTS = (BadZipFile, zlib.error, EOFError, NotImplementedError, OSError, ValueError, RuntimeError)


class Parts:
    """An open zip whose names are in order."""

    def __init__(self, archive: ZipFile, named: dict[str, ZipInfo]) -> None:
        self._archive = archive
        self._named = named
        self._sizes: dict[str, int] = {}

    def names(self) -> frozenset[str]:
        """Of all its parts."""
        return frozenset(self._named)

    def job(self) -> bytes:
        """The contents of `job.json`."""
        return self._read(JOB, MOST_JOB)

    def photo(self, name: str) -> bytes:
        """The bytes of a photo."""
        return self._read(name, MOST_PHOTO_BYTES)

    def _read(self, name: str, most: int) -> bytes:
        content = bytearray()
        most = min(most, MOST_BYTES - sum(size for told, size in self._sizes.items() if told != name))
        try:
            with self._archive.open(self._named[name]) as part:
                while chunk := part.read(AT_ONCE):
                    content += chunk
                    if len(content) > most:
                        raise JobFileError(Fault.TOO_LARGE)
        except FAULTS as error:
            raise JobFileError(Fault.DAMAGED, name) from error
        self._sizes[name] = len(content)
        return bytes(content)


@contextmanager
def opened(file: Path) -> Iterator[Parts]:
    """The parts of a job file. Raises JobFileError, OSError."""
    if file.stat().st_size > MOST_BYTES:
        raise JobFileError(Fault.TOO_LARGE)
    try:
        archive = ZipFile(file)
    except (BadZipFile, ValueError, NotImplementedError, EOFError, UnicodeDecodeError) as error:
        raise JobFileError(Fault.NOT_A_ZIP) from error
    with archive:
        yield Parts(archive, _named(archive))


def _named(archive: ZipFile) -> dict[str, ZipInfo]:
    entries = archive.infolist()
    if len(entries) > MOST_PHOTOS + 2:
        raise JobFileError(Fault.TOO_MANY_PARTS)
    named: dict[str, ZipInfo] = {}
    for entry in entries:
        name = entry.orig_filename
        if name not in (JOB, ABOUT) and PHOTO.fullmatch(name) is None:
            raise JobFileError(Fault.BAD_NAME, name)
        if name in named:
            raise JobFileError(Fault.DOUBLE_NAME, name)
        if entry.flag_bits & LOCKED:
            raise JobFileError(Fault.ENCRYPTED)
        if entry.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
            raise JobFileError(Fault.DAMAGED, name)
        named[name] = entry
    if JOB not in named:
        raise JobFileError(Fault.NO_JOB)
    return named
