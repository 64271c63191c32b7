"""What is said of a bed that leans as a whole, and of a reading far off the others: no limit forbids either."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checked_bed import checked_room, over_grid, rectangle
from tests.documents import Json, Spot, plan_of

from evenbed.engine.flatness.implausible import FAR_OFF, USUAL_LEAN, far_off_among, lean_of

ROOM = rectangle(4000.0, 3000.0)
SLIP = 7  # one reading in the midst of the grid


def said(built: list[Spot]) -> dict[str, Json]:
    """What the plan says of a level bed read at these places, by code."""
    return {one["code"]: one for one in plan_of(checked_room(ROOM, built), "plan")["cautions"]}


def leaning(slope: float, way: float = 0.0) -> list[Spot]:
    """A true plane that rises so much along a way, degrees."""
    b, c = slope * math.cos(math.radians(way)), slope * math.sin(math.radians(way))
    return over_grid(4000, 3000, 1000, lambda x, y: b * x + c * y)


def test_a_bed_that_leans_more_than_a_quarter_inch_in_ten_feet_is_told_by_how_much() -> None:
    found = said(leaning(0.05))["flatness_leans"]
    assert found["where"] == "flatness.level"
    assert found["values"] == {"lean": pytest.approx(0.05, abs=1e-6), "rise": pytest.approx(200.0, abs=1e-3)}
    assert "flatness_leans" not in said(leaning(0.9 * USUAL_LEAN))


def test_a_lean_that_the_readings_cannot_tell_from_none_is_not_told() -> None:
    """By hand: at the corners of a square of 1 m a slope errs by sigma / 1000 mm; 1.645 of 2 mm are 0.33 %."""
    square = [(x, y, 0.0045 * x) for x in (0.0, 1000.0) for y in (0.0, 1000.0)]
    assert lean_of(square, 2.0) is None
    assert lean_of(square, 1.0) is not None


@settings(max_examples=30)
@given(st.integers(0, 10_000), st.floats(0.0, 360.0), st.floats(0.004, 0.08))
def test_the_lean_is_the_slope_of_the_plane_that_least_squares_fit(seed: int, way: float, slope: float) -> None:
    """Judge: numpy's least squares."""
    dice = np.random.default_rng(seed)
    at = dice.uniform(0.0, 5000.0, (20, 2))
    tilt = slope * np.array([math.cos(math.radians(way)), math.sin(math.radians(way))])
    z = at @ tilt + dice.normal(0.0, 1.0, 20)
    fit = np.linalg.lstsq(np.column_stack([at, np.ones(20)]), z, rcond=None)[0]
    found = lean_of([(x, y, h) for (x, y), h in zip(at.tolist(), z.tolist(), strict=True)], 0.5)
    assert found is not None
    assert found.slope == pytest.approx(math.hypot(fit[0], fit[1]), rel=1e-9)
    assert found.rise == pytest.approx(np.ptp(at @ fit[:2]), rel=1e-9)


@pytest.mark.parametrize("by", [100.0, -60.0, 25.0])
def test_a_reading_far_off_its_neighbours_is_to_be_read_again_and_makes_no_lean(by: float) -> None:
    built = [(x, y, z + by * (n == SLIP)) for n, (x, y, z) in enumerate(leaning(0.0))]
    found = said(built)
    x, y, _ = built[SLIP]
    told = found["flatness_far_off"]
    assert told["where"] == "flatness.points"
    assert told["values"] == {"count": 1, "x": x, "y": y, "by": pytest.approx(abs(by), abs=0.5), "most": FAR_OFF}
    assert "flatness_leans" not in found


@pytest.mark.parametrize("by", [0.0, 6.0, 15.0, -19.0])
def test_a_hump_as_beds_have_them_is_no_slip(by: float) -> None:
    built = [(x, y, z + by * (n == SLIP)) for n, (x, y, z) in enumerate(leaning(0.0))]
    assert "flatness_far_off" not in said(built)


@settings(max_examples=30)
@given(st.floats(-0.1, 0.1), st.floats(-0.1, 0.1))
def test_a_lean_makes_no_reading_a_slip_and_hides_none(b: float, c: float) -> None:
    true = [(x, y, b * x + c * y) for x, y, _ in leaning(0.0)]
    assert far_off_among(true) == ()
    slipped = [(x, y, z + 50.0 * (n == SLIP)) for n, (x, y, z) in enumerate(true)]
    (found,) = far_off_among(slipped)
    assert found.at == slipped[SLIP][:2]
    assert found.by == pytest.approx(50.0, abs=0.5)


def test_readings_on_one_line_or_too_few_tell_of_neither() -> None:
    line = [(1000.0 * n, 0.0, 100.0 * (n == 1)) for n in range(4)]
    assert (lean_of(line, 0.5), far_off_among(line)) == (None, ())
    assert (lean_of([], 0.5), far_off_among([])) == (None, ())
