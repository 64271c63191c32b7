"""Drying, evaporation and weather that harms, as the question `waiting` tells them."""

from datetime import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.documents import Json
from tests.engine.waits import PLACED, at, codes_in, held, tile_in, waiting

from evenbed.engine.waiting.evaporation import evaporation_rate
from evenbed.engine.waiting.foretold import SETTLES_H
from evenbed.engine.waiting.spells import stretches_from

# Drying.


@pytest.mark.parametrize(
    ("thickness", "early", "late"),
    [(30.0, 30.0, 45.0), (40.0, 40.0, 60.0), (50.0, 50.0, 90.0), (100.0, 125.0, 240.0)],
)
def test_drying_is_a_band_that_widens_beyond_the_knee(thickness: float, early: float, late: float) -> None:
    """One day a mm to the knee, two beyond, half as long again at the late end, by hand."""
    bed = {"top": {"kind": "level", "height": thickness}, "minimum_thickness": 10, "maximum_thickness": 200}
    answer = waiting(1.0, climate=held(20.0), bed=bed, curing={"moisture_sensitive": True})
    drying = answer["drying"]
    assert drying["thickness"] == pytest.approx(thickness)
    assert (drying["early_days"], drying["late_days"]) == pytest.approx((early, late))
    assert (drying["early"], drying["late"]) == (at(24.0 * early), at(24.0 * late))
    assert drying["knees"] == [40.0, 50.0, 75.0]
    assert "drying_test" in codes_in(answer)


def test_nothing_is_said_of_drying_where_no_covering_minds() -> None:
    answer = waiting(1.0, climate=held(20.0))
    assert answer["drying"] is None
    assert "drying_test" not in codes_in(answer)


# Weather.


def test_evaporation_takes_the_beds_temperature_and_the_airs_and_tells_forty_percent_either_way() -> None:
    rows = [{"at": at(2.0), "bed": 25, "air": 31, "humidity": 30, "wind": 15}, {"at": at(3.0), "air": 20, "wind": 5}]
    (found,) = waiting(3.0, climate=rows)["evaporation"]
    rate = evaporation_rate(25.0, 31.0, 30.0, 15.0)
    assert (found["rate"], found["low"], found["high"]) == pytest.approx((rate, 0.6 * rate, 1.4 * rate))


def test_a_day_foretold_with_humidity_and_wind_has_its_evaporation_when_it_is_warmest() -> None:
    day = {"low": 12, "high": 33, "low_at": at(-3.0), "high_at": at(7.0), "humidity": 20, "wind": 30}
    answer = waiting(1.0, forecast=[day])
    (found,) = answer["evaporation"]
    assert (found["at"], found["forecast"], found["level"]) == (at(7.0), True, "act")
    assert found["rate"] == pytest.approx(evaporation_rate(33.0, 33.0, 20.0, 30.0))
    assert "evaporation_act" in codes_in(answer)


@given(
    bed=st.floats(-60.0, 100.0),
    air=st.floats(-60.0, 80.0),
    humidity=st.floats(0.0, 100.0),
    wind=st.floats(0.0, 400.0),
)
def test_no_weather_makes_evaporation_negative_and_more_wind_never_less(
    bed: float, air: float, humidity: float, wind: float
) -> None:
    rate = evaporation_rate(bed, air, humidity, wind)
    assert 0.0 <= rate <= evaporation_rate(bed, air, humidity, wind + 10.0)
    assert rate >= evaporation_rate(bed, air, min(100.0, humidity + 10.0), wind)


def test_spells_tell_from_when_to_when_the_weather_harms_the_bed_and_how_much() -> None:
    """20 °C at placing, −10 °C after 30 h: 10 °C is passed after 10 h and 0 °C after 20 h, by hand."""
    rows = [{"at": at(0.0), "bed": 20}, {"at": at(30.0), "bed": -10}, {"at": at(60.0), "bed": 20, "forecast": True}]
    spells = waiting(1.0, climate=rows)["spells"]
    assert [(s["kind"], s["from"], s["to"], s["forecast"]) for s in spells] == [
        ("cold", at(10.0), at(50.0), True),
        ("frost", at(20.0), at(40.0), True),
    ]
    assert [s["worst"] for s in spells] == pytest.approx([-10.0, -10.0])


def test_frost_that_was_foretold_is_told_also_where_the_forecast_is_lifted_to_meet_a_warm_room() -> None:
    """Measured 22 °C in the evening, when 5 °C had been foretold for that hour; the low of the night is −1 °C."""
    days = [
        {"low": -1, "high": 10, "low_at": at(-4.0), "high_at": at(5.0)},
        {"low": -1, "high": 10, "low_at": at(20.0), "high_at": at(29.0)},
    ]
    answer = waiting(13.0, climate=[{"at": at(0.0), "bed": 22}, {"at": at(12.0), "bed": 22}], forecast=days)
    frost = [spell for spell in answer["spells"] if spell["kind"] == "frost"]
    assert [(spell["from"], spell["to"], spell["worst"], spell["forecast"]) for spell in frost[:1]] == [
        (at(20.0), at(20.0), -1.0, True)
    ]
    assert [spell["from"] < at(29.0 + SETTLES_H) < spell["to"] for spell in frost[1:]] == [True], "one more night"
    assert "frost_cover" in codes_in(answer)


def test_weather_between_the_first_section_and_the_last_is_told_too() -> None:
    placements = [{"section": "S1", "placed_at": at(-24.0)}, {"section": "S2", "placed_at": PLACED}]
    told = ((-30.0, 10.0), (-24.0, 10.0), (-12.0, -4.0), (-1.0, 40.0))
    rows = [{"at": at(h), "bed": celsius} for h, celsius in told]
    gale = {"at": at(-6.0), "air": 30.0, "humidity": 20.0, "wind": 40.0}
    answer = waiting(1.0, placements=placements, climate=[*rows, {"at": at(0.0), "bed": 12.0}, gale])
    assert {s["kind"] for s in answer["spells"]} == {"frost", "cold", "heat", "evaporation", "wind"}
    assert {"frost_placed", "heat", "warm_the_room", "wind", "evaporation_act"} <= codes_in(answer)
    later = waiting(1.0, climate=[*rows, {"at": at(0.0), "bed": 12.0}, gale])
    assert later["spells"] == [], "what was before the first section harms no bed"


# How far the temperature is known.


def days_from(*numbers: int) -> list[Json]:
    return [{"low": 4.0, "high": 20.0, "low_at": at(24.0 * n - 3.0), "high_at": at(24.0 * n + 7.0)} for n in numbers]


def log(start: float, hours: int, where: str = "bed") -> Json:
    seconds = [3600.0 * n for n in range(hours + 1)]
    return {"start": at(start), "seconds": seconds, "celsius": [20.0] * len(seconds), "where": where}


def readiness_values(answer: Json) -> dict[str, Json]:
    told = {c["code"]: c["values"] for c in answer["cautions"] if c["where"] == "readiness"}
    return {code: told[code] for code in ("forecast_ends", "temperature_ends", "temperature_hole") if code in told}


def test_a_forecast_that_ends_before_tiles_window_is_told_with_the_mean_that_stands_in() -> None:
    short, long = (waiting(1.0, forecast=days_from(*range(count))) for count in (1, 5))
    assert readiness_values(short) == {"forecast_ends": {"held": 12.0}}
    assert readiness_values(long) == {}
    late = datetime.fromisoformat(tile_in(long)["late"])
    assert datetime.fromisoformat(at(31.0)) < late <= datetime.fromisoformat(at(55.0)), "two days do not reach it"
    assert readiness_values(waiting(1.0, forecast=days_from(0, 1))) == {"forecast_ends": {"held": 12.0}}
    assert readiness_values(waiting(1.0, forecast=days_from(0, 1, 2))) == {}


@pytest.mark.parametrize(
    ("told", "values"),
    [
        ({"climate": [{"at": at(0.0), "bed": 21.5}]}, {"temperature_ends": {"held": 21.5}}),
        ({"logs": [log(0.0, 12)]}, {"temperature_ends": {"held": 20.0}}),
        ({"logs": [log(0.0, 48)]}, {}),
        ({"logs": [log(0.0, 12), log(25.0, 30)]}, {"temperature_hole": {"hours": 13.0}}),
        ({"logs": [log(13.0, 40)]}, {"temperature_hole": {"hours": 13.0}}),
        ({"logs": [log(-20.0, 10), log(5.0, 40)]}, {}),
        ({"logs": [log(0.0, 40)], "forecast": days_from(0)}, {}),
        ({"logs": [log(0.0, 8)], "forecast": days_from(0)}, {"forecast_ends": {"held": 12.0}}),
        ({"forecast": days_from(2, 3, 4, 5)}, {"temperature_hole": {"hours": 45.0}}),
        ({"forecast": days_from(0, 2, 3, 4, 5)}, {"temperature_hole": {"hours": 38.0}}),
        ({"climate": [{"at": at(0.0), "bed": 20}], "forecast": days_from(1, 2, 3, 4)}, {}),
        (
            {"climate": [{"at": at(h), "bed": 20, "forecast": True} for h in (0.0, 10.0, 20.0)]},
            {"temperature_ends": {"held": 20.0}},
        ),
        ({}, {}),
    ],
    ids=[
        "one row",
        "a short log",
        "a long log",
        "a log with a hole",
        "a log that begins late",
        "a log from before",
        "a forecast overtaken",
        "a forecast that ends",
        "a forecast that begins late",
        "a missing day",
        "a forecast from tomorrow on",
        "moments foretold one by one",
        "nothing at all",
    ],
)
def test_what_is_not_known_of_the_temperature_is_told(told: Json, values: Json) -> None:
    assert readiness_values(waiting(1.0, **told)) == values


def test_where_nothing_is_placed_nothing_is_said_of_what_is_not_known() -> None:
    assert readiness_values(waiting(1.0, placements=[], climate=[{"at": at(0.0), "bed": 20}])) == {}


@pytest.mark.parametrize(
    ("told", "notices"),
    [
        ({"logs": [log(0.0, 10)]}, []),
        ({"logs": [log(0.0, 12)]}, [("logs[0]", "log_ahead")]),
        ({"logs": [log(24.0 * 365.0, 12)]}, [("logs[0]", "log_ahead")]),
        ({"logs": [log(-20.0, 12), log(-20.0, 12, "air")]}, [("logs[0]", "log_before_placing")]),
        ({"logs": [log(-230_000.0, 12)]}, [("logs[0]", "log_before_placing")]),
        ({"climate": [{"at": at(11.0), "bed": 20}]}, [("climate[0].at", "time_ahead")]),
        ({"climate": [{"at": at(10.2), "bed": 20}, {"at": at(90.0), "bed": 20, "forecast": True}]}, []),
    ],
)
def test_a_clock_that_cannot_be_right_is_told(told: Json, notices: list[tuple[str, str]]) -> None:
    answer = waiting(10.0, **told)
    assert [(notice["path"], notice["code"]) for notice in answer["notices"]] == notices


def test_heat_wind_and_fast_drying_have_their_spells_and_what_to_do_about_them() -> None:
    hot = {"bed": 41, "air": 40, "humidity": 10, "wind": 40}
    rows = [{"at": at(h), **hot} for h in (0.0, 2.0, 4.0)]
    answer = waiting(1.0, climate=rows)
    assert {s["kind"] for s in answer["spells"]} == {"heat", "evaporation", "wind"}
    assert {"heat", "heat_fresh", "evaporation_act", "wind"} <= codes_in(answer)
    wind = next(s for s in answer["spells"] if s["kind"] == "wind")
    assert (wind["from"], wind["to"], wind["worst"]) == (at(0.0), at(4.0), 40.0)


def test_weather_after_the_bed_has_hardened_is_no_spell() -> None:
    rows = [*held(20.0, 200.0), {"at": at(220.0), "bed": -5}, {"at": at(210.0), "air": 40, "humidity": 5, "wind": 90}]
    answer = waiting(1.0, climate=rows)
    assert answer["spells"] == []
    assert "evaporation_act" not in codes_in(answer)


def test_cold_warns_of_heaters_without_a_flue_and_frost_of_a_frozen_subfloor() -> None:
    cold = waiting(1.0, climate=held(5.0))
    assert {"cold", "warm_the_room", "unvented_heater"} <= codes_in(cold)
    frozen = waiting(1.0, placements=[], climate=held(-3.0))
    assert {"frost", "frozen_subfloor", "unvented_heater"} <= codes_in(frozen)
    night = {"low": -4, "high": 9, "low_at": at(20.0), "high_at": at(30.0)}
    assert "frost_cover" in codes_in(waiting(1.0, climate=[{"at": at(0.0), "bed": 8}], forecast=[night]))
    mild = waiting(1.0, climate=held(20.0))
    assert not {"warm_the_room", "unvented_heater", "frozen_subfloor", "frost_cover"} & codes_in(mild)


def test_a_line_that_only_touches_the_limit_is_a_spell_only_where_the_limit_counts() -> None:
    touching = [(0.0, -1.0), (1.0, 0.0), (2.0, -1.0)]
    assert stretches_from(touching) == []
    assert stretches_from(touching, touches=True) == [(1.0, 1.0, 0.0)]
    assert stretches_from([(0.0, 1.0), (1.0, 3.0), (2.0, -1.0)]) == [(0.0, 1.75, 3.0)]
    assert stretches_from([(0.0, -1.0), (2.0, 1.0), (4.0, -1.0), (6.0, 1.0)]) == [(1.0, 3.0, 1.0), (5.0, 6.0, 1.0)]
