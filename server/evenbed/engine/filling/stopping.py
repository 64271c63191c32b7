"""Where work stops: the edges between filled and unfilled bed, and where it had better stop.

A cold joint belongs at a movement joint; the next best place is along a rail, where the edge is straight and the
strip marks it; anywhere else the bed is cut back square.
"""

import math
from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.filling.edges import edge_along
from evenbed.engine.filling.shapes import EdgeKind, OpenEdge
from evenbed.engine.filling.sides import Side
from evenbed.engine.finish.stretches import Stretch
from evenbed.engine.geometry import turn_of
from evenbed.engine.ground import Ground
from evenbed.engine.joints.shapes import FieldJoint
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.top.facets import BedTop

AT_A_JOINT = 25.0  # mm from a movement joint within which an edge counts as at it; common practice, no source
AT_A_RAIL = 1.0  # mm from a rail's line within which an edge counts as along it
COVERED = 0.5  # share of an edge that a joint or rails must run along: both stop short of walls
KINDS: tuple[EdgeKind, ...] = ("joint", "rail", "cut")  # the best first
SAME_PLACE = 1e-3  # mm within which two ends are one
STRAIGHT = 1e-3  # mm by which the corner between two edges in one line may stand off it


@dataclass(frozen=True)
class Edge:
    """One side between sections, and what kind of edge it would be."""

    side: Side
    kind: EdgeKind


def edges_from(sides: Sequence[Side], rails: Sequence[Rail], joints: Sequence[FieldJoint]) -> tuple[Edge, ...]:
    """Every side between sections with its kind."""
    at_joints = [(joint.start, joint.end) for joint in joints]
    at_rails = [(rail.start, rail.end) for rail in rails]
    return tuple(Edge(side, _kind_of(side, at_rails, at_joints)) for side in sides)


def stop_edges_from(
    edges: Sequence[Edge], filled: Collection[int], ground: Ground, top: BedTop
) -> tuple[OpenEdge, ...]:
    """The edges of what is filled towards what is not, those of one kind in one line made one, the longest first."""
    open_ones = [edge for edge in edges if _is_open(edge, filled)]
    lines = [
        (kind, *line)
        for kind in KINDS
        for line in _joined([(e.side.start, e.side.end) for e in open_ones if e.kind == kind])
    ]
    lines.sort(key=lambda line: (-round(math.dist(line[1], line[2]), 3), line[1], line[2]))
    return tuple(
        edge_along(f"E{n}", kind, Stretch(start, end, top), ground)
        for n, (kind, start, end) in enumerate(lines, start=1)
    )


def open_lengths(edges: Sequence[Edge], filled: Collection[int]) -> Counter[EdgeKind]:
    """How long the edges of what is filled would be, by kind, to the millimetre."""
    lengths: Counter[EdgeKind] = Counter()
    for edge in edges:
        if _is_open(edge, filled):
            lengths[edge.kind] += round(edge.side.length)
    return lengths


def best_stop_from(edges: Sequence[Edge], filled: Collection[int], coming: Sequence[int], least: int) -> int:
    """After how many of the coming sections work is best stopped, `least` or more.

    The least edge that is neither along a rail nor at a joint, then the least that is not at a joint, then the least
    of all, then the soonest.
    """
    ranks = []
    for count in range(least, len(coming) + 1):
        lengths = open_lengths(edges, {*filled, *coming[:count]})
        ranks.append((lengths["cut"], lengths["rail"], lengths["joint"], count))
    return min(ranks)[-1] if ranks else 0


def _is_open(edge: Edge, filled: Collection[int]) -> bool:
    return (edge.side.a in filled) != (edge.side.b in filled)


_Line = tuple[Point, Point]


def _kind_of(side: Side, rails: Sequence[_Line], joints: Sequence[_Line]) -> EdgeKind:
    if _covered(side, joints, AT_A_JOINT) >= COVERED * side.length:
        return "joint"
    return "rail" if _covered(side, rails, AT_A_RAIL) >= COVERED * side.length else "cut"


def _covered(side: Side, lines: Sequence[_Line], near: float) -> float:
    """How much of a side runs along these lines, none further off than `near`; they do not overlap."""
    size = side.length
    if size <= 0.0:
        return 0.0
    way = ((side.end[0] - side.start[0]) / size, (side.end[1] - side.start[1]) / size)
    return math.fsum(_overlap(side, size, way, line) for line in lines if _is_beside(side, line, near))


def _is_beside(side: Side, line: _Line, near: float) -> bool:
    """Whether both ends of a side stand no further off a line than `near`, seen square to the line."""
    length = math.dist(*line)
    return length > 0.0 and all(abs(turn_of(*line, at)) <= near * length for at in (side.start, side.end))


def _overlap(side: Side, size: float, way: Point, line: _Line) -> float:
    x, y = side.start
    low, high = sorted((at[0] - x) * way[0] + (at[1] - y) * way[1] for at in line)
    return max(0.0, min(size, high) - max(0.0, low))


def _joined(lines: Sequence[_Line]) -> Iterator[_Line]:
    """Lines that run on from each other in one line made one."""
    left = list(lines)
    while left:
        line = left.pop()
        while found := next(((n, longer) for n, one in enumerate(left) if (longer := _both(line, one))), None):
            n, line = found
            left.pop(n)
        yield min(line, line[::-1])


def _both(one: _Line, other: _Line) -> _Line | None:
    """Two lines as one where the second runs on from the first at either end; None where it does not."""
    for far, near in (one, one[::-1]):
        for beside, beyond in (other, other[::-1]):
            size = math.dist(far, beyond)
            is_straight = abs(turn_of(far, beyond, near)) <= STRAIGHT * size and size > math.dist(far, near)
            if math.dist(near, beside) <= SAME_PLACE and is_straight:
                return (far, beyond)
    return None
