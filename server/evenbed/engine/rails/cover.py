"""What rails serve: for every line across the floor, which rails stand there and how far apart.

The floor is cut into slabs across the rails at every corner and rail end. Inside a slab the same walls and rails
face each other, and distances change evenly: what holds in its middle and at its two ends holds throughout.
Everything here is in the rails' frame: u along, v across, mm.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.rails.lines import LEAST_RAIL, ROUNDING, Floor, Piece
from evenbed.engine.region import chords_at

LEAST_HAND_AREA = 0.02e6  # mm²: a smaller place is not worth naming; common practice, no source
NEGLIGIBLE = 0.001e6  # mm²: a slab's share that calls for no rail; walls a hair out of square make such slabs
LEAST_MARGIN = 100.0  # mm: what the float always does beyond a rail; common practice, no source


@dataclass(frozen=True)
class Reach:
    """What the straightedge spans: `span` between rails, `edge` its length, `bearing` on a rail; `margin` by float.

    Within `margin` of a rail, beside it or beyond its end, the bed is finished with the float from that rail.
    """

    span: float
    edge: float
    bearing: float
    margin: float


@dataclass(frozen=True)
class Cross:
    """One stretch of floor across the rails in a slab: its sides at the slab's two ends, and the rails in it."""

    start: float
    end: float
    low: tuple[float, float]
    high: tuple[float, float]
    rails: list[int]

    @property
    def middle(self) -> tuple[float, float]:
        """The lower and upper side in the slab's middle."""
        return ((self.low[0] + self.low[1]) / 2.0, (self.high[0] + self.high[1]) / 2.0)


@dataclass(frozen=True)
class Spot:
    """A place that no pair of rails serves: a box in the rails' frame, and how much of it there is, mm²."""

    start: float
    end: float
    low: float
    high: float
    area: float


def crosses_of(floor: Floor, pieces: Sequence[Piece]) -> list[Cross]:
    """Every stretch of floor across the rails, slab by slab along them."""
    ends = [u for piece in pieces for u in (piece.start, piece.end)]
    events = sorted([wall[0] for wall in floor.walls] + ends)
    order = sorted(range(len(pieces)), key=lambda i: (pieces[i].v, pieces[i].start))
    crosses: list[Cross] = []
    for start, end in pairwise(events):
        if end - start > ROUNDING:
            here = [i for i in order if pieces[i].start < end - ROUNDING and pieces[i].end > start + ROUNDING]
            crosses += _slab(floor, pieces, here, (start, end))
    return crosses


def trimmed(floor: Floor, pieces: Sequence[Piece], spare: Sequence[int], reach: Reach) -> list[Piece]:
    """The pieces cut down to where they are needed; those needed nowhere are left out.

    `spare` names the order in which pieces are tried. A piece is needed where without it neighbours would stand
    further apart than the straightedge spans, or more bed would lie beyond the float's margin.
    """
    crosses = crosses_of(floor, [_with_run_out(floor, piece, reach.margin) for piece in pieces])
    kept = list(pieces)
    for i in spare:
        run = [cross for cross in crosses if i in cross.rails]
        needed = [cross for cross in run if _is_needed(cross, pieces, i, reach)]
        kept[i] = _cut_down(pieces[i], needed)
        for cross in run:
            if not _is_served_by(kept[i], cross, reach.margin):
                cross.rails.remove(i)
    return [piece for piece in kept if piece.length > ROUNDING]


def unserved(floor: Floor, pieces: Sequence[Piece], reach: Reach, least: float = LEAST_HAND_AREA) -> list[Spot]:
    """Places of `least` mm² or more that no pair of rails serves and no float reaches from a rail, along the rails.

    Their order is by place, to a thousandth of a mm, so that no rounding of their areas changes it.
    """
    longer = [_with_run_out(floor, piece, reach.margin) for piece in pieces]
    spots = [spot for cross in crosses_of(floor, longer) for spot in _spots(cross, pieces, reach)]
    joined = _joined(spots)
    return sorted((s for s in joined if s.area >= least), key=lambda s: (round(s.start, 3), round(s.low, 3)))


def _with_run_out(floor: Floor, piece: Piece, margin: float) -> Piece:
    """The piece made longer by the float's margin at both ends, but not through a wall."""
    chords = chords_at(floor.region, (0.0, piece.v), (1.0, 0.0))
    start, end = next(c for c in chords if c[0] - ROUNDING <= piece.start and piece.end <= c[1] + ROUNDING)
    return Piece(piece.v, max(start, piece.start - margin), min(end, piece.end + margin))


def _slab(floor: Floor, pieces: Sequence[Piece], here: list[int], ends: tuple[float, float]) -> list[Cross]:
    start, end = ends
    middle = (start + end) / 2.0
    sides = []
    for ua, va, ub, vb in floor.walls:
        if (ua > middle) != (ub > middle):
            slope = (vb - va) / (ub - ua)
            sides.append((va + slope * (middle - ua), va + slope * (start - ua), va + slope * (end - ua)))
    sides.sort()
    heights = [pieces[i].v for i in here]
    crosses = []
    for low, high in zip(sides[::2], sides[1::2], strict=True):
        rails = here[bisect_left(heights, low[0]) : bisect_left(heights, high[0])]
        crosses.append(Cross(start, end, low[1:], high[1:], rails))
    return crosses


def _is_needed(cross: Cross, pieces: Sequence[Piece], i: int, reach: Reach) -> bool:
    n = cross.rails.index(i)
    low = pieces[cross.rails[n - 1]].v if n > 0 else None
    high = pieces[cross.rails[n + 1]].v if n + 1 < len(cross.rails) else None
    sides, at = cross.middle, pieces[i].v
    with_it = _left_by(low, at, sides, reach) + _left_by(at, high, sides, reach)
    spared = _left_by(low, high, sides, reach) - with_it
    return spared * (cross.end - cross.start) > NEGLIGIBLE


def _left_by(low: float | None, high: float | None, sides: tuple[float, float], reach: Reach) -> float:
    """How much of the stretch between two neighbours stays unserved; None stands for the wall on that side."""
    if low is not None and high is not None:
        return high - low if high - low > reach.span + ROUNDING else 0.0
    if low is None and high is None:
        return sides[1] - sides[0]
    gap = sides[1] - low if low is not None else (high or 0.0) - sides[0]
    return max(0.0, gap - reach.margin)


def _cut_down(piece: Piece, needed: list[Cross]) -> Piece:
    """The piece from first need to last, long enough for a rail; of no length where it is not needed."""
    if not needed:
        return Piece(piece.v, piece.start, piece.start)
    start, end = max(piece.start, needed[0].start), min(piece.end, needed[-1].end)
    lack = max(0.0, LEAST_RAIL - (end - start))
    end = min(piece.end, max(end + lack / 2.0, piece.start + LEAST_RAIL))
    start = max(piece.start, min(start, end - LEAST_RAIL))
    return Piece(piece.v, start, end)


def _is_served_by(piece: Piece, cross: Cross, margin: float) -> bool:
    """Whether the piece, or the float from its end, serves the whole of the slab."""
    near = piece.start - margin <= cross.start + ROUNDING and cross.end - ROUNDING <= piece.end + margin
    return near and piece.length > ROUNDING


def _spots(cross: Cross, pieces: Sequence[Piece], reach: Reach) -> list[Spot]:
    """What of one stretch no pair serves: too wide a gap, or too far beyond the outermost rail."""
    vs = sorted({pieces[i].v for i in cross.rails})
    if not vs:
        return [_between_sides(cross, cross.low, cross.high)]
    gaps = [(a, b) for a, b in pairwise(vs) if b - a > reach.span + ROUNDING]
    spots = [_between_sides(cross, (a, a), (b, b)) for a, b in gaps]
    low = vs[0] - _stick_out(vs[:2], reach)
    high = vs[-1] + _stick_out(vs[-2:], reach)
    spots.append(_between_sides(cross, cross.low, (low, low)))
    spots.append(_between_sides(cross, (high, high), cross.high))
    return [spot for spot in spots if spot.area > 0.0]


def _stick_out(pair: Sequence[float], reach: Reach) -> float:
    """How far beyond its outer rail a straightedge on this pair reaches; the float's margin at least."""
    if len(pair) < 2 or pair[1] - pair[0] > reach.span + ROUNDING:
        return reach.margin
    return max(reach.margin, reach.edge - reach.bearing - (pair[1] - pair[0]))


def _between_sides(cross: Cross, low: tuple[float, float], high: tuple[float, float]) -> Spot:
    """The part of the slab between two slanting sides, where the first is the lower one."""
    left, right = high[0] - low[0], high[1] - low[1]
    start, end = cross.start, cross.end
    if left <= 0.0 and right <= 0.0:
        return Spot(start, end, low[0], low[0], 0.0)
    if left < 0.0 or right < 0.0:
        turn = start + (end - start) * left / (left - right)
        start, end = (turn, end) if left < 0.0 else (start, turn)
    area = (end - start) * (max(left, 0.0) + max(right, 0.0)) / 2.0
    return Spot(start, end, min(low), max(high), area)


def _joined(spots: list[Spot]) -> list[Spot]:
    """Spots that follow each other along the rails made one place."""
    ended: list[Spot] = []
    going_on: list[Spot] = []  # those that a later spot may still touch, for spots come in the order of their starts
    for spot in sorted(spots, key=lambda s: (s.start, s.low)):
        ended += [one for one in going_on if spot.start - one.end > ROUNDING]
        going_on = [one for one in going_on if spot.start - one.end <= ROUNDING]
        touching = next((n for n, one in enumerate(going_on) if _are_side_by_side(one, spot)), None)
        if touching is None:
            going_on.append(spot)
        else:
            going_on[touching] = _both(going_on[touching], spot)
    return ended + going_on


def _are_side_by_side(a: Spot, b: Spot) -> bool:
    return min(a.high, b.high) - max(a.low, b.low) > ROUNDING


def _both(a: Spot, b: Spot) -> Spot:
    ends, sides = (min(a.start, b.start), max(a.end, b.end)), (min(a.low, b.low), max(a.high, b.high))
    return Spot(*ends, *sides, a.area + b.area)
