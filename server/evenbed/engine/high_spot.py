"""How likely the floor stands higher somewhere than anything that was read."""

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.doubt import Higher
from evenbed.engine.floor_doubt import FloorDoubt, View
from evenbed.engine.triangular import Row, dot, lower_from

AMOUNTS = (0.0, 1.5, 3.0, 6.0, 12.0)  # mm above the highest reading
MOST_RIVALS = 36  # places that may be the high spot
HOPELESS = 1e-4  # a place less likely than this to be higher is no rival
DRAWS = 480  # floors drawn, each with its mirror image
SEED = 1  # the same draws every time: one document has one answer


@dataclass(frozen=True)
class HighSpot:
    """The chance of a higher high spot than `read`, the highest reading's z.

    The joint distribution over the likeliest places has no closed form: floors are drawn from it, always the same
    ones (A. Genz and F. Bretz, Computation of Multivariate Normal and t Probabilities, 2009, from memory).
    """

    doubt: FloorDoubt
    read: float

    @cached_property
    def chances(self) -> list[float]:
        """Of each place, to stand higher than the highest reading."""
        return [self.doubt.chance_above(n, self.read) for n in range(len(self.doubt.places))]

    @cached_property
    def rivals(self) -> list[int]:
        """The places that may be the high spot, in order of place."""
        hopeful = [n for n, chance in enumerate(self.chances) if chance > HOPELESS]
        return sorted(sorted(hopeful, key=lambda n: (-round(self.chances[n], 9), n))[:MOST_RIVALS])

    @cached_property
    def higher(self) -> tuple[Higher, ...]:
        """The chance for each of AMOUNTS."""
        highest = list(self._highest()) if self.rivals else []
        return tuple(Higher(by, _share_above(highest, by)) for by in AMOUNTS)

    def _highest(self) -> Iterator[tuple[float, float]]:
        """Weights, and how far the highest rival of a drawn floor stands above the highest reading."""
        dice = random.Random(SEED)
        for view, floors in _shared_out(self.doubt.views):
            weight = view.model.weight / (2 * floors)
            means = [view.sites[n].mean + self.doubt.known.middle[2] - self.read for n in self.rivals]
            lower = lower_from(
                [[self._covariance(view, n, m) for m in self.rivals[: k + 1]] for k, n in self._numbered]
            )
            for root in _sill_roots(view, floors):
                off = [dot(row, thrown) for thrown in [_thrown(dice, root, len(lower))] for row in lower]
                yield weight, max(map(float.__add__, means, off))
                yield weight, max(map(float.__sub__, means, off))

    @property
    def _numbered(self) -> list[tuple[int, int]]:
        return list(enumerate(self.rivals))

    @staticmethod
    def _covariance(view: View, n: int, m: int) -> float:
        return view.variance(n) if n == m else view.covariance(n, m)


def _thrown(dice: random.Random, root: float, count: int) -> Row:
    return [root * dice.gauss(0.0, 1.0) for _ in range(count)]


def _share_above(highest: Sequence[tuple[float, float]], by: float) -> float:
    return min(1.0, math.fsum(weight for weight, above in highest if above > by))


def _shared_out(views: Sequence[View]) -> Iterator[tuple[View, int]]:
    """How many floors to draw under each view: by its weight, at least one."""
    for view in views:
        yield view, max(1, round(DRAWS / 2 * view.model.weight))


def _sill_roots(view: View, count: int) -> Iterator[float]:
    """Square roots of sills, spread over their distribution at even steps."""
    left = iter(view.model.sills)
    sill, held = next(left)
    for k in range(count):
        wanted = (k + 0.5) / count * view.model.weight
        while held < wanted and (after := next(left, None)):
            sill, held = after[0], held + after[1]
        yield math.sqrt(sill)
