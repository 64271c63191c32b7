"""The top of bed: a plane, chosen or worked out, and what it makes of each doorway."""

import math
from dataclasses import dataclass

from evenbed.engine.document.fields import described, height
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import BedDesign, Covering, LevelTop, Opening, PlaneTop
from evenbed.engine.geometry import Plane, plane_through, turn_of
from evenbed.engine.outline import Figure, middle_of_opening
from evenbed.engine.problems import BadDocumentError, problem_at

STEEPEST = 0.5  # rise over run: more is no floor
ON_A_LINE = 1 / 1000  # of their length: points that stand closer to one line fix no plane
MINIMUM_THICKNESS = {"unbonded": 31.75, "bonded": 25.4}
"""mm. Unbonded: a nominal 1 1/4 in mortar bed (tile handbooks). Bonded: 1 in, common practice, no source."""
FLUSH = 1.0  # mm: less than this nobody feels
ROUNDING = 1e-6  # mm by which a step may pass its class through rounding alone
UPRIGHT, BEVELLED = 6.35, 12.7  # mm: 1/4 in and 1/2 in, changes in level, ADA 2010 Standards section 303


@dataclass(frozen=True)
class Facet(Plane):
    """One plane of the top, z = a + b x + c y, over its polygon."""

    polygon: tuple[Point, ...] = height(about="Where it holds")


@dataclass(frozen=True)
class Doorway:
    """What the top makes of one doorway, at the middle of its opening."""

    id: str = described(about="The opening's id")
    at: Point = height(about="Middle of the opening")
    finished_height: float = height(about="Top of tile, z")
    step: float | None = height(about="Finished floor less the floor beyond, null where that is unknown")
    kind: str | None = described(about="`flush`, `upright`, `bevelled` or `ramp`; null where the step is unknown")


def minimum_thickness_of(design: BedDesign) -> float:
    """The least thickness in force: the room's own, or the default of its build."""
    own = design.minimum_thickness
    return MINIMUM_THICKNESS[design.build] if own is None else own


def top_from(design: BedDesign, highest: float, figure: Figure) -> Facet:
    """The top of bed over the whole room.

    A level top without a height stands the minimum thickness above `highest`, the subfloor's highest point. Raises
    BadDocumentError for a plane that is not given by three points off one line, or is steeper than STEEPEST, and for
    kinds of top not worked out yet.
    """
    top = design.top
    if isinstance(top, LevelTop):
        z = highest + minimum_thickness_of(design) if top.height is None else top.height
        return Facet(z, 0.0, 0.0, figure.outer)
    if isinstance(top, PlaneTop):
        plane = _plane_from(top)
        return Facet(plane.a, plane.b, plane.c, figure.outer)
    raise BadDocumentError([problem_at("bed.top.kind", "top_not_offered")])


def _plane_from(top: PlaneTop) -> Plane:
    if len(top.through) != 3:
        raise BadDocumentError([problem_at("bed.top.through", "top_needs_three", count=len(top.through))])
    p, q, r = (point[:2] for point in top.through)
    longest = max(math.dist(p, q), math.dist(q, r), math.dist(r, p))
    if abs(turn_of(p, q, r)) <= ON_A_LINE * max(1.0, longest) ** 2:
        raise BadDocumentError([problem_at("bed.top.through", "top_on_a_line")])
    plane = plane_through(*top.through)
    slope = math.hypot(plane.b, plane.c)
    if slope > STEEPEST:
        raise BadDocumentError([problem_at("bed.top.through", "top_too_steep", slope=round(slope, 3), most=STEEPEST)])
    return plane


def doorways_from(
    openings: tuple[Opening, ...], figure: Figure, top: Facet, covering: Covering
) -> tuple[Doorway, ...]:
    """The finished height at each doorway and the step to the floor beyond, classed by ADA 2010 section 303."""
    return tuple(_doorway(o, figure, top, covering) for o in openings)


def _doorway(opening: Opening, figure: Figure, top: Facet, covering: Covering) -> Doorway:
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
