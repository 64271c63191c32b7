"""What kind of place a hand area is, told by what stands round it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import edges_of, nearest_on_segment
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.cover import BAND, Cell
from evenbed.engine.rails.hand import Place
from evenbed.engine.rails.shapes import HandKind

TOUCHES = 1.0  # mm: what is nearer to each other than this lies side by side
HALF = 0.5  # of a doorway lies at a place, or of its depth is walled in on both sides
DOORS = 2.0  # a place at a doorway is no larger than so many widths of it

Doorway = tuple[Point, Point]


@dataclass(frozen=True)
class Ends:
    """What meets a place along the rails: whether rails end there, and what lies beyond its beginning and its end.

    `served` are mm of each that a straightedge serves beyond, `walled` mm beyond which there is no floor.
    """

    has_rails: bool
    served: tuple[float, float]
    walled: tuple[float, float]


def kind_of(place: Place, ends: Ends, layout: Layout, doorways: Sequence[Doorway]) -> HandKind:
    """The kind of one place; `doorways` are in the rails' frame."""
    if not layout.pieces:
        return _by_width(place, layout)
    return _kind_by_what_stands_there(place, layout, doorways) or _kind_by_rails(place, ends, layout)


def _kind_by_what_stands_there(place: Place, layout: Layout, doorways: Sequence[Doorway]) -> HandKind | None:
    if any(cell.is_posted for cell in place.cells) or _is_at_cutout(place, layout):
        return "behind_fixture"
    return "doorway" if any(_is_at_doorway(place, doorway) for doorway in doorways) else None


def _kind_by_rails(place: Place, ends: Ends, layout: Layout) -> HandKind:
    if _is_strip(place, layout):
        return "beside_wall"
    if ends.has_rails and place.end - place.start <= layout.reach.margin + TOUCHES:
        return "rail_end"
    if _has_rails_too_far_apart(place, layout):
        return "between"
    if place.cells[0].below is None and place.cells[0].above is None:
        return _open_to_the_walls(place, ends, layout)
    return _beside_rail(place, ends)


def _is_strip(place: Place, layout: Layout) -> bool:
    """Whether it is the ordinary strip between a rail and a wall."""
    return max(_depth(cell) for cell in place.cells) <= layout.reach.margin + TOUCHES


def _depth(cell: Cell) -> float:
    """How far it reaches from the one rail beside it to the wall; without end where there is none, or two."""
    if cell.below is not None and cell.above is None:
        return max(cell.high[:2]) - cell.below
    if cell.above is not None and cell.below is None:
        return cell.above - min(cell.low[:2])
    return math.inf


def _has_rails_too_far_apart(place: Place, layout: Layout) -> bool:
    """Whether most of it lies between two rails or runs past one that no straightedge reaches from the next."""
    found = math.fsum(cell.area for cell in place.cells if _rails_at(cell, layout) > 1)
    return found > HALF * place.area


def _rails_at(cell: Cell, layout: Layout) -> int:
    vs = [layout.pieces[i].v for i in layout.crosses[cell.number].rails]
    inside = sum(min(cell.low[:2]) < v < max(cell.high[:2]) for v in vs)
    return inside + (cell.below is not None) + (cell.above is not None)


def _open_to_the_walls(place: Place, ends: Ends, layout: Layout) -> HandKind:
    """From wall to wall, with one rail or none."""
    if place.high - place.low <= 2.0 * layout.reach.margin:
        return "narrow"
    if (ends.served[0] > 0.0) != (ends.served[1] > 0.0):
        return "alcove"
    return "rail_end" if ends.has_rails else _by_width(place, layout)


def _by_width(place: Place, layout: Layout) -> HandKind:
    """A place without two rails: narrow where none would find room, else out of reach of two that there are."""
    width = min(place.high - place.low, place.end - place.start)
    return "narrow" if width <= 2.0 * layout.reach.margin else "between"


def _beside_rail(place: Place, ends: Ends) -> HandKind:
    """Between a rail and a wall, deeper than an ordinary strip."""
    if ends.has_rails and max(ends.served) > 0.0:
        return "rail_end"
    deep = HALF * max(_height(cell, end) for cell in place.cells for end in (0, 1))
    return "alcove" if min(ends.walled) >= deep else "beside_wall"


def _height(cell: Cell, end: int) -> float:
    return cell.high[end] - cell.low[end]


def _is_at_cutout(place: Place, layout: Layout) -> bool:
    """Whether cutouts take up most of its sides, or stand in the way at its ends."""
    outer = layout.floor.outer_walls
    sides = [(cell, side.wall) for cell in place.cells for side in (cell.low, cell.high) if side.wall != BAND]
    at_walls = sum(cell.end - cell.start for cell, wall in sides if wall < outer)
    at_cutouts = sum(cell.end - cell.start for cell, wall in sides if wall >= outer)
    return at_cutouts > at_walls or (at_cutouts == 0.0 and _is_ended_by_cutout(place, layout))


def _is_ended_by_cutout(place: Place, layout: Layout) -> bool:
    return any(
        low < place.high
        and high > place.low
        and (abs(start - place.end) < TOUCHES or abs(end - place.start) < TOUCHES)
        for start, low, end, high in layout.floor.cutout_boxes
    )


def _is_at_doorway(place: Place, doorway: Doorway) -> bool:
    """Whether half the doorway lies on its ring, and it is no larger than a doorway makes it."""
    a, b = doorway
    width = abs(b[0] - a[0]) + abs(b[1] - a[1])
    if max(place.end - place.start, place.high - place.low) > DOORS * width:
        return False
    tenths = [(a[0] + (b[0] - a[0]) * (n + 0.5) / 10.0, a[1] + (b[1] - a[1]) * (n + 0.5) / 10.0) for n in range(10)]
    return sum(_is_on(place, at) for at in tenths) >= HALF * len(tenths)


def _is_on(place: Place, at: Point) -> bool:
    return any(_is_close(nearest_on_segment(p, q, at), at) for p, q in edges_of(place.ring))


def _is_close(one: Point, other: Point) -> bool:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) < TOUCHES
