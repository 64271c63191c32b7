"""Falls to a round drain, in any room that it sees whole or that cuts along walls make so."""

import math
from collections.abc import Iterator

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Fixture
from evenbed.engine.geometry import Plane, Ring, distance_to_ring, edge_of, is_inside
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.top.chords import convex_parts
from evenbed.engine.top.designed import STEEPEST
from evenbed.engine.top.facets import convex_cell
from evenbed.engine.top.falls import NONE, Fall, Falls
from evenbed.engine.top.ring import ring_parts, rise_at_wall
from evenbed.engine.top.splits import SEEN, Split, hidden_walls, split_for

WHOLE = Plane(1.0, 0.0, 0.0)


def falls_to_ring(outer: Ring, drain: Fixture, path: str, fall: float) -> Falls:
    """The falls to a drain's ring, which is a polygon of 15 degrees or less a side; a drain may have no radius.

    Raises BadDocumentError where the ring reaches a wall, and where some corner has no straight way to it.
    """
    gap = distance_to_ring(outer, drain.at)
    if gap <= max(drain.radius, SEEN) or not is_inside(outer, *drain.at):
        raise BadDocumentError([problem_at(f"{path}.at", "drain_at_wall", radius=drain.radius, gap=round(gap, 1))])
    hidden, steep = sorted(hidden_walls(outer, drain.at)), [-1]
    best: Falls | None = None
    while steep:
        split = split_for(outer, drain.at, drain.radius, hidden)
        if split is None:
            break
        best = _falls_over(split, drain)
        steep = sorted(_steep_walls(outer, split, hidden, drain, fall))
        hidden = sorted({*hidden, *steep})
    if best is None:
        raise BadDocumentError([_hidden(outer, hidden, drain.at)])
    return best


def _falls_over(split: Split, drain: Fixture) -> Falls:
    seen = [Fall(convex_cell(NONE, ring), share) for ring, share in ring_parts(split.seen, drain.at, drain.radius)]
    beyond = [
        Fall(convex_cell(NONE, part), WHOLE, cut.way) for cut in split.cuts for part in convex_parts(cut.beyond)
    ]
    farthest = max(split.seen, key=lambda corner: round(math.dist(corner, drain.at), 6))
    return Falls((*seen, *beyond), math.dist(farthest, drain.at) - drain.radius, farthest)


def _steep_walls(outer: Ring, split: Split, hidden: list[int], drain: Fixture, fall: float) -> Iterator[int]:
    """Walls that the drain sees so much from the side that the floor before them would be too steep."""
    rise = fall * (split.reach - drain.radius)
    beyond = {n for n in range(len(outer)) if any(cut.holds_wall(n, len(outer)) for cut in split.cuts)}
    for n in sorted({*range(len(outer))} - beyond - {*hidden}):
        if rise * rise_at_wall(*edge_of(outer, n), drain.at, drain.radius) > STEEPEST:
            yield n


def _hidden(outer: Ring, hidden: list[int], drain: Point) -> Problem:
    corners = [corner for n in hidden for corner in edge_of(outer, n)]
    x, y = max(corners, key=lambda corner: round(math.dist(corner, drain), 6))
    return problem_at("bed.top.drain", "drain_hidden", x=round(x, 1), y=round(y, 1))
