"""Zips whose headers tell one thing while the file is another, put together by the layout in APPNOTE.TXT, 4.3."""

import struct
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, replace

from evenbed.jobfile.faults import Fault

Bent = tuple[str, Fault | None, bytes]
LOCAL = struct.Struct("<IHHHHHIIIHH")
LISTED = struct.Struct("<IHHHHHHIIIHHHHHII")
END = struct.Struct("<IHHHHIIH")
ZIP64 = struct.pack("<HHQQ", 1, 16, 9, 9)


@dataclass(frozen=True)
class Headers:
    """What a header tells of a part: flags, packing, checksum, packed and whole size."""

    flags: int
    method: int
    crc: int
    packed: int
    size: int


@dataclass(frozen=True)
class Bare:
    """A part as it stands in the file, with what the list and its own header tell of it."""

    name: str
    raw: bytes
    listed: Headers
    own: Headers
    more: bytes = b""
    """Extra fields, in the list."""


def packed(name: str, content: bytes, behind: bytes = b"") -> Bare:
    """A part packed by zlib, with bytes behind what is packed."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    raw = packer.compress(content) + packer.flush() + behind
    told = Headers(0, 8, zlib.crc32(content), len(raw), len(content))
    return Bare(name, raw, told, told)


def joined(*parts: Bare, before: bytes = b"", behind: bytes = b"", at: tuple[int, ...] | None = None) -> bytes:
    """The file; `at`: where the list says that the parts stand, if not where they do."""
    file, places = bytearray(before), []
    for part in parts:
        places.append(len(file))
        file += _head(part) + part.raw
    listed = b"".join(_listed(part, place) for part, place in zip(parts, at or places, strict=True))
    end = END.pack(0x06054B50, 0, 0, len(parts), len(parts), len(listed), len(file), 0)
    return bytes(file) + listed + end + behind


def _head(part: Bare) -> bytes:
    own, name = part.own, part.name.encode()
    told = LOCAL.pack(0x04034B50, 20, own.flags, own.method, 0, 33, own.crc, own.packed, own.size, len(name), 0)
    return told + name


def _listed(part: Bare, place: int) -> bytes:
    of, name = part.listed, part.name.encode()
    sizes = (of.crc, of.packed, of.size, len(name), len(part.more), 0, 0, 0, 0, place)
    return LISTED.pack(0x02014B50, 20, 20, of.flags, of.method, 0, 33, *sizes) + name + part.more


def bent(job: bytes, photo: tuple[str, bytes]) -> Iterator[Bent]:
    """Name, reason, contents; made of a good `job.json` and its photo."""
    one, other = packed("job.json", job), packed(*photo)
    yield "plain", None, joined(one, other)
    yield "bytes_behind_what_is_packed", None, joined(packed("job.json", job, b"more"), other)
    yield "sizes_told_later", None, joined(replace(one, own=Headers(8, 8, 0, 0, 0)), other)
    yield "bytes_before", Fault.DAMAGED, joined(one, other, before=b"#!")
    yield "bytes_behind", Fault.NOT_A_ZIP, joined(one, other, behind=b"x")
    yield "twice", Fault.NOT_A_ZIP, joined(one, other) * 2
    yield "one_on_top_of_another", Fault.DAMAGED, joined(one, replace(one, name="README.txt"), at=(0, 0))
    within = one.raw[:-60] + joined(packed("README.txt", b"x"))[:60]
    whole = replace(one, raw=within, listed=replace(one.listed, packed=len(within)))
    yield "one_within_another", Fault.DAMAGED, joined(whole, packed("README.txt", b"x"), at=(0, len(within) - 22))
    yield (
        "list_that_is_huge",
        Fault.NOT_A_ZIP,
        joined(*(replace(one, raw=b"", more=bytes(60_000)) for _ in range(20))),
    )
    for tag in (ZIP64, bytes(4) + ZIP64):
        yield f"told_a_second_time_{len(tag)}", Fault.DAMAGED, joined(replace(one, more=tag), other)
    own = {"crc": 1, "packed": 5, "size": 5, "method": 0, "flags": 1}
    for name, value in own.items():
        bad = replace(one, own=replace(one.own, **{name: value}))
        yield f"own_{name}", Fault.DAMAGED, joined(bad, other)
    for name in ("crc", "size", "packed"):
        wrong = replace(one.listed, **{name: getattr(one.listed, name) - 1})
        yield f"both_{name}", Fault.DAMAGED, joined(replace(one, listed=wrong, own=wrong), other)
    yield "not_ended", Fault.DAMAGED, joined(_cut(one), other)


def _cut(part: Bare) -> Bare:
    raw = part.raw[:-5]
    told = replace(part.listed, packed=len(raw))
    return replace(part, raw=raw, listed=told, own=told)
