"""Between neighbouring rails: which two one straightedge rests on, and whether the top is straight across there."""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import between
from evenbed.engine.rails.breaks import STEP_ASIDE, TRULY, PlanePieces
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.cover import crosses_of
from evenbed.engine.rails.lines import ROUNDING
from evenbed.engine.region import Interval

CROOKED = 1.5  # mm that a straightedge may cut wrong between two rails; common practice, no source
Planes = Callable[[Point, Point], PlanePieces]


@dataclass(frozen=True)
class Crooked:
    """The worst place between two rails where a straightedge on both would cut wrong: by so many mm.

    Above 0 the top stands over the straightedge, which cuts too deep; below 0 it leaves too much.
    """

    rails: tuple[int, int]
    at: Point
    by: float


def neighbours_in(layout: Layout) -> dict[tuple[int, int], list[Interval]]:
    """Pieces of a layout, by their places in it, that one straightedge spans, and along which stretches of u."""
    pairs: dict[tuple[int, int], list[Interval]] = {}
    for cross in crosses_of(layout.floor, layout.pieces):
        for a, b in pairwise(cross.rails):
            if 0.0 < layout.pieces[b].v - layout.pieces[a].v <= layout.reach.span + ROUNDING:
                stretches = pairs.setdefault((a, b), [])
                if stretches and stretches[-1][1] == cross.start:
                    stretches[-1] = (stretches[-1][0], cross.end)
                else:
                    stretches.append((cross.start, cross.end))
    return pairs


def crooked_between(
    layout: Layout, pairs: dict[tuple[int, int], list[Interval]], alongs: Sequence[Sequence[float]], planes: Planes
) -> Iterator[Crooked]:
    """Neighbouring rails of a layout between which the top is not straight across, to within `CROOKED`.

    Looked at where either rail has a station (`alongs`, from each piece's beginning) and where both begin to face
    each other or cease to.
    """
    for (a, b), stretches in pairs.items():
        stations = [layout.pieces[i].start + along for i in (a, b) for along in alongs[i]]
        places = _looked_at(stretches, stations)
        vs = layout.pieces[a].v, layout.pieces[b].v
        lines = ((layout.frame.placed(u, vs[0]), layout.frame.placed(u, vs[1])) for u in places)
        worst = max((_worst_across(p, q, planes) for p, q in lines), key=lambda each: abs(each[1]))
        if abs(worst[1]) > CROOKED:
            yield Crooked((a, b), *worst)


def step_under(start: Point, end: Point, planes: Planes) -> float:
    """How high a step is that a rail from `start` to `end` runs along, mm: at a third and at two; 0 for none."""
    size = math.dist(start, end)
    dx, dy = (start[1] - end[1]) / size * STEP_ASIDE, (end[0] - start[0]) / size * STEP_ASIDE
    high = math.inf
    for x, y in (between(start, end, 1 / 3), between(start, end, 2 / 3)):
        across = planes((x - dx, y - dy), (x + dx, y + dy))
        high = min(high, abs(across[-1][2].at(x, y) - across[0][2].at(x, y)))
    return high if high > TRULY else 0.0


def _looked_at(stretches: Iterable[Interval], stations: Sequence[float]) -> list[float]:
    found = {u for low, high in stretches for u in (low, high, *(s for s in stations if low < s < high))}
    return sorted(found)


def _worst_across(p: Point, q: Point, planes: Planes) -> tuple[Point, float]:
    """Where the top is farthest off a straightedge from p to q, and by how much it stands above it."""
    heights = [(share, plane.at(*between(p, q, share))) for a, b, plane in planes(p, q) for share in (a, b)]
    first, last = heights[0][1], heights[-1][1]
    off = [(share, z - (first + share * (last - first))) for share, z in heights]
    share, by = max(off, key=lambda each: abs(each[1]))
    return between(p, q, share), by
