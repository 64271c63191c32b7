"""Windows of readiness: early before likely before late, wider in doubt and over a thick bed, by both methods."""

import math
from dataclasses import replace
from datetime import datetime, timedelta
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.share import share_of

from evenbed.engine.document.filling import Placement
from evenbed.engine.document.waiting import (
    ClimateRow,
    Curing,
    ForecastDay,
    Method,
    MilestoneNeed,
    TemperatureLog,
    Tick,
)
from evenbed.engine.readiness import MILESTONES, Beside, ReadinessRow, readiness_from
from evenbed.engine.waiting.explaining import readiness_explanations
from evenbed.engine.waiting.maturity import Rate
from evenbed.engine.waiting.windows import NOMINAL, WIDEST, BedKind

PLACED = "2026-05-04T08:00:00-05:00"
PLACEMENT = Placement("S1", None, PLACED)
METHODS: tuple[Method, ...] = get_args(Method)
HAIR = 1e-9  # h: what a root of the curve may be off
CERTAIN = Curing(early=1.0, late=1.0, forecast_doubt=0.0, method="temperature_time")


def at(hours: float) -> str:
    return (datetime.fromisoformat(PLACED) + timedelta(hours=hours)).isoformat()


def measured(celsius: float, until: float) -> TemperatureLog:
    return TemperatureLog(PLACED, (0.0, 3600.0 * until), (celsius, celsius))


def rows_of(
    curing: Curing, beside: Beside | None = None, climate: list[ClimateRow] | None = None
) -> list[ReadinessRow]:
    return list(readiness_from(curing, climate or [], [PLACEMENT], (), beside or Beside()).rows)


def tile_of(rows: list[ReadinessRow]) -> ReadinessRow:
    return next(row for row in rows if row.milestone == "tile")


def hours_of(row: ReadinessRow) -> tuple[float, float, float]:
    found = (row.early_after_h, row.after_h, row.late_after_h)
    early, likely, late = (math.inf if hour is None else hour for hour in found)
    return early, likely, late


CURINGS = st.builds(
    Curing,
    activation=st.floats(0.0, 12_000.0),
    assumed=st.floats(-15.0, 40.0),
    method=st.sampled_from(METHODS),
    datum=st.floats(-20.0, 10.0),
    early=st.floats(0.1, 1.0),
    late=st.floats(1.0, 10.0),
    forecast_doubt=st.floats(0.0, 20.0),
    follows=st.floats(0.0, 1.0),
)
DAYS = st.lists(st.tuples(st.floats(-15.0, 25.0), st.floats(0.0, 20.0)), max_size=4).map(
    lambda swings: [
        ForecastDay(low, low + swing, at(24.0 * n + 21.0), at(24.0 * n + 31.0))
        for n, (low, swing) in enumerate(swings)
    ]
)
LOGS = st.lists(st.floats(-10.0, 40.0), min_size=1, max_size=20).map(
    lambda celsius: [TemperatureLog(PLACED, tuple(1800.0 * n for n in range(len(celsius))), tuple(celsius))]
)
BEDS = st.builds(BedKind, st.floats(0.0, 120.0), st.sampled_from(("unbonded", "bonded")))
BESIDES = st.builds(Beside, st.one_of(st.just([]), LOGS), DAYS, st.just(()), BEDS)


@given(curing=CURINGS, beside=BESIDES)
@settings(max_examples=share_of(150))
def test_early_is_never_after_likely_nor_likely_after_late(curing: Curing, beside: Beside) -> None:
    for row in rows_of(curing, beside):
        early, likely, late = hours_of(row)
        assert early <= likely + HAIR
        assert likely <= late + HAIR
        named = [moment for moment in (row.early, row.at, row.late) if moment is not None]
        assert named == sorted(named, key=datetime.fromisoformat)


@given(curing=CURINGS, beside=BESIDES, warmer=st.floats(0.1, 10.0))
@settings(max_examples=share_of(100))
def test_more_warmth_is_never_later(curing: Curing, beside: Beside, warmer: float) -> None:
    logs = [replace(log, celsius=tuple(c + warmer for c in log.celsius)) for log in beside.logs]
    days = [replace(day, low=day.low + warmer, high=day.high + warmer) for day in beside.forecast]
    mild = rows_of(replace(curing, assumed=curing.assumed + warmer), replace(beside, logs=logs, forecast=days))
    for cold, warm in zip(rows_of(curing, beside), mild, strict=True):
        assert all(w <= c + HAIR for c, w in zip(hours_of(cold), hours_of(warm), strict=True))


@given(curing=CURINGS, beside=BESIDES)
@settings(max_examples=share_of(80))
def test_without_doubt_and_margin_all_three_are_one(curing: Curing, beside: Beside) -> None:
    for row in rows_of(replace(curing, early=1.0, late=1.0, forecast_doubt=0.0), beside):
        assert row.early_after_h == row.after_h == row.late_after_h
        assert row.early == row.at == row.late


@given(curing=CURINGS, beside=BESIDES, thicker=st.floats(0.0, 100.0))
@settings(max_examples=share_of(60))
def test_a_thicker_bed_or_a_bonded_one_is_never_earlier_and_its_window_ends_no_sooner(
    curing: Curing, beside: Beside, thicker: float
) -> None:
    thick = replace(beside, bed=BedKind(beside.bed.thickness + thicker, "bonded"))
    for thin_row, thick_row in zip(rows_of(curing, beside), rows_of(curing, thick), strict=True):
        assert hours_of(thick_row)[:2] == hours_of(thin_row)[:2]
        assert hours_of(thick_row)[2] >= hours_of(thin_row)[2] - HAIR


def test_a_window_over_a_measured_bed_is_the_shares_of_what_is_needed() -> None:
    """At the reference an hour is an hour: 20 h needed, from 0.8 of them to 1.4 of them, by hand."""
    curing = Curing(milestones=(MilestoneNeed("tile", 20.0),))
    row = tile_of(rows_of(curing, Beside([measured(20.0, 100.0)])))
    assert hours_of(row) == pytest.approx((16.0, 20.0, 28.0))
    assert (row.early, row.at, row.late) == (
        "2026-05-05T00:00:00-05:00",
        "2026-05-05T04:00:00-05:00",
        "2026-05-05T12:00:00-05:00",
    )
    assert not row.forecast


def test_the_foretold_time_is_warmer_for_the_early_end_and_colder_for_the_late_one() -> None:
    """10 h measured at 20 °C, then 20 °C held: early at 23 °C, late at 17 °C, by hand."""
    curing = Curing(early=1.0, late=1.0, milestones=(MilestoneNeed("tile", 20.0),))
    rate = Rate(5000.0, 20.0)
    row = tile_of(rows_of(curing, Beside([measured(20.0, 10.0)])))
    assert hours_of(row) == pytest.approx((10.0 + 10.0 / rate.at(23.0), 20.0, 10.0 + 10.0 / rate.at(17.0)))


def test_a_bed_one_and_a_half_times_the_nominal_moves_the_late_end_by_half_and_bonded_by_more() -> None:
    assert BedKind(NOMINAL).late_share(1.4) == pytest.approx(1.4)
    assert BedKind(NOMINAL / 2).late_share(1.4) == pytest.approx(1.4)
    assert BedKind(1.5 * NOMINAL).late_share(1.4) == pytest.approx(1.6)
    assert BedKind(1.5 * NOMINAL, "bonded").late_share(1.4) == pytest.approx(1.75)
    assert BedKind(50 * NOMINAL).late_share(1.4) == BedKind(WIDEST * NOMINAL).late_share(1.4)


@given(late=st.floats(1.0, 10.0), bed=BEDS)
def test_no_bed_ends_its_window_before_the_share_that_the_room_asks(late: float, bed: BedKind) -> None:
    assert late - 1e-12 <= bed.late_share(late) <= 1.0 + 2.5 * (late - 1.0) + 1e-12


def test_by_the_factor_a_need_is_its_hours_times_its_degrees_above_the_datum() -> None:
    """Tile: 20 h at 21 °C over −10 °C are 620 °C·h; at 10 °C each hour gathers 20 of them, by hand."""
    row = tile_of(rows_of(CERTAIN, Beside([measured(10.0, 100.0)])))
    assert row.method == "temperature_time"
    assert row.needs_factor == pytest.approx(620.0)
    assert row.factor == pytest.approx(2000.0)
    assert row.after_h == pytest.approx(31.0)


@pytest.mark.parametrize("method", METHODS)
def test_at_the_temperature_of_the_need_both_methods_wait_the_hours_of_the_need(method: Method) -> None:
    row = tile_of(rows_of(Curing(assumed=21.0, method=method)))
    assert row.after_h == pytest.approx(20.0)


def test_equivalent_age_rows_say_nothing_of_the_factor() -> None:
    row = tile_of(rows_of(Curing()))
    assert (row.method, row.factor, row.needs_factor) == ("equivalent_age", None, None)


def test_a_need_told_at_or_below_the_datum_cannot_be_told_by_the_factor() -> None:
    asked = Curing(method="temperature_time", datum=10.0, reference=10.0, milestones=(MilestoneNeed("grout", 5.0),))
    row = next(row for row in rows_of(asked) if row.milestone == "grout")
    assert (row.at, row.after_h, row.early_after_h, row.reason_code) == (None, None, None, "below_datum")
    assert tile_of(rows_of(asked)).after_h is not None


def test_below_the_datum_for_good_nothing_is_ever_ready() -> None:
    row = tile_of(rows_of(replace(CERTAIN, assumed=-10.0)))
    assert (row.after_h, row.late_after_h, row.reason_code) == (None, None, "not_within")


def test_a_tick_is_told_with_its_name_and_the_later_of_two_stands() -> None:
    ticks = [Tick("tile", at(30.0), "Ana", "scratch"), Tick("tile", at(26.0), "Luis"), Tick("walk", at(-1.0), "Luis")]
    rows = rows_of(Curing(), Beside(ticks=ticks))
    ticked = tile_of(rows).ticked
    assert ticked is not None
    assert (ticked.at, ticked.by, ticked.how) == (at(30.0), "Ana", "scratch")
    assert [row.ticked for row in rows if row.milestone != "tile"] == [None] * (len(MILESTONES) - 1)


def test_windows_explain_themselves_with_the_shares_and_the_doubt() -> None:
    curing = Curing()
    found = readiness_explanations(readiness_from(curing, [], [PLACEMENT]), curing)
    early, late = (found[f"readiness[1].{end}_after_h"] for end in ("early", "late"))
    assert (early.code, early.source_code) == ("window_early", "window_practice")
    assert early.inputs == {"early_share": 0.8, "doubt": 3.0}
    shares = {"late_share": 1.4, "need_share": pytest.approx(1.4)}
    assert late.inputs == {**shares, "doubt": 3.0, "thickness": NOMINAL, "widening": 1.0}
    by_factor = replace(curing, method="temperature_time")
    told = readiness_explanations(readiness_from(by_factor, [], [PLACEMENT]), by_factor)
    assert told["readiness[1]"].code == "readiness_tile_factor"
    assert told["readiness[1].factor"].source_code == "nurse_saul"


def test_ends_that_are_never_met_are_not_explained() -> None:
    frozen = Curing(activation=20_000.0, assumed=-60.0)
    found = readiness_explanations(readiness_from(frozen, [], [PLACEMENT]), frozen)
    assert not [path for path in found if path.endswith(("early_after_h", "late_after_h"))]
