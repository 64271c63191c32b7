"""When a bed may be walked on and tiled: placed or not, measured or foretold, warm or frozen."""

import math
from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.share import share_of

from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.document.waiting import ClimateRow, Curing, MilestoneNeed
from evenbed.engine.readiness import (
    MILESTONES,
    Readiness,
    ReadinessRow,
    readiness_from,
)
from evenbed.engine.waiting.explaining import readiness_explanations

PLACED = "2026-05-04T08:00:00-05:00"
DAY_AFTER = "2026-05-05T08:00:00-05:00"
SECONDS = 1.0  # moments are named to the second
RATE_AT_10 = math.exp(-5000.0 * (1.0 / 283.15 - 1.0 / 293.15))
RATE_AT_30 = math.exp(-5000.0 * (1.0 / 303.15 - 1.0 / 293.15))


def at(hours: float) -> str:
    return (datetime.fromisoformat(PLACED) + timedelta(hours=hours)).isoformat()


def row(hours: float, celsius: float, *, forecast: bool = False) -> ClimateRow:
    return ClimateRow(at(hours), bed=celsius, forecast=forecast)


def tile_of(readiness: Readiness) -> ReadinessRow:
    return next(r for r in readiness.rows if r.milestone == "tile")


def codes_of(readiness: Readiness) -> set[str]:
    return {c.code for c in readiness.cautions}


PLACEMENT = Placement("1", at(-0.5), PLACED)
NEEDS_20 = Curing(milestones=(MilestoneNeed("tile", 20.0),))


def test_at_the_reference_temperature_tile_waits_the_hours_it_needs() -> None:
    found = tile_of(readiness_from(NEEDS_20, [row(0, 20.0), row(30, 20.0)], [PLACEMENT]))
    assert found.at == "2026-05-05T04:00:00-05:00"
    assert found.after_h == pytest.approx(20.0)
    assert found.equivalent_age == pytest.approx(30.0)
    assert found.needs == 20.0
    assert (found.code, found.forecast, found.reason) == ("room", False, None)


def test_every_milestone_has_its_row_in_the_order_of_the_work() -> None:
    rows = readiness_from(Curing(), [], [PLACEMENT]).rows
    assert tuple(r.milestone for r in rows) == MILESTONES
    assert [r.needs for r in rows] == sorted(r.needs for r in rows)
    assert all(r.basis for r in rows)


def test_a_default_nobody_published_says_so() -> None:
    rows = readiness_from(Curing(), [], []).rows
    assert {r.milestone for r in rows if "no source" in r.basis} == set(MILESTONES) - {"tile"}


@given(celsius=st.floats(-20.0, 45.0), colder=st.floats(0.5, 10.0))
@settings(max_examples=share_of(200))
def test_cold_stretches_every_wait(celsius: float, colder: float) -> None:
    warm = readiness_from(Curing(), [row(0, celsius)], [PLACEMENT]).rows
    cold = readiness_from(Curing(), [row(0, celsius - colder)], [PLACEMENT]).rows
    assert all(c.after_h > w.after_h for c, w in zip(cold, warm, strict=True) if c.after_h and w.after_h)
    assert all(w.after_h is not None for w in warm)


@given(needs=st.lists(st.floats(0.0, 500.0), min_size=5, max_size=5), celsius=st.floats(0.0, 40.0))
@settings(max_examples=share_of(200))
def test_a_bed_kept_at_its_temperature_until_a_milestone_has_just_the_age_it_needs(
    needs: list[float], celsius: float
) -> None:
    asked = tuple(MilestoneNeed(m, n) for m, n in zip(MILESTONES, needs, strict=True))
    for found in readiness_from(Curing(milestones=asked), [row(0, celsius)], [PLACEMENT]).rows:
        assert found.at is not None
        assert found.after_h is not None
        held = readiness_from(Curing(), [row(0, celsius), row(found.after_h, celsius)], [PLACEMENT])
        assert held.rows[0].equivalent_age == pytest.approx(found.needs, abs=1e-6)
        named = (datetime.fromisoformat(found.at) - datetime.fromisoformat(PLACED)).total_seconds()
        assert named == pytest.approx(found.after_h * 3600.0, abs=SECONDS)


def test_the_last_section_placed_starts_the_wait() -> None:
    placements = [Placement("2", None, DAY_AFTER), PLACEMENT, Placement("3", DAY_AFTER, None)]
    found = readiness_from(NEEDS_20, [row(0, 20.0), row(60, 20.0)], placements)
    assert found.placed_at == DAY_AFTER
    assert tile_of(found).at == "2026-05-06T04:00:00-05:00"
    assert tile_of(found).equivalent_age == pytest.approx(36.0)


def test_where_nothing_is_placed_there_are_hours_from_the_first_row_and_no_date() -> None:
    found = tile_of(readiness_from(NEEDS_20, [row(0, 10.0), row(200, 10.0)], [Placement("1", PLACED, None)]))
    assert (found.at, found.equivalent_age, found.reason_code) == (None, 0.0, "not_placed")
    assert found.after_h == pytest.approx(20.0 / RATE_AT_10)


def test_the_working_time_runs_from_the_last_mixing_whether_told_of_a_section_or_of_a_batch() -> None:
    batches = [MixedBatch(at(1.0)), MixedBatch(at(0.5))]
    found = readiness_from(Curing(), [row(-1, 10.0), row(1, 30.0)], [PLACEMENT], batches).working_time
    assert (found.temperature, found.until) == (30.0, at(round(3600 * 1.5 / RATE_AT_30) / 3600 + 1.0))
    assert readiness_from(Curing(), [row(-1, 10.0)], [PLACEMENT]).working_time.until == at(
        round(3600 * 1.5 / RATE_AT_10) / 3600 - 0.5
    )


def test_without_a_climate_the_assumed_temperature_holds_and_is_named() -> None:
    found = readiness_from(replace(NEEDS_20, assumed=30.0), [], [PLACEMENT])
    assert tile_of(found).after_h == pytest.approx(20.0 / RATE_AT_30)
    assert tile_of(found).forecast
    assert codes_of(found) == {"prediction", "temperature_assumed"}


def test_age_so_far_stops_at_the_last_measured_moment_and_the_forecast_is_marked() -> None:
    rows = [row(0, 20.0), row(10, 20.0), row(11, 20.0, forecast=True), row(40, 20.0, forecast=True)]
    asked = Curing(milestones=(MilestoneNeed("walk", 5.0), MilestoneNeed("tile", 20.0)))
    found = readiness_from(asked, rows, [PLACEMENT])
    assert tile_of(found).equivalent_age == pytest.approx(10.0)
    assert [r.forecast for r in found.rows[:2]] == [False, True]


def test_what_was_measured_before_placing_does_not_age_the_bed() -> None:
    found = readiness_from(NEEDS_20, [row(-30, 20.0), row(-1, 20.0)], [PLACEMENT])
    assert tile_of(found).equivalent_age == 0.0
    assert tile_of(found).after_h == pytest.approx(20.0)


def test_the_moment_wears_the_offset_in_force_then() -> None:
    """Placed the evening before the clocks go forward at two: twelve hours later it is an hour later by the clock."""
    rows = [
        ClimateRow("2026-03-07T18:00:00-06:00", bed=20.0),
        ClimateRow("2026-03-08T03:00:00-05:00", bed=20.0),
    ]
    placed = Placement("1", None, "2026-03-07T18:00:00-06:00")
    found = readiness_from(Curing(milestones=(MilestoneNeed("tile", 12.0),)), rows, [placed])
    assert tile_of(found).at == "2026-03-08T07:00:00-05:00"


def test_a_bed_frozen_for_good_has_no_moment_and_a_reason() -> None:
    found = tile_of(readiness_from(Curing(activation=20_000.0), [row(0, -60.0)], [PLACEMENT]))
    assert (found.at, found.after_h, found.reason_code) == (None, None, "not_within")
    assert found.reason == "Not within ten years at these temperatures."


def test_a_moment_beyond_the_calendar_has_no_date() -> None:
    placed = Placement("1", None, "9999-12-31T20:00:00+00:00")
    assert tile_of(readiness_from(Curing(), [], [placed])).at is None


@pytest.mark.parametrize(
    ("celsius", "expected"),
    [
        (20.0, set()),
        (10.0, set()),
        (9.9, {"cold"}),
        (0.0, {"frost_placed"}),
        (-5.0, {"frost_placed"}),
        (38.0, set()),
        (38.5, {"heat"}),
    ],
)
def test_cold_frost_and_heat_are_said_where_they_are(celsius: float, expected: set[str]) -> None:
    assert codes_of(readiness_from(Curing(), [row(0, celsius)], [PLACEMENT])) == {"prediction"} | expected


def test_nobody_is_told_not_to_place_a_bed_that_lies_placed() -> None:
    frozen = [row(0, -3.0)]
    assert codes_of(readiness_from(Curing(), frozen, [])) == {"prediction", "frost"}
    assert codes_of(readiness_from(Curing(), frozen, [PLACEMENT])) == {"prediction", "frost_placed"}


def test_frost_foretold_before_the_bed_is_hard_is_said_and_frost_long_after_is_not() -> None:
    soon = [row(0, 15.0), row(10, -3.0, forecast=True)]
    late = [row(0, 20.0), row(100, 20.0), row(110, -3.0, forecast=True)]
    assert "frost_placed" in codes_of(readiness_from(Curing(), soon, [PLACEMENT]))
    assert codes_of(readiness_from(Curing(), late, [PLACEMENT])) == {"prediction"}


def test_a_batch_mixed_in_the_heat_must_be_used_sooner() -> None:
    found = readiness_from(Curing(working_time=2.0), [row(-2, 30.0), row(20, 30.0)], [PLACEMENT]).working_time
    assert found.hours == pytest.approx(2.0 / RATE_AT_30)
    assert found.temperature == pytest.approx(30.0)
    assert found.until is not None
    used = datetime.fromisoformat(found.until) - datetime.fromisoformat(at(-0.5))
    assert used.total_seconds() == pytest.approx(found.hours * 3600.0, abs=SECONDS)


def test_with_nothing_mixed_the_batch_is_judged_at_the_last_measured_temperature() -> None:
    found = readiness_from(Curing(), [row(0, 5.0), row(10, 20.0), row(20, 35.0, forecast=True)], []).working_time
    assert (found.temperature, found.until) == (20.0, None)
    assert found.hours == pytest.approx(1.5)


CURINGS = st.builds(
    Curing,
    activation=st.floats(0.0, 20_000.0),
    reference=st.floats(-20.0, 60.0),
    assumed=st.floats(-60.0, 80.0),
    working_time=st.floats(0.05, 48.0),
    milestones=st.lists(
        st.builds(MilestoneNeed, st.sampled_from(MILESTONES), st.floats(0.0, 100_000.0)), max_size=5
    ).map(tuple),
)
YEARS = st.datetimes(datetime(1, 1, 3), datetime(9999, 12, 29)).map(lambda d: d.isoformat() + "+05:30")  # noqa: DTZ001
CLIMATES = st.lists(
    st.builds(
        ClimateRow,
        at=YEARS,
        bed=st.one_of(st.none(), st.floats(-60.0, 100.0)),
        air=st.one_of(st.none(), st.floats(-60.0, 80.0)),
        forecast=st.booleans(),
    ),
    max_size=5,
    unique_by=lambda r: r.at,
)
PLACEMENTS = st.lists(
    st.builds(Placement, st.just("1"), st.one_of(st.none(), YEARS), st.one_of(st.none(), YEARS)), max_size=3
)


@given(curing=CURINGS, climate=CLIMATES, placements=PLACEMENTS)
@settings(max_examples=share_of(200))
def test_whatever_a_document_may_say_each_milestone_has_its_hours_or_the_reason_why_not(
    curing: Curing, climate: list[ClimateRow], placements: list[Placement]
) -> None:
    found = readiness_from(curing, climate, placements)
    is_placed = found.placed_at is not None
    for r in found.rows:
        assert (r.at is None) == (r.reason_code is not None) == (r.reason is not None)
        assert (r.after_h is None) == (r.reason_code == "not_within")
        assert r.after_h is None or 0.0 <= r.after_h <= 10 * 365.25 * 24
        assert is_placed or r.at is None
        assert math.isfinite(r.equivalent_age)
        assert r.equivalent_age >= 0.0
    assert 0.0 < found.working_time.hours < math.inf


def test_the_order_of_rows_and_of_placements_changes_nothing() -> None:
    rows = [row(h, 10.0 + h % 7) for h in range(30)]
    placements = [PLACEMENT, Placement("2", None, at(5.0))]
    forward = readiness_from(Curing(), rows, placements)
    assert readiness_from(Curing(), rows[::-1], placements[::-1]) == forward


def test_each_milestone_explains_itself() -> None:
    readiness = readiness_from(NEEDS_20, [row(0, 20.0)], [PLACEMENT])
    found = readiness_explanations(readiness, NEEDS_20)
    assert [found[f"readiness[{i}]"].source_code for i in range(3)] == ["common_practice", "room", "common_practice"]
    assert found["readiness[1]"].inputs["needs"] == 20.0
    assert found["readiness[1].equivalent_age"].inputs["age"] == readiness.rows[1].equivalent_age
    assert found["working_time"].inputs["working_time"] == 1.5
