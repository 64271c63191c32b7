"""Every line on which a straightedge stands open, or rocks, by more than its limit: what work has to put right.

A gap is a sum of heights of the bed with factors of their own: those of the places that it rests on, less those of
the place under it; a hump is the same turned round. So once found it is followed without another search, whatever is
rubbed down or filled up.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, combinations

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.hull import worst_over, worst_under
from evenbed.engine.flatness.improve import Lying, Under
from evenbed.engine.flatness.lines import (
    Line,
    first_lines,
    lines_askew,
    lines_round,
    lines_through_two,
    pairs_in_reach,
    standing_out,
)
from evenbed.engine.flatness.search import Found, beyond_lying, found_from, worst_lying
from evenbed.engine.flatness.standards import Limit

Star = tuple[Point, float, tuple[Point, ...]]
Moves = Mapping[int, float]
"""By how much spots were raised, mm, + for up; those that stay are left out."""
NOTHING = 1e-12  # a factor this small is rounding of zero
ALMOST = 0.8  # of the limit: what lies more open than this may be beyond it on a line beside
TURNS = 0.02, 0.0005  # radians: the first and the last
ALL_SPOTS, CHOSEN = 70, 60  # readings of a bed that is looked at whole, and of a larger one those that are
FEW_SPOTS = 30  # of a bed with no more edges are crossed at all angles too
SIDE, MOST_OPEN = 200.0, 150  # mm: of more lines open at once the worst in each square is told, of so many squares
FEW, APART = 3, 100.0  # of those are turned, so many mm from each other


@dataclass(frozen=True)
class Open:
    """Where a straightedge stands open or rocks: how much on the bed as it was read, what each spot adds to it."""

    limit: Limit
    at: Point
    value: float
    factors: dict[int, float]

    def after(self, moves: Moves) -> float:
        """How much it is when some spots were moved."""
        return self.value + sum(by * moves.get(n, 0.0) for n, by in self.factors.items())

    def excess(self, moves: Moves) -> float:
        """By how much it is beyond the limit then; negative where it is within."""
        return self.after(moves) - self.limit.gap


class OpenLines:
    """The lines that a straightedge of one length is laid along, over a bed whose spots may be moved."""

    def __init__(self, surface: BedSurface, limit: Limit) -> None:
        """`surface` as it was read; of more than ALL_SPOTS only lines through those that stand out most are laid."""
        self._surface, self._limit, length = surface, limit, limit.length
        self._is_more, self.looked = False, 0
        if surface.spots <= ALL_SPOTS:
            self._pairs, _ = pairs_in_reach(surface, length)
            askew = lines_askew(surface, length) if surface.spots <= FEW_SPOTS else ()
            self._first = (*first_lines(surface, self._pairs, length), *askew)
        else:
            chosen = standing_out(surface, CHOSEN)
            self._pairs = [(m, n) for m, n in combinations(chosen, 2) if _apart_by(surface, m, n) <= length]
            self._first = tuple(lines_round(surface, chosen, length))

    def everywhere(self) -> list[Open]:
        """Where the bed as it was read is beyond the limit: the worst of all first, then on the lines."""
        found = self.worst({})
        return [*found, *self._beyond({}, lambda _line: True)] if found else []

    def worst(self, moves: Moves) -> list[Open]:
        """The worst gap and hump of all when spots were moved, by the whole search, where beyond the limit."""
        self.looked += len(self._first) + len(self._pairs)
        worst = worst_lying(moved_surface(self._surface, moves), self._limit.length, self._limit.gap)
        sides = ((worst.gap, 1.0), (worst.hump, -1.0))
        return [self._open(one, sign, moves) for one, sign in sides if one and one.gap > self._limit.gap]

    def anywhere(self, moves: Moves) -> list[Open]:
        """Gaps and humps beyond the limit when spots were moved, by the whole search."""
        self.looked += len(self._first) + len(self._pairs)
        gaps, humps = beyond_lying(moved_surface(self._surface, moves), self._limit.length, self._limit.gap)
        return [self._open(one, sign, moves) for found, sign in ((gaps, 1.0), (humps, -1.0)) for one in found]

    def near(self, moves: Moves, moved: Iterable[int]) -> list[Open]:
        """The same on the lines near some spots, when spots were moved; on all where more were open than told."""
        is_more, stars = self._is_more, _stars(self._surface, moved)
        return self._beyond(moves, lambda line: is_more or _meets(line, stars))

    def _beyond(self, moves: Moves, is_looked_at: Callable[[Line], bool]) -> list[Open]:
        surface = moved_surface(self._surface, moves)
        flat, above = surface.flattened, ALMOST * self._limit.gap
        unders = [Under(surface, heights, self._limit.length) for heights in (flat, tuple(-z for z in flat))]
        lyings: tuple[list[Lying], list[Lying]] = ([], [])
        for line in filter(is_looked_at, self._lines(flat, above)):
            self.looked += 1
            for side, lying in _lyings(unders[0], line, above):
                lyings[side].append(lying)
        found, self._is_more = [], False
        for side, sign in ((0, 1.0), (1, -1.0)):
            beyond = _worst_by_square(one for one in lyings[side] if one.gap > self._limit.gap)
            self._is_more |= len(beyond) > MOST_OPEN
            found += [(one, sign) for one in (*beyond[:MOST_OPEN], *self._turned(unders[side], lyings[side]))]
        return [self._open(found_from(one), sign, moves) for one, sign in found]

    def _lines(self, heights: Sequence[float], above: float) -> Iterator[Line]:
        """All lines; of those through two spots the ones with a spot that is high, or low, enough to have so much."""
        high, low = max(heights) - above, min(heights) + above
        worth = [
            (m, n)
            for m, n in self._pairs
            if heights[m] > low or heights[n] > low or heights[m] < high or heights[n] < high
        ]
        return chain(self._first, lines_through_two(self._surface, worth, self._limit.length))

    def _turned(self, under: Under, lyings: Iterable[Lying]) -> Iterator[Lying]:
        """Of those just within the limit the few worst, where they are beyond it when turned a little."""
        within = sorted((one for one in lyings if one.gap <= self._limit.gap), key=lambda one: -one.gap)
        for lying in _apart(within):
            better = under.improved(lying, *TURNS)
            if better.gap > self._limit.gap:
                yield better

    def _open(self, found: Found, sign: float, moves: Moves) -> Open:
        """What was found on the moved bed, as it is on the bed that was read."""
        factors = _factors(self._surface, found, sign)
        value = found.gap - sum(by * moves.get(n, 0.0) for n, by in factors.items())
        return Open(self._limit, found.at, value, factors)


def _apart_by(surface: BedSurface, m: int, n: int) -> float:
    return math.dist(surface.mesh.places[m], surface.mesh.places[n])


def _lyings(under: Under, line: Line, above: float) -> Iterator[tuple[int, Lying]]:
    """How a straightedge lies worst on a line, 0, and how it rocks worst, 1, where that is over `above`."""
    mesh = under.surface.mesh
    knots = mesh.knots_from(under.heights, line.way, line.edge, (line.low, line.high))
    if knots is None or max(knots[1]) - min(knots[1]) <= above:
        return  # nothing stands open by more than the heights differ
    parts = mesh.stretches(line.way, knots)
    for side, lay in enumerate((worst_under, worst_over)):
        rests = [rest for part in parts if (rest := lay(part, under.length, above)) is not None]
        if rests:
            yield side, Lying(line, max(rests))


def _worst_by_square(lyings: Iterable[Lying]) -> list[Lying]:
    """The worst in each square of SIDE, the worst of all first; all where they are no more than MOST_OPEN."""
    lyings = list(lyings)
    if len(lyings) <= MOST_OPEN:
        return lyings
    squares: dict[tuple[int, int], Lying] = {}
    for lying in lyings:
        x, y = lying.at
        known = squares.setdefault((int(x // SIDE), int(y // SIDE)), lying)
        if lying.gap > known.gap:
            squares[int(x // SIDE), int(y // SIDE)] = lying
    return sorted(squares.values(), key=lambda one: -one.gap)


def _apart(lyings: Iterable[Lying]) -> list[Lying]:
    """The first few at places of their own."""
    chosen: list[Lying] = []
    for lying in lyings:
        if all(math.dist(lying.at, one.at) > APART for one in chosen):
            chosen.append(lying)
        if len(chosen) == FEW:
            break
    return chosen


def moved_surface(surface: BedSurface, moves: Moves) -> BedSurface:
    """The bed with some spots raised."""
    if not moves:
        return surface
    return surface.with_heights([z + moves.get(n, 0.0) for n, z in enumerate(surface.heights[: surface.spots])])


def _factors(surface: BedSurface, found: Found, sign: float) -> dict[int, float]:
    share = math.dist(found.first, found.at) / math.dist(found.first, found.second)
    factors: dict[int, float] = {}
    for place, times in ((found.first, 1.0 - share), (found.second, share), (found.at, -1.0)):
        for n, weight in surface.weights_at(place).items():
            factors[n] = factors.get(n, 0.0) + sign * times * weight
    return {n: by for n, by in factors.items() if abs(by) > NOTHING}


def _stars(surface: BedSurface, spots: Iterable[int]) -> list[Star]:
    """Round each spot the points of the triangles that it moves: their corners, and how far off the farthest is."""
    mesh = surface.mesh
    stars = []
    for spot in spots:
        here = {spot, *(surface.spots + n for n, cell in enumerate(surface.cells) if spot in cell)}
        ring = tuple({mesh.places[n] for point in here for n in mesh.spokes[point]})
        radius = max((math.dist(mesh.places[spot], at) for at in ring), default=0.0)
        stars.append((mesh.places[spot], radius, ring))
    return stars


def _meets(line: Line, stars: Iterable[Star]) -> bool:
    dx, dy, left = line.way
    for (x, y), radius, ring in stars:
        if abs(dx * y - dy * x - left) <= radius and line.low - radius <= dx * x + dy * y <= line.high + radius:
            sides = [dx * v - dy * u - left for u, v in ring]
            if min(sides) <= 0.0 <= max(sides):
                return True
    return False
