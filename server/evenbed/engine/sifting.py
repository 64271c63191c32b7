"""Finds readings that their neighbours do not bear out, without letting one slip accuse the others.

Each reading is foretold from the nearest others alone. The worst in its neighbourhood is set aside first, and what it
had spoiled is foretold anew without it. When nothing stands out any longer, the scatter of the floor itself is
measured, and those set aside are judged by what the rest foretells: a rough floor forgives more than a true one.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import median

from evenbed.engine.document.places import Point3
from evenbed.engine.foretold import Foretold, foretold
from evenbed.engine.nearest import nearest_of

FEWEST = 6  # readings: five to foretell the sixth; fewer tell nothing of a floor's own unevenness
NEIGHBOURS = 12  # that foretell a reading; more change little on ordinary floors
WITHIN = 20  # nearest ones among which a slip can spoil another reading, and from which NEIGHBOURS are taken
BEYOND = 2.5  # standard errors: 7.5 mm on a true floor, more than most unevenness, while half an inch still shows
LARGEST_SHARE = 3  # at most one reading in so many is doubted: a floor that has more is odd itself
LEAST_SIGMA = 3.0  # mm: no floor is foretold better than this, so that nobody reads again for a third of an inch
TRUSTED = 6.0  # readings that what is known of ordinary floors counts for beside the floor's own scatter
NORMAL = 1.4826  # the normal law's standard deviation over its median deviation


@dataclass(frozen=True)
class Doubted:
    """A reading, by its number, that its neighbours do not bear out, and what they foretell."""

    number: int
    told: Foretold


def _foretold(spot: Point3, kept: Sequence[Point3]) -> Foretold:
    """By the nearest of those kept, which come the nearest first."""
    told = foretold(spot[:2], kept[:NEIGHBOURS])
    return Foretold(told.z, max(told.sigma, LEAST_SIGMA))


class _Sifting:
    """Readings kept and set aside, and what the kept ones foretell of each."""

    def __init__(self, spots: Sequence[Point3]) -> None:
        self.spots = spots
        self.near = nearest_of(spots, WITHIN)
        self.askers: list[list[int]] = [[] for _ in spots]
        for n, near in enumerate(self.near):
            for m in near:
                self.askers[m].append(n)
        self.aside: set[int] = set()
        self.told = [self._foretell(n) for n in range(len(spots))]

    def _foretell(self, n: int) -> Foretold:
        return _foretold(self.spots[n], [self.spots[m] for m in self.near[n] if m not in self.aside])

    def excess(self, n: int) -> float:
        """How far reading `n` stands off what is foretold, in standard errors of an ordinary floor."""
        return abs(self.spots[n][2] - self.told[n].z) / self.told[n].sigma

    def rank(self, n: int) -> tuple[float, Point3]:
        """Worse ones rank higher; equals by their places."""
        return self.excess(n), self.spots[n]

    def move(self, chosen: Iterable[int]) -> None:
        """Sets readings aside, or those that are aside back, and foretells anew what they touch."""
        chosen = set(chosen)
        self.aside ^= chosen
        for n in {m for c in chosen for m in self.askers[c]}:
            self.told[n] = self._foretell(n)

    def worst(self) -> list[int]:
        """Readings beyond what a good one may be, each the worst of its neighbourhood; the worst first."""
        beyond = [n for n in range(len(self.spots)) if n not in self.aside and self.excess(n) > BEYOND]
        return sorted((n for n in beyond if self._is_worst(n)), key=self.rank, reverse=True)

    def _is_worst(self, n: int) -> bool:
        others = (m for m in (*self.near[n], *self.askers[n]) if m not in self.aside)
        return all(self.rank(m) <= self.rank(n) for m in others)

    def scatter(self) -> float:
        """The floor's own scatter over that of ordinary floors, never less than 1; slips hardly move a median."""
        count = len(self.spots)
        own = NORMAL * median(self.excess(n) for n in range(count))
        return max(1.0, math.sqrt((TRUSTED + count * own * own) / (TRUSTED + count)))


def doubted_among(spots: Sequence[Point3]) -> list[Doubted]:
    """Readings (x, y, z) that their neighbours do not bear out, the worst first; none among fewer than FEWEST.

    The order of `spots` and a plane added to them change nothing.
    """
    if len(spots) < FEWEST:
        return []
    sifting = _Sifting(spots)
    _set_aside(sifting)
    scatter = sifting.scatter()
    while borne_out := [n for n in sifting.aside if sifting.excess(n) <= BEYOND * scatter]:
        sifting.move(borne_out)
    return [_doubted(sifting, n, scatter) for n in sorted(sifting.aside, key=sifting.rank, reverse=True)]


def sifted_round(spot: Point3, others: Sequence[Point3]) -> Foretold | None:
    """What the nearest of `others` foretell at `spot`, slips among them set aside; None where they are too few."""
    near = sorted(others, key=lambda other: (math.dist(spot[:2], other[:2]), other))[:WITHIN]
    if len(near) < FEWEST - 1:
        return None
    sifting = _Sifting(near)
    _set_aside(sifting)
    told = _foretold(spot, [other for n, other in enumerate(near) if n not in sifting.aside])
    return Foretold(told.z, told.sigma * sifting.scatter())


def is_beyond(z: float, told: Foretold) -> bool:
    """True where a good reading would not show `z`."""
    return abs(z - told.z) > BEYOND * told.sigma


def _set_aside(sifting: _Sifting) -> None:
    most = len(sifting.spots) // LARGEST_SHARE
    while worst := sifting.worst()[: most - len(sifting.aside)]:
        sifting.move(worst)


def _doubted(sifting: _Sifting, n: int, scatter: float) -> Doubted:
    told = sifting.told[n]
    return Doubted(n, Foretold(told.z, told.sigma * scatter))
