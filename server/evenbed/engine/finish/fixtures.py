"""What the finished floor makes of drains, flanges and posts: its height beside theirs."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Covering, Fixture
from evenbed.engine.finish.doorways import worst_of
from evenbed.engine.finish.stretches import Stretch
from evenbed.engine.ground import Ground
from evenbed.engine.top.facets import BedTop


@dataclass(frozen=True)
class FixtureHeight:
    """One fixture and the finished floor at it; of a linear drain the worst place along it."""

    id: str = described(about="The fixture's id")
    kind: str = described(about="`drain`, `flange` or `post`")
    at: Point = height(about="Where it stands")
    finished_height: float = height(about="Top of tile there, z")
    difference: float | None = height(
        about="Finished floor less the fixture's height: negative where the fixture stands above the floor"
    )
    bed_thickness: float = height(about="Least thickness of the bed there")
    height: float | None = height(about="Height of its top, z; null where it is unknown")


def fixtures_from(
    fixtures: tuple[Fixture, ...], ground: Ground, top: BedTop, covering: Covering
) -> tuple[FixtureHeight, ...]:
    """The finished floor at each fixture."""
    cover = covering.bond_thickness + covering.tile_thickness
    return tuple(_fixture(fixture, ground, top, cover) for fixture in fixtures)


def _fixture(fixture: Fixture, ground: Ground, top: BedTop, cover: float) -> FixtureHeight:
    stretch = Stretch(fixture.at, fixture.to or fixture.at, top)
    low, high = (z + cover for z in (min(stretch.heights), max(stretch.heights)))
    own = fixture.height
    difference = None if own is None else worst_of(low - own, high - own)
    return FixtureHeight(
        id=fixture.id,
        kind=fixture.kind,
        at=fixture.at,
        height=own,
        finished_height=low if own is None or difference is None else own + difference,
        difference=difference,
        bed_thickness=stretch.least_thickness(ground),
    )
