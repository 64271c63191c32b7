"""Where joints run in a room and what panels they leave."""

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial

from evenbed.engine.document.places import Point
from evenbed.engine.frame import Frame
from evenbed.engine.geometry import Ring, edges_of, signed_area
from evenbed.engine.joints.corners import cut_at_corners, cut_through_holes, inside_corners_of
from evenbed.engine.joints.rules import Rules, Stretch, merged
from evenbed.engine.joints.shapes import FieldJoint, Panel
from evenbed.engine.joints.slab import cut_at_slab_joint
from evenbed.engine.joints.spacing import count_between, cut_to_spacing
from evenbed.engine.region import Region

MOST_PANELS = 600  # a floor in more panels than this is laid out in parts

_Cutter = Callable[[Region], tuple[list[Region], list[Stretch]]]


@dataclass(frozen=True)
class Layout:
    """Joints and panels on the drawing.

    `passed` counts the slab's joints that do not run through the room, `left` the inside corners that no joint meets;
    `is_too_much` tells a floor of so many panels that only the slab's joints are laid out.
    """

    joints: tuple[FieldJoint, ...]
    panels: tuple[Panel, ...]
    passed: int
    left: int
    is_too_much: bool

    @property
    def longest(self) -> float:
        """The longest side of any panel, mm."""
        return max((panel.length for panel in self.panels), default=0.0)


def frame_of(vertices: Ring) -> tuple[Frame, Point]:
    """The joints' frame, along the longest wall with the room to its left, and the corner where that wall begins.

    Of walls of one length the first in the outline's own order counts.
    """
    a, b = max(edges_of(vertices), key=lambda wall: round(math.dist(*wall), 3))
    if signed_area(vertices) < 0.0:
        a, b = b, a
    size = math.dist(a, b)
    cos, sin = (b[0] - a[0]) / size, (b[1] - a[1]) / size
    frame = Frame(math.degrees(math.atan2(sin, cos)) % 360.0, cos, sin)
    return frame, frame.turned(a)


def layout_from(
    regions: Iterable[Region], frame: Frame, slab_joints: Iterable[tuple[Point, Point]], rules: Rules
) -> Layout:
    """Joints of the slab first, then those from inside corners and through cutouts, then what the spacing asks for.

    `regions` and `slab_joints` are on the drawing; `rules` in the frame.
    """
    panels = [frame.turned_region(region) for region in regions]
    corners = inside_corners_of(ring for region in panels for ring in region.rings)
    left = inside_corners_of(region.outer for region in panels)
    stretches: list[Stretch] = []
    passed = 0
    for a, b in slab_joints:
        before = len(stretches)
        joint = (frame.turned(a), frame.turned(b))
        panels = _cut(panels, partial(cut_at_slab_joint, joint=joint, near=rules.near), stretches)
        passed += len(stretches) == before
    is_too_much = sum(_panels_in(region, rules.most) for region in panels) > MOST_PANELS
    if not is_too_much:
        panels = _cut(panels, partial(cut_at_corners, near=rules.near, corners=corners), stretches)
        panels = _cut(panels, partial(cut_through_holes, near=rules.near), stretches)
        panels = _cut(panels, partial(cut_to_spacing, rules=rules, others=stretches), stretches)
    left = tuple(at for at in left if not any(one.meets(at) for one in stretches))
    joints = tuple(_joint(n, one, frame, rules) for n, one in enumerate(merged(stretches), start=1))
    return Layout(joints, tuple(_panel(region, frame) for region in panels), passed, len(left), is_too_much)


def _cut(panels: Iterable[Region], cutter: _Cutter, into: list[Stretch]) -> list[Region]:
    """Every panel cut in turn, the joints added to those there are."""
    pieces: list[Region] = []
    for region in panels:
        parts, found = cutter(region)
        pieces += parts
        into += found
    return pieces


def _panels_in(region: Region, most: float) -> int:
    low_u, low_v, high_u, high_v = region.box
    return count_between(low_u, high_u, most) * count_between(low_v, high_v, most)


def _joint(n: int, one: Stretch, frame: Frame, rules: Rules) -> FieldJoint:
    start, end = (frame.placed(*one.line.at(along)) for along in one.reach)
    off = None if one.kind == "slab" else rules.off_module(one.line)
    return FieldJoint(f"J{n}", start, end, one.kind, one.why, off)


def _panel(region: Region, frame: Frame) -> Panel:
    low_u, low_v, high_u, high_v = region.box
    width, length = sorted((high_u - low_u, high_v - low_v))
    holes = tuple(frame.placed_ring(hole) for hole in region.holes)
    return Panel(frame.placed_ring(region.outer), holes, width, length)
