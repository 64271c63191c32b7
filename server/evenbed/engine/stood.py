"""Where the rod stood: which readings are of one place or mark, and so tie their set-ups together.

A place of the bed that was read again later may have been rubbed down or filled up since: readings of other times are
of other heights there, and tie nothing.
"""

from collections import defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from evenbed.engine.document.levelling import Reading
from evenbed.engine.document.places import Point
from evenbed.engine.problems import Problem, problem_at

CLOSEST = 0.01  # mm: nearer readings are at one place


class Node(NamedTuple):
    """Something that has a height: a `mark`, a `place` (its name is the stage read) or a `setup`'s level line."""

    kind: str
    name: str
    x: float = 0.0
    y: float = 0.0


def places_of(readings: Sequence[Reading]) -> list[Point | None]:
    """One place for all readings of a stage within CLOSEST of each other, the least of theirs; None without one."""
    given = sorted({(r.stage, r.at) for r in readings if r.at is not None})
    seen: dict[tuple[int, int, str], Point] = {}
    found: dict[tuple[str, Point], Point] = {}
    for stage, at in given:
        x, y = round(at[0] / CLOSEST), round(at[1] / CLOSEST)
        near = (seen.get((x + i, y + j, stage)) for i in (0, -1, 1) for j in (0, -1, 1))
        place = next((p for p in near if p is not None), at)
        seen.setdefault((x, y, stage), place)
        found[stage, at] = place
    return [None if r.at is None else found[r.stage, r.at] for r in readings]


def nodes_of(readings: Sequence[Reading], places: Sequence[Point | None]) -> list[Node]:
    """What each reading is of. A place where a rod stood on a mark is that mark, also to readings that name none."""
    marks: dict[tuple[str, Point], str] = {}
    for reading, place in zip(readings, places, strict=True):
        if reading.mark is not None and place is not None:
            marks[reading.stage, place] = min(reading.mark, marks.get((reading.stage, place), reading.mark))
    times: dict[Point, set[str | None]] = defaultdict(set)
    for reading, place in zip(readings, places, strict=True):
        if reading.stage == "bed" and place is not None:
            times[place].add(reading.taken_at)
    return [_node_of(r, p, marks, times) for r, p in zip(readings, places, strict=True)]


def _node_of(
    reading: Reading,
    place: Point | None,
    marks: dict[tuple[str, Point], str],
    times: dict[Point, set[str | None]],
) -> Node:
    mark = reading.mark if place is None else marks.get((reading.stage, place), reading.mark)
    if reading.mark is not None or place is None:
        return Node("mark", reading.mark or "")
    if mark is not None:
        return Node("mark", mark)
    is_again = reading.stage == "bed" and len(times[place]) > 1
    return Node("place", f"bed {reading.taken_at or ''}" if is_again else reading.stage, *place)


def doubles_in(readings: Sequence[Reading], setups: Sequence[str], places: Sequence[Point | None]) -> list[Problem]:
    """Places of the subfloor read twice from one set-up, and places said to be two marks."""
    found: list[Problem] = []
    read: dict[tuple[str, str, Point], int] = {}
    marked: dict[tuple[str, Point], int] = {}
    for n, (reading, setup, place) in enumerate(zip(readings, setups, places, strict=True)):
        if place is None or reading.at is None:
            continue
        earlier = n if reading.stage == "bed" else read.setdefault((setup, reading.stage, place), n)
        if reading.mark is not None:
            named = marked.setdefault((reading.stage, place), n)
            earlier = named if earlier == n and readings[named].mark != reading.mark else earlier
        if earlier != n:
            x, y = reading.at
            found.append(problem_at(f"readings[{n}].at", "same_place", first=earlier, x=x, y=y))
    return found
