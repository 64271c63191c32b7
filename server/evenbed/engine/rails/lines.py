"""Where rails can lie: lines across a floor, and the pieces of them that keep clear of walls and fixtures.

Everything here is in the rails' frame: u along, v across, mm.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.geometry import Box, Ring, box_of, edges_of, turn_of
from evenbed.engine.region import Interval, Region, chords_at

LEAST_RAIL = 300.0  # mm: what is shorter carries no straightedge; common practice, no source
LEAST_WALL = 300.0  # mm: a shorter wall, jog or column calls for no rail of its own; common practice, no source
NEARLY_PARALLEL = 0.1  # rise over run of a wall that still counts as running along the rails
ROUNDING = 1e-6  # mm
STRAIGHT = 1e-9  # share of its neighbours' product by which a corner may turn and be none


@dataclass(frozen=True)
class Obstacle:
    """What a rail stops short of: a round fixture, or a long one from (u, v) to (to_u, to_v).

    `radius` is the fixture's and its clearance together. `core` is the radius of what no straightedge passes over; 0
    where it lies flush with the top.
    """

    u: float
    v: float
    radius: float
    core: float = 0.0
    to_u: float | None = None
    to_v: float | None = None

    @property
    def vs(self) -> Interval:
        """The lines that it stands in the way of, its clearance included."""
        other = self.v if self.to_v is None else self.to_v
        return (min(self.v, other) - self.radius, max(self.v, other) + self.radius)

    def on(self, v: float) -> Interval | None:
        """Where it stands in the way of the line at `v`, None where it does not."""
        low, high = self.vs
        if not low + ROUNDING < v < high - ROUNDING:
            return None
        if self.to_u is not None and self.to_v is not None and (self.to_u, self.to_v) != (self.u, self.v):
            return _near_wall((self.u, self.v, self.to_u, self.to_v), v, self.radius)
        half = math.sqrt(self.radius * self.radius - (self.v - v) * (self.v - v))
        return (self.u - half, self.u + half)


@dataclass(frozen=True)
class Floor:
    """One region with what stands in it, and the distance `inset` that rails keep from walls beside them.

    With their ends they come as near to a wall as `end`, which is no more than the inset.
    """

    region: Region
    obstacles: tuple[Obstacle, ...]
    inset: float
    end: float

    @cached_property
    def walls(self) -> tuple[tuple[float, float, float, float], ...]:
        """Every wall and cutout edge as (u, v, u, v), the floor to its left, split only where it turns."""
        rings = [without_straight_corners(ring) for ring in self.region.rings]
        return tuple((*a, *b) for ring in rings for a, b in edges_of(ring))

    @cached_property
    def wall_boxes(self) -> tuple[Box, ...]:
        """The upright rectangle round each wall."""
        return tuple((min(ua, ub), min(va, vb), max(ua, ub), max(va, vb)) for ua, va, ub, vb in self.walls)

    @cached_property
    def outer_walls(self) -> int:
        """How many of the walls are the outer ones, which come first."""
        return len(without_straight_corners(self.region.outer))

    @cached_property
    def cutout_boxes(self) -> tuple[Box, ...]:
        """The upright rectangles round the cutouts."""
        return tuple(box_of(hole) for hole in self.region.holes)


@dataclass(frozen=True)
class Piece:
    """A stretch of the line at `v`, free of walls and fixtures, from u `start` to u `end`.

    Where a person placed it, `id` is the rail's name and `line` the number of its line, counted from 0; proposed
    rails are named from one side to the other.
    """

    v: float
    start: float
    end: float
    id: str = ""
    line: int = -1

    @property
    def length(self) -> float:
        """Its length, mm."""
        return self.end - self.start


def pieces_at(floor: Floor, v: float) -> list[Piece]:
    """The free stretches of the line at `v`, of any length, in order along it.

    They keep the inset; only their ends run on towards walls, by no more than the inset.
    """
    near = _near_pieces(floor, v, floor.inset)
    if floor.end >= floor.inset or not near:
        return near
    wide = _near_pieces(floor, v, floor.end)
    return [_run_on(floor, piece, wide) for piece in near]


def _near_pieces(floor: Floor, v: float, clear: float) -> list[Piece]:
    blocked = sorted(_blocked(floor, v, clear))
    chords = chords_at(floor.region, (0.0, v), (1.0, 0.0))
    return [Piece(v, *free) for chord in chords for free in _left_over(chord, blocked)]


def _run_on(floor: Floor, piece: Piece, wide: list[Piece]) -> Piece:
    """The piece with its ends run on; where two would meet in between, each takes half."""
    within = next(w for w in wide if w.start <= piece.start + ROUNDING and piece.end <= w.end + ROUNDING)
    return Piece(piece.v, max(within.start, piece.start - floor.inset), min(within.end, piece.end + floor.inset))


def lines_along_walls(floor: Floor) -> tuple[list[float], list[float]]:
    """Lines at `inset` from the walls that run along the rails: (from walls below, from walls above), ascending.

    Walls less than an inset apart share the line that keeps clear of both.
    """
    alongside = [w for w in floor.walls if _is_alongside(w, floor.inset)]
    below = [max(va, vb) + floor.inset for ua, va, ub, vb in alongside if ub > ua]
    above = [-(min(va, vb) - floor.inset) for ua, va, ub, vb in alongside if ub < ua]
    return _merged(below, floor.inset), [-v for v in reversed(_merged(above, floor.inset))]


def outermost_lines(floor: Floor, below: list[float], above: list[float]) -> Interval | None:
    """The first and the last line that holds a rail, from the far sides inward; None where none does."""
    _, lowest, _, highest = floor.region.box
    step = max(floor.inset / 2.0, 40.0)
    first = _first_fit(floor, lowest + floor.inset, highest, step, below)
    last = _first_fit(floor, highest - floor.inset, lowest, -step, above[::-1])
    if first is None or last is None or first > last:
        return None
    return (first, last)


def lines_between(first: float, last: float, reach: float, shunned: list[Interval]) -> list[float]:
    """Lines between two lines, so that no neighbours are further apart than `reach`: the fewest, evenly.

    A line that falls in a shunned interval (a column) moves to its nearer side where `reach` allows.
    """
    lines: list[float] = []
    count = max(0, math.ceil((last - first) / reach - 1e-9) - 1)
    for left in range(count, 0, -1):
        at = first + (last - first) / (left + 1)
        first = _moved_aside(at, (first, last), (left, reach), shunned)
        lines.append(first)
    return lines


def shunned_intervals(floor: Floor) -> list[Interval]:
    """What of v the cutouts and fixtures take up, their clearance included; overlapping ones joined."""
    spans = [o.vs for o in floor.obstacles]
    for hole in floor.region.holes:
        vs = [v for _, v in hole]
        spans.append((min(vs) - floor.inset, max(vs) + floor.inset))
    joined: list[Interval] = []
    for low, high in sorted(spans):
        if joined and low < joined[-1][1]:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def _moved_aside(at: float, ends: Interval, play: tuple[int, float], shunned: list[Interval]) -> float:
    (first, last), (left, reach) = ends, play
    span = next((s for s in shunned if s[0] < at < s[1]), None)
    if span is None:
        return at
    fits = [v for v in span if first < v < last and v - first <= reach and last - v <= left * reach]
    return min(fits, key=lambda v: abs(v - at), default=at)


def _first_fit(floor: Floor, start: float, stop: float, step: float, wall_lines: list[float]) -> float | None:
    """The first line from `start` towards `stop` with room for a rail; a wall's own line is not passed by."""
    v, way = start, math.copysign(1.0, step)
    while (stop - v) * way > 0.0:
        nearest = next((w for w in wall_lines if abs(w - v) < abs(step) and (w - v) * way >= -ROUNDING), None)
        at = v if nearest is None else nearest
        if any(piece.length >= LEAST_RAIL for piece in pieces_at(floor, at)):
            return at
        v = at + step
    return None


def _is_alongside(wall: tuple[float, float, float, float], inset: float) -> bool:
    run, rise = abs(wall[2] - wall[0]), abs(wall[3] - wall[1])
    return run >= LEAST_WALL and rise <= NEARLY_PARALLEL * run and rise <= max(inset, ROUNDING)


def _merged(lines: Iterable[float], within: float) -> list[float]:
    """Ascending lines, those no further apart than `within` replaced by the furthest in."""
    return [group[-1] for group in close_groups(lines, within)]


def close_groups(lines: Iterable[float], within: float) -> list[list[float]]:
    """Lines in ascending groups, each no wider than `within`."""
    groups: list[list[float]] = []
    for v in sorted(lines):
        if groups and v - groups[-1][0] <= within:
            groups[-1].append(v)
        else:
            groups.append([v])
    return groups


def _blocked(floor: Floor, v: float, clear: float) -> Iterable[Interval]:
    """Where the line at `v` is nearer than `clear` to a wall, or than it may be to a fixture."""
    near = clear - ROUNDING
    if near > 0.0:
        for wall in floor.walls:
            if min(wall[1], wall[3]) - near < v < max(wall[1], wall[3]) + near:
                yield _near_wall(wall, v, clear)
    yield from (taken for taken in (o.on(v) for o in floor.obstacles) if taken)


def _near_wall(wall: tuple[float, float, float, float], v: float, near: float) -> Interval:
    """Where the line at `v` is closer than `near` to a wall: one interval, the wall's surroundings being convex."""
    ua, va, ub, vb = wall
    places: list[float] = []
    for u, w in ((ua, va), (ub, vb)):
        if abs(v - w) < near:
            half = math.sqrt(near * near - (v - w) * (v - w))
            places += (u - half, u + half)
    share = near / math.hypot(ub - ua, vb - va)
    du, dv = (va - vb) * share, (ub - ua) * share
    corners = ((ua + du, va + dv), (ub + du, vb + dv), (ub - du, vb - dv), (ua - du, va - dv))
    for (pu, pv), (qu, qv) in edges_of(corners):
        if (pv > v) != (qv > v):
            places.append(pu + (qu - pu) * (v - pv) / (qv - pv))
    return (min(places, default=math.inf), max(places, default=-math.inf))


def _left_over(chord: Interval, blocked: list[Interval]) -> Iterable[Interval]:
    """What is left of a chord without the blocked intervals (ascending by start)."""
    start, end = chord
    for low, high in blocked:
        if low > start and low < end:
            yield (start, low)
        start = max(start, high)
        if start >= end:
            return
    yield (start, end)


def without_straight_corners(ring: Ring) -> Ring:
    """The ring without the corners at which it does not turn."""
    before, after = (ring[-1], *ring[:-1]), (*ring[1:], ring[0])
    kept = [p for o, p, q in zip(before, ring, after, strict=True) if not _is_straight(o, p, q)]
    return tuple(kept)


def _is_straight(o: tuple[float, float], p: tuple[float, float], q: tuple[float, float]) -> bool:
    size = math.dist(o, p) * math.dist(p, q)
    return abs(turn_of(o, p, q)) <= STRAIGHT * size
