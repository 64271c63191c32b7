"""The walk from a place to the way out, against a graph of what sees what, made by shapely and solved by scipy."""

import itertools
import math
import random
from collections.abc import Sequence
from functools import cache

import numpy as np
import pytest
from scipy.sparse.csgraph import dijkstra
from shapely import LineString, Point, Polygon
from tests.engine.rail_cases import random_case, random_rails
from tests.share import share_of

from evenbed.engine.rails.far import CLEAR, WaysOut

ROUND_CORNERS = 12.0  # mm: ways are led `CLEAR` of walls and twice that round corners, here of five or six
SEEDS = range(share_of(50))
Spot = tuple[float, float]


def judged_walk(room: Polygon, exits: Sequence[Spot], at: Spot) -> float:
    """Through a graph of all corners, the exits and the place, joined where the straight way lies in the room."""
    corners = [corner for ring in (room.exterior, *room.interiors) for corner in ring.coords[:-1]]
    nodes = [at, *exits, *corners]
    floor, lengths = room.buffer(1e-6), np.zeros((len(nodes), len(nodes)))
    for (i, p), (j, q) in itertools.combinations(enumerate(nodes), 2):
        if floor.covers(LineString([p, q])):
            lengths[i, j] = math.dist(p, q)
    walks = dijkstra(lengths, directed=False, indices=[0])[0]
    return float(min(walks[1 : 1 + len(exits)]))


@cache
def walks_in(seed: int) -> list[tuple[Spot, float]]:
    """Places in a random room, each with the walk to the way out."""
    case, dice, layout = random_case(seed), random.Random(seed), random_rails(seed).layouts[0]
    (room,), turned = case.shapes, layout.frame.turned
    ways = WaysOut(layout.floor, tuple(turned(each) for each in case.way_out.exits))
    left, low, right, high = room.bounds
    spots = [(dice.uniform(left, right), dice.uniform(low, high)) for _ in range(12)]
    inner = room.buffer(-3.0 * CLEAR)
    return [(at, ways.walk(turned(at))) for at in spots if inner.contains(Point(at))]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_walk_is_the_shortest_round_corners_and_cutouts(seed: int) -> None:
    case = random_case(seed)
    for at, walk in walks_in(seed):
        assert walk == pytest.approx(judged_walk(case.shapes[0], case.way_out.exits, at), abs=ROUND_CORNERS)


def test_many_of_these_walks_lead_round_a_corner() -> None:
    walks = [(seed, at, walk) for seed in SEEDS for at, walk in walks_in(seed)]
    bent = [walk > math.dist(at, random_case(seed).way_out.exits[0]) + 2.0 * CLEAR for seed, at, walk in walks]
    assert sum(bent) > len(walks) / 20


def test_a_way_out_elsewhere_is_as_far_as_it_is() -> None:
    floor = random_rails(0).layouts[0].floor
    assert WaysOut(floor, ()).walk((0.0, 0.0)) == 0.0
    assert WaysOut(floor, ((1e6, 0.0),)).walk((0.0, 0.0)) == 1e6
