"""The list of parts at the end of a zip (APPNOTE.TXT 6.3, 4.3), read as strictly as the phone reads it.

One file must be the same file to every reader: nothing before the first part and behind the list, no part on top of
another, no second telling of a size (Zip64), and at each part the header that the list says. The phone's
`web/src/carrying/directory.ts` goes the same way step by step.
"""

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from evenbed.jobfile.faults import Fault, JobFileError
from evenbed.jobfile.shapes import MOST_PHOTOS

STORED, DEFLATED = 0, 8
LOCKED, SIZES_FOLLOW = 0x1, 0x8
MOST_PARTS = MOST_PHOTOS + 2
MOST_LIST = 1_000_000
"""Bytes of the list: five times what the longest names of that many parts need."""
LONGEST_COMMENT = 65_535
ZIP64 = 0x0001
_END = struct.Struct("<4s4xHHIIH")
_ENTRY = struct.Struct("<4s4xHH4xIIIHHH8xI")
_LOCAL = struct.Struct("<4s2xHH4xIIIHH")


@dataclass(frozen=True)
class Entry:
    """One part as the list tells of it; bytes and places in the file."""

    name: str
    flags: int
    method: int
    crc: int
    packed: int
    size: int
    offset: int
    more: bytes

    @property
    def told(self) -> tuple[int, int, int]:
        """Checksum and sizes, as the part's own header tells them too."""
        return self.crc, self.packed, self.size


@dataclass(frozen=True)
class Part:
    """Where the packed bytes of a part begin."""

    entry: Entry
    start: int


@dataclass(frozen=True)
class Listed:
    """The list: what it tells of, and where in the file it stands."""

    entries: tuple[Entry, ...]
    place: int


def listed_in(file: BinaryIO, size: int) -> Listed:
    """The list of a file of that many bytes. Raises JobFileError, OSError."""
    place, listed = _list_of(file, size)
    return Listed(tuple(_entries(listed)), place)


def placed(file: BinaryIO, listed: Listed) -> list[Part]:
    """Where each of them begins: one after the other from the first byte on, before the list. Raises JobFileError,
    OSError."""
    parts = [Part(entry, _start_of(file, entry)) for entry in listed.entries]
    free = 0
    for part in sorted(parts, key=lambda one: one.entry.offset):
        entry, stop = part.entry, part.start + part.entry.packed
        is_apart = free <= entry.offset and stop <= listed.place and (free > 0 or entry.offset == 0)
        if not is_apart or ZIP64 in _tags(entry.more):
            raise JobFileError(Fault.DAMAGED, entry.name)
        free = stop
    return parts


def _list_of(file: BinaryIO, size: int) -> tuple[int, bytes]:
    """Where the list stands, and its bytes."""
    tail_at = max(0, size - _END.size - LONGEST_COMMENT)
    tail = _slice(file, tail_at, size - tail_at)
    at = _end_in(tail)
    if at < 0:
        raise JobFileError(Fault.NOT_A_ZIP)
    _mark, _here, count, length, place, _comment = _END.unpack_from(tail, at)
    if count > MOST_PARTS:
        raise JobFileError(Fault.TOO_MANY_PARTS)
    if place + length != tail_at + at or length > MOST_LIST:
        raise JobFileError(Fault.NOT_A_ZIP)
    return place, _slice(file, place, length)


def _end_in(tail: bytes) -> int:
    """The last end of a list whose comment ends with the file; -1 where there is none."""
    at = tail.rfind(b"PK\x05\x06")
    while at >= 0:
        if at + _END.size <= len(tail) and at + _END.size + _END.unpack_from(tail, at)[-1] == len(tail):
            return at
        at = tail.rfind(b"PK\x05\x06", 0, at + 3)
    return -1


def _entries(listed: bytes) -> Iterator[Entry]:
    at = found = 0
    while at < len(listed):
        if at + _ENTRY.size > len(listed) or not listed.startswith(b"PK\x01\x02", at):
            raise JobFileError(Fault.NOT_A_ZIP)
        _mark, flags, method, crc, packed, size, named, more, comment, offset = _ENTRY.unpack_from(listed, at)
        start = at + _ENTRY.size
        name = listed[start : start + named].decode("utf-8", "replace")
        found += 1
        if found > MOST_PARTS:
            raise JobFileError(Fault.TOO_MANY_PARTS)
        yield Entry(name, flags, method, crc, packed, size, offset, listed[start + named : start + named + more])
        at = start + named + more + comment


def _start_of(file: BinaryIO, entry: Entry) -> int:
    """Where the bytes of a part begin; its own header must say what the list says."""
    head = _slice(file, entry.offset, _LOCAL.size)
    if len(head) < _LOCAL.size or not head.startswith(b"PK\x03\x04"):
        raise JobFileError(Fault.DAMAGED, entry.name)
    _mark, flags, method, crc, packed, size, named, more = _LOCAL.unpack(head)
    name = _slice(file, entry.offset + _LOCAL.size, named).decode("utf-8", "replace")
    told = entry.told if flags & SIZES_FOLLOW else (crc, packed, size)
    others = (flags ^ entry.flags) & ~SIZES_FOLLOW
    if others or (name, method, told) != (entry.name, entry.method, entry.told):
        raise JobFileError(Fault.DAMAGED, entry.name)
    return entry.offset + _LOCAL.size + int(named) + int(more)


def _tags(more: bytes) -> Iterator[int]:
    """Of the extra fields (APPNOTE.TXT 4.5)."""
    at = 0
    while at + 4 <= len(more):
        tag, length = struct.unpack_from("<HH", more, at)
        yield tag
        at += 4 + length


def _slice(file: BinaryIO, at: int, size: int) -> bytes:
    file.seek(at)
    return file.read(size)
