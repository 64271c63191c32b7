"""What is asked of a table of points, and what is answered."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document, Outline
from evenbed.engine.problems import Problem

MOST_CHARACTERS = 8_000_000
MOST_COLUMNS = 200

Separator = Literal["comma", "semicolon", "tab", "blanks"]
Decimal = Literal["point", "comma"]
TableUnit = Literal["mm", "cm", "m", "in", "ft", "us_ft"]
Heights = Literal["elevation", "down"]
PlacingKind = Literal["as_they_are", "low_corner", "pairs"]
UnitReason = Literal["chosen", "header", "marks", "room", "size"]
Stage = Literal["subfloor", "bed"]


def _column(about: str) -> int | None:
    column: int | None = described(None, about=about, low=0, high=MOST_COLUMNS - 1)
    return column


@dataclass(frozen=True)
class TableColumns:
    """Which column holds what, counted from 0; null where none does."""

    point: int | None = _column("Name or number of the point")
    northing: int | None = _column("Northing, y on the drawing")
    easting: int | None = _column("Easting, x on the drawing")
    elevation: int | None = _column("Elevation, z")
    description: int | None = _column("Description")
    down: int | None = _column("Below the level line, in place of an elevation")


@dataclass(frozen=True)
class FoundColumns(TableColumns):
    """The columns as the table was read by them."""


@dataclass(frozen=True)
class TableMapping:
    """How the table is to be read; what is null is guessed."""

    separator: Separator | None = described(None, about="What stands between the columns")
    decimal: Decimal | None = described(None, about="Decimal point or decimal comma")
    header: bool | None = described(None, about="True where the first line names the columns")
    columns: TableColumns | None = described(None, about="Which column holds what")
    unit: TableUnit | None = described(None, about="Unit of all lengths without one of their own")
    heights: Heights | None = described(None, about="Which column the heights are taken from")


@dataclass(frozen=True)
class TablePair:
    """A point of the table and the place on the drawing where it belongs."""

    line: int = described(about="The point's line in the table, from 1", low=1)
    at: Point = height(about="Its place on the drawing")


@dataclass(frozen=True)
class TablePlace:
    """How the points are laid on the drawing."""

    kind: PlacingKind = described("as_they_are", about="As they are, by their low left corner, or by two pairs")
    pairs: tuple[TablePair, ...] = described((), about="Two points and their places, for `pairs`", most=2)


@dataclass(frozen=True)
class TableInQuestion:
    """A table as text, and what is known about how to read it."""

    text: str = described(about="The whole table", longest=MOST_CHARACTERS)
    mapping: TableMapping = described(TableMapping(), about="How to read it")
    place: TablePlace = described(TablePlace(), about="How its points are laid on the drawing")
    outline: Outline | None = described(None, about="The room's figure, to see which points stand in it")


@dataclass(frozen=True)
class TableRow:
    """One point, ready to be taken."""

    line: int = described(about="Its line in the table, from 1")
    point: str = described(about="Name or number")
    at: Point = height(about="Where it stands on the drawing")
    z: float | None = height(about="Elevation, null where readings below a line are given")
    down: float | None = height(about="Below the level line, null where elevations are given")
    stage: Stage = described(about="What was read")
    note: str = described(about="Description, the stage taken out")
    outside: bool = described(about="True where it stands outside the room")


@dataclass(frozen=True)
class Placing:
    """One way to lay the points on the drawing: turned about the table's origin, then shifted."""

    kind: PlacingKind = described(about="As they are, by their low left corner, or by two pairs")
    rotation: float = described(about="Anticlockwise", unit="degree")
    shift: Point = described(about="Along x and y", unit="mm")
    outside: int | None = described(about="How many points then stand outside the room, null without a room")
    misfit: float | None = length(about="By how much each of the two points misses its place, null for no pairs")


@dataclass(frozen=True)
class TableInAnswer:
    """How the table was read, its rows, and everything wrong with it. With any problem there are no rows."""

    separator: Separator = described(about="What stands between the columns")
    decimal: Decimal = described(about="Decimal point or decimal comma")
    header: bool = described(about="True where the first line names the columns")
    unit: TableUnit = described(about="Unit of all lengths without one of their own")
    unit_reason: UnitReason = described(
        about="Why: chosen by a person; told by the header; feet or inch marks; the room's size; the numbers' size"
    )
    columns: FoundColumns = described(about="Which column holds what")
    heights: Heights = described(about="Which column the heights are taken from")
    names: tuple[str, ...] = described(about="The header's words, empty without one")
    first_rows: tuple[tuple[str, ...], ...] = described(about="The first lines as they stand, cell by cell")
    row_count: int = described(about="Lines that hold a point, good or bad")
    rows: tuple[TableRow, ...] = described(about="Every point, or none where there is a problem")
    lowered_by: float = length(about="What was taken off every elevation, where they are beyond any floor's")
    placing: Placing = described(about="How the rows are laid on the drawing")
    placings: tuple[Placing, ...] = described(about="Ways to lay them that need no pairs")
    problems: tuple[Problem, ...] = described(about="Everything wrong, line by line, up to a limit")
    problem_count: int = described(about="How many problems there are in all")


@dataclass(frozen=True)
class TableOutQuestion:
    """A room, and how its table is to be written."""

    document: Document = described(about="The room document")
    unit: TableUnit = described("mm", about="Unit of all lengths")
    separator: Separator = described("comma", about="What stands between the columns")
    decimal: Decimal = described("point", about="Decimal point or decimal comma")


@dataclass(frozen=True)
class TableOutAnswer:
    """The readings as a table: point, northing, easting, elevation, description."""

    text: str = described(about="The table, its header first, lines ending in CR LF")
    rows: int = described(about="Readings written")
    left_out: int = described(about="Readings without a place or without a height")
