"""Joints of the slab below, carried through the bed and the tile where they are."""

import math
from collections.abc import Iterator, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.joints.lines import Line, cut_along, inner_chords, spans, within
from evenbed.engine.joints.rules import Stretch
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.region import Interval, Region

LEAST_JOINT = 1.0  # mm between its ends
TO_THE_WALL = 50.0  # mm: how well an end that was pointed at meets a wall or another joint


def check_slab_joints(joints: Sequence[tuple[Point, Point]]) -> list[Problem]:
    """Joints of the slab whose ends are one place."""
    return [
        problem_at(f"joints.slab_joints[{n}]", "slab_joint_empty")
        for n, (a, b) in enumerate(joints)
        if math.dist(a, b) < LEAST_JOINT
    ]


def cut_at_slab_joint(region: Region, joint: tuple[Point, Point], near: float) -> tuple[list[Region], list[Stretch]]:
    """The region cut along a joint of the slab; where that ends amid the floor it is carried on straight.

    A joint of which less than `near` lies in the region, and less than half the way across, does not cut it.
    """
    length = math.dist(*joint)
    (ax, ay), (bx, by) = joint
    line = Line(joint[0], ((bx - ax) / length, (by - ay) / length))
    return _cut(region, line, length, near)


def _cut(region: Region, line: Line, length: float, near: float) -> tuple[list[Region], list[Stretch]]:
    for reach in spans(region, line):
        shared = min(length, reach[1]) - max(0.0, reach[0])
        parts = cut_along(region, line, reach) if shared >= min(near, (reach[1] - reach[0]) / 2.0) else ()
        if len(parts) > 1:
            chords = within(inner_chords(region, line), reach)
            return _cut_on(parts, [s for chord in chords for s in _stretches(line, chord, length)], length, near)
    return [region], []


def _cut_on(
    parts: Sequence[Region], stretches: list[Stretch], length: float, near: float
) -> tuple[list[Region], list[Stretch]]:
    panels: list[Region] = []
    for part in parts:
        pieces, more = _cut(part, stretches[0].line, length, near)
        panels += pieces
        stretches += more
    return panels, stretches


def _stretches(line: Line, chord: Interval, length: float) -> Iterator[Stretch]:
    """A chord as what the slab's joint covers and what carries it on."""
    start, end = chord
    first = start if -start <= TO_THE_WALL else min(0.0, end)
    last = end if end - length <= TO_THE_WALL else max(length, start)
    if first > start:
        yield Stretch(line, (start, first), "carried_on")
    if last > first:
        yield Stretch(line, (max(start, first), min(end, last)), "slab")
    if last < end:
        yield Stretch(line, (last, end), "carried_on")
