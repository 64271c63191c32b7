"""Edges of the bed in doorways: each gets a form at bed height."""

import math
from collections.abc import Sequence

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Opening
from evenbed.engine.filling.shapes import EdgeKind, OpenEdge
from evenbed.engine.finish.doorways import stretch_of
from evenbed.engine.finish.stretches import Stretch
from evenbed.engine.ground import Ground
from evenbed.engine.top.facets import BedTop


def doorway_edges(openings: Sequence[Opening], ground: Ground, top: BedTop) -> tuple[OpenEdge, ...]:
    """An edge for every doorway, leading on to a floor or not, with its true ends on the wall.

    Openings must have passed `check_openings`. The bed's thickness along an edge is exact; 0 where there is no bed.
    """
    stretches = [(opening, stretch_of(opening, ground, top)) for opening in openings]
    return tuple(
        edge_along(f"E{n}", "doorway", stretch, ground, opening.id)
        for n, (opening, stretch) in enumerate(stretches, start=1)
    )


def edge_along(name: str, kind: EdgeKind, stretch: Stretch, ground: Ground, opening: str | None = None) -> OpenEdge:
    """The edge along a stretch of floor, with the least and greatest bed thickness along it."""
    low, high = (max(0.0, thickness) for thickness in stretch.thicknesses(ground))
    ends: tuple[Point, Point] = (stretch.start, stretch.end)
    return OpenEdge(name, kind, opening, *ends, low, high, math.dist(*ends))
