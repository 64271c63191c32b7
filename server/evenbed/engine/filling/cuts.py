"""How a floor is divided into sections: along the rails' lines into bays, across them where strips are moved.

Everything here is in the rails' frame (u along, v across, mm), and exact: the pieces are the floor, no more, no less.
"""

import math
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.moves import move_of
from evenbed.engine.region import Region, chords_at, split_by_line

LEAST_DEPTH = 0.45  # share of the straightedge's span below which a bay is not cut off on its own
MUCH_SHORTER = 0.8  # a rail this much shorter than both beside it serves its own corner and parts no bay
SHALLOW = 300.0  # mm: a section is at least this deep behind a cut across the rails, where that can be had
SHIFTS = (0.0, -0.12, 0.12, -0.25, 0.25)  # where else a cut across the rails may go, in shares of a section
HOLE_CUTS = (0.5, 0.3, 0.7)  # where a cutout may be opened, in shares of its length

ALONG: Point = (1.0, 0.0)
ACROSS: Point = (0.0, 1.0)


def pieces_of(layout: Layout, strip: float, overlap: float) -> list[Region]:
    """The floor of a layout in pieces without holes, one for each fill between moves of the strips.

    These are `strip` mm long, and at each move `overlap` mm of them stay in finished bed.
    """
    move = move_of(strip, overlap)
    bays = bays_of(layout)
    return [piece for bay in bays for part in _cut_across(bay, layout, move, overlap) for piece in _opened(part)]


def bays_of(layout: Layout) -> list[Region]:
    """The floor cut along the rails' lines but the outermost; outer bays run to the walls.

    A line that would cut off a strip much narrower than a bay is passed over there.
    """
    depth = min(2.5 * layout.floor.inset, LEAST_DEPTH * layout.reach.span)
    bays = [layout.floor.region]
    for v in cut_lines(layout):
        bays = [part for bay in bays for part in _cut_if_deep(bay, (0.0, v), ALONG, depth)]
    return bays


def cut_lines(layout: Layout) -> list[float]:
    """The lines that divide the floor into bays: all but the much shorter ones that others span."""
    lengths: dict[float, float] = {}
    for piece in layout.pieces:
        lengths[piece.v] = lengths.get(piece.v, 0.0) + piece.length
    lines = sorted(lengths)
    for v in sorted(lines[1:-1], key=lambda v: (lengths[v], v)):
        n = lines.index(v)
        low, high = lines[n - 1], lines[n + 1]
        if high - low <= layout.reach.span and lengths[v] < MUCH_SHORTER * min(lengths[low], lengths[high]):
            lines.pop(n)
    return lines[1:-1]


def _cut_if_deep(region: Region, point: Point, direction: Point, depth: float) -> list[Region]:
    """The parts on both sides of a line, or the region whole where a part would be a mere strip."""
    left, right = split_by_line([region], point, direction)
    parts = [*left, *right]
    is_cut = bool(left) and bool(right)
    return parts if is_cut and _shallowest(parts, point, direction) >= depth else [region]


def _shallowest(parts: Iterable[Region], point: Point, direction: Point) -> float:
    """The least mean depth of the parts behind the line, mm."""
    return min(part.area / max(1.0, _length_on(part, point, direction)) for part in parts)


def _length_on(part: Region, point: Point, direction: Point) -> float:
    """How much of a part's outline lies on the line: where the line runs inside it, seen from either side."""
    back = (-direction[0], -direction[1])
    chords = (*chords_at(part, point, direction), *chords_at(part, point, back))
    return math.fsum(end - start for start, end in chords)


def _cut_across(bay: Region, layout: Layout, move: float, overlap: float) -> list[Region]:
    """A bay in lengths that a strip can serve, even ones, the cuts shifted to meet cutouts or miss slivers."""
    low, _, high, _ = bay.box
    run = high - low - 2.0 * layout.floor.end
    count = max(1, math.ceil((run - overlap) / move - 1e-9))
    pitch = (high - low) / count
    parts = [bay]
    for n in range(1, count):
        parts = [piece for part in parts for piece in _best_cut(part, low + n * pitch, pitch)]
    return parts


def _best_cut(part: Region, at: float, pitch: float) -> list[Region]:
    """A part cut near u = `at`: through a cutout if one is near, else where nothing shallow is left."""
    low, _, high, _ = part.box
    if not low < at < high:
        return [part]
    for u in _places(part, at, pitch):
        cut = _cut_if_deep(part, (u, 0.0), ACROSS, SHALLOW) if low < u < high else [part]
        if len(cut) > 1:
            return cut
    return [part]


def _places(part: Region, at: float, pitch: float) -> Iterator[float]:
    middles = [_share_of(hole, 0.5) for hole in part.holes]
    near = [u for u in middles if abs(u - at) <= max(map(abs, SHIFTS)) * pitch]
    yield from sorted(near, key=lambda u: (abs(u - at), u))
    yield from (at + shift * pitch for shift in SHIFTS)


def _share_of(hole: Sequence[Point], share: float) -> float:
    low, high = min(u for u, _ in hole), max(u for u, _ in hole)
    return low + share * (high - low)


def _opened(part: Region) -> list[Region]:
    """A part in pieces without holes: each hole is cut through, where the pieces are least shallow."""
    if not part.holes:
        return [part]
    hole = min(part.holes, key=lambda h: (_share_of(h, 0.0), h))
    cuts = [_halves(part, _share_of(hole, share)) for share in HOLE_CUTS]
    _, halves = max(cuts, key=lambda cut: cut[0])
    return [piece for half in halves for piece in _opened(half)]


def _halves(part: Region, u: float) -> tuple[float, list[Region]]:
    """The parts on both sides of a cut across the rails, and how deep the shallowest is."""
    left, right = split_by_line([part], (u, 0.0), ACROSS)
    halves = [*left, *right]
    return _shallowest(halves, (u, 0.0), ACROSS), halves
