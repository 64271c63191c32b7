"""However bad a bed, its work list comes: what is looked at is bounded by counts, and what was left out is told."""

import math
import random
from functools import cache

import pytest
from tests.checked_bed import over_grid

from evenbed.engine.document.places import Point3
from evenbed.engine.flatness.bed_surface import BedSurface, bed_surface_from
from evenbed.engine.flatness.least_moved import MOST_CELLS, LeastMoved, NoEndError
from evenbed.engine.flatness.least_work import MOST_LOOKED, LeastWork
from evenbed.engine.flatness.places import areas_of
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.flatness.work import MOST_PLACES, work_from
from evenbed.engine.touching import regions_of_room

WIDE, DEEP = 4000.0, 3000.0
SQUARE = regions_of_room(((0.0, 0.0), (WIDE, 0.0), (WIDE, DEEP), (0.0, DEEP)))
LIMITS = (Limit(3048.0, 3.175, "own"), Limit(609.6, 1.5875, "own"))
ONE_PASS = 6_000  # lines of one length over such a bed: the count is looked at between passes over both


def cone(x: float, y: float) -> float:
    return -0.02 * math.dist((x, y), (2000.0, 1500.0))


def rough(count: int, by: float) -> list[Point3]:
    dice = random.Random(count)
    return [(dice.uniform(0, WIDE), dice.uniform(0, DEEP), dice.gauss(0, by)) for _ in range(count)]


BAD = {
    "out of fall": over_grid(WIDE, DEEP, 250.0, cone),
    "rough everywhere": rough(100, 20.0),
    "rougher and dense": rough(300, 40.0),
}


@cache
def bad_surface(bed: str) -> BedSurface:
    return surface_of(BAD[bed])


@cache
def least_work(bed: str) -> LeastWork:
    """Found once for both of what is asked of it."""
    surface = bad_surface(bed)
    return LeastWork(surface, LIMITS, areas_of(surface), [-math.inf] * surface.spots)


def surface_of(spots: list[Point3]) -> BedSurface:
    return bed_surface_from(spots, SQUARE)


@pytest.mark.parametrize("bed", BAD)
def test_a_bed_that_is_beyond_nearly_everywhere_is_looked_at_so_far_and_no_further(bed: str) -> None:
    found = least_work(bed)
    assert found.is_partly
    assert 0 < found.looked <= MOST_LOOKED + 2 * ONE_PASS
    assert 0 < found.cells <= MOST_CELLS * 1.1
    assert found.moves


@pytest.mark.parametrize("bed", BAD)
def test_its_list_is_of_the_worst_says_so_and_no_step_makes_what_was_seen_worse(bed: str) -> None:
    surface = bad_surface(bed)
    found = work_from(surface, LIMITS, [-math.inf] * surface.spots)
    assert found.is_reduced
    assert 0 < len(found.work) <= MOST_PLACES
    seen = least_work(bed).seen
    number = {at: n for n, at in enumerate(surface.mesh.places[: surface.spots])}
    done: dict[int, float] = {}
    worst = max(one.excess(done) for one in seen)
    for work in found.work:
        done |= {number[x, y]: by for x, y, by in work.changes}
        left = max(one.excess(done) for one in seen)
        assert left <= worst + 0.01
        worst = left


def test_a_bed_with_a_few_humps_is_looked_at_whole() -> None:
    dice = random.Random(7)
    spots = [
        (x, y, dice.gauss(0, 0.2) + (7.0 if dice.random() < 0.05 else 0.0)) for x, y, _ in BAD["out of fall"][::4]
    ]
    found = work_from(surface_of(spots), LIMITS, [-math.inf] * len(spots))
    assert found.work
    assert not found.is_reduced


def test_more_demands_than_the_tableau_may_come_to_are_refused() -> None:
    dice, count = random.Random(1), 150
    moved = LeastMoved([1.0] * count, [-math.inf] * count)
    for n in range(3 * count):
        moved.demand({n % count: 1.0} | {dice.randrange(count): -dice.random() for _ in range(4)}, -dice.random())
    with pytest.raises(NoEndError):
        moved.moves()
