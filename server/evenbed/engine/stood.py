"""Where the rod stood: which readings are of one place or mark, and so tie their set-ups together.

A place of the bed may have been rubbed down or filled up between two readings. Whoever reads it again from the same
set-up has a reason: it counts as another height from then on, and so does whatever is read there after somebody told
that the place was worked over. Read from another set-up, it ties the two.
"""

from collections import defaultdict
from collections.abc import Sequence
from datetime import datetime
from math import dist, inf
from typing import NamedTuple

from evenbed.engine.document.flatness import TOUCH_REACH, Touch
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


def nodes_of(
    readings: Sequence[Reading], setups: Sequence[str], places: Sequence[Point | None], touches: Sequence[Touch]
) -> list[Node]:
    """What each reading is of. A place where a rod stood on a mark is that mark, also to readings that name none."""
    marks: dict[tuple[str, Point], str] = {}
    for reading, place in zip(readings, places, strict=True):
        if reading.mark is not None and place is not None:
            marks[reading.stage, place] = min(reading.mark, marks.get((reading.stage, place), reading.mark))
    again = _again_of(readings, setups, places, touches)
    return [_node_of(r, p, marks, again.get(n, 0)) for n, (r, p) in enumerate(zip(readings, places, strict=True))]


def _node_of(reading: Reading, place: Point | None, marks: dict[tuple[str, Point], str], again: int) -> Node:
    mark = reading.mark if place is None else marks.get((reading.stage, place), reading.mark)
    if reading.mark is not None or place is None:
        return Node("mark", reading.mark or "")
    if mark is not None:
        return Node("mark", mark)
    return Node("place", f"{reading.stage} {again}" if again else reading.stage, *place)


def _again_of(
    readings: Sequence[Reading], setups: Sequence[str], places: Sequence[Point | None], touches: Sequence[Touch]
) -> dict[int, int]:
    """By reading of the bed, which of the heights that its place had it saw, counted from 0; those left out: 0."""
    at: dict[Point, list[int]] = defaultdict(list)
    for n, (reading, place) in enumerate(zip(readings, places, strict=True)):
        if reading.stage == "bed" and place is not None:
            at[place].append(n)
    found: dict[int, int] = {}
    for place, own in at.items():
        if len(own) > 1:
            done = [_moment_of(touch.done_at) for touch in touches if dist(touch.at, place) <= TOUCH_REACH]
            found |= _heights_seen([(n, setups[n], _moment_of(readings[n].taken_at)) for n in own], done)
    return found


def _heights_seen(own: Sequence[tuple[int, str, float]], done: Sequence[float]) -> dict[int, int]:
    """By reading of one place: a height ends where its set-up reads there once more, or where it was worked over."""
    found: dict[int, int] = {}
    height, seen, last = 0, dict[str, float](), inf
    for n, setup, taken in sorted(own, key=lambda one: (one[2], one[0])):
        if seen.get(setup, taken) != taken or any(last < moment <= taken for moment in done):
            height, seen = height + 1, {}
        seen[setup], last, found[n] = taken, taken, height
    return found


def _moment_of(at: str | None) -> float:
    """A time as a number; without one it is before all."""
    return -inf if at is None else datetime.fromisoformat(at).timestamp()


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
