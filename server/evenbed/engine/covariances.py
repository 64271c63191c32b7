"""How the floor may wander, weighed by the readings: not one covariance but every one that they do not speak against.

A variogram fitted to a few readings and then believed makes errors look smaller than they are. So a grid of
reaches and of error-to-sill ratios is weighed by REML's likelihood (D. A. Harville, 1977, from memory), the sill is
integrated out, and what is foretold is the mixture. Two weak beliefs keep three readings from meaning anything at
all: floors wander off their plane by some millimetres, and an instrument errs about as much as is said of it (both
common practice, no source).
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.kriging import Kriging, Site, distances_between, kriging_from, likeness
from evenbed.engine.thinning import Spot
from evenbed.engine.triangular import Row

UNEVEN = 0.3  # mm: grain of a floor under the rod's foot; common practice, no source
SWELL, SWELL_FACTOR = 3.0, 3.0  # mm: floors wander off their plane by about so much, give or take this factor
ERROR_FACTOR = 1.5  # give or take: how well an instrument's standard error is known
REACHES, RATIOS = 6, 7
LEAST_REACH, MOST_REACH = 300.0, 20_000.0  # mm: Matérn's reach; places hardly tell of each other 2.7 times as far off
LEAST_RATIO, RATIO_STEP = 4.0**-5, 4.0  # error variance over the sill
LIKELY = math.log(40.0)  # below the best: a covariance less likely than this has no neighbours worth looking at
KEPT = 0.97  # of the weight: the rest of the covariances are left out
NODES, NODE_STEP = range(-6, 7), 0.6  # of the sill's logarithm round its best, in standard errors


@dataclass(frozen=True)
class Model:
    """One covariance with its weight; `sills` are variances in mm² with their shares of the weight."""

    reach: float
    ratio: float
    kriging: Kriging
    weight: float
    sills: tuple[tuple[float, float], ...]

    @cached_property
    def sill(self) -> float:
        """Mean of the sills, mm²."""
        return math.fsum(s * w for s, w in self.sills) / self.weight


@dataclass(frozen=True)
class Known:
    """What was read: spots off one line, at least three, in the order of their places."""

    spots: tuple[Spot, ...]

    @cached_property
    def places(self) -> list[Point]:
        """Where."""
        return [s.at for s in self.spots]

    @cached_property
    def middle(self) -> tuple[float, float, float]:
        """Mean place and height."""
        n = len(self.spots)
        return (
            math.fsum(s.at[0] for s in self.spots) / n,
            math.fsum(s.at[1] for s in self.spots) / n,
            math.fsum(s.z for s in self.spots) / n,
        )

    @cached_property
    def size(self) -> float:
        """Distance from the middle to the farthest spot, mm."""
        return max(math.dist(p, self.middle[:2]) for p in self.places)

    def drift_at(self, at: Point) -> tuple[float, float, float]:
        """(1, x, y) from the middle, in sizes."""
        return 1.0, (at[0] - self.middle[0]) / self.size, (at[1] - self.middle[1]) / self.size

    @cached_property
    def distances(self) -> list[Row]:
        """Between every two spots."""
        return distances_between(self.places, self.places)

    @cached_property
    def variances(self) -> Row:
        """Of each spot, the floor's grain with it, mm²."""
        return [s.sigma**2 + UNEVEN**2 for s in self.spots]

    @cached_property
    def error(self) -> float:
        """Mean of the variances, mm²."""
        return math.fsum(self.variances) / len(self.spots)

    @cached_property
    def reaches(self) -> tuple[float, ...]:
        """The reaches tried, from less than a stride to as far as the floor goes."""
        most = min(MOST_REACH, max(8.0 * LEAST_REACH, 1.5 * self.size))
        return tuple(LEAST_REACH * (most / LEAST_REACH) ** (i / (REACHES - 1)) for i in range(REACHES))

    def kriging(self, alike: Sequence[Row], ratio: float) -> Kriging:
        """The spots weighed under one covariance; of the likeness between spots only the lower triangle is read."""
        noises = [ratio * v / self.error for v in self.variances]
        drift = [self.drift_at(p) for p in self.places]
        return kriging_from(alike, noises, drift, [s.z - self.middle[2] for s in self.spots])

    def sites(self, models: Sequence[Model], places: Sequence[Point]) -> list[list[Site]]:
        """Places as each of the models foretells them; their means are heights over the middle's."""
        rows, drifts = distances_between(places, self.places), [self.drift_at(at) for at in places]
        alike = {reach: [likeness(row, reach) for row in rows] for reach in {m.reach for m in models}}
        return [list(map(model.kriging.site, alike[model.reach], drifts)) for model in models]


def models_of(known: Known) -> tuple[Model, ...]:
    """The covariances that the spots leave likely, the likeliest first; their weights add up to 1."""
    tried = _tried(known)
    best = max(weight for weight, _ in tried.values())
    weighed = sorted(((math.exp(w - best), key) for key, (w, _) in tried.items()), key=lambda e: (-e[0], e[1]))
    total, kept, held = math.fsum(w for w, _ in weighed), [], 0.0
    for weight, key in weighed:
        if held < KEPT * total:
            kept.append((weight, tried[key][1]))
            held += weight
    return tuple(make(weight / held) for weight, make in kept)


Key = tuple[int, int]
Tried = tuple[float, Callable[[float], Model]]


def _tried(known: Known) -> dict[Key, Tried]:
    """Log-weights over the grid: every other covariance, then the neighbours of the likely ones until none is new."""
    lower = [row[: n + 1] for n, row in enumerate(known.distances)]
    alike = [[likeness(row, reach) for row in lower] for reach in known.reaches]
    tried: dict[Key, Tried] = {}
    new = {(i, j) for i in range(1, REACHES, 2) for j in range(0, RATIOS, 2)}
    while new:
        tried |= {key: _weighed(known, alike[key[0]], *key) for key in sorted(new)}
        best = max(weight for weight, _ in tried.values())
        likely = [key for key, (weight, _) in tried.items() if weight > best - LIKELY]
        new = {beside for key in likely for beside in _beside(key)} - tried.keys()
    return tried


def _beside(key: Key) -> Iterator[Key]:
    for di, dj in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        i, j = key[0] + di, key[1] + dj
        if 0 <= i < REACHES and 0 <= j < RATIOS:
            yield i, j


def _weighed(known: Known, alike: Sequence[Row], i: int, j: int) -> Tried:
    """One covariance's log-weight, the sill integrated out, and how to make its model of a share of the whole."""
    ratio = LEAST_RATIO * RATIO_STEP**j
    kriging = known.kriging(alike, ratio)
    belief = Belief(len(known.spots) - 3, kriging.scatter, math.log(ratio / known.error))
    weights, whole = belief.nodes()

    def model(weight: float) -> Model:
        return Model(known.reaches[i], ratio, kriging, weight, tuple((s, weight * w) for s, w in weights))

    return whole - kriging.log_volume, model


@dataclass(frozen=True)
class Belief:
    """What is believed of the sill's logarithm: REML's likelihood, and the two weak beliefs."""

    freedom: int
    scatter: float
    log_ratio: float

    def log_weight(self, t: float) -> float:
        """Of the sill exp(t), mm²."""
        swell = (t - 2.0 * math.log(SWELL)) / (2.0 * math.log(SWELL_FACTOR))
        error = (t + self.log_ratio) / (2.0 * math.log(ERROR_FACTOR))
        return -0.5 * (self.freedom * t + self.scatter * math.exp(-t) + swell**2 + error**2)

    def _slopes(self, t: float) -> tuple[float, float]:
        """First and second derivative of the log-weight; the second is below nothing everywhere."""
        a, b = (2.0 * math.log(SWELL_FACTOR)) ** -2, (2.0 * math.log(ERROR_FACTOR)) ** -2
        fall = 0.5 * self.scatter * math.exp(-t)
        first = fall - 0.5 * self.freedom - a * (t - 2.0 * math.log(SWELL)) - b * (t + self.log_ratio)
        return first, -fall - a - b

    def best(self) -> float:
        """The likeliest logarithm, by halving: the slope falls all the way."""
        low, high = -60.0, 60.0
        for _ in range(60):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if self._slopes(middle)[0] > 0.0 else (low, middle)
        return 0.5 * (low + high)

    def nodes(self) -> tuple[list[tuple[float, float]], float]:
        """Sills with their shares of 1, and the logarithm of the whole integral."""
        best = self.best()
        step = NODE_STEP / math.sqrt(-self._slopes(best)[1])
        logs = [(best + k * step, self.log_weight(best + k * step)) for k in NODES]
        most = max(w for _, w in logs)
        total = math.fsum(math.exp(w - most) for _, w in logs)
        return [(math.exp(t), math.exp(w - most) / total) for t, w in logs], most + math.log(total * step)


def spread_of(parts: Iterable[tuple[float, float, float]], share: float) -> float:
    """The value below which `share` of a mixture lies; parts are weight, mean and standard deviation, none of 0."""
    given = list(parts)
    low, high = min(m - 9.0 * s for _, m, s in given), max(m + 9.0 * s for _, m, s in given)
    for _ in range(60):
        middle = 0.5 * (low + high)
        below = math.fsum(w * chance_below((middle - m) / s) for w, m, s in given)
        low, high = (middle, high) if below < share else (low, middle)
    return 0.5 * (low + high)


def chance_below(deviation: float) -> float:
    """The standard normal's share below a deviation."""
    return 0.5 * math.erfc(-deviation / math.sqrt(2.0))
