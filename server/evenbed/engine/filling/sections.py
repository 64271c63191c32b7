"""Sections: the bed in pieces, in the order they are filled, each with its volume, its batches and its channels."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Opening
from evenbed.engine.filling.channels import channels_of
from evenbed.engine.filling.cuts import pieces_of
from evenbed.engine.filling.order import order_of
from evenbed.engine.filling.shapes import Channel, Section
from evenbed.engine.filling.sides import Side, shared_sides
from evenbed.engine.filling.ways import WALKABLE, Ways
from evenbed.engine.filling.well_inside import well_inside, width_of
from evenbed.engine.frame import Frame
from evenbed.engine.geometry import Ring, between, distance_to_ring, edges_of, is_inside
from evenbed.engine.outline import middle_of_opening
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.region import Region

AT_THE_WALL = 1.0  # mm within which a doorway, or the mixer, counts as in a region's wall
THIN = 150.0  # mm: a section this narrow holds neither a knee nor a trowel's sweep; common practice, no source
MOST_NAMED = 5  # sections in one caution
Volume = Callable[[Ring], float]


@dataclass(frozen=True)
class SectionPlan:
    """The sections in the order they are filled, and the ways between them by their places in that order."""

    sections: tuple[Section, ...]
    ways: Ways
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class WayOut:
    """Where the crew leaves; `is_assumed` where no doorway was given. `mixer` is where it stands, None outside."""

    exits: tuple[Point, ...]
    is_assumed: bool
    mixer: Point | None = None

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """What must be said of an assumed way out."""
        return (caution_at("sections", "exit_assumed"),) if self.is_assumed else ()


def way_out_from(openings: Sequence[Opening], vertices: Ring, mixer: Point | None = None) -> WayOut:
    """The middles of the doorways marked as exits; else of the first doorway; else of the longest wall.

    `vertices` are the outline's corners in the document's own order, as walls are counted.
    """
    leaving = [o for o in openings if o.exit] or list(openings[:1])
    if leaving:
        return WayOut(tuple(middle_of_opening(o, vertices) for o in leaving), False, mixer)
    longest = max(edges_of(vertices), key=lambda wall: (round(math.dist(*wall), 3), wall[0]))
    return WayOut((between(*longest, 0.5),), True, mixer)


def sections_from(
    layouts: Sequence[Layout],
    design: RailDesign,
    way_out: WayOut,
    *,
    volume_over: Volume,
    batch_yield: float,
    waste: float,
    rails: Sequence[Rail] = (),
) -> SectionPlan:
    """The sections of a room divided by its rails.

    `volume_over` gives the bed's volume in m³ over a simple polygon, `batch_yield` is the compacted volume of one
    batch in m³, `waste` a fraction. The sections' areas are the bed's, no more and no less; their channels are as
    long as the rails. Regions without a way out come first, the mixer's comes last. A mixer that stands on no floor
    counts as outside.
    """
    strip = max((rail.strip.length for rail in rails), default=design.strip.length)
    found = [_ordered(layout, (strip, design.overlap), way_out) for layout in layouts]
    regions = sorted(found, key=lambda region: (region.has_way_out, region.ways.mixer is not None))
    ways = _ways_of(regions)
    channels = channels_of(ways.rings, rails)
    walks = [walk for region in regions for walk in region.walks]
    sections = tuple(
        _section(n, (ring, walks[n], channels[n]), volume_over(ring), batch_yield, waste)
        for n, ring in enumerate(ways.rings)
    )
    return SectionPlan(sections, ways, tuple(_cautions(regions, way_out, ways)))


@dataclass(frozen=True)
class _Ordered:
    """One region's pieces on the drawing, first to last, with the walk from each and the ways between them."""

    ways: Ways
    walks: tuple[float, ...]
    has_way_out: bool


def _ordered(layout: Layout, strip_and_overlap: tuple[float, float], way_out: WayOut) -> _Ordered:
    rings = tuple(piece.outer for piece in pieces_of(layout, *strip_and_overlap))
    outline, turned = layout.floor.region.outer, layout.frame.turned
    exits = [turned(at) for at in way_out.exits]
    own = [at for at in exits if distance_to_ring(outline, at) <= AT_THE_WALL]
    leaving = own or [min(exits, key=lambda at: distance_to_ring(outline, at))]
    mixer = None if way_out.mixer is None else _holding(layout.floor.region, rings, turned(way_out.mixer))
    ways = Ways(rings, tuple(shared_sides(rings)), tuple((_nearest(rings, at), at) for at in leaving), mixer)
    order = order_of(ways, range(len(rings)))
    walks = tuple(order.walks[i] for i in order.first_to_last)
    return _Ordered(_placed(ways, layout.frame, order.first_to_last), walks, bool(own))


def _nearest(rings: Sequence[Ring], at: Point) -> int:
    return min(range(len(rings)), key=lambda i: (distance_to_ring(rings[i], at), i))


def _holding(region: Region, rings: Sequence[Ring], at: Point) -> int | None:
    """The piece that a place lies in; None where it is not on the region's floor."""
    on_wall = any(distance_to_ring(ring, at) <= AT_THE_WALL for ring in region.rings)
    on_floor = is_inside(region.outer, *at) and not any(is_inside(hole, *at) for hole in region.holes)
    if not (on_wall or on_floor):
        return None
    return next((i for i, ring in enumerate(rings) if is_inside(ring, *at)), _nearest(rings, at))


def _placed(ways: Ways, frame: Frame, first_to_last: Sequence[int]) -> Ways:
    """The same ways on the drawing, the pieces numbered in this order."""
    number = {i: n for n, i in enumerate(first_to_last)}
    rings = tuple(frame.placed_ring(ways.rings[i]) for i in first_to_last)
    sides = tuple(_renumbered(side, number, frame) for side in ways.sides)
    exits = tuple((number[i], frame.placed(*at)) for i, at in ways.exits)
    return Ways(rings, sides, exits, None if ways.mixer is None else number[ways.mixer])


def _renumbered(side: Side, number: dict[int, int], frame: Frame) -> Side:
    a, b = sorted((number[side.a], number[side.b]))
    return Side(a, b, frame.placed(*side.start), frame.placed(*side.end))


def _ways_of(regions: Sequence[_Ordered]) -> Ways:
    """The ways of all regions, numbered through."""
    firsts = _firsts(regions)
    rings = tuple(ring for region in regions for ring in region.ways.rings)
    pairs = list(zip(firsts, (region.ways for region in regions), strict=True))
    sides = tuple(Side(s.a + n, s.b + n, s.start, s.end) for n, ways in pairs for s in ways.sides)
    exits = tuple((i + n, at) for n, ways in pairs for i, at in ways.exits)
    mixer = next((ways.mixer + n for n, ways in pairs if ways.mixer is not None), None)
    return Ways(rings, sides, exits, mixer)


def _firsts(regions: Sequence[_Ordered]) -> list[int]:
    """The number of the first section in each region."""
    return [0, *accumulate(len(region.ways.rings) for region in regions)][:-1]


_Part = tuple[Ring, float, tuple[Channel, ...]]  # a section's polygon, its walk, its channels


def _section(n: int, part: _Part, volume: float, batch_yield: float, waste: float) -> Section:
    ring, walk, channels = part
    mixed = volume * (1.0 + waste)
    grooves = math.fsum(channel.volume for channel in channels)
    batches = mixed / batch_yield
    return Section(f"S{n + 1}", ring, well_inside(ring), volume, mixed, batches, n + 1, walk, channels, grooves)


def _cautions(regions: Sequence[_Ordered], way_out: WayOut, ways: Ways) -> Iterable[Caution]:
    yield from way_out.cautions
    if way_out.mixer is not None and ways.mixer is None:
        yield caution_at("filling.mixer", "mixer_outside")
    for first, region in zip(_firsts(regions), regions, strict=True):
        if not region.has_way_out:
            one, last = f"S{first + 1}", f"S{first + len(region.ways.rings)}"
            yield caution_at("sections", "section_cut_off", names=one if one == last else f"{one}\u2013{last}")
    if ways.is_narrow:
        yield caution_at("sections", "narrow_way_out", width=WALKABLE)
    thin = [n for n, ring in enumerate(ways.rings) if width_of(ring) < THIN]
    if thin:
        names = ", ".join(f"S{n + 1}" for n in thin[:MOST_NAMED])
        yield caution_at("sections", "thin_sections", names=names, count=len(thin), width=THIN)
