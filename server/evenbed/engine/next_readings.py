"""Where one more reading is worth most: where it narrows the volume's range most, or may find a higher high spot."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import mul

from evenbed.engine.document.places import Point
from evenbed.engine.doubt import NextReading
from evenbed.engine.floor_doubt import View
from evenbed.engine.high_spot import HighSpot
from evenbed.engine.kriging import Site
from evenbed.engine.volume_doubt import VolumeDoubt

MOST_NEXT = 3
TIE = 1e-9  # of the best: equal gains, whatever their last digits
HIGHER_BY = 1.5  # mm: a high spot that much above the highest reading would move the whole top
LIKELY_HIGHER = 0.2  # common practice, no source


@dataclass
class _Eye:
    """One model's view of what readings still to be taken would leave: covariances in units of the sill."""

    view: View
    total: float
    with_total: list[float]
    variances: list[float]
    taken: list[tuple[list[float], float]]

    def gain(self, n: int) -> float:
        """What a reading at a place takes off the volume's variance, mm⁶."""
        return self.view.model.weight * self.view.model.sill * self.with_total[n] ** 2 / self._read(n)

    def left(self) -> float:
        """What is left of it."""
        return self.view.model.weight * self.view.model.sill * self.total

    def _read(self, n: int) -> float:
        return self.variances[n] + self.view.model.ratio

    def take(self, n: int) -> None:
        """Reckon as if the place had been read."""
        read = self._read(n)
        row = [self.view.covariance(n, m) for m in range(len(self.variances))]
        row[n] = self.view.variance(n)
        for earlier, variance in self.taken:
            row = [c - earlier[n] * e / variance for c, e in zip(row, earlier, strict=True)]
        with_total = self.with_total[n]
        self.total = max(0.0, self.total - with_total**2 / read)
        self.with_total = [t - with_total * c / read for t, c in zip(self.with_total, row, strict=True)]
        self.variances = [max(0.0, v - c * c / read) for v, c in zip(self.variances, row, strict=True)]
        self.taken.append((row, read))


def _eye(view: View, site: Site, own: float, shares: Sequence[float]) -> _Eye:
    with_total = [
        math.fsum(map(mul, shares, row)) + s.gained(site) for row, s in zip(view.alike, view.sites, strict=True)
    ]
    return _Eye(view, own, with_total, list(view.variances), [])


@dataclass(frozen=True)
class Proposing:
    """What is weighed: the volume's doubt, the high spot's, and which places a rod can be set on."""

    volume: VolumeDoubt
    high_spot: HighSpot
    is_open: Callable[[Point], bool]

    def proposed(self, wanted: int, first: Sequence[int] = ()) -> tuple[NextReading, ...]:
        """At most `wanted` places, one after the other, as if those before them (and `first`) had been read.

        The last may go to the high spot, unless places in `first` are after it already.
        """
        eyes = [_eye(view, site, own, self.volume.shares) for view, site, own in self.volume.sums]
        places = self.volume.doubt.places
        open_places = [n for n, at in enumerate(places) if self.is_open(at)]
        for n in first:
            _take(eyes, n)
        found: list[NextReading] = []
        while len(found) < wanted and open_places:
            n, why = self._best(eyes, open_places, last=not first and len(found) == wanted - 1)
            found.append(NextReading(places[n], self.volume.doubt.sigmas[n], why, gain_of(eyes, n)))
            _take(eyes, n)
            open_places = [m for m in open_places if math.dist(places[m], places[n]) > 1.0]
        return tuple(found)

    def _best(self, eyes: Sequence[_Eye], among: Sequence[int], *, last: bool) -> tuple[int, str]:
        if last and self._high_spot_is_open():
            n = _most(among, lambda m: self.high_spot.chances[m])
            if self.high_spot.chances[n] > LIKELY_HIGHER / 4.0:
                return n, "high_spot"
        return _most(among, lambda m: math.fsum(eye.gain(m) for eye in eyes)), "volume"

    def _high_spot_is_open(self) -> bool:
        return any(h.by == HIGHER_BY and h.probability > LIKELY_HIGHER for h in self.high_spot.higher)


def _take(eyes: Sequence[_Eye], n: int) -> None:
    for eye in eyes:
        eye.take(n)


def gain_of(eyes: Sequence[_Eye], n: int) -> float:
    """Share by which a reading at a place narrows the volume's range."""
    left = math.fsum(eye.left() for eye in eyes)
    taken = math.fsum(eye.gain(n) for eye in eyes)
    return 1.0 - math.sqrt(max(0.0, 1.0 - taken / left)) if left > 0.0 else 0.0


def _most(among: Sequence[int], measure: Callable[[int], float]) -> int:
    """The place that measures most; of equal ones the first."""
    measured = [(measure(n), n) for n in among]
    best = max(m for m, _ in measured)
    return next(n for m, n in measured if m >= best - TIE * abs(best))
