"""What the top makes of each doorway: the finished height there, and the step to the floor beyond."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Covering, Opening
from evenbed.engine.outline import Figure, middle_of_opening
from evenbed.engine.top.facets import BedTop

FLUSH = 1.0  # mm: less than this nobody feels
ROUNDING = 1e-6  # mm by which a step may pass its class through rounding alone
UPRIGHT, BEVELLED = 6.35, 12.7  # mm: 1/4 in and 1/2 in, changes in level, ADA 2010 Standards section 303


@dataclass(frozen=True)
class Doorway:
    """What the top makes of one doorway, at the middle of its opening."""

    id: str = described(about="The opening's id")
    at: Point = height(about="Middle of the opening")
    finished_height: float = height(about="Top of tile, z")
    step: float | None = height(about="Finished floor less the floor beyond, null where that is unknown")
    kind: str | None = described(about="`flush`, `upright`, `bevelled` or `ramp`; null where the step is unknown")


def doorways_from(
    openings: tuple[Opening, ...], figure: Figure, top: BedTop, covering: Covering
) -> tuple[Doorway, ...]:
    """The finished height at each doorway and the step to the floor beyond, classed by ADA 2010 section 303."""
    return tuple(_doorway(o, figure, top, covering) for o in openings)


def _doorway(opening: Opening, figure: Figure, top: BedTop, covering: Covering) -> Doorway:
    at = middle_of_opening(opening, figure.vertices)
    finished = top.at(*at) + covering.bond_thickness + covering.tile_thickness
    beyond = opening.adjoining_height
    step = None if beyond is None else finished - beyond
    return Doorway(opening.id, at, finished, step, None if step is None else kind_of_step(step))


def kind_of_step(step: float) -> str:
    """The published class of a change in level: upright to 1/4 in, bevelled to 1/2 in, a ramp beyond."""
    size = abs(step) - ROUNDING
    if size < FLUSH:
        return "flush"
    if size <= UPRIGHT:
        return "upright"
    return "bevelled" if size <= BEVELLED else "ramp"
