"""The course of the temperature from rows, logs and days foretold: half waves, joins, contradictions, offsets."""

import math
from datetime import UTC, datetime, timedelta, timezone

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.share import share_of

from evenbed.engine.cure import AgeCurve, Temperatures
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay, LoggedWhere, TemperatureLog
from evenbed.engine.problems import BadDocumentError
from evenbed.engine.waiting.foretold import MISSING_H, SETTLES_H
from evenbed.engine.waiting.maturity import Factor, Maturity, Rate
from evenbed.engine.waiting.series import APART, BESIDE_H, HARDLY, MEETS_H, Warmth

NEAR = 1e-4  # °C: how far a parabola may lie from its piece of a half wave
MILLIONTH = 1e-6  # relative: what is promised of a foretold day
CENTRAL = timezone(timedelta(hours=-5))
ZERO = datetime(2026, 5, 4, 5, 0, tzinfo=CENTRAL)


def at(hours: float) -> str:
    return (ZERO + timedelta(hours=hours)).isoformat()


def day(low: float, high: float, low_h: float = 0.0, high_h: float = 9.0) -> ForecastDay:
    return ForecastDay(low, high, at(low_h), at(high_h))


def log(hours: list[float], celsius: list[float], where: LoggedWhere = "bed") -> TemperatureLog:
    return TemperatureLog(at(0.0), tuple(3600.0 * h for h in hours), tuple(celsius), where)


def course(curing: Curing, warmth: Warmth) -> Temperatures:
    found = warmth.temperatures(curing, ZERO)
    assert found is not None
    return found


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


def test_the_bed_counts_before_the_air_and_air_inside_a_bed_log_is_left_out() -> None:
    rows = [ClimateRow(at(1.5), air=40.0), ClimateRow(at(9.0), air=12.0), ClimateRow(at(2.5), bed=19.0)]
    warmth = Warmth(
        rows, [log([0.0, 1.0, 2.0, 3.0], [18.0, 18.5, 19.0, 19.5]), log([4.0, 2.0][::-1], [1.0, 2.0], "air")]
    )
    found = course(Curing(), warmth)
    assert found.hours == (0.0, 1.0, 2.0, 2.5, 3.0, 4.0, 9.0)
    assert found.celsius == (18.0, 18.5, 19.0, 19.0, 19.5, 2.0, 12.0)


def test_of_two_loggers_in_the_bed_the_colder_counts_where_they_tell_the_same_moment() -> None:
    found = course(Curing(), Warmth([], [log([0.0, 1.0], [18.0, 18.0]), log([0.0, 1.0], [17.0, 19.0])]))
    assert found.celsius == (17.0, 18.0)


@given(
    celsius=st.lists(st.tuples(st.floats(0.0, 30.0), st.floats(0.0, 30.0)), min_size=2, max_size=12),
    apart=st.floats(0.05, 0.95),
)
@settings(max_examples=share_of(200))
def test_of_two_loggers_in_the_bed_whose_moments_lie_between_each_others_the_colder_counts(
    celsius: list[tuple[float, float]], apart: float
) -> None:
    """Held against numpy's interpolation: never above the colder of the two, and on it where a reading was taken."""
    ones, others = ([pair[n] for pair in celsius] for n in (0, 1))
    hours = [float(n) for n in range(len(celsius))]
    shifted = [hour + apart for hour in hours]
    found = course(Curing(), Warmth([], [log(hours, ones), log(shifted, others)]))
    for hour in np.arange(hours[0] + apart, hours[-1], 0.05):
        colder = min(np.interp(hour, hours, ones), np.interp(hour, shifted, others))
        assert found.at(float(hour)) <= colder + HARDLY
    lower = {h: min(np.interp(h, hours, ones), np.interp(h, shifted, others)) for h in [*hours[1:], *shifted[:-1]]}
    assert all(
        found.at(hour) == pytest.approx(told, abs=HARDLY) for hour, told in lower.items() if hour in found.hours
    )
    assert {hour for hour, told in zip(hours, ones, strict=True) if told <= lower.get(hour, told)} <= {*found.hours}


@given(
    celsius=st.lists(st.floats(-20.0, 40.0), min_size=4, max_size=40),
    begins=st.integers(-200_000, 20_000),
    cut=st.tuples(st.integers(0, 40), st.integers(0, 40)),
    step=st.sampled_from([1.0, 60.0, 900.0, 3601.0, 7200.0]),
)
@settings(max_examples=share_of(200))
def test_a_part_of_a_log_told_again_by_itself_changes_nothing(
    celsius: list[float], begins: int, cut: tuple[int, int], step: float
) -> None:
    first, last = sorted(min(n, len(celsius) - 1) for n in cut)
    seconds = [step * n for n in range(len(celsius))]
    whole = TemperatureLog(at(begins / 3600.0), tuple(seconds), tuple(celsius))
    part_seconds = tuple(second - seconds[first] for second in seconds[first : last + 1])
    started = (datetime.fromisoformat(whole.start) + timedelta(seconds=seconds[first])).astimezone(UTC)
    part = TemperatureLog(started.isoformat(), part_seconds, tuple(celsius[first : last + 1]))
    one, both = course(Curing(), Warmth([], [whole])), course(Curing(), Warmth([], [whole, part]))
    rate = Rate(5000.0, 20.0)
    ages = [AgeCurve.of(found, one.hours[0], one.hours[-1], rate).ages[-1] for found in (one, both)]
    assert ages[0] == pytest.approx(ages[1], rel=1e-9)


def test_a_log_says_nothing_of_what_another_measured_in_a_gap_of_its_own() -> None:
    gap = log([0.0, BESIDE_H + 0.1], [10.0, 10.0])
    found = course(Curing(), Warmth([], [gap, log([1.0, 2.0], [25.0, 25.0])]))
    assert (found.at(1.0), found.at(2.0)) == (25.0, 25.0)
    near = course(Curing(), Warmth([], [log([0.0, BESIDE_H], [10.0, 10.0]), log([1.0, 2.0], [25.0, 25.0])]))
    assert (near.at(1.0), near.at(2.0)) == (10.0, 10.0)


def refused(warmth: Warmth) -> list[tuple[str, str]]:
    with pytest.raises(BadDocumentError) as refusal:
        warmth.temperatures(Curing(), ZERO)
    return [(problem.path, problem.code) for problem in refusal.value.problems]


def test_contradictions_are_told_with_their_places() -> None:
    far = log([1.0], [18.0 + APART + 0.1])
    assert refused(Warmth([], [log([0.0, 1.0], [18.0, 18.0]), far])) == [("logs[1]", "contradictory_climate")]
    assert refused(Warmth([], [TemperatureLog(at(0.0), (0.0, 1.0), (1.0,))])) == [("logs[0].celsius", "log_lengths")]
    assert refused(Warmth([], [log([1.0, 0.5], [1.0, 1.0])])) == [("logs[0].seconds[1]", "log_not_rising")]
    assert refused(Warmth([], [log([1.0, 1.0], [1.0, 2.0])])) == [("logs[0].celsius[1]", "log_contradicts")]
    assert refused(Warmth([], [], [day(20.0, 5.0)])) == [("forecast[0].low", "low_above_high")]
    twice = [day(5.0, 20.0), day(6.0, 20.0)]
    assert refused(Warmth([], [], twice)) == [("forecast[1].low_at", "contradictory_climate")]


@given(start=st.integers(-300_000, 300_000), later=st.integers(1, 7200))
def test_two_logs_that_lie_far_apart_at_one_moment_are_refused_wherever_they_start(start: int, later: int) -> None:
    one = TemperatureLog(at(start / 3600.0), (0.0, float(later), 9000.0), (10.0, 10.0, 10.0))
    begins = datetime.fromisoformat(one.start) + timedelta(seconds=later)
    other = TemperatureLog(begins.isoformat(), (0.0,), (10.0 + APART + 0.1,))
    assert refused(Warmth([], [one, other])) == [("logs[1]", "contradictory_climate")]


def test_the_same_log_and_the_same_day_twice_change_nothing() -> None:
    one = Warmth([], [log([0.0, 1.0], [18.0, 18.0])], [day(5.0, 20.0, 24.0, 33.0)])
    two = Warmth([], [*one.logs, *one.logs], [*one.forecast, *one.forecast])
    assert course(Curing(), one) == course(Curing(), two)


@pytest.mark.parametrize(
    ("before", "after", "hours"),
    [
        ("2026-03-08T00:00:00-06:00", "2026-03-08T06:00:00-05:00", 5.0),
        ("2026-10-31T22:00:00-05:00", "2026-11-01T06:00:00-06:00", 9.0),
        ("2026-05-04T08:00:00Z", "2026-05-04T08:00:00-05:30", 5.5),
    ],
    ids=["clocks forward", "clocks back", "another place"],
)
@pytest.mark.parametrize("kind", ["rows", "logs", "forecast"])
def test_only_the_hours_that_passed_count_whatever_offsets_the_clocks_had(
    before: str, after: str, hours: float, kind: str
) -> None:
    rows = [ClimateRow(before, bed=20.0), ClimateRow(after, bed=20.0)] if kind == "rows" else []
    logs = [TemperatureLog(start, (0.0,), (20.0,)) for start in (before, after)] if kind == "logs" else []
    days = [ForecastDay(20.0, 20.0, before, after)] if kind == "forecast" else []
    zero = datetime.fromisoformat(before)
    found = Warmth(rows, logs, days).temperatures(Curing(), zero)
    assert found is not None
    beyond = SETTLES_H if days else 0.0
    assert found.hours[0] == -beyond
    assert found.hours[-1] == pytest.approx(hours + beyond, abs=1e-12)
    aged = AgeCurve.of(found, 0.0, hours, Rate(5000.0, 20.0)).ages[-1]
    assert aged == pytest.approx(hours, rel=1e-9)


@given(st.lists(st.floats(-10.0, 40.0), min_size=3, max_size=30))
@settings(max_examples=share_of(50))
def test_a_log_cut_in_two_or_typed_as_rows_is_the_same_course(celsius: list[float]) -> None:
    hours = [0.25 * n for n in range(len(celsius))]
    whole = course(Curing(), Warmth([], [log(hours, celsius)], [day(5.0, 20.0, 24.0, 33.0)]))
    half = len(hours) // 2
    parts = [log(hours[half:], celsius[half:]), log(hours[: half + 1], celsius[: half + 1])]
    assert course(Curing(), Warmth([], parts, [day(5.0, 20.0, 24.0, 33.0)])) == whole
    rows = [ClimateRow(at(h), bed=c) for h, c in zip(hours, celsius, strict=True)]
    assert course(Curing(), Warmth(rows, [], [day(5.0, 20.0, 24.0, 33.0)])) == whole
