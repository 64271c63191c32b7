"""Straight cuts through a room from its inner corners: where they end, what they leave, and convex parts."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, between, edge_of, meeting_of, signed_area, turn_of

INWARD = 1e-9  # sine of the turn at a corner: less is a straight wall
AT_CORNER = 1e-6  # mm: a cut that ends nearer to a corner ends at it
LEAST_AREA = 1.0  # mm²: anything smaller is rounding


@dataclass(frozen=True)
class Chord:
    """A straight cut from corner `start` of a ring to `end`, on wall `wall` or at that wall's first corner."""

    start: int
    end: Point
    wall: int
    is_corner: bool


def inner_corners(ring: Ring) -> Iterator[int]:
    """The corners at which an anticlockwise ring turns right."""
    for n, p in enumerate(ring):
        before, after = ring[n - 1], ring[(n + 1) % len(ring)]
        if turn_of(before, p, after) < -INWARD * math.dist(before, p) * math.dist(p, after):
            yield n


def chords_of(ring: Ring, corner: int) -> Iterator[Chord]:
    """The two walls at an inner corner drawn on, each to where it first meets the ring again."""
    p = ring[corner]
    for beside in (ring[corner - 1], ring[(corner + 1) % len(ring)]):
        chord = _drawn_on(ring, corner, (p[0] - beside[0], p[1] - beside[1]))
        if chord is not None:
            yield chord


def _drawn_on(ring: Ring, corner: int, way: Point) -> Chord | None:
    """Where a ray from a corner first meets the ring; None where rounding lets it slip out."""
    p = ring[corner]
    q = p[0] + way[0], p[1] + way[1]
    first: tuple[float, int, float] | None = None
    for n in range(len(ring)):
        r, s = edge_of(ring, n)
        meeting = None if corner in (n, (n + 1) % len(ring)) else meeting_of(p, q, r, s)
        slack = AT_CORNER / math.dist(r, s)
        if meeting is None or meeting[0] <= 0 or not -slack <= meeting[1] <= 1 + slack:
            continue
        if first is None or meeting[0] < first[0]:
            first = (meeting[0], n, meeting[1])
    return None if first is None else _ending(ring, corner, first[1], first[2])


def _ending(ring: Ring, corner: int, wall: int, share: float) -> Chord:
    r, s = edge_of(ring, wall)
    at = between(r, s, share)
    for n, end in ((wall, r), ((wall + 1) % len(ring), s)):
        if math.dist(at, end) <= AT_CORNER:
            return Chord(corner, end, n, is_corner=True)
    return Chord(corner, at, wall, is_corner=False)


def parts_by(ring: Ring, chord: Chord) -> tuple[Ring, Ring]:
    """The parts from the chord's start on to its end, and from its end on to its start."""
    count, start = len(ring), chord.start
    onward = [ring[(start + k) % count] for k in range((chord.wall - start) % count + 1)]
    back = [ring[(chord.wall + k) % count] for k in range(1, (start - chord.wall) % count + 1)]
    ahead = onward if chord.is_corner else [*onward, chord.end]
    return tuple(ahead), (chord.end, *back)


def convex_parts(ring: Ring) -> tuple[Ring, ...]:
    """A simple anticlockwise ring as convex ones: each inner corner is cut by one of its walls drawn on."""
    for corner in inner_corners(ring):
        for chord in chords_of(ring, corner):
            parts = [part for part in parts_by(ring, chord) if signed_area(part) > LEAST_AREA]
            if len(parts) == 2:
                return tuple(whole for part in parts for whole in convex_parts(part))
    return (ring,)
