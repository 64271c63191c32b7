"""The search over a scan's grid beside the engine's exact one over the same heights: never more, and hardly less."""

import math

import numpy as np
import pytest
from tests.scans.clouds import Array

from evenbed.engine.flatness.bed_surface import bed_surface_from
from evenbed.engine.flatness.search import Worst, worst_lying
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.touching import regions_of_room
from evenbed.scans.flat_grid import FlatGrid
from evenbed.scans.flat_straightedge import checked

PITCH = 150.0  # mm
COLUMNS, ROWS = 12, 9
LENGTHS = (900.0, 1275.0)
SHORTEST_WAVE = 1500.0  # mm: ten heights
AGREED = 0.01  # mm: what the engine's search may be short by
MISSED = 0.01  # of the largest gap on a smooth bed
MISSED_ON_ROUGH = 0.05  # where every height is for itself and hundreds of places are nearly as bad


def smooth_bed(seed: int) -> Array:
    """Waves of several lengths in all directions, 4 mm high or so."""
    dice = np.random.default_rng(seed)
    y, x = np.mgrid[0:ROWS, 0:COLUMNS] * PITCH
    bed = np.zeros(x.shape)
    for _ in range(6):
        way, wave, phase = (
            dice.uniform(0, math.tau),
            dice.uniform(1.0, 3.0) * SHORTEST_WAVE,
            dice.uniform(0, math.tau),
        )
        bed += dice.uniform(0.5, 2.0) * np.sin(math.tau * (x * math.cos(way) + y * math.sin(way)) / wave + phase)
    return bed


def rough_bed(seed: int) -> Array:
    """Every height for itself."""
    return np.random.default_rng(seed).normal(0.0, 2.0, (ROWS, COLUMNS))


def by_engine(heights: Array, length: float) -> Worst:
    """The exact search over triangles between the same heights."""
    spots = [(column * PITCH, row * PITCH, float(z)) for (row, column), z in np.ndenumerate(heights)]
    far, up = (COLUMNS - 1) * PITCH, (ROWS - 1) * PITCH
    corners = ((-1.0, -1.0), (far + 1.0, -1.0), (far + 1.0, up + 1.0), (-1.0, up + 1.0))
    return worst_lying(bed_surface_from(spots, regions_of_room(corners)), length)


def by_scan(heights: Array, length: float, pitch: float = PITCH) -> tuple[float, float]:
    """Gap and hump of the scan's search."""
    grid = FlatGrid(0.0, 0.0, pitch, pitch, heights, np.zeros(heights.shape), np.ones(heights.shape, bool))
    check = checked(grid, Limit(length, 3.0, "own"))
    return (check.gap.gap if check.gap else 0.0), (check.hump.gap if check.hump else 0.0)


def pairs_of(heights: Array, length: float) -> list[tuple[float, float]]:
    """Gap and hump by both: the engine's beside the scan's."""
    exact = by_engine(heights, length)
    found = (exact.gap, exact.hump)
    return [(one.gap if one else 0.0, seen) for one, seen in zip(found, by_scan(heights, length), strict=True)]


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("length", LENGTHS)
def test_on_smooth_beds_both_find_the_same(seed: int, length: float) -> None:
    for exact, seen in pairs_of(smooth_bed(seed), length):
        assert (1 - MISSED) * exact - AGREED <= seen <= exact + AGREED


@pytest.mark.parametrize("seed", range(5))
def test_on_beds_where_every_height_is_for_itself_the_scan_never_finds_more_and_hardly_less(seed: int) -> None:
    for exact, seen in pairs_of(rough_bed(seed), LENGTHS[0]):
        assert (1 - MISSED_ON_ROUGH) * exact < seen <= exact + AGREED


@pytest.mark.parametrize("turn", [0.31, 0.5, 1.1])
def test_a_valley_that_runs_along_none_of_the_dozen_directions_is_found_in_full(turn: float) -> None:
    """By hand: a straightedge across it stands open by half its length times the slope."""
    y, x = np.mgrid[0:61, 0:81] * 50.0
    away = (x - 2000.0) * math.cos(turn) + (y - 1500.0) * math.sin(turn)
    seen, _ = by_scan(0.004 * np.abs(away), 1500.0, pitch=50.0)
    corner = 0.004 * 50.0 / 2.0  # what is cut off the valley's bottom between two heights
    assert 0.004 * 750.0 - corner <= seen <= 0.004 * 750.0 + AGREED
