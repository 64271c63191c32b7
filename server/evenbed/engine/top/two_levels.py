"""Two levels with a ramp between: the left one, the ramp on the right of its line, and the right one beyond it."""

import math
from collections.abc import Iterator

from evenbed.engine.bed import Mortar
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.tops import TwoLevelTop
from evenbed.engine.finish.steps import UPRIGHT
from evenbed.engine.geometry import Plane, Ring
from evenbed.engine.ground import Ground
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.region import Region, split_by_line
from evenbed.engine.sources import explanation_of
from evenbed.engine.top.designed import STEEPEST, DesignedTop
from evenbed.engine.top.facets import BedTop, Cell, side_of
from evenbed.engine.top.savings import Relief, requirements_from

SHORTEST = 1.0  # mm: a shorter line is a tap, not a line
RAMP = 1 / 12  # the steepest ramp: ADA 2010 Standards section 405.2
ROUNDING = 1e-9  # relative: a ramp of 1:12 sharp is none that is too steep
FLAT = Plane(1.0, 0.0, 0.0)
NONE = Plane(0.0, 0.0, 0.0)


def two_levels(top: TwoLevelTop, ground: Ground) -> DesignedTop:
    """The two levels. Raises BadDocumentError for a line of no length or beside the room, and a ramp too steep."""
    p, q = top.line
    if math.dist(p, q) < SHORTEST:
        raise BadDocumentError([problem_at("bed.top.line", "profile_no_length")])
    slope = abs(top.right - top.left) / top.ramp if top.ramp > 0 else 0.0
    if slope > STEEPEST:
        raise BadDocumentError([problem_at("bed.top.ramp", "top_too_steep", slope=round(slope, 3), most=STEEPEST)])
    bed, shares = _cells(top, ground.figure.outer)
    lefts = tuple(FLAT.minus(share) for share in shares)
    reliefs = [
        Relief("given_height", "bed.top.left", top.left, lefts),
        Relief("given_height", "bed.top.right", top.right, shares),
    ]
    why = explanation_of("top_two_levels", left=top.left, right=top.right, ramp=top.ramp, slope=slope)
    mortar = Mortar(ground, bed)
    return DesignedTop(mortar, requirements_from(mortar, reliefs), why, tuple(_cautions(top, slope)))


def _cells(top: TwoLevelTop, outer: Ring) -> tuple[BedTop, tuple[Plane, ...]]:
    """The cells that the room has of the three, and what share of the right level each takes."""
    left = side_of(*top.line)
    right = Plane(-left.a, -left.b, -left.c)
    beyond = Plane(right.a - top.ramp, right.b, right.c)
    within = Plane(-beyond.a, -beyond.b, -beyond.c)
    lefts, rights = split_by_line([Region(outer)], top.line[0], _way(*top.line))
    if not lefts or not rights:
        raise BadDocumentError([problem_at("bed.top.line", "top_line_misses")])
    ramps, rests = split_by_line(rights, _moved(top), _way(*top.line)) if top.ramp > 0 else ((), rights)
    rise = Plane(right.a / top.ramp, right.b / top.ramp, right.c / top.ramp) if top.ramp > 0 else NONE
    rows = [(NONE, (left,), lefts), (rise, (right, within), ramps), (FLAT, (beyond,), rests)]
    kept = [(share, keep, regions) for share, keep, regions in rows if regions]
    cells = (Cell(_between(top, share), keep, tuple(r.outer for r in regions)) for share, keep, regions in kept)
    return BedTop(tuple(cells)), tuple(share for share, _, _ in kept)


def _way(p: Point, q: Point) -> Point:
    return q[0] - p[0], q[1] - p[1]


def _moved(top: TwoLevelTop) -> Point:
    """A point of the line where the ramp ends."""
    (px, py), (dx, dy) = top.line[0], _way(*top.line)
    share = top.ramp / math.hypot(dx, dy)
    return px + share * dy, py - share * dx


def _between(top: TwoLevelTop, share: Plane) -> Plane:
    rise = top.right - top.left
    return Plane(top.left + rise * share.a, rise * share.b, rise * share.c)


def _cautions(top: TwoLevelTop, slope: float) -> Iterator[Caution]:
    rise = abs(top.right - top.left)
    if slope > RAMP * (1 + ROUNDING):
        yield caution_at("bed.top", "steep_ramp", run=1 / slope, rise=rise, needed=rise / RAMP)
    if top.ramp == 0 and rise > UPRIGHT:
        yield caution_at("bed.top", "step_in_floor", rise=rise)
