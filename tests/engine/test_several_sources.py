"""One course out of rows, logs and days: which counts, what contradicts, and whatever the clocks say."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.engine.courses import ZERO, at, course, day, log
from tests.share import share_of

from evenbed.engine.cure import AgeCurve
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay, TemperatureLog
from evenbed.engine.problems import BadDocumentError
from evenbed.engine.waiting.foretold import SETTLES_H
from evenbed.engine.waiting.maturity import Rate
from evenbed.engine.waiting.series import APART, BESIDE_H, HARDLY, Warmth


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
