"""PLY files, in text and in either binary order: the head is read strictly, the rows as it says, block by block.

Only the points are wanted. A mesh's faces come after them and are left alone; a file whose points come after a list
is refused, for nobody could tell where they begin without reading all of it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import numpy as np

from evenbed.scans.cloud import BLOCK, MOST_POINTS, Block
from evenbed.scans.faults import ScanError
from evenbed.scans.text import Rows

LONGEST_HEAD = 65_536
MAGIC = (b"ply\n", b"ply\r")
FORMATS = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}
"""By name the mark that numpy knows the order of bytes by."""
KINDS = {
    **dict.fromkeys(("char", "int8"), "i1"),
    **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"),
    **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"),
    **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"),
    **dict.fromkeys(("double", "float64"), "f8"),
}
LIST = "list"


@dataclass(frozen=True)
class Element:
    """A kind of rows: how many, and the type and name of each value in them, in order."""

    name: str
    count: int
    properties: tuple[tuple[str, str], ...] = ()

    @property
    def row_bytes(self) -> int:
        """Bytes of a row in a binary file. Raises KeyError where there is a list in it."""
        return sum(np.dtype(KINDS[kind]).itemsize for kind, _ in self.properties)


@dataclass(frozen=True)
class Head:
    """The head of a PLY file: where the points begin, and their rows."""

    format: str
    vertex: Element
    offset: int
    lines: int

    @property
    def is_text(self) -> bool:
        """True where the rows are text."""
        return self.format == "ascii"

    @property
    def rows(self) -> Rows:
        """How the rows of a text file are understood."""
        names = [name for _, name in self.vertex.properties]
        return Rows(places=(names.index("x"), names.index("y"), names.index("z")), count=self.vertex.count)


def head_from(file: IO[bytes]) -> Head:
    """The head of a PLY file, which the file stands behind then. Raises ScanError `scan_header` and its kin."""
    start = file.read(LONGEST_HEAD)
    head, mark, _ = start.partition(b"end_header")
    end = start.find(b"\n", len(head))
    if not mark or end < 0:
        raise ScanError("scan_header", why=f"it does not end within {LONGEST_HEAD} bytes")
    file.seek(end + 1)
    lines = head.decode("ascii", "replace").splitlines()
    kind, elements = _format(lines), _elements(lines)
    return Head(
        kind, _vertex(elements, kind, len(lines) + 1, end + 1), _offset(elements, kind, end + 1), len(lines) + 1
    )


def _format(lines: list[str]) -> str:
    words = lines[1].split() if len(lines) > 1 else []
    if len(words) != 3 or words[0] != "format" or words[1] not in FORMATS or words[2] != "1.0":
        raise _head_error(2, "expected the format and its version, 1.0")
    return words[1]


def _head_error(line: int, why: str) -> ScanError:
    return ScanError("scan_header", f"line {line}", why=why)


def _elements(lines: list[str]) -> list[Element]:
    found: list[Element] = []
    for line, text in enumerate(lines[2:], start=3):
        words = text.split()
        match words:
            case [] | ["comment" | "obj_info", *_]:
                continue
            case ["element", name, count] if count.isdecimal() and len(count) < 19:
                found.append(Element(name, int(count)))
            case ["property", "list", _, _, name] if found:
                found[-1] = _with_property(found[-1], LIST, name)
            case ["property", kind, name] if found and kind in KINDS:
                found[-1] = _with_property(found[-1], kind, name)
            case _:
                raise _head_error(line, "this is neither an element nor a property known here")
    return found


def _with_property(element: Element, kind: str, name: str) -> Element:
    return Element(element.name, element.count, (*element.properties, (kind, name)))


def _vertex(elements: list[Element], kind: str, line: int, _offset: int) -> Element:
    vertex = next((one for one in elements if one.name == "vertex"), None)
    if vertex is None or vertex.count == 0:
        raise ScanError("scan_empty")
    if vertex.count > MOST_POINTS:
        raise ScanError("scan_many_points", count=vertex.count, most=MOST_POINTS)
    names = [name for _, name in vertex.properties]
    missing = [axis for axis in "xyz" if axis not in names]
    if missing:
        raise ScanError("scan_no_places", missing=", ".join(missing))
    before = elements[: elements.index(vertex) + 1]
    if any(LIST in dict(one.properties) for one in before) or (kind == "ascii" and len(before) > 1):
        raise _head_error(line, "the points come after something of unknown length")
    if len(set(names)) != len(names):
        raise _head_error(line, "a point has two values of one name")
    return vertex


def _offset(elements: list[Element], kind: str, start: int) -> int:
    before = [one for one in elements[: [one.name for one in elements].index("vertex")] if kind != "ascii"]
    return start + sum(one.count * one.row_bytes for one in before)


class BinaryPoints:
    """The points of a binary PLY file, mapped into memory and read block by block."""

    def __init__(self, path: Path, head: Head) -> None:
        self.count = head.vertex.count
        size, here = head.vertex.row_bytes, path.stat().st_size - head.offset
        if here < self.count * size:
            raise ScanError("scan_short", expected=self.count, got=max(0, here // size))
        order = FORMATS[head.format]
        row = np.dtype([(name, order + KINDS[kind]) for kind, name in head.vertex.properties])
        self._rows = np.memmap(path, row, "r", head.offset, (self.count,))

    def blocks(self) -> Iterator[Block]:
        """All points from the first."""
        for start in range(0, self.count, BLOCK):
            rows = np.asarray(self._rows[start : start + BLOCK])
            yield rows["x"].astype(float), rows["y"].astype(float), rows["z"].astype(float)
