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

STRIPS = ("beside_wall", "rail_end")  # where no deeper than the float's margin, every floor has them
LEAST_TOLD = 0.02  # m²: a smaller place is not worth a caution; common practice, no source


@dataclass(frozen=True)
class HandPlan:
    """What is left to hand work, its share of the bed, and what must be said of it."""

    areas: tuple[HandArea, ...]
    share: float
    cautions: tuple[Caution, ...]


def hand_plan_of(layouts: Sequence[Layout], design: RailDesign, doorways: Sequence[Doorway]) -> HandPlan:
    """What no straightedge on rails serves, of all regions; `doorways` lie on the drawing, from jamb to jamb."""
    found = list(_hand_areas(layouts, design, doorways))
    areas = tuple(area for area, _ in found)
    whole = math.fsum(layout.floor.region.area for layout in layouts) / 1e6
    share = math.fsum(area.area for area in areas) / whole if whole > 0.0 else 0.0
    told = [area.area for area, is_ordinary in found if not is_ordinary and area.area >= LEAST_TOLD]
    said = [caution_at("rails", "by_hand", count=len(told), area=math.fsum(told), largest=max(told))] if told else ()
    return HandPlan(areas, share, tuple(said))


def _hand_areas(
    layouts: Sequence[Layout], design: RailDesign, doorways: Sequence[Doorway]
) -> Iterator[tuple[HandArea, bool]]:
    """H1, H2, ... through the layouts, each with whether it is a strip such as every floor has."""
    lengths = sorted({design.straightedge, *design.straightedges})
    numbers = count(1)
    for layout in layouts:
        turned = [(layout.frame.turned(a), layout.frame.turned(b)) for a, b in doorways]
        for group, (kind, way, edge) in _grouped(layout, turned, lengths):
            middle, ring = layout.frame.placed(*group[0].middle), layout.frame.placed_ring(joined_ring(group))
            area = math.fsum(place.area for place in group) / 1e6
            is_ordinary = kind in STRIPS and all(_is_narrow(place, layout.reach.margin) for place in group)
            yield HandArea(f"H{next(numbers)}", kind, way, edge, middle, ring, area), is_ordinary


def _is_narrow(place: Place, margin: float) -> bool:
    deepest = max(cell.high[end] - cell.low[end] for cell in place.cells for end in (0, 1))
    return min(place.end - place.start, deepest) <= margin


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
