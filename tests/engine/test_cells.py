"""Cells: readings on one circle share a centre, so that no choice of diagonal decides the volume."""

import math
import random
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import Spot, turned

from evenbed.engine.surface import Surface, surface_from

MM = 1e-9  # mm: rounding of coordinates of some metres
angles = st.floats(0.0, math.tau)
shifts = st.floats(-50_000.0, 50_000.0)


def grid(across: int, up: int, spacing: float = 300.0) -> list[tuple[float, float]]:
    return [(spacing * x, spacing * y) for x in range(across) for y in range(up)]


def lumpy(places: Sequence[tuple[float, float]]) -> list[Spot]:
    dice = random.Random(len(places))
    return [(x, y, dice.uniform(-5.0, 5.0)) for x, y in places]


def centres_of(surface: Surface) -> list[Spot]:
    return [surface.points[i] for i in surface.centres]


def test_a_square_has_one_centre_at_the_mean_of_its_corners() -> None:
    surface = surface_from([(0, 0, 1.0), (400, 0, 2.0), (400, 400, 4.0), (0, 400, 9.0)], [])
    assert centres_of(surface) == [(200.0, 200.0, 4.0)]
    assert len(surface.triangles) == 4


@pytest.mark.parametrize("count", range(4, 13))
@pytest.mark.parametrize("start", [0.0, 0.3, 1.1])
def test_readings_on_one_circle_have_one_centre_and_a_fan(count: int, start: float) -> None:
    ring = lumpy([turned((1500.0, 0.0), start + math.tau * k / count, (900.0, 300.0)) for k in range(count)])
    surface = surface_from(ring, [])
    ((x, y, z),) = centres_of(surface)
    assert (x, y) == pytest.approx((900.0, 300.0), abs=MM)
    assert z == pytest.approx(sum(p[2] for p in ring) / count, abs=MM)
    assert len(surface.triangles) == count


@given(angles, shifts, shifts, st.integers(2, 6), st.integers(2, 6))
@settings(max_examples=60, deadline=None)
def test_every_square_of_a_grid_has_a_centre_however_the_grid_lies(
    angle: float, dx: float, dy: float, across: int, up: int
) -> None:
    spots = lumpy([turned(p, angle, (dx, dy)) for p in grid(across, up)])
    surface = surface_from(spots, [])
    assert len(surface.centres) == (across - 1) * (up - 1)
    assert len(surface.triangles) == 4 * (across - 1) * (up - 1)


@given(st.permutations(lumpy(grid(4, 3))))
@settings(max_examples=40, deadline=None)
def test_a_grid_gives_one_surface_in_whatever_order_it_was_read(spots: list[Spot]) -> None:
    assert surface_from(spots, []) == surface_from(lumpy(grid(4, 3)), [])


@pytest.mark.parametrize("angle", [0.0, 0.4, 1.0])
def test_a_grid_with_a_missing_reading_still_fills_its_hull(angle: float) -> None:
    places = [turned(p, angle) for p in grid(5, 5) if p not in ((600.0, 600.0), (0.0, 600.0))]
    surface = surface_from(lumpy(places), [])
    assert area_of(surface) == pytest.approx(1200.0**2, rel=1e-9)
    assert len(surface.centres) == 16 - 6 + 1, (
        "six squares lost a corner; the inner gap's four neighbours make a cell"
    )


def area_of(surface: Surface) -> float:
    corners = ([surface.points[i] for i in t] for t in surface.triangles)
    return math.fsum(((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])) / 2.0 for p, q, r in corners)


def test_readings_off_one_circle_have_no_centre() -> None:
    surface = surface_from([(0, 0, 1.0), (400, 0, 2.0), (400.1, 400, 4.0), (0, 400, 9.0)], [])
    assert surface.centres == ()
    assert len(surface.triangles) == 2


def test_a_plane_stays_a_plane_in_every_cell() -> None:
    spots = [(x, y, 3.0 + 0.01 * x - 0.02 * y) for x, y in grid(5, 4)]
    for x, y, z in surface_from(spots, []).points:
        assert z == pytest.approx(3.0 + 0.01 * x - 0.02 * y, abs=MM)
