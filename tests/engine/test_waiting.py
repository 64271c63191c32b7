"""The question `waiting`: countdown, ticks, tile, drying, weather, and the curve, at a moment."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over
from tests.engine.waits import A_WAIT, PLACED
from tests.questions import answer_to, refusal_of
from tests.share import share_of

from evenbed.engine.waiting.curve import MOST_POINTS
from evenbed.engine.waiting.evaporation import evaporation_rate
from evenbed.engine.waiting.spells import stretches_from

ROOM = room_over(SQUARE, [(0.0, 0.0, 0.0), (4000.0, 0.0, 0.0), (4000.0, 3000.0, 0.0), (0.0, 3000.0, 0.0)])
PLACEMENTS = [{"section": "S1", "placed_at": PLACED}]


def at(hours: float) -> str:
    return (datetime.fromisoformat(PLACED) + timedelta(hours=hours)).isoformat()


def held(celsius: float, hours: float = 400.0) -> list[Json]:
    return [{"at": at(h), "bed": celsius} for h in (-2.0, hours)]


def waiting(now: float, **more: Any) -> Json:
    return answer_to("waiting", document=ROOM | {"placements": PLACEMENTS} | more, now=at(now))


def tile_in(answer: Json) -> Json:
    found: Json = next(one for one in answer["countdown"] if one["milestone"] == "tile")
    return found


def codes_in(answer: Json) -> set[str]:
    return {caution["code"] for caution in answer["cautions"]}


TWENTY = {"milestones": [{"milestone": "tile", "needs": 20}], "forecast_doubt": 0}


@pytest.mark.parametrize(
    ("now", "state", "share", "left"),
    [
        (0.0, "waiting", 0.0, 20.0),
        (15.9, "waiting", 0.795, 4.1),
        (16.0, "may_be_ready", 0.8, 4.0),
        (27.9, "may_be_ready", 1.0, -7.9),
        (28.0, "should_be_ready", 1.0, -8.0),
        (300.0, "should_be_ready", 1.0, -280.0),
    ],
)
def test_a_milestone_counts_down_to_its_window_and_is_never_ticked_by_it(
    now: float, state: str, share: float, left: float
) -> None:
    answer = waiting(now, climate=held(20.0), curing=TWENTY)
    found = tile_in(answer)
    assert (found["state"], found["ticked"]) == (state, None)
    assert found["share"] == pytest.approx(share)
    assert found["hours_left"] == pytest.approx(left)
    assert (found["early"], found["likely"], found["late"]) == (at(16.0), at(20.0), at(28.0))
    assert answer["age_now"] == pytest.approx(now)
    assert answer["factor_now"] == pytest.approx(30.0 * now)
    assert answer["celsius_now"] == 20.0


@given(now=st.floats(-10.0, 2000.0), celsius=st.floats(-20.0, 40.0))
@settings(max_examples=share_of(40), deadline=None)
def test_no_figure_ever_ticks_a_milestone(now: float, celsius: float) -> None:
    answer = waiting(now, climate=held(celsius))
    assert all(one["ticked"] is None and one["state"] != "ticked" for one in answer["countdown"])


def test_a_person_ticks_a_milestone_and_a_tick_from_before_its_window_is_cautioned() -> None:
    tick = {"milestone": "tile", "at": at(10.0), "by": "Ana", "how": "scratch"}
    answer = waiting(12.0, climate=held(20.0), curing=TWENTY, ticks=[tick])
    found = tile_in(answer)
    assert (found["state"], found["ticked"]) == ("ticked", {"at": at(10.0), "by": "Ana", "how": "scratch"})
    assert "ticked_early" in codes_in(answer)
    late = waiting(20.0, climate=held(20.0), curing=TWENTY, ticks=[tick | {"at": at(17.0)}])
    assert "ticked_early" not in codes_in(late)


def test_ticks_from_before_placing_or_after_now_do_not_count_and_are_told() -> None:
    ticks = [{"milestone": "tile", "at": at(-1.0)}, {"milestone": "walk", "at": at(9.0)}]
    answer = waiting(5.0, climate=held(20.0), ticks=ticks)
    assert [one["ticked"] for one in answer["countdown"]] == [None] * 5
    assert [(n["path"], n["code"]) for n in answer["notices"]] == [
        ("ticks[0].at", "tick_before_placing"),
        ("ticks[1].at", "tick_ahead"),
    ]


def test_nothing_placed_has_hours_but_no_moments() -> None:
    answer = waiting(5.0, placements=[], climate=held(20.0))
    assert {one["state"] for one in answer["countdown"]} == {"not_placed"}
    assert (answer["placed_at"], answer["age_now"], answer["factor_now"]) == (None, None, None)
    assert tile_in(answer)["share"] is None
    assert (answer["tile"]["fresh_from"], answer["tile"]["fresh_until"]) == (None, None)
    assert answer["curve"]


def test_a_bed_that_never_hardens_says_never() -> None:
    answer = waiting(5.0, climate=held(-40.0), curing={"activation": 20_000})
    assert {one["state"] for one in answer["countdown"]} == {"never"}


def test_a_placement_after_now_is_told() -> None:
    answer = waiting(-3.0, climate=held(20.0))
    assert ("placements[0].placed_at", "time_ahead") in [(n["path"], n["code"]) for n in answer["notices"]]
    assert answer["age_now"] == 0.0


def test_a_room_whose_bed_cannot_be_worked_out_still_waits_and_says_what_is_wrong() -> None:
    bare = ROOM | {
        "readings": [],
        "placements": PLACEMENTS,
        "climate": held(20.0),
        "curing": {"moisture_sensitive": True},
    }
    answer = answer_to("waiting", document=bare, now=at(1.0))
    assert tile_in(answer)["state"] == "waiting"
    assert answer["drying"] is None
    assert "too_few_readings" in {notice["code"] for notice in answer["notices"]}


def test_contradictory_temperatures_are_refused_with_their_place() -> None:
    rows = [*held(20.0), {"at": at(-2.0), "bed": 5}]
    asked = {"document": ROOM | {"climate": rows}, "now": at(0.0)}
    assert refusal_of("waiting", asked) == [("document.climate[2]", "contradictory_climate")]


def test_the_plan_and_the_waiting_tell_the_same_windows_tile_drying_and_evaporation() -> None:
    document = ROOM | A_WAIT
    plan, answer = plan_of(document), answer_to("waiting", document=document, now=at(30.0))
    rows = {row["milestone"]: row for row in plan["readiness"]}
    for one in answer["countdown"]:
        row = rows[one["milestone"]]
        assert (one["early"], one["likely"], one["late"]) == (row["early"], row["at"], row["late"])
        assert one["ticked"] == row["ticked"]
    assert [plan[key] for key in ("tile", "drying", "evaporation")] == [
        answer[key] for key in ("tile", "drying", "evaporation")
    ]


def test_a_document_without_the_new_parts_plans_as_if_they_were_empty() -> None:
    old = ROOM | {"placements": PLACEMENTS, "climate": held(12.0)}
    new = old | {"logs": [], "forecast": [], "ticks": [], "curing": {"method": "equivalent_age"}}
    assert plan_of(new) == plan_of(old)
    plan = plan_of(old)
    assert (plan["evaporation"], plan["drying"]) == ([], None)
    assert {c["code"] for c in plan["cautions"] if c["where"] == "readiness"} == {"prediction"}


def test_every_explained_figure_is_in_the_answer() -> None:
    answer = answer_to("waiting", document=ROOM | A_WAIT, now=at(30.0))
    assert answer["explanations"].keys() >= {"countdown[0]", "countdown[1].early", "age_now", "evaporation", "drying"}
    for path in answer["explanations"]:
        found: Any = answer
        for part in path.replace("[", ".[").split("."):
            found = found[int(part[1:-1])] if part.startswith("[") else found[part]
        assert found is not None, path


# The curve.


@pytest.mark.parametrize("rows", [2, 500, 5000])
def test_the_curve_is_thin_rises_and_says_where_it_was_measured(rows: int) -> None:
    seconds = [60.0 * n for n in range(rows)]
    log = {"start": PLACED, "seconds": seconds, "celsius": [18.0 + 5.0 * (n % 97 > 48) for n in range(rows)]}
    answer = waiting(20.0, logs=[log])
    curve = answer["curve"]
    assert 100 < len(curve) <= MOST_POINTS
    hours = [point["hours"] for point in curve]
    assert (hours[0], hours) == (0.0, sorted(set(hours)))
    for key in ("age", "factor"):
        values = [point[key] for point in curve]
        assert values == sorted(values)
    until = seconds[-1] / 3600.0
    assert all(point["measured"] == (point["hours"] <= until) for point in curve)
    assert {20.0} <= set(hours)


def test_a_log_that_jumps_at_every_line_still_makes_a_thin_curve() -> None:
    log = {
        "start": PLACED,
        "seconds": [60.0 * n for n in range(5000)],
        "celsius": [15.0 + n % 2 for n in range(5000)],
    }
    assert len(waiting(20.0, logs=[log])["curve"]) <= MOST_POINTS


def test_the_curve_reaches_the_late_end_of_the_last_milestone() -> None:
    answer = waiting(1.0, climate=held(20.0))
    assert answer["curve"][-1]["at"] == answer["countdown"][-1]["late"]


# Tile on the fresh bed.


def test_the_first_section_closes_first_and_the_last_one_last() -> None:
    placements = [{"section": "S2", "placed_at": at(3.0)}, {"section": "S1", "placed_at": PLACED}]
    tile = waiting(4.0, placements=placements, climate=held(20.0), curing={"fresh_window": 4})["tile"]
    assert (tile["fresh_from"], tile["fresh_until"]) == (at(0.0), at(4.0))
    assert (tile["last_from"], tile["last_until"]) == (at(3.0), at(7.0))
    assert tile["fresh_hours"] == pytest.approx(4.0)


def test_in_the_cold_a_fresh_bed_takes_tile_for_longer() -> None:
    cold = waiting(4.0, climate=held(5.0), curing={"fresh_window": 4})["tile"]
    assert cold["fresh_hours"] == pytest.approx(4.0 / 0.3982, rel=0.002)  # the table of rates, 5 °C


def test_a_first_section_that_closes_before_the_last_is_placed_is_cautioned_where_the_same_day_was_chosen() -> None:
    placements = [{"section": "S1", "placed_at": PLACED}, {"section": "S2", "placed_at": at(6.0)}]
    chosen = {"tile_when": "same_day", "fresh_window": 4}
    found = codes_in(waiting(7.0, placements=placements, climate=held(20.0), curing=chosen))
    assert {"tile_same_day", "tile_by_section"} <= found
    assert not {"tile_same_day", "tile_by_section"} & codes_in(
        waiting(7.0, placements=placements, climate=held(20.0))
    )


def test_overnight_asks_for_a_bond_coat() -> None:
    answer = waiting(1.0, climate=held(20.0), curing={"tile_when": "overnight"})
    assert "tile_overnight" in codes_in(answer)
    assert answer["tile"]["chosen"] == "overnight"
    assert (answer["tile"]["hardened_from"], answer["tile"]["hardened_likely"]) == (
        tile_in(answer)["early"],
        tile_in(answer)["likely"],
    )


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
