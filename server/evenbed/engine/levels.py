"""Levels: heights from rod readings of one set-up, tied to a benchmark where one was read."""

import math

from evenbed.engine.document.levelling import Mark, Reading, Setup
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document
from evenbed.engine.heights import Levels, MarkHeight, ReadHeight, SetupHeight
from evenbed.engine.outline import Figure
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

BESIDE_THE_ROOM = 25.0  # mm that a reading may stand outside the taped outline: a rod's foot and a tape's slack
CLOSEST = 0.01  # mm: nearer readings are at one place
OFF_THE_LINE = 1 / 1000  # of their length: readings closer to one line say nothing of the floor beside it;
# common practice, no source


def levels_from(document: Document, figure: Figure) -> Levels:
    """Heights from one set-up: z = level line − reading.

    The level line comes from the benchmarks read, their mean where there are several; without one, z = 0 is the
    highest subfloor reading. Raises BadDocumentError for readings that have no place, stand outside the room, share
    a place, are fewer than three on the subfloor, or come from several set-ups.
    """
    _check(document, figure)
    setup = _the_setup(document)
    known = {m.id: m.height for m in document.marks if m.height is not None}
    lines = [known[r.mark] + r.down for r in document.readings if r.mark in known]
    datum = "benchmark" if lines else "highest_reading"
    line = math.fsum(lines) / len(lines) if lines else min(r.down for r in _floor(document))
    heights = tuple(_height_of(r, line, known, setup.sigma, len(lines)) for r in document.readings)
    return Levels(
        heights,
        (SetupHeight(setup.id, line, setup.sigma),),
        _marks(document.marks, heights, document.readings, setup.sigma),
        _sigma0(lines, line, setup.sigma),
        datum,
    )


def _floor(document: Document) -> list[Reading]:
    return [r for r in document.readings if r.stage == "subfloor" and r.at is not None]


def _the_setup(document: Document) -> Setup:
    used = next((r.setup for r in document.readings), "")
    return next((s for s in document.setups if s.id == used), None) or _only(document.setups, used)


def _only(setups: tuple[Setup, ...], used: str) -> Setup:
    return setups[0] if setups else Setup(id=used or "1")


def _height_of(reading: Reading, line: float, known: dict[str, float], sigma: float, lines: int) -> ReadHeight:
    z = line - reading.down
    checked = reading.mark in known and lines > 1
    residual = z - known[reading.mark] if checked and reading.mark is not None else None
    return ReadHeight(reading.id, reading.at, z, residual, sigma, None, 0.0)


def _marks(
    marks: tuple[Mark, ...], heights: tuple[ReadHeight, ...], readings: tuple[Reading, ...], sigma: float
) -> tuple[MarkHeight, ...]:
    found = []
    for mark in marks:
        read = [h.z for h, r in zip(heights, readings, strict=True) if r.mark == mark.id and h.z is not None]
        if mark.height is not None:
            found.append(MarkHeight(mark.id, mark.height, 0.0))
        elif read:
            found.append(MarkHeight(mark.id, math.fsum(read) / len(read), sigma / math.sqrt(len(read))))
    return tuple(found)


def _sigma0(lines: list[float], line: float, sigma: float) -> float | None:
    if len(lines) < 2 or sigma == 0:
        return None
    return math.sqrt(math.fsum((v - line) ** 2 for v in lines) / (len(lines) - 1)) / sigma


def _check(document: Document, figure: Figure) -> None:
    found = [
        *_reference_problems(document),
        *_place_problems(document.readings, figure),
        *_doubles(document.readings),
    ]
    floor = _floor(document)
    if not found and len(floor) < 3:
        found = [problem_at("readings", "too_few_readings", count=len(floor))]
    if not found and _on_a_line([r.at for r in floor if r.at is not None]):
        found = [problem_at("readings", "readings_on_a_line", count=len(floor))]
    if found:
        raise BadDocumentError(found)


def _reference_problems(document: Document) -> list[Problem]:
    found = []
    setups, marks = {s.id for s in document.setups}, {m.id for m in document.marks}
    only = document.setups[0].id if len(document.setups) == 1 else ""
    used = [r.setup or only for r in document.readings]
    for n, (reading, setup) in enumerate(zip(document.readings, used, strict=True)):
        path = f"readings[{n}]"
        if reading.setup and setups and reading.setup not in setups:
            found.append(problem_at(f"{path}.setup", "unknown_id", id=reading.setup))
        elif setup != used[0]:
            found.append(problem_at(f"{path}.setup", "several_setups", first=used[0], other=setup))
        if reading.mark is not None and reading.mark not in marks:
            found.append(problem_at(f"{path}.mark", "unknown_id", id=reading.mark))
        if reading.mark is None and reading.at is None:
            found.append(problem_at(f"{path}.at", "reading_without_place"))
    return found


def _place_problems(readings: tuple[Reading, ...], figure: Figure) -> list[Problem]:
    return [
        problem_at(f"readings[{n}].at", "reading_outside", x=r.at[0], y=r.at[1])
        for n, r in enumerate(readings)
        if r.at is not None and not figure.holds(r.at, BESIDE_THE_ROOM)
    ]


def _doubles(readings: tuple[Reading, ...]) -> list[Problem]:
    found: list[Problem] = []
    seen: dict[tuple[int, int, str], int] = {}
    for n, r in enumerate(readings):
        if r.at is None:
            continue
        cell = round(r.at[0] / CLOSEST), round(r.at[1] / CLOSEST), r.stage
        near = (seen.get((cell[0] + i, cell[1] + j, r.stage)) for i in (0, -1, 1) for j in (0, -1, 1))
        earlier = next((m for m in near if m is not None), None)
        if earlier is None:
            seen[cell] = n
        else:
            found.append(problem_at(f"readings[{n}].at", "same_place", first=earlier, x=r.at[0], y=r.at[1]))
    return found


def _on_a_line(places: list[Point]) -> bool:
    """True where no place stands off the line through the two farthest-out ones by more than OFF_THE_LINE."""
    start = min(places)
    end = max(places, key=lambda p: math.dist(p, start))
    dx, dy, far = end[0] - start[0], end[1] - start[1], math.dist(start, end)
    return all(abs((p[0] - start[0]) * dy - (p[1] - start[1]) * dx) <= OFF_THE_LINE * far * far for p in places)
