"""The hand areas of a room, named, with their kind, their way and what must be said of them."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import count

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.hand import Place, places_of
from evenbed.engine.rails.joining import groups_of, joined_ring
from evenbed.engine.rails.kinds import Doorway, kind_of
from evenbed.engine.rails.shapes import HandArea, HandKind, HandWay
from evenbed.engine.rails.ways import Surroundings, way_of

ORDINARY = ("beside_wall", "rail_end")  # strips that every floor has
LEAST_TOLD = 0.02  # m²: a smaller place is not worth a caution; common practice, no source


@dataclass(frozen=True)
class HandPlan:
    """What is left to hand work, its share of the bed, and what must be said of it."""

    areas: tuple[HandArea, ...]
    share: float
    cautions: tuple[Caution, ...]


def hand_plan_of(layouts: Sequence[Layout], design: RailDesign, doorways: Sequence[Doorway]) -> HandPlan:
    """What no straightedge on rails serves, of all regions; `doorways` lie on the drawing, from jamb to jamb."""
    areas = tuple(_hand_areas(layouts, design, doorways))
    whole = math.fsum(layout.floor.region.area for layout in layouts) / 1e6
    share = math.fsum(area.area for area in areas) / whole if whole > 0.0 else 0.0
    return HandPlan(areas, share, tuple(_cautions(areas)))


def _hand_areas(layouts: Sequence[Layout], design: RailDesign, doorways: Sequence[Doorway]) -> Iterator[HandArea]:
    """H1, H2, ... through the layouts."""
    lengths = sorted({design.straightedge, *design.straightedges})
    numbers = count(1)
    for layout in layouts:
        turned = [(layout.frame.turned(a), layout.frame.turned(b)) for a, b in doorways]
        for group, (kind, way, edge) in _grouped(layout, turned, lengths):
            middle, ring = layout.frame.placed(*group[0].middle), layout.frame.placed_ring(joined_ring(group))
            area = math.fsum(place.area for place in group) / 1e6
            yield HandArea(f"H{next(numbers)}", kind, way, edge, middle, ring, area)


def _grouped(
    layout: Layout, doorways: Sequence[Doorway], lengths: Sequence[float]
) -> list[tuple[list[Place], tuple[HandKind, HandWay, float | None]]]:
    """Places of one kind and way that make one ring, from one side to the other.

    Their order is by place, to a thousandth of a mm, so that no rounding of their areas changes it.
    """
    around = Surroundings(layout)
    places = places_of(layout.cells, layout.floor.region.area)
    told = {p: (kind_of(p, around.ends_of(p), layout, doorways), *way_of(p, around, lengths)) for p in places}
    groups = [[places[i] for i in group] for group in groups_of(places, told.__getitem__)]
    groups.sort(key=lambda group: (round(min(p.start for p in group), 3), round(min(p.low for p in group), 3)))
    return [(group, told[group[0]]) for group in groups]


def _cautions(areas: Sequence[HandArea]) -> Iterator[Caution]:
    """What is left to hand work beside the ordinary strips at walls and rails' ends."""
    told = [area.area for area in areas if area.kind not in ORDINARY and area.area >= LEAST_TOLD]
    if told:
        yield caution_at("rails", "by_hand", count=len(told), area=sum(told), largest=max(told))
