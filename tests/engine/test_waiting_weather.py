"""Drying, evaporation and weather that harms, as the question `waiting` tells them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.engine.waits import PLACED, at, codes_in, held, waiting

from evenbed.engine.waiting.evaporation import evaporation_rate
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
    assert [(spell["from"], spell["worst"], spell["forecast"]) for spell in frost] == [(at(20.0), -1.0, True)]
    assert "frost_cover" in codes_in(answer)


def test_weather_between_the_first_section_and_the_last_is_told_too() -> None:
    placements = [{"section": "S1", "placed_at": at(-24.0)}, {"section": "S2", "placed_at": PLACED}]
    told = ((-30.0, 10.0), (-24.0, 10.0), (-12.0, -4.0), (-1.0, 40.0))
    rows = [{"at": at(h), "bed": celsius} for h, celsius in told]
    gale = {"at": at(-6.0), "air": 30.0, "humidity": 20.0, "wind": 40.0}
    answer = waiting(1.0, placements=placements, climate=[*rows, {"at": at(0.0), "bed": 12.0}, gale])
    assert {s["kind"] for s in answer["spells"]} == {"frost", "cold", "heat", "evaporation", "wind"}
    assert {"frost", "heat", "warm_the_room", "wind", "evaporation_act"} <= codes_in(answer)
    later = waiting(1.0, climate=[*rows, {"at": at(0.0), "bed": 12.0}, gale])
    assert later["spells"] == [], "what was before the first section harms no bed"


def test_a_forecast_that_ends_before_the_bed_takes_tile_is_told() -> None:
    days = [{"low": 4.0, "high": 20.0, "low_at": at(24.0 * n - 3.0), "high_at": at(24.0 * n + 7.0)} for n in range(4)]
    short, long = (waiting(1.0, forecast=days[:count]) for count in (1, 4))
    told = {caution["code"]: caution["values"] for caution in short["cautions"]}
    assert told["forecast_ends"] == {"held": 20.0}
    assert "forecast_ends" not in codes_in(long)


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
