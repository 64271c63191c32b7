"""What is asked of a plane top, as demands linear in it: at a place it stands at least, or at most, so high."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document
from evenbed.engine.document.tops import LeastTop
from evenbed.engine.geometry import Plane, integral_over
from evenbed.engine.ground import Ground
from evenbed.engine.outline import Figure
from evenbed.engine.top.designed import STEEPEST, minimum_thickness_of
from evenbed.engine.top.held import Hold, holds_from
from evenbed.engine.top.linear_programme import Row


@dataclass(frozen=True)
class Group:
    """Demands that are asked for at one place of the document and give way together; `order` is theirs in it."""

    order: int
    kind: str
    path: str
    id: str | None
    limit: float

    @property
    def is_everywhere(self) -> bool:
        """True for what is asked of every place in the room."""
        return self.kind in ("minimum_thickness", "maximum_thickness")


@dataclass(frozen=True)
class Demand:
    """The top at a place is at least (`sign` 1) or at most (`sign` -1) so high, z."""

    group: Group
    at: Point
    sign: int
    height: float


@dataclass(frozen=True)
class Frame:
    """Unknowns of near size 1: the top's height over the room's centroid, and what it rises by over `scale` mm.

    `base` is taken off all heights. The mortar is the area times the first unknown, less what the subfloor takes.
    """

    centroid: Point
    scale: float
    base: float

    def factors(self, at: Point) -> tuple[float, float, float]:
        """How the height at a place follows from the unknowns."""
        return 1.0, (at[0] - self.centroid[0]) / self.scale, (at[1] - self.centroid[1]) / self.scale

    def row(self, demand: Demand) -> Row:
        """The demand as a row over the unknowns."""
        factors = (demand.sign * factor for factor in self.factors(demand.at))
        return (*factors, demand.sign * (demand.height - self.base))

    def plane(self, height: float, across: float, up: float) -> Plane:
        """The plane that the unknowns stand for."""
        b, c = across / self.scale, up / self.scale
        return Plane(height + self.base - b * self.centroid[0] - c * self.centroid[1], b, c)


@dataclass(frozen=True)
class Asked:
    """Everything asked of a plane top, the demands in an order that no order of reading changes."""

    frame: Frame
    demands: tuple[Demand, ...]
    ground: tuple[Demand, ...]  # it never stands below the subfloor
    fall: Group


def asked_of(document: Document, ground: Ground, top: LeastTop) -> Asked:
    """What the document asks of its plane top. Raises BadDocumentError where a held height makes no sense."""
    holds = holds_from(document, ground.figure, top.holds)
    design = document.bed
    thin = Group(0, "minimum_thickness", "bed.minimum_thickness", None, minimum_thickness_of(design))
    thick = Group(1, "maximum_thickness", "bed.maximum_thickness", None, design.maximum_thickness)
    covered = design.covering.bond_thickness + design.covering.tile_thickness
    spots = sorted({*ground.spots, *ground.wall_spots})
    demands = [Demand(thin, s[:2], 1, s[2] + thin.limit) for s in spots]
    demands += [Demand(thick, s[:2], -1, s[2] + thick.limit) for s in spots]
    demands += _held(holds, covered)
    floor = tuple(Demand(thin, s[:2], 1, s[2]) for s in spots)
    steepest = STEEPEST if top.largest_fall is None else min(STEEPEST, top.largest_fall)
    fall = Group(2 + 2 * len(holds), "largest_fall", "bed.top.largest_fall", None, steepest)
    return Asked(_frame(ground.figure, (s[2] for s in spots)), tuple(demands), floor, fall)


def _held(holds: Iterable[Hold], covered: float) -> Iterator[Demand]:
    for n, hold in enumerate(holds):
        for sign, kind, limit in ((1, "held_low", hold.low), (-1, "held_high", hold.high)):
            if limit is not None:
                group = Group(2 + 2 * n + (sign < 0), kind, hold.path, hold.id, limit)
                yield from (Demand(group, at, sign, limit - covered) for at in hold.places)


def _frame(figure: Figure, heights: Iterable[float]) -> Frame:
    x, y = centroid_of(figure)
    scale = max(math.dist((x, y), corner) for corner in figure.outer)
    return Frame((x, y), scale, max(heights))


def centroid_of(figure: Figure) -> Point:
    """Where the room's area balances, cutouts taken out; exact, and as exact far from the origin."""
    x, y = figure.outer[0]
    area = figure.area * 1e6
    across, up = (math.fsum(integral_over(ring, plane) for ring in figure.rings) for plane in _levers(x, y))
    return x + across / area, y + up / area


def _levers(x: float, y: float) -> tuple[Plane, Plane]:
    return Plane(-x, 1.0, 0.0), Plane(-y, 0.0, 1.0)
