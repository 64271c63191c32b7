"""High spots told apart: the connected places where the bed would be too thin, as the level rises from the thinnest.

A place is born at its highest subfloor and ends where it meets a higher one. Pieces of the floor meet at the corners
that they share; a convex piece below a level hangs together by itself.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.chipping.convex import Piece
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import edges_of, nearest_on_segment

SAME = 1e-3  # mm within which two corners are one
_Meeting = tuple[float, tuple[int, ...]]  # a level, and the pieces that hang together from there on


@dataclass(frozen=True)
class Spot:
    """One high place: where it is highest, the spare thickness there, and the level where a higher one takes it in.

    A place that nothing takes in ends at the level that was looked up to; it alone is told with its pieces.
    """

    at: Point
    spare: float
    end: float
    pieces: tuple[int, ...]

    @property
    def order(self) -> tuple[float, Point]:
        """The highest first; equal ones by their place."""
        return round(self.spare, 6), self.at


def spots_below(pieces: Sequence[Piece], level: float) -> tuple[Spot, ...]:
    """Every place below a level, however little it stands out, the highest first."""
    grown = _Grown(pieces, level)
    for height, joined in sorted(_meetings(pieces)):
        if height < level:
            grown.join(height, joined)
    return tuple(sorted((*grown.ended, *grown.standing), key=lambda spot: spot.order))


class _Grown:
    """Places on their way up: which pieces hang together so far."""

    def __init__(self, pieces: Sequence[Piece], level: float) -> None:
        self.level = level
        self.ended: list[Spot] = []
        self.members = {n: [n] for n, piece in enumerate(pieces) if piece.least < level}
        self.place_of = {n: n for n in self.members}
        self.tops = {n: min(zip(pieces[n].heights, pieces[n].ring, strict=True)) for n in self.members}

    def join(self, level: float, joined: tuple[int, ...]) -> None:
        """Make one place of all that meet at a level; the highest takes in the others."""
        first, *others = {self.place_of[n] for n in joined}
        for other in others:
            first = self._joined(first, other, level)

    def _joined(self, one: int, other: int, level: float) -> int:
        """The place that two become; the smaller's pieces move to the larger."""
        spots = sorted((self._spot(place, level) for place in (one, other)), key=lambda spot: spot.order)
        self.ended.append(spots[1])
        large, small = sorted((one, other), key=lambda place: (-len(self.members[place]), place))
        moved = self.members.pop(small)
        self.place_of.update(dict.fromkeys(moved, large))
        self.members[large] += moved
        self.tops[large] = (spots[0].spare, spots[0].at)
        return large

    @property
    def standing(self) -> Iterator[Spot]:
        """Places that nothing took in, with all their pieces."""
        return (self._spot(place, self.level, tuple(sorted(own))) for place, own in self.members.items())

    def _spot(self, place: int, end: float, pieces: tuple[int, ...] = ()) -> Spot:
        spare, at = self.tops[place]
        return Spot(at, spare, end, pieces)


def _meetings(pieces: Sequence[Piece]) -> Iterator[_Meeting]:
    """At every corner of a piece the pieces that meet there, and the level from which they do."""
    corners = _corners(pieces)
    for at, joined in _with_edges(pieces, corners):
        if len(joined) > 1:
            yield max(pieces[n].spare.at(*at) for n in joined), tuple(sorted(joined))


def _corners(pieces: Sequence[Piece]) -> list[tuple[Point, set[int]]]:
    """Every corner once, those a hair apart as one, with the pieces that have it."""
    known: dict[tuple[int, int], int] = {}
    found: list[tuple[Point, set[int]]] = []
    for n, piece in enumerate(pieces):
        for at in piece.ring:
            keys = _keys(at)
            number = next((known[key] for key in keys if key in known), len(found))
            if number == len(found):
                found.append((at, set()))
            known.update(dict.fromkeys(keys, number))
            found[number][1].add(n)
    return found


def _keys(at: Point) -> list[tuple[int, int]]:
    """Names of a place; two places a hair apart share at least one."""
    xs, ys = ({round(value / SAME + shift) for shift in (-0.25, 0.25)} for value in at)
    return [(x, y) for x in xs for y in ys]


def _with_edges(pieces: Sequence[Piece], corners: list[tuple[Point, set[int]]]) -> list[tuple[Point, set[int]]]:
    """The corners, those that lie on an edge of another piece with that piece too."""
    ordered = sorted(corners, key=lambda corner: corner[0])
    xs = [at[0] for at, _ in ordered]
    for n, piece in enumerate(pieces):
        for p, q in edges_of(piece.ring):
            first, last = (bisect_left(xs, x) for x in (min(p[0], q[0]) - SAME, max(p[0], q[0]) + SAME))
            low, high = min(p[1], q[1]) - SAME, max(p[1], q[1]) + SAME
            for at, joined in ordered[first:last]:
                if n not in joined and low <= at[1] <= high and _is_on(p, q, at):
                    joined.add(n)
    return ordered


def _is_on(p: Point, q: Point, at: Point) -> bool:
    near = nearest_on_segment(p, q, at)
    return abs(near[0] - at[0]) <= SAME and abs(near[1] - at[1]) <= SAME


def standing_out(spots: Sequence[Spot], least: float) -> tuple[Spot, ...]:
    """The highest spot, and the others that stand out of what is round them by at least so many mm."""
    kept: dict[Point, Spot] = {}
    for n, spot in enumerate(spots):
        if n == 0 or spot.end - spot.spare >= least:
            kept.setdefault(spot.at, spot)
    return tuple(kept.values())
