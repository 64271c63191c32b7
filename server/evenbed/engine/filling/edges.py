"""Edges of the bed with nothing beside them: doorways, and where work stops."""

from collections.abc import Callable, Sequence

from evenbed.engine.document.room import Opening
from evenbed.engine.filling.shapes import OpenEdge
from evenbed.engine.geometry import Ring, edges_of

Height = Callable[[float, float], float]


def doorway_edges(openings: Sequence[Opening], vertices: Ring, subfloor: Height, top: Height) -> tuple[OpenEdge, ...]:
    """An edge for every doorway, with the least and greatest bed thickness along it."""
    walls = list(edges_of(vertices))
    edges = []
    for n, opening in enumerate(openings, start=1):
        start, end = walls[opening.wall]
        thick = [top(*at) - subfloor(*at) for at in (start, end)]
        edges.append(
            OpenEdge(f"E{n}", "doorway", opening.id, start, end, min(thick), max(thick), opening.end - opening.start)
        )
    return tuple(edges)
