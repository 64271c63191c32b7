"""Sections: the bed in pieces, in the order they are filled, each with its volume and its batches."""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Opening
from evenbed.engine.filling.cuts import pieces_of
from evenbed.engine.filling.order import WALKABLE, order_of
from evenbed.engine.filling.shapes import Section
from evenbed.engine.geometry import Ring, between, distance_to_ring, edges_of
from evenbed.engine.outline import middle_of_opening
from evenbed.engine.rails.choice import Layout

AT_THE_WALL = 1.0  # mm within which a doorway counts as in a region's wall
Volume = Callable[[Ring], float]


@dataclass(frozen=True)
class SectionPlan:
    """The sections in the order they are filled."""

    sections: tuple[Section, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True)
class WayOut:
    """Where the crew leaves; `is_assumed` where no doorway was given."""

    exits: tuple[Point, ...]
    is_assumed: bool

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """What must be said of an assumed way out."""
        return (caution_at("sections", "exit_assumed"),) if self.is_assumed else ()


def way_out_from(openings: Sequence[Opening], vertices: Ring) -> WayOut:
    """The middles of the doorways marked as exits; else of the first doorway; else of the longest wall.

    `vertices` are the outline's corners in the document's own order, as walls are counted.
    """
    leaving = [o for o in openings if o.exit] or list(openings[:1])
    if leaving:
        return WayOut(tuple(middle_of_opening(o, vertices) for o in leaving), False)
    longest = max(edges_of(vertices), key=lambda wall: (round(math.dist(*wall), 3), wall[0]))
    return WayOut((between(*longest, 0.5),), True)


def sections_from(
    layouts: Sequence[Layout],
    design: RailDesign,
    way_out: WayOut,
    *,
    volume_over: Volume,
    batch_yield: float,
    waste: float,
) -> SectionPlan:
    """The sections of a room divided by its rails.

    `volume_over` gives the bed's volume in m³ over a simple polygon, `batch_yield` is the compacted volume of one
    batch in m³, `waste` a fraction. The sections' areas are the bed's, no more and no less.
    """
    regions = sorted((_ordered(layout, design, way_out) for layout in layouts), key=lambda r: r.has_way_out)
    rings = [ring for region in regions for ring in region.rings]
    sections = tuple(
        _section(n + 1, ring, volume_over(ring), (1.0 + waste) / batch_yield) for n, ring in enumerate(rings)
    )
    return SectionPlan(sections, (*way_out.cautions, *_cautions(regions)))


@dataclass(frozen=True)
class _Ordered:
    """One region's pieces on the drawing, first to last."""

    rings: tuple[Ring, ...]
    is_narrow: bool
    has_way_out: bool


def _ordered(layout: Layout, design: RailDesign, way_out: WayOut) -> _Ordered:
    pieces = pieces_of(layout, design)
    exits = [layout.frame.turned(at) for at in way_out.exits]
    order = order_of([piece.outer for piece in pieces], exits)
    rings = tuple(layout.frame.placed_ring(pieces[i].outer) for i in order.first_to_last)
    outline = layout.floor.region.outer
    return _Ordered(rings, order.is_narrow, any(distance_to_ring(outline, at) <= AT_THE_WALL for at in exits))


def _section(order: int, ring: Ring, volume: float, batches_per_volume: float) -> Section:
    batches = volume * batches_per_volume
    return Section(f"S{order}", ring, volume, volume, batches, order, 0.0, (), 0.0)


def _cautions(regions: Sequence[_Ordered]) -> Iterable[Caution]:
    first = 1
    for region in regions:
        last = first + len(region.rings) - 1
        if not region.has_way_out:
            yield caution_at("sections", "section_cut_off", first=f"S{first}", last=f"S{last}")
        first = last + 1
    if any(region.is_narrow for region in regions):
        yield caution_at("sections", "narrow_way_out", width=WALKABLE)
