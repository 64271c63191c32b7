"""Rooms with their rails and sections, and the plain shapes that the tests of both measure against."""

from dataclasses import dataclass, replace
from functools import cache, cached_property

from shapely import Polygon
from tests.rooms import Room, cutouts_of, outline_of, random_room

from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Fixture, Opening
from evenbed.engine.filling.sections import WayOut, way_out_from
from evenbed.engine.geometry import Ring
from evenbed.engine.outline import ends_of_opening
from evenbed.engine.rails.areas import HandPlan, hand_plan_of
from evenbed.engine.rails.laid import RailPlan, rails_from
from evenbed.engine.region import Region
from evenbed.engine.touching import regions_of_room

END = 25.0 + 38.1 / 2.0  # mm from a rail's end to the wall that it runs up to
STRIP_ALWAYS_FITS = 40.0  # mm over a flat floor: every shim is positive


@dataclass(frozen=True)
class Case:
    """A room as the modules under test take it."""

    vertices: Ring
    regions: tuple[Region, ...]
    design: RailDesign
    fixtures: tuple[Fixture, ...] = ()
    openings: tuple[Opening, ...] = ()

    @property
    def way_out(self) -> WayOut:
        return way_out_from(self.openings, self.vertices)

    @property
    def shapes(self) -> list[Polygon]:
        return [Polygon(region.outer, region.holes) for region in self.regions]

    @cached_property
    def rails(self) -> RailPlan:
        exits = self.way_out.exits
        return rails_from(self.regions, self.fixtures, self.design, exits, subfloor=flat, top=high_enough)

    @cached_property
    def hand(self) -> HandPlan:
        """What no straightedge on the rails proposed serves."""
        doorways = [ends_of_opening(opening, self.vertices) for opening in self.openings]
        return hand_plan_of(self.rails.layouts, self.design, doorways)


def flat(_x: float, _y: float) -> float:
    return 0.0


def high_enough(_x: float, _y: float) -> float:
    return STRIP_ALWAYS_FITS


def case_of(room: Room) -> Case:
    vertices = outline_of(room)
    design = RailDesign(**room.get("rails", {}))
    openings = tuple(
        Opening(wall=door["wall"], start=door["from"], end=door["to"], id=door["id"], exit=door["exit"])
        for door in room["openings"]
    )
    return Case(vertices, regions_of_room(vertices, cutouts_of(room)), design, (), openings)


@cache
def random_case(seed: int) -> Case:
    return case_of(random_room(seed))


@cache
def random_rails(seed: int) -> RailPlan:
    return random_case(seed).rails


def plain_case(outline: Ring, *holes: Ring, **design: object) -> Case:
    """A room of this outline with the usual tools, changed as named."""
    tools = replace(RailDesign(), **design)  # type: ignore[arg-type]
    return Case(outline, regions_of_room(outline, holes), tools)


def rectangle(width: float, depth: float) -> Ring:
    return ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
