"""What rails break that a person placed: told where the drawing shows it, never mended behind their back."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.geometry import crossing_of, nearest_on_segment
from evenbed.engine.rails.choice import CLEAR_AT_END, Layout
from evenbed.engine.rails.lines import LEAST_RAIL, Floor, Piece

TOLD_BEYOND = 1.0  # mm: what a drawing on a phone cannot show is not told
_Named = tuple[Layout, Piece]


def as_placed_cautions(layouts: Sequence[Layout], design: RailDesign) -> Iterator[Caution]:
    """What is wrong with rails as placed, each at `rails[n]`, n counting the rails of all layouts, or at `rails`."""
    if not design.lines:
        yield caution_at("rails", "no_rails_placed")
        return
    rails = [(layout, piece) for layout in layouts for piece in layout.pieces]
    yield from _cut_off(rails, design)
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


def _at_walls(where: str, floor: Floor, piece: Piece, design: RailDesign) -> Iterator[Caution]:
    """A strip that would lie in a wall, or nearer to one than the perimeter joint asks; an end may come nearer."""
    half = design.strip.width / 2.0
    at_ends, back = half + CLEAR_AT_END, min(floor.inset, piece.length / 2.0)
    alongside = _to_walls(floor, replace(piece, start=piece.start + back, end=piece.end - back))
    least = floor.inset if alongside < floor.inset - TOLD_BEYOND else at_ends
    nearest = alongside if least == floor.inset else _to_walls(floor, piece)
    if alongside < half - TOLD_BEYOND:
        yield caution_at(where, "rail_in_wall", rail=piece.id, distance=alongside, least=half)
    elif nearest < least - TOLD_BEYOND:
        yield caution_at(where, "rail_near_wall", rail=piece.id, distance=nearest, inset=least)


def _to_walls(floor: Floor, piece: Piece) -> float:
    a, b = (piece.start, piece.v), (piece.end, piece.v)
    return min(_distance(wall, a, b) for wall in floor.walls)


def _distance(wall: tuple[float, float, float, float], a: Point, b: Point) -> float:
    """From a wall to the segment ab; 0 where they meet."""
    p, q = wall[:2], wall[2:]
    if crossing_of(p, q, a, b):
        return 0.0
    pairs = ((p, a, b), (q, a, b), (a, p, q), (b, p, q))
    return min(math.dist(at, nearest_on_segment(one, other, at)) for at, one, other in pairs)
