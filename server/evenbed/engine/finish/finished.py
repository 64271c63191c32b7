"""The finished floor of one room, and what must be said of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.bed import Thickness
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.room import Document
from evenbed.engine.finish.doorways import Doorway, doorways_from
from evenbed.engine.finish.fixtures import FixtureHeight, fixtures_from
from evenbed.engine.finish.layers import Layer, layers_from
from evenbed.engine.ground import Ground
from evenbed.engine.top.facets import BedTop

TIGHT = 3.0  # mm under a door: less drags on a grain of sand; common practice, no source
LOW = 3.0  # mm that a drain or flange may lie under the finished floor unremarked; common practice, no source
ROUNDING = 1e-6  # mm


@dataclass(frozen=True)
class Finished:
    """The finished floor at doorways and fixtures, and what lies between it and the subfloor."""

    doorways: tuple[Doorway, ...]
    fixtures: tuple[FixtureHeight, ...]
    layers: tuple[Layer, ...]

    @property
    def cautions(self) -> Iterator[Caution]:
        """Doors that drag, drains and flanges that stand proud of the floor or lie low in it."""
        for door in self.doorways:
            yield from _door_cautions(door)
        for fixture in self.fixtures:
            if fixture.kind != "post":
                yield from _fixture_cautions(fixture)


def finished_from(document: Document, ground: Ground, top: BedTop, thickness: Thickness) -> Finished:
    """The finished floor over a top."""
    covering = document.bed.covering
    return Finished(
        doorways_from(document.openings, ground, top, covering),
        fixtures_from(document.fixtures, ground, top, covering),
        layers_from(document, thickness),
    )


def _door_cautions(door: Doorway) -> Iterator[Caution]:
    if door.clearance is None or door.clearance >= TIGHT - ROUNDING:
        return
    if door.clearance < -ROUNDING:
        yield caution_at("bed.doorways", "door_blocked", id=door.id, by=-door.clearance)
    else:
        yield caution_at("bed.doorways", "door_tight", id=door.id, clearance=max(0.0, door.clearance))


def _fixture_cautions(fixture: FixtureHeight) -> Iterator[Caution]:
    if fixture.difference is None:
        return
    if fixture.difference < -ROUNDING:
        yield caution_at("bed.fixtures", "fixture_proud", id=fixture.id, by=-fixture.difference)
    elif fixture.difference > LOW + ROUNDING:
        yield caution_at("bed.fixtures", "fixture_low", id=fixture.id, by=fixture.difference)
