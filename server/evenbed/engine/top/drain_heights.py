"""How high a drain's edge and the walls round it stand, and what would save mortar were it relieved."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.room import Fixture
from evenbed.engine.document.tops import DrainTop
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.top.falls import Falls, Rates, Spot
from evenbed.engine.top.savings import PER_THOUSANDTH, Relief

ROUNDING = 1e-6  # mm
AT_WALL = 1e-6  # share: so near a level wall the drain's height moves nothing


@dataclass(frozen=True)
class DrainHeights:
    """What is known: the falls, the floor, what is asked for, the least thickness and the drain's edge, if given."""

    falls: Falls
    ground: Ground
    top: DrainTop
    minimum: float
    edge: float | None

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """Where the top is thinnest at some."""
        return tuple(self.falls.spots(self.ground))

    @property
    def settled(self) -> "Settled":
        """The heights. Raises BadDocumentError where the walls are to stand lower than the least fall allows."""
        drain = self._lowest_drain() if self.edge is None else self.edge
        least = drain + self.top.fall * self.falls.longest
        wall = least if self.top.perimeter is None else self.top.perimeter
        if wall < least - ROUNDING:
            raise BadDocumentError([self._too_low(wall, least)])
        if self.top.perimeter is not None and self.edge is None:
            drain = self._lowest_drain_within(wall)
        return Settled(self, drain, wall)

    def _too_low(self, wall: float, least: float) -> Problem:
        """What is wrong, and the lowest that would do: to a thousandth of a mm, never a hair less."""
        (x, y), enough = self.falls.at, math.ceil(least * 1000) / 1000
        place = {"x": round(x, 1), "y": round(y, 1), "longest": round(self.falls.longest, 1)}
        return problem_at("bed.top.perimeter", "perimeter_too_low", perimeter=wall, least=enough, **place)

    def _lowest_drain(self) -> float:
        """The lowest that keeps the least thickness, the walls rising and sinking with it."""
        fall, longest = self.top.fall, self.falls.longest
        return max(self.minimum + s.subfloor - fall * (longest * s.share + s.way) for s in self.spots)

    def _lowest_drain_within(self, wall: float) -> float:
        """The lowest that keeps the least thickness under walls of a given height."""
        fall = self.top.fall
        free = (s for s in self.spots if s.share < 1 - AT_WALL)
        return max((self.minimum + s.subfloor - wall * s.share - fall * s.way) / (1 - s.share) for s in free)


@dataclass(frozen=True)
class Settled:
    """The heights as they are: of the drain's edge and of the level walls; a linear drain has none of those."""

    known: DrainHeights
    drain: float
    wall: float

    def reliefs(self, path: str, drain: Fixture) -> Iterator[Relief]:
        """What could be relieved, and how the top would sink with it: a drain without a height moves along."""
        top = self.known.top
        if drain.height is None:
            at = self.thinnest
            rates = _scaled(self._with_drain, 1 / at.moved_by(self._with_drain))
            yield Relief(
                "minimum_thickness", "bed.minimum_thickness", self.known.minimum, self._sinks(rates), at=at.at
            )
        else:
            sinks = self._sinks(self._with_drain)
            yield Relief("drain_height", path, drain.height, sinks, drain.id, drain.at)
        if top.perimeter is not None:
            yield Relief("given_height", "bed.top.perimeter", top.perimeter, self._sinks(self._net((0.0, 1.0, 0.0))))
        with_fall = (0.0, self.known.falls.longest if top.perimeter is None else 0.0, 1.0)
        yield Relief("least_fall", "bed.top.fall", top.fall, self._sinks(self._net(with_fall)), step=PER_THOUSANDTH)

    @property
    def _with_drain(self) -> Rates:
        """How the top follows the drain: as a whole, unless its walls are held."""
        return (1.0, 0.0, 0.0) if self.known.top.perimeter is None else (1.0, -1.0, 0.0)

    @cached_property
    def thinnest(self) -> Spot:
        """The spot that keeps a drain without a height from sinking further."""
        with_drain, known = self._with_drain, self.known
        movable = (s for s in known.spots if s.moved_by(with_drain) > AT_WALL)
        return min(movable, key=lambda s: (round(self._spare(s) / s.moved_by(with_drain), 6), s.at))

    def _spare(self, spot: Spot) -> float:
        top = self.drain + (self.wall - self.drain) * spot.share + self.known.top.fall * spot.way
        return top - spot.subfloor - self.known.minimum

    def _net(self, rates: Rates) -> Rates:
        """The rates together with what a drain without a height does to keep the least thickness."""
        if self.known.edge is not None:
            return rates
        moved = self.thinnest.moved_by(rates) / self.thinnest.moved_by(self._with_drain)
        return _sum(rates, _scaled(self._with_drain, -moved))

    def _sinks(self, rates: Rates) -> tuple[Plane, ...]:
        return tuple(one.moved_by(rates) for one in self.known.falls.planes)


def _scaled(rates: Rates, by: float) -> Rates:
    return rates[0] * by, rates[1] * by, rates[2] * by


def _sum(one: Rates, other: Rates) -> Rates:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]
