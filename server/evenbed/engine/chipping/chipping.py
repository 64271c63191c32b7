"""Chip or raise: the high spots of one floor under its top, and what chipping them saves."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from evenbed.engine.bed import LIMIT_SLACK, Mortar
from evenbed.engine.chipping.below import Below, below_of
from evenbed.engine.chipping.best_depth import best_depth
from evenbed.engine.chipping.chipped import Chipped, cleared, lowered, together
from evenbed.engine.chipping.chips import Chip, ChipPlan
from evenbed.engine.chipping.convex import Piece, pieces_below
from evenbed.engine.chipping.lowering import Unread, comes_down, room_under, unread_corners
from evenbed.engine.chipping.spots import SAME, Spot, spots_below, standing_out
from evenbed.engine.chipping.worth import Worth, worth_of
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document

STANDS_OUT = 1.0  # mm: less is no high spot of its own; common practice, no source
WORTH_IT = 0.1  # mm: nobody chips less; common practice, no source


@dataclass(frozen=True)
class Chipping:
    """The floor's high spots. `minimum` is the least thickness in force, mm; `density` of fresh mortar, kg/m³."""

    document: Document
    mortar: Mortar
    minimum: float
    density: float

    @cached_property
    def rows(self) -> tuple[Chip, ...]:
        """A row for each high spot worth naming, the highest first; none where nothing may be chipped."""
        if self.document.bed.chip_depth <= WORTH_IT:
            return ()
        return tuple(
            chipped.row(name, spot.at, self.density, self.worth)
            for (name, spot), chipped in zip(self._named, self._each, strict=True)
        )

    @cached_property
    def plan(self) -> ChipPlan | None:
        """The best depth for the prices given; None where nothing is high enough to be chipped."""
        if not self.rows:
            return None
        best = self._best if self.comes_down else together(self._each)
        names = (name for name, spot in self._named if not self.comes_down or spot.spare < best.depth)
        return best.plan(tuple(names), self.density, self.worth)

    @cached_property
    def comes_down(self) -> bool:
        """True where the top comes down with the high spots."""
        return comes_down(self.document)

    @cached_property
    def worth(self) -> Worth:
        """What mortar and chipping cost."""
        return worth_of(self.document.prices, self.document.mix)

    @cached_property
    def unread(self) -> Unread | None:
        """The corner without a reading that keeps the chipping from going as deep as it may, if one does."""
        found = min(unread_corners(self.mortar, self.minimum), key=lambda u: (u.spare, u.at), default=None)
        within = min(self.document.bed.chip_depth, self._held) if self.comes_down else -LIMIT_SLACK
        return found if found is not None and found.spare < within else None

    @cached_property
    def too_deep(self) -> Spot | None:
        """The worst place under a top that is given, where more than may be chipped would have to go."""
        most = self.document.bed.chip_depth + LIMIT_SLACK
        return next((spot for _, spot in self._named if not self.comes_down and -spot.spare > most), None)

    @property
    def room(self) -> float:
        """The floor's area, m²."""
        return self.mortar.ground.figure.area

    @cached_property
    def _held(self) -> float:
        return room_under(self.document, self.mortar)

    @cached_property
    def _most(self) -> float:
        """How far the top may come down at the most, mm."""
        unread = math.inf if self.unread is None else max(0.0, self.unread.spare)
        return min(self.document.bed.chip_depth, self._held, unread)

    @cached_property
    def _reach(self) -> float:
        """How far the rows go, mm: to where a mm more would chip off more than it saves, half the floor being cut."""
        half, low, high = self.room / 2.0, 0.0, self._most
        if self.below.area(high) <= half:
            return high
        while high - low > LIMIT_SLACK / 2.0:
            middle = (low + high) / 2.0
            low, high = (middle, high) if self.below.area(middle) <= half else (low, middle)
        return next((level for level in self.below.levels if abs(level - low) <= 2.0 * LIMIT_SLACK), low)

    @cached_property
    def pieces(self) -> tuple[Piece, ...]:
        """The floor as far as it can be chipped."""
        level = self._most if self.comes_down else 0.0
        return pieces_below(self.mortar, self.minimum, level)

    @cached_property
    def below(self) -> Below:
        """The same as triangles."""
        return below_of(self.pieces)

    @cached_property
    def _named(self) -> tuple[tuple[str, Spot], ...]:
        spots = tuple(self._lowered_spots() if self.comes_down else self._thin_spots())
        return tuple((f"h{n}", replace(spot, at=self._read_at(spot.at))) for n, spot in enumerate(spots, start=1))

    def _read_at(self, at: Point) -> Point:
        """The reading or corner at a place that cutting moved by a hair, else the place itself."""
        near = min((s[:2] for s in self.mortar.ground.spots), key=lambda place: (math.dist(place, at), place))
        return near if math.dist(near, at) <= SAME else at

    def _lowered_spots(self) -> Iterator[Spot]:
        if self._most > WORTH_IT and self._reach > WORTH_IT:
            spots = standing_out(spots_below(self.pieces, self._reach), STANDS_OUT)
            yield from (spot for spot in spots if spot.spare < self._reach - WORTH_IT)

    def _thin_spots(self) -> Iterator[Spot]:
        """Connected places too thin whose worst was read."""
        unread = {corner.at for corner in unread_corners(self.mortar, self.minimum)}
        for spot in spots_below(self.pieces, 0.0):
            if spot.pieces and spot.spare < -LIMIT_SLACK and self._read_at(spot.at) not in unread:
                yield spot

    @cached_property
    def _each(self) -> tuple[Chipped, ...]:
        """What is chipped for each named spot."""
        if self.comes_down:
            return tuple(lowered(self.below, self.room, self._next(spot)) for _, spot in self._named)
        most = self.document.bed.chip_depth
        return tuple(cleared(self._below(spot), -spot.spare, most, self.minimum) for _, spot in self._named)

    def _below(self, spot: Spot) -> Below:
        return below_of(self.pieces[n] for n in spot.pieces)

    def _next(self, spot: Spot) -> float:
        """The spare thickness at the next spot that stands clearly lower."""
        lower = (other.spare for _, other in self._named if other.spare > spot.spare + WORTH_IT)
        return min(lower, default=self._reach)

    @cached_property
    def _best(self) -> Chipped:
        if self.worth.mortar is None:
            return self._each[0]
        return lowered(
            self.below, self.room, best_depth(self.below, self.room, self.worth, self.worth.mortar, self._most)
        )
