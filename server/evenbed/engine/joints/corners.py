"""Joints that the room's own figure asks for: from every inside corner, and through every large cutout.

A crack starts at an inside corner: the joint stands where it would run.
"""

import math
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from operator import itemgetter

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, box_of, edges_of
from evenbed.engine.joints.lines import Line, cut_along, inner_chords, spans, within
from evenbed.engine.joints.rules import MEETING, Stretch, line_at
from evenbed.engine.region import Interval, Region

LEAST_SIDE = 300.0  # mm: a shorter jog or cutout calls for no joint of its own; common practice, no source
NEARLY_STRAIGHT = 30.0  # degrees a wall may bend and have no corner there; common practice, no source
AT_A_CORNER = 1e-6  # mm

_Cut = tuple[Line, Interval, tuple[Region, ...]]
_Ray = tuple[tuple[bool, int, float], Line, Interval]
_Cutter = Callable[[Region], tuple[list[Region], list[Stretch]]]


def inside_corners_of(rings: Iterable[Ring]) -> tuple[Point, ...]:
    """The inside corners of a room or its cutouts, before anything is cut: a cut beside one makes it no mere jog."""
    return tuple(at for ring in rings for before, at, after in _corners_of(ring) if _is_inside(before, at, after))


def cut_at_corners(region: Region, near: float, corners: tuple[Point, ...]) -> tuple[list[Region], list[Stretch]]:
    """The region cut from each of the room's inside corners the shortest way along or across.

    Never into strips under `near`.
    """
    rays = sorted(_rays(region, corners), key=itemgetter(0))
    cuts = (_made(region, line, reach) for _, line, reach in rays)
    cut = next((cut for cut in cuts if depth_of(region, cut) >= near), None)
    if cut is None:
        return [region], []
    return _all_cut(region, cut, "inside_corner", partial(cut_at_corners, near=near, corners=corners))


def cut_through_holes(region: Region, near: float) -> tuple[list[Region], list[Stretch]]:
    """The region cut through its large cutouts, along or across, as leaves the deepest panels; none under `near`."""
    holes = (hole for hole in region.holes if _longest_side(hole) >= LEAST_SIDE)
    cuts = [_made(region, line, reach) for hole in holes for line, reach in _through(region, hole)]
    cut = max(cuts, key=lambda one: depth_of(region, one), default=None)
    if cut is None or depth_of(region, cut) < near:
        return [region], []
    return _all_cut(region, cut, "cutout", partial(cut_through_holes, near=near))


def depth_of(region: Region, cut: _Cut) -> float:
    """The least mean depth of the parts beside a cut, mm; 0 where nothing is parted."""
    line, reach, parts = cut
    if len(parts) < 2:
        return 0.0
    run = math.fsum(end - start for start, end in within(inner_chords(region, line), reach))
    return min(part.area for part in parts) / max(1.0, run)


def _made(region: Region, line: Line, reach: Interval) -> _Cut:
    return line, reach, cut_along(region, line, reach)


def _all_cut(region: Region, cut: _Cut, why: str, go_on: _Cutter) -> tuple[list[Region], list[Stretch]]:
    """One cut made, and its parts cut on in the same manner."""
    line, reach, parts = cut
    stretches = [Stretch(line, chord, why) for chord in within(inner_chords(region, line), reach)]
    panels: list[Region] = []
    for part in parts:
        pieces, more = go_on(part)
        panels += pieces
        stretches += more
    return panels, stretches


def _rays(region: Region, corners: tuple[Point, ...]) -> Iterator[_Ray]:
    """Every way from an inside corner along or across to the next wall, with its rank.

    Best is one that leaves no inside corner at its beginning, then one that ends at another, then the shortest.
    """
    apart = (corner for corner in _corners_of(region.outer) if _shorter_side(*corner) > MEETING)
    own = (corner for corner in apart if any(math.dist(corner[1], at) <= AT_A_CORNER for at in corners))
    inside = [corner for corner in own if _turns_in(*corner)]
    for before, corner, after in inside:
        for line, reach, is_still_one in _rays_from(region, before, corner, after):
            ends = [line.at(along) for along in reach]
            serves = sum(any(math.dist(end, at) <= AT_A_CORNER for end in ends) for _, at, _ in inside)
            yield (is_still_one, -serves, round(reach[1] - reach[0], 3)), line, reach


def _corners_of(ring: Ring) -> Iterator[tuple[Point, Point, Point]]:
    """Every corner between the one before it and the one after it."""
    return ((ring[n - 1], at, ring[(n + 1) % len(ring)]) for n, at in enumerate(ring))


def _is_inside(before: Point, corner: Point, after: Point) -> bool:
    """True for a corner that turns into the floor between sides that are no mere jogs."""
    return _shorter_side(before, corner, after) >= LEAST_SIDE and _turns_in(before, corner, after)


def _shorter_side(before: Point, corner: Point, after: Point) -> float:
    return min(math.dist(before, corner), math.dist(corner, after))


def _turns_in(before: Point, corner: Point, after: Point) -> bool:
    """True where a ring with the floor on its left turns right by more than a bend."""
    return _opening(corner, after, before) > 180.0 + NEARLY_STRAIGHT


def _rays_from(region: Region, before: Point, corner: Point, after: Point) -> Iterator[tuple[Line, Interval, bool]]:
    whole = _opening(corner, after, before)
    for line, reach, way in _ways_from(region, corner):
        turned = _opening(corner, after, (corner[0] + way[0], corner[1] + way[1]))
        if turned < whole:
            yield line, reach, max(turned, whole - turned) > 180.0 + NEARLY_STRAIGHT


def _ways_from(region: Region, corner: Point) -> Iterator[tuple[Line, Interval, Point]]:
    """From a corner to where the region ends, both ways along and both ways across."""
    for axis in (0, 1):
        line, here = line_at(axis, corner[axis]), corner[1 - axis]
        for start, end in spans(region, line):
            if start <= here + AT_A_CORNER < end:
                yield line, (here, end), line.way
            if start < here - AT_A_CORNER <= end:
                yield line, (start, here), (-line.way[0], -line.way[1])


def _opening(corner: Point, start: Point, end: Point) -> float:
    """The angle at a corner from one side anticlockwise to another, degrees in [0, 360)."""
    a = math.atan2(start[1] - corner[1], start[0] - corner[0])
    b = math.atan2(end[1] - corner[1], end[0] - corner[0])
    return math.degrees(b - a) % 360.0


def _through(region: Region, hole: Ring) -> Iterable[tuple[Line, Interval]]:
    low_u, low_v, high_u, high_v = box_of(hole)
    middle = ((low_u + high_u) / 2.0, (low_v + high_v) / 2.0)
    for axis in (0, 1):
        line, here = line_at(axis, middle[axis]), middle[1 - axis]
        yield from ((line, reach) for reach in spans(region, line) if reach[0] < here < reach[1])


def _longest_side(ring: Ring) -> float:
    return max(math.dist(a, b) for a, b in edges_of(ring))
