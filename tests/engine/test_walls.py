"""Walls looked up by where they lie tell the same of a place as walls that are all looked at."""

import random

import pytest
from tests.rooms import outline_of, random_room

from evenbed.engine.geometry import distance_to_ring, is_inside
from evenbed.engine.walls import Walls


@pytest.mark.parametrize("seed", range(30))
def test_a_place_is_inside_and_as_near_as_among_all_walls(seed: int) -> None:
    ring, dice = outline_of(random_room(seed)), random.Random(seed)
    walls, told = Walls(ring), set()
    for corner in ring:
        for spread in (0.0, 1e-6, 1.0, 3000.0):
            at = corner[0] + dice.gauss(0.0, spread), corner[1] + dice.gauss(0.0, spread)
            assert walls.hold(*at) == is_inside(ring, *at)
            for margin in (0.0, 1e-6, 25.0, 1000.0):
                assert walls.are_within(margin, at) == (distance_to_ring(ring, at) <= margin)
                told.add((walls.hold(*at), walls.are_within(margin, at)))
    assert len(told) == 4
