"""A straightedge of one length over a scanned bed, against one limit, and what scatter alone would show."""

import heapq
import math

import numpy as np

from evenbed.engine.flatness.standards import Limit
from evenbed.scans.cloud import Truth
from evenbed.scans.flat_follow import Touching, Worst, followed
from evenbed.scans.flat_grid import FlatGrid, drawn_together
from evenbed.scans.flat_lines import Lines, lines_over
from evenbed.scans.flat_search import LEAST_GAP, OpenPlace, open_places
from evenbed.wire.scans import FlatCheck, FlatPlace, FlatVerdict

LEAST_STEPS = 6  # heights under a straightedge, fewer of which would pass over what it is laid to find
WORST_OF_MANY = 5.9  # standard errors of one height: about the worst gap among some hundred thousand by scatter alone
QUIET = 0.5  # of the limit: heights are drawn together until scatter alone shows no more, or LEAST_STEPS forbids it
DOUBT = 2.0  # standard errors
CERTAIN = 1.5  # times what scatter alone would show: what is further beyond the limit is not of the scan
NEARLY_ALL = 0.9  # of the room must be read before nothing found is nothing there
MISSED = 0.05  # of the worst: what the search may be short by
OF_A_WAY = 30  # places kept of each direction
FOLLOWED = 400  # places followed in all
WORTH = 0.6  # of the worst by then: what is less is not followed
SEED = 8204
DIGITS = 3


def checked(grid: FlatGrid, row: Limit) -> FlatCheck:
    """The bed under a straightedge of one length, against the most that may stand open under it."""
    length, limit = row.length, row.gap
    seen = drawn_together(grid, _side(grid, length, limit))
    gap, open_under = _searched(seen, length, limit)
    hump, rocks_on = _searched(seen.with_heights(-seen.heights), length, limit)
    noise_gap = _noise_gap(seen, length)
    beyond, read = (open_under | rocks_on) & seen.is_read, int(seen.is_read.sum())
    places = [_place(seen, found, length) for found in (gap, hump)]
    verdict, is_sure = _verdict(seen, length, limit, places, noise_gap)
    return FlatCheck(
        length=length,
        limit=limit,
        code=row.code,
        decides=row.decides,
        gap=places[0],
        hump=places[1],
        beyond_share=round(int(beyond.sum()) / read, 4) if read else 0.0,
        judged_share=_judged_share(seen),
        spacing=_rounded(seen.pitch),
        noise_gap=_rounded(noise_gap),
        verdict=verdict,
        sure=is_sure,
    )


def _side(grid: FlatGrid, length: float, limit: float) -> int:
    """How many heights are drawn together along each side, so that scatter shows less than the limit if it can."""
    if math.isnan(grid.sigma):
        return 1
    wanted = math.ceil(WORST_OF_MANY * grid.sigma / (QUIET * limit)) if limit > 0 else 1
    return max(1, min(wanted, int(length / LEAST_STEPS / grid.pitch)))


def _searched(grid: FlatGrid, length: float, limit: float) -> tuple[Worst | None, Truth]:
    found: list[tuple[float, Touching]] = []
    beyond, least = np.zeros(grid.heights.shape, bool), LEAST_GAP
    for lines in lines_over(grid):
        places, deep = open_places(lines.heights, length / lines.step, limit, least, OF_A_WAY)
        beyond |= lines.marked(deep)
        found += [(place.gap, _touching(lines, place)) for place in places]
        least = max([least, *(WORTH * place.gap for place in places)])
    best = heapq.nlargest(FOLLOWED, (one for one in found if one[0] > least), key=lambda one: one[0])
    return followed(grid, [touching for _, touching in best], length), beyond


def _touching(lines: Lines, place: OpenPlace) -> Touching:
    first, last = place.rests
    share = (place.at - first) / (last - first)
    return Touching(lines.at(place.row, first), lines.at(place.row, last), share)


def _noise_gap(grid: FlatGrid, length: float) -> float:
    """The worst that the same search finds on a true plane whose heights scatter as these do."""
    scatter = np.random.default_rng(SEED).standard_normal(grid.heights.shape) * grid.sigmas
    found, _ = _searched(grid.with_heights(np.where(grid.is_read, scatter, np.nan)), length, math.inf)
    return 0.0 if found is None else found.gap


def _judged_share(grid: FlatGrid) -> float:
    """Share of the room where there is a height."""
    return round(float((grid.is_read & grid.in_room).sum() / max(1, grid.in_room.sum())), 4)


def _place(grid: FlatGrid, found: Worst | None, length: float) -> FlatPlace | None:
    if found is None:
        return None
    first, last = found.rests
    share = (found.at - first) / (last - first)
    begin, end = _ends(found, length / found.way(grid))
    at = [[_rounded(mm) for mm in grid.place(*found.place(along))] for along in (begin, end, found.at, first, last)]
    return FlatPlace(
        start=at[0],
        end=at[1],
        at=at[2],
        rests=at[3:],
        gap=_rounded(found.gap),
        sigma=_rounded(grid.sigma * math.sqrt(1 + share**2 + (1 - share) ** 2)),
    )


def _ends(found: Worst, reach: float) -> tuple[float, float]:
    """Where the straightedge lies: its middle over that of its rests, as far as the bed was read on either side."""
    (first, last), (low, high) = found.rests, found.stretch
    length = min(reach, high - low)
    begin = min(max(low, (first + last - length) / 2), high - length)
    return begin, begin + length


def _verdict(
    grid: FlatGrid, length: float, limit: float, places: list[FlatPlace | None], noise_gap: float
) -> tuple[FlatVerdict, bool]:
    """Against the limit, and whether neither scatter nor what the search may have missed could turn it."""
    found = [place for place in places if place is not None]
    worst = max((place.gap for place in found), default=0.0)
    doubt = DOUBT * max((place.sigma for place in found), default=0.0)
    if worst > limit + CERTAIN * noise_gap:
        return "beyond", True
    if noise_gap > limit:
        return "too_noisy", False
    if worst > limit:
        return "beyond", False
    if grid.pitch > length / LEAST_STEPS or _judged_share(grid) < NEARLY_ALL:
        return "too_sparse", False
    return "within", worst * (1.0 + MISSED) + doubt <= limit


def _rounded(value: float) -> float:
    return round(float(value), DIGITS)
