"""Both ways to count maturity over bending temperatures, held against scipy's quadrature."""

import math
from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.share import share_of

from evenbed.engine.cure import AgeCurve, Temperatures
from evenbed.engine.waiting.maturity import Factor, Rate

QUADRATURE = 1e-9  # relative: the quadrature's own, over a parabola's temperature
CROSSING = 1e-7  # relative: adaptive quadrature at the corner where the datum is crossed
ROUNDING = 1e-12

CELSIUS = st.floats(-40.0, 80.0)
MATURITIES = st.one_of(
    st.builds(Rate, st.floats(0.0, 20_000.0), st.floats(-20.0, 60.0)), st.builds(Factor, st.floats(-20.0, 10.0))
)


def parabola(first: float, middle: float, last: float) -> Callable[[float], float]:
    """Temperature at a share of the way, by Lagrange's polynomial through 0, 1/2 and 1."""
    return lambda s: (
        first * (2 * s - 1) * (s - 1) + middle * 4 * s * (1 - s) + last * s * (2 * s - 1)
    )  # fmt: skip


@given(CELSIUS, CELSIUS, CELSIUS, st.floats(0.0, 10_000.0), st.floats(-20.0, 60.0), st.floats(0.01, 100.0))
@settings(max_examples=share_of(200))
def test_scipy_finds_the_same_equivalent_age_over_a_parabola(
    first: float, middle: float, last: float, activation: float, reference: float, hours: float
) -> None:
    rate, at = Rate(activation, reference), parabola(first, middle, last)
    judged, _ = quad(lambda s: rate.at(at(s)), 0.0, 1.0, epsabs=0.0, epsrel=1e-12, limit=400)
    assert rate.gained(first, middle, last, hours) == pytest.approx(hours * judged, rel=QUADRATURE)


@given(CELSIUS, CELSIUS, CELSIUS, st.floats(-20.0, 10.0), st.floats(0.01, 100.0))
@example(-10.0, 0.0, 10.0, 0.0, 24.0)
@example(-5.0, 5.0, -5.0, 0.0, 1.0)
@example(5.0, -5.0, 5.0, 0.0, 1.0)
@example(0.0, 0.0, 0.0, 0.0, 1.0)
@settings(max_examples=share_of(200))
def test_scipy_finds_the_same_factor_also_where_the_datum_is_crossed(
    first: float, middle: float, last: float, datum: float, hours: float
) -> None:
    at = parabola(first, middle, last)
    cuts = [0.0, *(n / 64 for n in range(1, 64)), 1.0]
    judged = math.fsum(
        quad(lambda s: max(0.0, at(s) - datum), a, b, epsabs=1e-12, epsrel=1e-10)[0] for a, b in pairwise(cuts)
    )
    assert Factor(datum).gained(first, middle, last, hours) == pytest.approx(hours * judged, rel=CROSSING, abs=1e-6)


@given(st.floats(-40.0, 10.0), st.floats(0.0, 5.0), st.floats(0.01, 1000.0))
def test_below_the_datum_an_interval_counts_exactly_nothing(celsius: float, swing: float, hours: float) -> None:
    factor = Factor(10.0)
    assert factor.gained(celsius, celsius - swing, celsius, hours) == 0.0
    assert factor.at(celsius) == 0.0


def test_an_interval_that_crosses_the_datum_counts_the_triangle_above_it() -> None:
    """From 10 °C below the datum to 10 °C above it in 24 h: half of a triangle of 12 h by 10 °C, by hand."""
    assert Factor(0.0).gained(-10.0, 0.0, 10.0, 24.0) == pytest.approx(60.0, rel=ROUNDING)


@given(MATURITIES, CELSIUS, CELSIUS, CELSIUS, st.floats(0.01, 0.99))
def test_splitting_a_bending_interval_changes_nothing(
    maturity: Rate | Factor, first: float, middle: float, last: float, share: float
) -> None:
    whole = Temperatures((0.0, 10.0), (first, last), None, (middle,))
    curve = AgeCurve.of(whole, 0.0, 10.0, maturity)
    cut = 10.0 * share
    parts = [AgeCurve.of(whole, a, b, maturity).ages[-1] for a, b in ((0.0, cut), (cut, 10.0))]
    assert math.fsum(parts) == pytest.approx(curve.ages[-1], rel=1e-9, abs=1e-9)
    assert curve.age_at(cut) == pytest.approx(parts[0], rel=1e-9, abs=1e-9)


@given(st.floats(-20.0, 10.0), st.floats(0.1, 60.0), st.floats(0.0, 5000.0))
def test_at_one_temperature_the_factor_is_degrees_above_the_datum_times_hours(
    datum: float, above: float, hours: float
) -> None:
    held = Temperatures((0.0,), (datum + above,), None)
    gathered = AgeCurve.of(held, 0.0, hours, Factor(datum)).ages[-1]
    assert gathered == pytest.approx(above * hours, rel=1e-9, abs=1e-9)


def test_a_factor_that_never_grows_is_reached_never_and_nothing_is_reached_at_once() -> None:
    frozen = AgeCurve.of(Temperatures((0.0,), (-20.0,), None), 0.0, 5.0, Factor(-10.0))
    assert frozen.hour_at(1.0) == math.inf
    assert frozen.hour_at(0.0) == 0.0


def test_a_frozen_stretch_between_two_mild_ones_is_passed_over() -> None:
    course = Temperatures((0.0, 10.0, 11.0, 20.0, 21.0, 40.0), (10.0, 10.0, -30.0, -30.0, 10.0, 10.0), None)
    curve = AgeCurve.of(course, 0.0, 40.0, Factor(0.0))
    before = curve.age_at(15.0)
    assert curve.age_at(11.0) == before == curve.age_at(20.0)
    assert curve.hour_at(before + 1e-9) > 20.0
    assert curve.age_at(curve.hour_at(before + 50.0)) == pytest.approx(before + 50.0)
