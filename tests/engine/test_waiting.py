"""The question `waiting`: countdown, ticks, tile, drying, weather, and the curve, at a moment."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import plan_of
from tests.engine.waits import A_WAIT, PLACED, PLACEMENTS, ROOM, at, codes_in, held, tile_in, waiting
from tests.questions import answer_to, refusal_of
from tests.share import share_of

from evenbed.engine.waiting.curve import MOST_POINTS

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
    told = [(n["path"], n["code"]) for n in answer["notices"] if n["path"].startswith("ticks")]
    assert told == [("ticks[0].at", "tick_before_placing"), ("ticks[1].at", "tick_ahead")]


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
    assert refusal_of("waiting", asked) == [(f"document.climate[{len(rows) - 1}]", "contradictory_climate")]


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
