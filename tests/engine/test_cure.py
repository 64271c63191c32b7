"""Equivalent age: judged by scipy's quadrature, unchanged by splitting, by order and by the offset of a text."""

import math
import random
import time
from datetime import datetime, timedelta, timezone
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from tests.share import share_of

from evenbed.engine.cure import (
    AgeCurve,
    Temperatures,
    equivalent_age_from,
    moment_from_time,
    temperatures_from_climate,
)
from evenbed.engine.document.waiting import ClimateRow
from evenbed.engine.problems import BadDocumentError
from evenbed.engine.waiting.maturity import Rate

QUADRATURE = 1e-10  # relative: the promise of the module, whatever the temperatures
ROUNDING = 1e-12  # relative: sums of a few dozen terms
CENTRAL = timezone(timedelta(hours=-6))
ZERO = datetime(2026, 3, 2, 7, 0, tzinfo=CENTRAL)
USUAL = Rate(5000.0, 20.0)

CELSIUS = st.floats(-60.0, 100.0)
RATES = st.builds(Rate, st.floats(0.0, 20_000.0), st.floats(-20.0, 60.0))
PROFILES = st.lists(
    st.tuples(st.floats(0.01, 100.0), CELSIUS), min_size=1, max_size=8
).map(lambda steps: profile_of([s[0] for s in steps], [s[1] for s in steps]))  # fmt: skip


def profile_of(gaps: list[float], celsius: list[float]) -> Temperatures:
    hours = tuple(float(h) for h in np.cumsum(gaps))
    return Temperatures(hours, tuple(celsius), hours[-1])


def climate_of(hours: list[float], celsius: list[float], *, forecast: bool = False) -> list[ClimateRow]:
    return [
        ClimateRow((ZERO + timedelta(hours=h)).isoformat(), bed=c, forecast=forecast)
        for h, c in zip(hours, celsius, strict=True)
    ]


def judged_age(profile: Temperatures, start: float, end: float, rate: Rate) -> float:
    """scipy's adaptive quadrature over numpy's own interpolation, row to row."""
    corners = [start, *(h for h in profile.hours if start < h < end), end]
    whole = 0.0
    for a, b in pairwise(corners):
        first, last = np.interp([a, b], profile.hours, profile.celsius) + 273.15
        steepness = max(first, last)
        scale = math.exp(-rate.activation * (1.0 / steepness - 1.0 / (rate.reference + 273.15)))
        part, _ = quad(
            lambda u, first=first, last=last, top=steepness: math.exp(
                -rate.activation * (1.0 / (first + (last - first) * u) - 1.0 / top)
            ),
            0.0,
            1.0,
            epsabs=0.0,
            epsrel=1e-13,
            limit=500,
        )
        whole += part * scale * (b - a)
    return whole


@given(profile=PROFILES, rate=RATES, start=st.floats(-10.0, 200.0), wait=st.floats(0.1, 300.0))
def test_scipy_finds_the_same_age_over_any_temperatures(
    profile: Temperatures, rate: Rate, start: float, wait: float
) -> None:
    found = equivalent_age_from(profile, start, start + wait, rate)
    assert found == pytest.approx(judged_age(profile, start, start + wait, rate), rel=QUADRATURE)


@given(first=CELSIUS, last=CELSIUS)
@settings(max_examples=share_of(100))
def test_one_steep_interval_is_as_exact_as_a_gentle_one(first: float, last: float) -> None:
    profile, steepest = Temperatures((0.0, 1.0), (first, last), 1.0), Rate(20_000.0, 20.0)
    found = equivalent_age_from(profile, 0.0, 1.0, steepest)
    assert found == pytest.approx(judged_age(profile, 0.0, 1.0, steepest), rel=QUADRATURE)


@given(profile=PROFILES, rate=RATES, wait=st.floats(0.1, 300.0), share=st.floats(0.0, 1.0))
@settings(max_examples=share_of(100))
def test_splitting_a_wait_changes_nothing(profile: Temperatures, rate: Rate, wait: float, share: float) -> None:
    middle = wait * share
    parts = equivalent_age_from(profile, 0.0, middle, rate) + equivalent_age_from(profile, middle, wait, rate)
    assert parts == pytest.approx(equivalent_age_from(profile, 0.0, wait, rate), rel=QUADRATURE)


@given(profile=PROFILES, hour=st.floats(0.0, 300.0), wait=st.floats(0.1, 300.0))
def test_a_row_on_the_line_between_two_others_changes_nothing(
    profile: Temperatures, hour: float, wait: float
) -> None:
    rows = sorted({*zip(profile.hours, profile.celsius, strict=True), (hour, profile.at(hour))})
    denser = Temperatures(tuple(h for h, _ in rows), tuple(c for _, c in rows), None)
    before = equivalent_age_from(profile, 0.0, wait, USUAL)
    assert equivalent_age_from(denser, 0.0, wait, USUAL) == pytest.approx(before, rel=QUADRATURE)


@given(rate=RATES, wait=st.floats(0.0, 1e5))
def test_at_the_reference_temperature_equivalent_age_is_age(rate: Rate, wait: float) -> None:
    profile = Temperatures((0.0,), (rate.reference,), 0.0)
    assert equivalent_age_from(profile, 0.0, wait, rate) == pytest.approx(wait, rel=ROUNDING)


@given(profile=PROFILES, rate=RATES, wait=st.floats(1.0, 500.0), share=st.floats(0.01, 1.5))
def test_the_hour_of_an_age_is_the_hour_at_which_it_is_reached(
    profile: Temperatures, rate: Rate, wait: float, share: float
) -> None:
    curve = AgeCurve.of(profile, 0.0, wait, rate)
    age = curve.ages[-1] * share
    hour = curve.hour_at(age)
    held = Temperatures(profile.hours, profile.celsius, None) if hour <= wait else frozen_at(profile, wait)
    assert equivalent_age_from(held, 0.0, hour, rate) == pytest.approx(age, rel=1e-9)


def frozen_at(profile: Temperatures, end: float) -> Temperatures:
    """The profile as far as `end`, its temperature there held for good."""
    points = profile.between(-1e6, end)[1:]
    kept = sorted(dict(points).items())
    return Temperatures(tuple(h for h, _ in kept), tuple(c for _, c in kept), None)


@given(profile=PROFILES, wait=st.floats(1.0, 500.0), share=st.floats(0.0, 1.0))
def test_the_age_read_off_a_curve_is_the_age_gathered_until_then(
    profile: Temperatures, wait: float, share: float
) -> None:
    found = AgeCurve.of(profile, 0.0, wait, USUAL).age_at(wait * share)
    assert found == pytest.approx(equivalent_age_from(profile, 0.0, wait * share, USUAL), rel=1e-9, abs=1e-12)


@given(profile=PROFILES, hour=st.floats(-50.0, 900.0))
def test_temperatures_are_linear_between_rows_and_held_outside(profile: Temperatures, hour: float) -> None:
    assert profile.at(hour) == pytest.approx(float(np.interp(hour, profile.hours, profile.celsius)), abs=1e-9)


def test_rows_may_come_in_any_order() -> None:
    hours, celsius = [float(h) for h in range(48)], [15.0 + 10.0 * math.sin(h / 4.0) for h in range(48)]
    rows = climate_of(hours, celsius)
    shuffled = random.Random(7).sample(rows, len(rows))
    assert temperatures_from_climate(shuffled, ZERO) == temperatures_from_climate(rows, ZERO)
    assert temperatures_from_climate(rows, ZERO) == Temperatures(tuple(hours), tuple(celsius), 47.0)


def test_the_hour_skipped_by_daylight_saving_time_is_not_counted() -> None:
    """Midnight to three o'clock, when the clock jumped from two to three: two hours passed."""
    rows = [
        ClimateRow("2026-03-08T00:00:00-06:00", bed=20.0),
        ClimateRow("2026-03-08T03:00:00-05:00", bed=20.0),
    ]
    profile = temperatures_from_climate(rows, moment_from_time(rows[0].at))
    assert profile is not None
    assert profile.hours == (0.0, 2.0)


def test_the_bed_counts_where_it_was_measured_and_the_air_where_it_was_not() -> None:
    rows = [ClimateRow("2026-03-02T13:00:00Z", bed=12.0, air=5.0), ClimateRow("2026-03-02T14:00:00Z", air=7.0)]
    profile = temperatures_from_climate(rows, ZERO)
    assert profile is not None
    assert profile.celsius == (12.0, 7.0)


def test_a_row_with_no_temperature_is_skipped_and_none_at_all_is_nothing_known() -> None:
    rows = [ClimateRow("2026-03-02T13:00:00Z", humidity=50.0)]
    assert temperatures_from_climate(rows, ZERO) is None
    assert temperatures_from_climate([], ZERO) is None


def test_what_was_measured_overtakes_the_forecast_for_the_same_time() -> None:
    rows = climate_of([1.0, 3.0], [10.0, 12.0]) + climate_of([0.0, 1.0, 2.0, 3.0, 4.0], [30.0] * 5, forecast=True)
    profile = temperatures_from_climate(rows, ZERO)
    assert profile == Temperatures((0.0, 1.0, 3.0, 4.0), (30.0, 10.0, 12.0, 30.0), 3.0)


def test_two_temperatures_for_one_moment_are_refused_with_the_later_entry() -> None:
    rows = [*climate_of([0.0, 1.0], [10.0, 12.0]), ClimateRow("2026-03-02T14:00:00+00:00", bed=13.0)]
    with pytest.raises(BadDocumentError) as refusal:
        temperatures_from_climate(rows, ZERO)
    (problem,) = refusal.value.problems
    assert (problem.path, problem.code) == ("climate[2]", "contradictory_climate")
    assert {problem.values["first"], problem.values["second"]} == {12.0, 13.0}


def test_the_same_row_twice_is_one_row() -> None:
    rows = climate_of([0.0, 1.0], [10.0, 12.0])
    assert temperatures_from_climate(rows + rows, ZERO) == temperatures_from_climate(rows, ZERO)


def test_a_moment_without_its_offset_is_refused() -> None:
    with pytest.raises(ValueError, match="offset"):
        moment_from_time("2026-03-02T07:00:00")


def test_ten_thousand_rows_take_well_under_a_second() -> None:
    """The aim is 100 ms of the processor; a slow machine is given ten times that."""
    hours = [i / 12.0 for i in range(10_000)]
    rows = climate_of(hours, [15.0 + 15.0 * math.sin(i / 40.0) for i in range(10_000)])
    begun = time.process_time()
    profile = temperatures_from_climate(rows, ZERO)
    assert profile is not None
    equivalent_age_from(profile, 0.0, hours[-1], USUAL)
    assert time.process_time() - begun < 1.0
