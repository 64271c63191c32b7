"""Places along the edges of the floor: doorways, corners, walls, and round what stands in it."""

import math
from collections.abc import Iterator, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Fixture, Opening
from evenbed.engine.geometry import Ring, between, edge_of
from evenbed.engine.walk.room import FOOT, Floor
from evenbed.engine.walk.shapes import WalkPlace

INSETS = (75.0, 50.0, FOOT)  # mm off a wall: clear of its debris, nearer where the room is narrow; no source
FAR_FROM_CORNER = 300.0  # mm: a place farther from a sharp corner no longer tells of it; common practice, no source
WIDE_DOORWAY = 900.0  # mm: a wider one is read in its middle too; common practice, no source
NARROW_DOORWAY = 400.0  # mm: a narrower one is read in its middle only; common practice, no source
NO_CORNER = 0.2  # sine of the turn below which a corner is a wall that goes on


def doorway_places(floor: Floor, openings: Sequence[Opening]) -> Iterator[WalkPlace]:
    """Just inside both jambs of each doorway, and in its middle where it is wide."""
    for n, opening in enumerate(openings):
        name = opening.id or f"o{n + 1}"
        for letter, along in _across(opening):
            at = _off_wall(floor, edge_of(floor.walls, opening.wall), along, floor.room_is_left)
            if at is not None:
                yield WalkPlace(f"door-{name}-{letter}", at, "doorway")


def _across(opening: Opening) -> list[tuple[str, float]]:
    """Where along its wall a doorway is read."""
    width, middle = opening.end - opening.start, (opening.start + opening.end) / 2
    if width < NARROW_DOORWAY:
        return [("m", middle)]
    jambs = [("a", opening.start + INSETS[0]), ("b", opening.end - INSETS[0])]
    return [*jambs, ("m", middle)] if width > WIDE_DOORWAY else jambs


def corner_places(floor: Floor) -> Iterator[WalkPlace]:
    """A foot's reach inside every corner of the room."""
    yield from _corners(floor, floor.walls, floor.room_is_left, "corner")


def cutout_places(floor: Floor) -> Iterator[WalkPlace]:
    """Beside the corners of every cutout."""
    for n, hole in enumerate(floor.figure.holes):
        yield from _corners(floor, hole, True, f"cutout-{n}")


def _corners(floor: Floor, ring: Ring, is_left: bool, name: str) -> Iterator[WalkPlace]:
    for n in range(len(ring)):
        at = _off_corner(floor, ring, n, is_left)
        if at is not None:
            yield WalkPlace(f"{name}-{n}", at, "corner")


def _off_corner(floor: Floor, ring: Ring, n: int, is_left: bool) -> Point | None:
    """As far off both walls of a corner as it can be, yet not far from the corner; None where no foot can stand."""
    offs = ((inset, _where_offsets_meet(ring, n, inset if is_left else -inset)) for inset in INSETS)
    open_ones = [at for inset, at in offs if floor.holds(at, inset - 1.0)]
    near = [at for at in open_ones if math.dist(at, ring[n]) <= FAR_FROM_CORNER]
    return near[0] if near else open_ones[-1] if open_ones else None


def _where_offsets_meet(ring: Ring, n: int, inset: float) -> Point:
    """The place `inset` mm left of both walls of corner n; beside the corner where they run straight on."""
    corner = ring[n]
    before, after = _unit(ring[n - 1], corner), _unit(*edge_of(ring, n))
    sine = before[0] * after[1] - before[1] * after[0]
    if abs(sine) < NO_CORNER:
        return corner[0] - after[1] * inset, corner[1] + after[0] * inset
    reach = inset / sine
    return corner[0] + (after[0] - before[0]) * reach, corner[1] + (after[1] - before[1]) * reach


def _unit(p: Point, q: Point) -> Point:
    long = math.dist(p, q)
    return (q[0] - p[0]) / long, (q[1] - p[1]) / long


def wall_places(floor: Floor, spacing: float) -> Iterator[WalkPlace]:
    """Along every wall between its corners, no farther apart than `spacing`."""
    for n in range(len(floor.walls)):
        wall = edge_of(floor.walls, n)
        reach = math.dist(*wall) - 2 * INSETS[0]
        count = math.ceil(reach / spacing)
        for k in range(1, count):
            at = _off_wall(floor, wall, INSETS[0] + reach * k / count, floor.room_is_left)
            if at is not None:
                yield WalkPlace(f"wall-{n}-{k}", at, "wall")


def _off_wall(floor: Floor, wall: tuple[Point, Point], along: float, is_left: bool) -> Point | None:
    """The place off a wall, `along` mm from its beginning; None where no foot can stand."""
    ux, uy = _unit(*wall)
    x, y = between(*wall, along / math.dist(*wall))
    for inset in INSETS:
        off = inset if is_left else -inset
        if floor.holds((x - uy * off, y + ux * off), inset - 1.0):
            return x - uy * off, y + ux * off
    return None


def fixture_places(floor: Floor, fixtures: Sequence[Fixture]) -> Iterator[WalkPlace]:
    """On two sides of each drain, flange or post: opposite ones where both are open."""
    cos, sin = floor.frame.cos, floor.frame.sin
    for n, fixture in enumerate(fixtures):
        reach = fixture.radius + INSETS[0]
        sides = [(cos, sin), (-cos, -sin), (-sin, cos), (sin, -cos)]
        ways = [(fixture.at[0] + dx * reach, fixture.at[1] + dy * reach) for dx, dy in sides]
        open_ones = [(side, at) for side, at in enumerate(ways) if floor.holds(at)]
        for side, at in open_ones[:2]:
            yield WalkPlace(f"fixture-{fixture.id or f'f{n + 1}'}-{side}", at, "fixture")
