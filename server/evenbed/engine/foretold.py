"""What the readings round a place foretell of its height: kriging from the nearest ones.

A floor is taken for a plane of any lean, ground that rolls slowly about it, and small unevenness that no neighbour
tells of. The covariance of two heights is a random plane's plus Matérn's with ν = 3/2 (Rasmussen and Williams,
Gaussian Processes for Machine Learning, 2006, eq. 4.17); what is foretold is the normal law's conditional mean with
its standard error. It is made to find mis-read rods at once and nothing finer: the constants are those of ordinary
domestic floors.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import mul

from evenbed.engine.document.places import Point, Point3

UNEVENNESS = 1.5  # mm: reading error and what the sheet or float leaves; common practice, no source
ROLLING = 8.0  # mm: how far a domestic floor rolls off its plane over REACH; common practice, no source
REACH = 6000.0  # mm
STEEPEST = 0.1  # no floor leans more than a ramp; only with neighbours on one line does it tell
ANY_HEIGHT = 1000.0  # mm: beside this the other figures vanish, so that the floor's own height tells nothing
_ROOT_3, _ANY, _ROLL, _LEAN = math.sqrt(3.0), ANY_HEIGHT**2, ROLLING**2, (STEEPEST * REACH) ** 2


@dataclass(frozen=True)
class Foretold:
    """The height a reading should show, and the standard error of a good reading about it, mm."""

    z: float
    sigma: float


def foretold(at: Point, neighbours: Sequence[Point3]) -> Foretold:
    """What `neighbours` (mm, at least one) foretell of a reading at `at`. Two of them may stand at one place."""
    middle = math.fsum(z for _, _, z in neighbours) / len(neighbours)
    places = [((x - at[0]) / REACH, (y - at[1]) / REACH) for x, y, _ in neighbours]
    lower = _cholesky([_row(places[: n + 1]) for n in range(len(places))])
    told = _forward(lower, _covariances((0.0, 0.0), places))
    known = _forward(lower, [z - middle for _, _, z in neighbours])
    spread = _ANY + _ROLL + UNEVENNESS**2 - sum(map(mul, told, told))
    return Foretold(middle + sum(map(mul, told, known)), math.sqrt(max(spread, UNEVENNESS**2)))


def _covariances(p: Point, places: Sequence[Point]) -> list[float]:
    """Of the height at `p` and those at `places`, all told from the place asked for, in REACH."""
    x, y = _LEAN * p[0], _LEAN * p[1]
    away = [_ROOT_3 * math.dist(p, q) for q in places]
    leans = [_ANY + x * q[0] + y * q[1] for q in places]
    return [lean + _ROLL * (1.0 + h) * math.exp(-h) for lean, h in zip(leans, away, strict=True)]


def _row(places: Sequence[Point]) -> list[float]:
    """The last place's covariances with those before it, and its own reading's variance."""
    row = _covariances(places[-1], places)
    row[-1] += UNEVENNESS**2
    return row


def _cholesky(rows: list[list[float]]) -> list[list[float]]:
    """The lower triangle whose square is the positive definite matrix of these lower rows."""
    lower: list[list[float]] = []
    for row in rows:
        done: list[float] = []
        for above in lower:
            done.append((row[len(done)] - sum(map(mul, done, above))) / above[-1])
        done.append(math.sqrt(row[-1] - sum(map(mul, done, done))))
        lower.append(done)
    return lower


def _forward(lower: list[list[float]], right: list[float]) -> list[float]:
    """The solution of lower · x = right."""
    found: list[float] = []
    for row, value in zip(lower, right, strict=True):
        found.append((value - sum(map(mul, found, row))) / row[-1])
    return found
