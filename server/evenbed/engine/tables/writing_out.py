"""The readings of a room as a table that any surveyor's program reads: RFC 4180, with the header's five names."""

from collections.abc import Sequence
from typing import Any

from evenbed.engine.document.check import checked_document
from evenbed.engine.document.places import Point
from evenbed.engine.document.reading import read_json
from evenbed.engine.problems import problems_under
from evenbed.engine.tables.lines import SIGNS
from evenbed.engine.tables.numbers import MM_PER_UNIT
from evenbed.engine.tables.shapes import Separator, TableOutAnswer, TableOutQuestion, TableUnit
from evenbed.engine.worked import WorkedRoom

HEADER = ("point", "northing", "easting", "elevation", "description")
DECIMALS: dict[TableUnit, int] = {"mm": 2, "cm": 3, "m": 5, "in": 4, "ft": 5, "us_ft": 5}
"""So many that what is read in again is the same to a hundredth of a millimetre."""


def table_out_from(given: object) -> TableOutAnswer:
    """The table of a room's readings, their heights adjusted (parsed JSON in).

    A reading on a mark has no place, and one that nothing ties to the benchmark no height: they are left out and
    counted. A place read from several set-ups is one point. The description is the stage, `subfloor` or `bed`, and
    the reading's note behind it. Raises BadDocumentError where the document gives no heights.
    """
    question, _ = read_json(TableOutQuestion, given)
    with problems_under("document"):
        document = checked_document(question.document)
        heights = WorkedRoom(document).levels.heights
    notes = _notes(given)
    kept: dict[tuple[Point, str], tuple[float, str]] = {}
    for found, reading, note in zip(heights, document.readings, notes, strict=True):
        if found.at is not None and found.z is not None:
            kept.setdefault((found.at, reading.stage), (found.z, note))
    missing = sum(found.at is None or found.z is None for found in heights)
    points = (_point(question, n, *place, *said) for n, (place, said) in enumerate(kept.items(), start=1))
    lines = [_line(question.separator, cells) for cells in (HEADER, *points)]
    return TableOutAnswer("".join(f"{line}\r\n" for line in lines), len(kept), missing)


def _notes(given: Any) -> list[str]:
    """The notes beside the readings of a document that was read: people's own words, which the engine passes over."""
    notes = (reading.get("note") for reading in given["document"]["readings"])
    return [" ".join(note.split()) if isinstance(note, str) else "" for note in notes]


def _point(question: TableOutQuestion, n: int, at: Point, stage: str, z: float, note: str) -> Sequence[str]:
    lengths = (_number(question, length) for length in (at[1], at[0], z))
    return str(n), *lengths, f"{stage}: {note}" if note else stage


def _number(question: TableOutQuestion, length: float) -> str:
    """A length in the table's unit, with its decimal mark; never a negative nothing."""
    text = f"{length / MM_PER_UNIT[question.unit]:z.{DECIMALS[question.unit]}f}"
    return text if question.decimal == "point" else text.replace(".", ",")


def _line(separator: Separator, cells: Sequence[str]) -> str:
    return (SIGNS[separator] or " ").join(_cell(cell, separator) for cell in cells)


def _cell(cell: str, separator: Separator) -> str:
    """A cell, in quotes where it could be taken for something else."""
    sign = SIGNS[separator]
    is_whole = sign not in cell if sign else " " not in cell
    if is_whole and not any(c in cell for c in '"#\r\n'):
        return cell
    return '"' + cell.replace('"', '""') + '"'
