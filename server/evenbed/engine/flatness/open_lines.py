"""Every line on which a straightedge stands open, or rocks, by more than its limit: what work has to put right.

A gap is a sum of heights of the bed with factors of their own: those of the places that it rests on, less those of
the place under it; a hump is the same turned round. So once found it is followed without another search, whatever is
rubbed down or filled up.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, combinations
from typing import NamedTuple

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.courses import Laid, courses_over
from evenbed.engine.flatness.hull import Rest, worst_of_both
from evenbed.engine.flatness.improve import Lying, Under
from evenbed.engine.flatness.lines import Line, Pair, lines_round, standing_out
from evenbed.engine.flatness.mesh import Course
from evenbed.engine.flatness.search import Found, beyond_lying, found_from, worst_lying
from evenbed.engine.flatness.standards import Limit

Moves = Mapping[int, float]
"""By how much spots were raised, mm, + for up; those that stay are left out."""
NOTHING = 1e-12  # a factor this small is rounding of zero
ALMOST = 0.8  # of the limit: what lies more open than this may be beyond it on a line beside
TURNS = 0.02, 0.0005  # radians: the first and the last
CHOSEN = 60  # readings through which lines are laid where they are more than FEW
FEW_SPOTS = 30  # of a bed with no more edges are crossed at all angles too
SIDE, MOST_OPEN = 200.0, 150  # mm: of more lines open at once the worst in each square is told, of so many squares
FEW, APART = 3, 100.0  # of those are turned, so many mm from each other


ALL = -1  # spots, as bits


class Track(NamedTuple):
    """A line, its course where that is kept, and the spots whose heights it lies over, as bits."""

    line: Line
    course: Course | None
    over: int


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
        """`surface` as it was read; of more than FEW readings lines go through those that stand out most alone."""
        self._surface, self._limit = surface, limit
        self._is_more, self.looked = False, 0
        self._courses = courses_over(surface, limit.length)
        self._masks = _masks_of(surface)
        if self._courses.is_small:
            self._pairs: Sequence[Pair] = self._courses.pairs
            askew = self._courses.askew if surface.spots <= FEW_SPOTS else ()
            first: Iterable[Laid] = chain(self._courses.first, askew)
        else:
            chosen = standing_out(surface, CHOSEN)
            self._pairs = [(m, n) for m, n in combinations(chosen, 2) if _apart_by(surface, m, n) <= limit.length]
            first = self._courses.laid(lines_round(surface, chosen, limit.length))
        self._first = tuple(self._tracks(first))
        self._through: dict[Pair, tuple[Track, ...]] = {}

    def everywhere(self) -> list[Open]:
        """Where the bed as it was read is beyond the limit: the worst of all first, then on the lines."""
        found = self.worst({})
        return [*found, *self._beyond({}, ALL)] if found else []

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
        """The same on the lines over some spots, when spots were moved; on all where more were open than told."""
        return self._beyond(moves, ALL if self._is_more else sum(1 << n for n in set(moved)))

    def _beyond(self, moves: Moves, over: int) -> list[Open]:
        surface = moved_surface(self._surface, moves)
        flat, above = surface.flattened, ALMOST * self._limit.gap
        lyings: tuple[list[Lying], list[Lying]] = ([], [])
        for track in self._lines(flat, above):
            if track.over & over:
                self.looked += 1
                for side, rest in self._rests(track, flat, above):
                    lyings[side].append(Lying(track.line, rest))
        found, self._is_more = [], False
        unders = [Under(surface, heights, self._limit.length) for heights in (flat, tuple(-z for z in flat))]
        for side, sign in ((0, 1.0), (1, -1.0)):
            beyond = _worst_by_square(one for one in lyings[side] if one.gap > self._limit.gap)
            self._is_more |= len(beyond) > MOST_OPEN
            found += [(one, sign) for one in (*beyond[:MOST_OPEN], *self._turned(unders[side], lyings[side]))]
        return [self._open(found_from(one), sign, moves) for one, sign in found]

    def _rests(self, track: Track, heights: Sequence[float], above: float) -> Iterator[tuple[int, Rest]]:
        """How a straightedge lies worst on a line, 0, and how it rocks worst, 1, where that is over `above`."""
        line, course, _ = track
        course = course or self._surface.mesh.course_along(line.way, line.edge, line.low, line.high)
        profiles = course.profiles(heights) if course else []
        laid = [worst_of_both(one, self._limit.length, above, above) for one in profiles]
        for side in (0, 1):
            rests = [rest for both in laid if (rest := both[side]) is not None]
            if rests:
                yield side, max(rests)

    def _lines(self, heights: Sequence[float], above: float) -> Iterator[Track]:
        """All lines; of those through two spots the ones with a spot that is high, or low, enough to have so much."""
        yield from self._first
        high, low = max(heights) - above, min(heights) + above
        for pair in self._pairs:
            m, n = heights[pair[0]], heights[pair[1]]
            if m > low or n > low or m < high or n < high:
                if pair not in self._through:
                    self._through[pair] = tuple(self._tracks(self._courses.through(pair)))
                yield from self._through[pair]

    def _tracks(self, laid: Iterable[Laid]) -> Iterator[Track]:
        for line, course in laid:
            over = 0
            for i, j, _ in course.crossed:
                over |= self._masks[i] | self._masks[j]
            yield Track(line, course if self._courses.is_small else None, over)

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


def _masks_of(surface: BedSurface) -> tuple[int, ...]:
    """For every point of the mesh the spots that its height hangs on, as bits."""
    spots = [1 << n for n in range(surface.spots)]
    return (*spots, *(sum(spots[n] for n in cell) for cell in surface.cells))
