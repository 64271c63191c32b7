"""The parts of the zip, with nothing believed that it says of itself.

Every byte that comes out is counted as it comes, whatever a header announces. Names are the few that a job file has,
so that no part can lead out of a folder, or stand in for another.
"""

import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from evenbed.jobfile.directory import DEFLATED, LOCKED, STORED, Listed, Part, listed_in, placed
from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.wire.values import MOST_PHOTO_BYTES

JOB, ABOUT = "job.json", "README.txt"
PHOTO = re.compile(r"photos/([0-9a-f]{64})\.(jpg|png|webp)", re.ASCII)
MOST_JOB = 64_000_000
MOST_BYTES = 400_000_000
"""Of the file, and of all that comes out of it."""
AT_ONCE = 65_536


class Parts:
    """An open zip whose names are in order."""

    def __init__(self, file: BinaryIO, named: dict[str, Part]) -> None:
        self._file = file
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
        part = self._named[name]
        most = min(most, MOST_BYTES - sum(size for told, size in self._sizes.items() if told != name))
        content, crc = bytearray(), 0
        for chunk in self._unpacked(part):
            content += chunk
            crc = zlib.crc32(chunk, crc)
            if len(content) > most:
                raise JobFileError(Fault.TOO_LARGE, name)
        if (len(content), crc) != (part.entry.size, part.entry.crc):
            raise JobFileError(Fault.DAMAGED, name)
        self._sizes[name] = len(content)
        return bytes(content)

    def _unpacked(self, part: Part) -> Iterator[bytes]:
        """What comes out of it, a little at a time."""
        packed = self._packed(part)
        if part.entry.method == STORED:
            yield from packed
            return
        inflate = zlib.decompressobj(-zlib.MAX_WBITS)
        try:
            for chunk in packed:
                yield inflate.decompress(chunk, AT_ONCE)
                while inflate.unconsumed_tail and not inflate.eof:
                    yield inflate.decompress(inflate.unconsumed_tail, AT_ONCE)
                if inflate.eof:
                    return
            yield inflate.flush()
        except zlib.error as error:
            raise JobFileError(Fault.DAMAGED, part.entry.name) from error
        if not inflate.eof:
            raise JobFileError(Fault.DAMAGED, part.entry.name)

    def _packed(self, part: Part) -> Iterator[bytes]:
        at, end = part.start, part.start + part.entry.packed
        while at < end:
            self._file.seek(at)
            chunk = self._file.read(min(AT_ONCE, end - at))
            if not chunk:
                raise JobFileError(Fault.DAMAGED, part.entry.name)
            yield chunk
            at += len(chunk)


@contextmanager
def opened(path: Path) -> Iterator[Parts]:
    """The parts of a job file. Raises JobFileError, OSError."""
    size = path.stat().st_size
    if size > MOST_BYTES:
        raise JobFileError(Fault.TOO_LARGE)
    with path.open("rb") as file:
        listed = listed_in(file, size)
        _check_names(listed)
        yield Parts(file, {part.entry.name: part for part in placed(file, listed)})


def _check_names(listed: Listed) -> None:
    names: set[str] = set()
    for entry in listed.entries:
        if entry.name not in (JOB, ABOUT) and PHOTO.fullmatch(entry.name) is None:
            raise JobFileError(Fault.BAD_NAME, entry.name)
        if entry.name in names:
            raise JobFileError(Fault.DOUBLE_NAME, entry.name)
        if entry.flags & LOCKED:
            raise JobFileError(Fault.ENCRYPTED, entry.name)
        if entry.method not in (STORED, DEFLATED):
            raise JobFileError(Fault.DAMAGED, entry.name)
        names.add(entry.name)
    if JOB not in names:
        raise JobFileError(Fault.NO_JOB)
