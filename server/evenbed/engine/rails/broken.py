"""What rails break that a person placed: told where the drawing shows it, never mended behind their back."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.geometry import boxes_meet, crossing_of, nearest_on_segment
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.lines import LEAST_RAIL, Floor, Piece
from evenbed.engine.rails.trimming import needless

HAND_BREADTH = 100.0  # mm between rails that a trowel needs; common practice, no source
MOST_JUDGED = 20_000  # stretches of rails: beyond this nobody reads which of them are needless
TOLD_BEYOND = 1.0  # mm: what a drawing on a phone cannot show is not told
_Named = tuple[Layout, Piece]


def as_placed_cautions(layouts: Sequence[Layout], design: RailDesign) -> Iterator[Caution]:
    """What is wrong with rails as placed, each at `rails[n]`, n counting the rails of all layouts, or at `rails`."""
    if not design.lines:
        yield caution_at("rails", "no_rails_placed")
        return
    rails = [(layout, piece) for layout in layouts for piece in layout.pieces]
    yield from _cut_off(rails, design)
    yield from _pairs(layouts)
    yield from _needless(layouts)
    for n, (layout, piece) in enumerate(rails):
        yield from _at_walls(f"rails[{n}]", layout.floor, piece, design)
        if piece.length < LEAST_RAIL - TOLD_BEYOND:
            yield caution_at(f"rails[{n}]", "rail_short", rail=piece.id, length=piece.length, least=LEAST_RAIL)


def _cut_off(rails: Sequence[_Named], design: RailDesign) -> Iterator[Caution]:
    """Lines of which some or all lies outside the floor or in a fixture."""
    kept: dict[int, float] = {}
    first: dict[int, int] = {}
    for n, (_, piece) in enumerate(rails):
        kept[piece.line] = kept.get(piece.line, 0.0) + piece.length
        first.setdefault(piece.line, n)
    for line, placed in enumerate(design.lines or ()):
        cut = math.dist(placed.start, placed.end) - kept.get(line, 0.0)
        if line not in first:
            yield caution_at("rails", "rail_outside", rail=placed.id or str(line + 1))
        elif cut > TOLD_BEYOND:
            name = placed.id or rails[first[line]][1].id
            yield caution_at(f"rails[{first[line]}]", "rail_cut_off", rail=name, cut=cut)


def _pairs(layouts: Sequence[Layout]) -> Iterator[Caution]:
    """Neighbours that the straightedge does not span along a rail's length at least, and such as leave no room."""
    first = 0
    for layout in layouts:
        shared: dict[tuple[int, int], float] = defaultdict(float)
        for cross in layout.crosses:
            for pair in pairwise(cross.rails):
                shared[pair] += cross.end - cross.start
        for (a, b), length in shared.items():
            yield from _pair(f"rails[{first + a}]", layout.pieces[a], layout.pieces[b], length, layout.reach.span)
        first += len(layout.pieces)


def _pair(where: str, a: Piece, b: Piece, length: float, span: float) -> Iterator[Caution]:
    gap = b.v - a.v
    if gap > span + TOLD_BEYOND and length >= LEAST_RAIL:
        yield caution_at(where, "rails_too_far", rail=a.id, other=b.id, distance=gap, most=span)
    elif gap < HAND_BREADTH - TOLD_BEYOND and length > TOLD_BEYOND:
        yield caution_at(where, "rails_too_close", rail=a.id, other=b.id, distance=gap, least=HAND_BREADTH)


def _needless(layouts: Sequence[Layout]) -> Iterator[Caution]:
    """Rails without which nothing more is left to hand work, each judged without those told before it.

    A rail that no straightedge reaches from is another matter: it serves nothing, and the others do not serve for it.
    """
    first = 0
    for layout in layouts:
        reached = _reached(layout)
        crosses = [cross._replace(rails=list(cross.rails)) for cross in layout.crosses]
        if sum(len(cross.rails) for cross in crosses) <= MOST_JUDGED:
            for i in needless(crosses, layout.pieces, layout.reach):
                code = "rail_not_needed" if i in reached else "rail_alone"
                yield caution_at(f"rails[{first + i}]", code, rail=layout.pieces[i].id)
        first += len(layout.pieces)


def _reached(layout: Layout) -> set[int]:
    """Rails from which a straightedge reaches to another somewhere."""
    pairs = (pair for cross in layout.crosses for pair in pairwise(cross.rails))
    near = (pair for pair in pairs if layout.pieces[pair[1]].v - layout.pieces[pair[0]].v <= layout.reach.span)
    return {i for pair in near for i in pair}


def _at_walls(where: str, floor: Floor, piece: Piece, design: RailDesign) -> Iterator[Caution]:
    """A strip that would lie in a wall, or nearer to one than the perimeter joint asks; an end may come nearer."""
    half, back = design.strip.width / 2.0, floor.inset
    alongside = replace(piece, start=piece.start + back, end=piece.end - back)
    beside = _to_walls(floor, alongside) if alongside.length > 0.0 else math.inf
    nearest, least = (
        (beside, floor.inset) if beside < floor.inset - TOLD_BEYOND else (_to_walls(floor, piece), floor.end)
    )
    if beside < half - TOLD_BEYOND:
        yield caution_at(where, "rail_in_wall", rail=piece.id, distance=beside, least=half)
    elif nearest < least - TOLD_BEYOND:
        yield caution_at(where, "rail_near_wall", rail=piece.id, distance=nearest, inset=least)


def _to_walls(floor: Floor, piece: Piece) -> float:
    """From a piece to the nearest wall, of those that come as near as the inset; without end where none does."""
    a, b = (piece.start, piece.v), (piece.end, piece.v)
    grown = (piece.start - floor.inset, piece.v - floor.inset, piece.end + floor.inset, piece.v + floor.inset)
    near = (wall for wall, box in zip(floor.walls, floor.wall_boxes, strict=True) if boxes_meet(box, grown))
    return min((_distance(wall, a, b) for wall in near), default=math.inf)


def _distance(wall: tuple[float, float, float, float], a: Point, b: Point) -> float:
    """From a wall to the segment ab; 0 where they meet."""
    p, q = wall[:2], wall[2:]
    if crossing_of(p, q, a, b):
        return 0.0
    pairs = ((p, a, b), (q, a, b), (a, p, q), (b, p, q))
    return min(math.dist(at, nearest_on_segment(one, other, at)) for at, one, other in pairs)
