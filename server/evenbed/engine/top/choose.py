"""The top of bed as it is asked for, whatever its kind."""

import math

from evenbed.engine.document.room import BedDesign, Document
from evenbed.engine.document.tops import LeastTop, LevelTop, PlaneTop
from evenbed.engine.geometry import Plane, plane_through, turn_of
from evenbed.engine.ground import Ground
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.top.designed import STEEPEST, DesignedTop, minimum_thickness_of
from evenbed.engine.top.facets import whole_room
from evenbed.engine.top.least_mortar import least_mortar

ON_A_LINE = 1 / 1000  # of their length: points that stand closer to one line fix no plane


def top_from(document: Document, ground: Ground) -> DesignedTop:
    """The top of bed over the whole room.

    A level top without a height stands the minimum thickness above the subfloor's highest point. Raises
    BadDocumentError for a top that its figures do not fix, that is steeper than STEEPEST, or that cannot be.
    """
    design, top = document.bed, document.bed.top
    outer = ground.figure.outer
    if isinstance(top, LevelTop):
        return DesignedTop(whole_room(Plane(_level(design, top, ground), 0.0, 0.0), outer))
    if isinstance(top, PlaneTop):
        return DesignedTop(whole_room(_plane_from(top), outer))
    if isinstance(top, LeastTop):
        return least_mortar(document, ground, top)
    raise BadDocumentError([problem_at("bed.top.kind", "top_not_offered")])


def _level(design: BedDesign, top: LevelTop, ground: Ground) -> float:
    if top.height is not None:
        return top.height
    return ground.extremes[0][2] + minimum_thickness_of(design)


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
