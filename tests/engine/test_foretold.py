"""Days foretold: half waves, where they meet what was measured, and what goes beyond them."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.engine.courses import at, course, day, log
from tests.share import share_of

from evenbed.engine.cure import AgeCurve, Temperatures
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay
from evenbed.engine.waiting.foretold import MISSING_H, SETTLES_H
from evenbed.engine.waiting.maturity import Factor, Maturity, Rate
from evenbed.engine.waiting.series import MEETS_H, Warmth

NEAR = 1e-4  # °C: how far a parabola may lie from its piece of a half wave
MILLIONTH = 1e-6  # relative: what is promised of a foretold day


def half_wave(hour: float, start: float, end: float, first: float, last: float) -> float:
    return first + (last - first) * (1.0 - math.cos(math.pi * (hour - start) / (end - start))) / 2.0


@given(
    low=st.floats(-15.0, 30.0),
    swing=st.floats(0.0, 35.0),
    length=st.floats(1.0, 16.0),
    maturity=st.one_of(
        st.builds(Rate, st.floats(1000.0, 8000.0), st.just(20.0)), st.builds(Factor, st.floats(-11.0, -5.0))
    ),
)
@settings(max_examples=share_of(100))
def test_the_maturity_of_a_foretold_day_is_right_to_a_millionth(
    low: float, swing: float, length: float, maturity: Maturity
) -> None:
    days = [
        ForecastDay(low, low + swing, at(0.0), at(length)),
        ForecastDay(low, low + swing, at(2 * length), at(24.0 + length)),
    ]
    found = course(Curing(), Warmth([], [], days))
    gathered = AgeCurve.of(found, 0.0, 2 * length, maturity).ages[-1]

    def wave(hour: float) -> float:
        there = half_wave(hour, 0.0, length, low, low + swing)
        return there if hour <= length else half_wave(hour, length, 2 * length, low + swing, low)

    judged = math.fsum(
        quad(lambda h: maturity.at(wave(h)), a * length / 8, (a + 1) * length / 8, epsabs=0.0, epsrel=1e-11)[0]
        for a in range(16)
        if low > -11.0 or isinstance(maturity, Rate)
    )
    if judged:
        assert gathered == pytest.approx(judged, rel=MILLIONTH)


def test_between_low_and_high_the_temperature_swings_as_half_a_wave() -> None:
    found = course(Curing(), Warmth([], [], [day(5.0, 20.0), day(6.0, 18.0, 24.0, 33.0)]))
    for hour in (0.0, 3.0, 4.5, 9.0):
        assert found.at(hour) == pytest.approx(half_wave(hour, 0.0, 9.0, 5.0, 20.0), abs=NEAR)
    for hour in (12.0, 16.5, 24.0):
        assert found.at(hour) == pytest.approx(half_wave(hour, 9.0, 24.0, 20.0, 6.0), abs=NEAR)
    assert found.measured_until is None


@given(low=st.floats(-15.0, 30.0), swing=st.floats(0.0, 40.0), share=st.floats(0.0, 1.0))
@settings(max_examples=share_of(200))
def test_no_swing_bends_a_foretold_day_off_its_half_wave(low: float, swing: float, share: float) -> None:
    found = course(Curing(), Warmth([], [], [day(low, low + swing)]))
    assert found.at(9.0 * share) == pytest.approx(half_wave(9.0 * share, 0.0, 9.0, low, low + swing), abs=NEAR)


@given(st.floats(0.0, 1.0), st.floats(-5.0, 30.0))
def test_a_room_follows_the_forecast_as_far_as_is_said(follows: float, assumed: float) -> None:
    found = course(Curing(assumed=assumed, follows=follows), Warmth([], [], [day(5.0, 20.0)]))
    assert found.at(0.0) == pytest.approx(assumed + follows * (5.0 - assumed), abs=1e-9)
    assert found.at(9.0) == pytest.approx(assumed + follows * (20.0 - assumed), abs=1e-9)


def test_a_forecast_that_agrees_with_the_last_measurement_goes_on_unchanged() -> None:
    days = [day(5.0, 20.0), day(6.0, 18.0, 24.0, 33.0)]
    alone = course(Curing(), Warmth([], [], days))
    joined = course(Curing(), Warmth([], [log([0.0, 3.0], [5.0, alone.at(3.0)])], days))
    assert joined.measured_until == 3.0
    for hour in (3.0, 5.0, 9.0, 20.0, 30.0):
        assert joined.at(hour) == pytest.approx(alone.at(hour), abs=NEAR)


def test_a_forecast_that_begins_elsewhere_meets_the_last_measurement_and_comes_into_its_own() -> None:
    days = [day(5.0, 20.0), day(6.0, 18.0, 24.0, 33.0)]
    alone = course(Curing(), Warmth([], [], days))
    joined = course(Curing(), Warmth([], [log([0.0, 3.0], [5.0, 15.0])], days))
    shift = 15.0 - alone.at(3.0)
    assert joined.at(3.0) == 15.0
    assert joined.at(3.0 + MEETS_H / 2) == pytest.approx(alone.at(3.0 + MEETS_H / 2) + shift / 2, abs=1e-3)
    assert joined.at(3.0 + MEETS_H) == pytest.approx(alone.at(3.0 + MEETS_H), abs=1e-3)


def test_over_a_gap_before_the_forecast_the_temperature_goes_straight() -> None:
    found = course(Curing(), Warmth([], [log([-20.0, -10.0], [15.0, 15.0])], [day(5.0, 20.0)]))
    assert found.at(-5.0) == pytest.approx(10.0)


# Beyond the days foretold, and where some are missing.


def test_after_the_last_high_comes_one_more_night_and_then_the_mean_of_that_day_holds() -> None:
    found = course(Curing(), Warmth([], [], [day(0.0, 10.0), day(6.0, 18.0, 24.0, 33.0)]))
    for share in (0.1, 0.5, 0.8):
        night, settling = 33.0 + SETTLES_H * share, 33.0 + SETTLES_H * (1.0 + share)
        assert found.at(night) == pytest.approx(half_wave(night, 33.0, 33.0 + SETTLES_H, 18.0, 6.0), abs=NEAR)
        there = half_wave(settling, 33.0 + SETTLES_H, 33.0 + 2 * SETTLES_H, 6.0, 12.0)
        assert found.at(settling) == pytest.approx(there, abs=NEAR)
    assert [found.at(hour) for hour in (33.0 + 2 * SETTLES_H, 100.0, 5000.0)] == pytest.approx([12.0] * 3)


def test_before_the_first_day_its_mean_holds_where_nothing_was_measured() -> None:
    found = course(Curing(), Warmth([], [], [day(5.0, 20.0)]))
    assert found.at(-5000.0) == found.at(-SETTLES_H) == pytest.approx(12.5)
    assert found.at(-4.0) == pytest.approx(half_wave(-4.0, -SETTLES_H, 0.0, 12.5, 5.0), abs=NEAR)
    evening = course(Curing(), Warmth([], [], [day(5.0, 20.0, 9.0, 0.0)]))
    assert [evening.at(hour) for hour in (-24.0, -12.0, 0.0)] == pytest.approx([12.5, 5.0, 20.0])
    assert evening.at(9.0 + SETTLES_H) == pytest.approx(12.5)


def test_after_a_low_the_mean_of_its_day_is_reached_at_once() -> None:
    found = course(Curing(), Warmth([], [], [day(5.0, 20.0, 9.0, 0.0)]))
    assert found.at(9.0 + SETTLES_H / 2) == pytest.approx(0.5 * (5.0 + 12.5), abs=NEAR)


@given(
    swings=st.lists(st.tuples(st.floats(-15.0, 25.0), st.floats(0.0, 20.0)), min_size=1, max_size=4),
    low_h=st.floats(-4.0, 0.0),
    rise_h=st.floats(3.0, SETTLES_H),
    maturity=st.sampled_from([Rate(5000.0, 20.0), Rate(2000.0, 20.0), Factor(-10.0), Factor(5.0)]),
)
@settings(max_examples=share_of(60))
def test_days_like_the_last_one_are_never_later_than_what_is_told_without_them(
    swings: list[tuple[float, float]], low_h: float, rise_h: float, maturity: Maturity
) -> None:
    told = [*swings, *[swings[-1]] * 6]
    days = [day(low, low + swing, 24.0 * n + low_h, 24.0 * n + low_h + rise_h) for n, (low, swing) in enumerate(told)]
    short, long = (course(Curing(), Warmth([], [], known)) for known in (days[: len(swings)], days))
    end = 24.0 * len(told) - 24.0
    shorter, longer = (AgeCurve.of(found, 0.0, end, maturity) for found in (short, long))
    for hour in range(0, int(end), 3):
        assert shorter.age_at(hour) <= longer.age_at(hour) * (1.0 + 1e-6) + 1e-6


def test_where_days_are_missing_the_means_of_their_neighbours_stand_in() -> None:
    found = course(Curing(), Warmth([], [], [day(5.0, 20.0), day(-4.0, 4.0, 96.0, 105.0)]))
    assert MISSING_H < 96.0 - 9.0
    assert found.at(9.0 + SETTLES_H) == pytest.approx(12.5)
    assert found.at(96.0 - SETTLES_H) == pytest.approx(0.0, abs=1e-9)
    middle = 0.5 * (9.0 + 96.0)
    assert found.at(middle) == pytest.approx(6.25, abs=NEAR)
    assert found.at(96.0) == -4.0


@given(st.permutations(range(5)))
def test_days_may_be_told_in_any_order(order: list[int]) -> None:
    days = [day(2.0 * n, 3.0 * n + 9.0, 24.0 * n, 24.0 * n + 8.0) for n in range(5)]
    assert course(Curing(), Warmth([], [], [days[n] for n in order])) == course(Curing(), Warmth([], [], days))


@given(last=st.floats(-30.0, 60.0), celsius=st.floats(-10.0, 40.0))
@settings(max_examples=share_of(200))
def test_wherever_a_measurement_ends_the_forecast_meets_it_and_comes_into_its_own(
    last: float, celsius: float
) -> None:
    days = [day(5.0, 20.0), day(6.0, 18.0, 24.0, 33.0)]
    alone = course(Curing(), Warmth([], [], days))
    joined = course(Curing(), Warmth([ClimateRow(at(last), bed=celsius)], [], days))
    zero = joined.measured_until
    assert zero is not None
    assert joined.at(zero) == celsius
    settled = 33.0 + 2 * SETTLES_H
    if zero < settled:
        for hour in (33.0, settled, 400.0):
            if hour >= max(zero, 0.0) + MEETS_H:
                assert joined.at(hour) == pytest.approx(alone.at(hour), abs=1e-3)


def test_what_was_foretold_before_the_last_measurement_is_overtaken() -> None:
    found = course(Curing(), Warmth([], [log([0.0, 50.0], [11.0, 11.0])], [day(-30.0, 40.0)]))
    assert found == Temperatures((0.0, 50.0), (11.0, 11.0), 50.0)
