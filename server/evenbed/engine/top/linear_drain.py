"""Falls to a linear drain: one plane each side of its line, level along it; the drain's own width is level."""

import math
from collections.abc import Iterable, Iterator

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Fixture
from evenbed.engine.geometry import Plane, Ring
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.region import Interval, Region, chords_at, split_by_line
from evenbed.engine.top.facets import Cell, side_of
from evenbed.engine.top.falls import NONE, Fall, Falls
from evenbed.engine.top.ways import pocket_at

SHORTEST = 1.0  # mm: a shorter drain has no direction


def falls_to_line(outer: Ring, drain: Fixture, end: Point, path: str) -> Falls:
    """The falls to a linear drain whose middle line runs from its place to `end`; the line is drawn on to the walls.

    Raises BadDocumentError for a drain of no length, and where water would stand in a corner before its line.
    """
    if math.dist(drain.at, end) < SHORTEST:
        raise BadDocumentError([problem_at(f"{path}.to", "drain_no_length")])
    line, way = side_of(drain.at, end), (end[0] - drain.at[0], end[1] - drain.at[1])
    edges = _out(line, drain.radius), _out(_other(line), drain.radius)
    lefts, rest = split_by_line([Region(outer)], _moved(drain.at, line, drain.radius), way)
    rights, strip = split_by_line(rest, _moved(drain.at, line, -drain.radius), (-way[0], -way[1]))
    sides = [fall for edge, regions in zip(edges, (lefts, rights), strict=True) for fall in _side(edge, regions)]
    middle = [Fall(_cell((_other(edges[0]), _other(edges[1])), strip))] if strip else []
    return Falls((*sides, *middle), 0.0, drain.at)


def uncovered(outer: Ring, at: Point, end: Point) -> float:
    """How much of the floor along a drain's line, in mm, the drain leaves out."""
    length, way = math.dist(at, end), (end[0] - at[0], end[1] - at[1])
    region = Region(outer)
    one = _outside(chords_at(region, at, way), length)
    other = _outside(((-q, -p) for p, q in chords_at(region, at, (-way[0], -way[1]))), length)
    return max(one, other)


def _side(edge: Plane, regions: tuple[Region, ...]) -> Iterator[Fall]:
    """The plane on one side, if the room has floor there."""
    for region in regions:
        pocket = pocket_at(region.outer, edge)
        if pocket is not None:
            x, y = pocket
            raise BadDocumentError([problem_at("bed.top.drain", "drain_hidden", x=round(x, 1), y=round(y, 1))])
    if regions:
        yield Fall(_cell((edge,), regions), way=edge)


def _cell(keep: tuple[Plane, ...], regions: Iterable[Region]) -> Cell:
    return Cell(NONE, keep, tuple(region.outer for region in regions))


def _other(side: Plane) -> Plane:
    return Plane(-side.a, -side.b, -side.c)


def _out(side: Plane, by: float) -> Plane:
    """Distance to the parallel line so far on that side."""
    return Plane(side.a - by, side.b, side.c)


def _moved(at: Point, line: Plane, by: float) -> Point:
    """A place moved to the left of the line."""
    return at[0] + by * line.b, at[1] + by * line.c


def _outside(chords: Iterable[Interval], length: float) -> float:
    return math.fsum(max(0.0, min(end, 0.0) - start) + max(0.0, end - max(start, length)) for start, end in chords)
