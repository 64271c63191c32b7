"""The plane that uses the least mortar of all that keep what is asked of it, and the price of what governs it.

The mortar under a plane is the room's area times the plane's height over the room's centroid, less what the subfloor
takes: linear in the plane. So are the thickness at a place and a held height. As the subfloor is straight in every
triangle, the thickness is least and greatest at readings, corners and where edges cross walls. The largest fall is a
cone: its tangents are asked for one by one, each where the plane is too steep, until the rest is rounding.

The price of a requirement is its dual value. Where more requirements meet than it takes to fix the plane, the prices
are not unique: those told belong to one choice of them, the same for every order of the readings.
"""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.bed import Mortar
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document
from evenbed.engine.document.tops import LeastTop
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.top.conflicts import conflicts_of
from evenbed.engine.top.demands import Asked, Group, asked_of
from evenbed.engine.top.designed import DesignedTop
from evenbed.engine.top.facets import whole_room
from evenbed.engine.top.least_fall import nearest_to_level
from evenbed.engine.top.linear_programme import Contradiction, Least, NoEndError, Row, least_of
from evenbed.engine.top.requirements import Requirement
from evenbed.engine.top.rises import FAR_BELOW, tangent_at

ONE_PLANE = 1e-6  # mm over the room: planes nearer to each other are one
PER_THOUSAND = 1 / 1000
Share = tuple[float, Point | None]  # of a requirement's price, and where


@dataclass(frozen=True)
class LeastPlane:
    """The best plane of what is asked."""

    asked: Asked
    area: float  # m²

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """First the bounds from below of the height and the two rises, then the demands."""
        most = self._most_rise
        bounds = ((1.0, 0.0, 0.0, FAR_BELOW), (0.0, 1.0, 0.0, -most), (0.0, 0.0, 1.0, -most))
        return (*bounds, *(self.asked.frame.row(demand) for demand in self.asked.demands))

    @property
    def _most_rise(self) -> float:
        return self.asked.fall.limit * self.asked.frame.scale

    def _least(self, rows: Sequence[Row]) -> Least:
        """Raises BadDocumentError with every conflict where no plane keeps all."""
        most = self._most_rise
        found = least_of(rows, lambda point: tangent_at(point[1:], most))
        if isinstance(found, Contradiction):
            raise BadDocumentError(conflicts_of(self.asked))
        return found

    @cached_property
    def least(self) -> Least:
        """Among the best planes the one that rises least across the drawing, then up it."""
        return self._least(self.rows)

    @cached_property
    def unique(self) -> bool:
        """False where other planes take as little mortar."""
        if len(self.least.weights) == len(self.least.point):
            return True
        mirrored = [(height, -across, -up, limit) for height, across, up, limit in self.rows]
        other = self._least([*self.rows[:3], *mirrored[3:]])
        _, across, up = self.least.point
        return math.hypot(across + other.point[1], up + other.point[2]) < ONE_PLANE

    @cached_property
    def plane(self) -> Plane:
        """The best plane; where several are as good the one that falls least, whatever way the room is drawn."""
        height, *rises = self.least.point
        if not self.unique:
            halves = ((across, up, limit - factor * height) for factor, across, up, limit in self.rows[3:])
            rises = list(nearest_to_level(halves) or rises)
        return self.asked.frame.plane(height, *rises)

    @cached_property
    def requirements(self) -> tuple[Requirement, ...]:
        """What governs, the dearest first: a limit of the thickness at each place, a held height as a whole."""
        shares: dict[tuple[Group, Point | None], list[Share]] = defaultdict(list)
        for row, weight in sorted(self.least.weights.items()):
            group, at = self._asked_by(row)
            shares[group, at if group.is_everywhere else None].append((weight, at))
        found = [self._requirement(group, own) for (group, _), own in shares.items()]
        return tuple(sorted(found, key=lambda r: (-r.saves, r.path, r.kind, r.at or ())))

    def _requirement(self, group: Group, shares: list[Share]) -> Requirement:
        """Told where it weighs most; m³ for each mm, or for each 1/1000 of the fall."""
        relief = self.asked.frame.scale * PER_THOUSAND if group is self.asked.fall else 1.0
        saves = math.fsum(weight for weight, _ in shares) * relief * self.area / 1e3
        at = max(shares, key=lambda share: share[0])[1]
        return Requirement(group.kind, group.path, group.id, at, group.limit, saves)

    def _asked_by(self, row: int) -> tuple[Group, Point | None]:
        """Who asks for a row, and where; bounds and tangents are of the largest fall."""
        if 3 <= row < len(self.rows):
            demand = self.asked.demands[row - 3]
            return demand.group, demand.at
        return self.asked.fall, None

    @property
    def explanation(self) -> Explanation:
        """Why the top is this plane: what relief of each kind of requirement would save."""
        saves: dict[str, float] = {}
        for row in self.requirements:
            saves[f"saves_{row.kind}"] = saves.get(f"saves_{row.kind}", 0.0) + row.saves
        return explanation_of("least_mortar" if self.unique else "least_mortar_tied", **saves)


def least_mortar(document: Document, ground: Ground, top: LeastTop) -> DesignedTop:
    """The plane with the least mortar over the whole room, and what governs it.

    Raises BadDocumentError with what conflicts and how much it must give where no plane keeps everything.
    """
    best = LeastPlane(asked_of(document, ground, top), ground.figure.area)
    try:
        return DesignedTop(
            Mortar(ground, whole_room(best.plane, ground.figure.outer)), best.requirements, best.explanation
        )
    except NoEndError:
        raise BadDocumentError([problem_at("bed.top", "top_not_found")]) from None
