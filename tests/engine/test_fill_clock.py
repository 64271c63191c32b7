"""The fill clock over days made by hand: what is told of sections, batches, channels and the day's end."""

import math

import pytest
from tests.documents import plan_of
from tests.engine.fill_days import (
    STATES,
    at,
    clock_at,
    clock_of,
    codes_of,
    finished,
    long_room,
    section_of,
    states_of,
)
from tests.questions import refusal_of

# Rate of hardening relative to 20 °C with Q = 5000 K: derived from the formula of ASTM C1074 (its form from memory).
# The table counts kelvin from 273, not 273.15; `tests/published/test_waiting.py` holds that apart.
RATES = {0: 0.2865, 5: 0.3982, 10: 0.5472, 15: 0.7436, 20: 1.0, 25: 1.3315, 30: 1.7563, 35: 2.2958, 40: 2.9755}
RATE_ERROR = 0.0012  # relative: what that rounding amounts to at most
WORKING_H = 1.5  # at 20 °C; common practice, no source
VOLUME = 2.0 * 1.8 * 0.03175  # m³ in each section of the long room


def test_the_room_of_these_tests_has_five_alike_sections() -> None:
    plan = plan_of(long_room())
    assert [section["volume"] for section in plan["sections"]] == pytest.approx([VOLUME] * 5)
    assert [len(section["channels"]) for section in plan["sections"]] == [2] * 5


def test_before_anything_is_mixed_all_waits_and_nothing_is_foretold() -> None:
    answer = clock_at("08:00")
    assert states_of(answer) == ["waiting"] * 5
    assert answer["next_section"] == "S1"
    assert (answer["pace"], answer["done"], answer["fits_day"], answer["last_batch_by"]) == (None, None, None, None)
    assert (answer["batches"], answer["alarms"], answer["stop_edges"], answer["best_stop"]) == ([], [], [], None)
    assert (answer["is_stopped"], answer["stopped_hours"]) == (False, 0.0)
    assert codes_of(answer) == ["wet_cement", "lifting"]


def test_states_go_from_waiting_to_packed_and_rows_of_one_section_join() -> None:
    rows = [
        {"section": "S1", "mixed_at": at("08:00"), "placed_at": at("08:40")},
        {"section": "S1", "screeded_at": at("08:50")},
        {"section": "S1", "channels_at": at("09:00")},
        {"section": "S2", "placed_at": at("09:40"), "screeded_at": at("09:50")},
        {"section": "S3", "placed_at": at("10:40")},
        {"section": "S4", "mixed_at": at("10:45")},
    ]
    answer = clock_at("11:00", placements=rows)
    assert states_of(answer) == ["packed", "screeded", "placed", "filling", "waiting"]
    assert answer["next_section"] == "S4"
    assert states_of(clock_at("11:00", placements=rows[::-1])) == states_of(answer)


def test_of_several_rows_the_latest_moment_counts() -> None:
    rows = [{"section": "S1", "placed_at": at(clock)} for clock in ("09:00", "09:30", "08:50")]
    assert section_of(clock_at("10:00", placements=rows), "S1")["channels_due"] == at("11:00")


def test_what_is_packed_counts_as_filled_whatever_else_was_told() -> None:
    answer = clock_at("11:00", placements=[{"section": "S1", "channels_at": at("09:00")}])
    assert (states_of(answer)[0], answer["next_section"]) == ("packed", "S2")


def test_a_section_without_channels_is_packed_once_it_is_cut_off() -> None:
    room = long_room(rails={"lines": []})
    plan = plan_of(room)
    assert [section["channels"] for section in plan["sections"]] == [[]] * len(plan["sections"])
    answer = clock_of(room | {"placements": [finished("S1", "08:00", "09:00")]}, at("09:10"))
    assert states_of(answer)[0] == "packed"
    assert answer["sections"][0]["channels_due"] is None


@pytest.mark.parametrize(("celsius", "rate"), RATES.items())
def test_the_working_time_is_longer_in_the_cold_by_how_much_slower_mortar_hardens(celsius: int, rate: float) -> None:
    climate = [{"at": at("06:00"), "air": celsius}]
    answer = clock_at("08:00", climate=climate, batches=[{"mixed_at": at("08:00")}])
    assert WORKING_H / answer["working_time"]["hours"] == pytest.approx(rate, rel=RATE_ERROR)
    assert answer["working_time"]["temperature"] == celsius
    assert answer["batches"][0]["use_by"] == answer["working_time"]["until"]


def test_the_fill_clock_goes_by_logs_and_days_foretold_as_by_typed_temperatures() -> None:
    log = {"start": at("06:00"), "seconds": [0, 7200], "celsius": [10, 10]}
    assert (
        clock_at("08:00", logs=[log])["working_time"]
        == clock_at("08:00", climate=[{"at": at("08:00"), "bed": 10}])["working_time"]
    )
    day = {"low": 30, "high": 30, "low_at": at("06:00"), "high_at": at("15:00")}
    assert clock_at("08:00", forecast=[day])["working_time"]["temperature"] == pytest.approx(30.0)


def test_each_batch_has_the_working_time_of_the_temperature_when_it_was_mixed() -> None:
    climate = [{"at": at("08:00"), "bed": 10.0}, {"at": at("12:00"), "bed": 30.0, "forecast": True}]
    batches = [{"mixed_at": at("08:00")}, {"mixed_at": at("10:00")}, {"mixed_at": at("12:00")}]
    answer = clock_at("12:00", climate=climate, batches=batches)
    hours = [WORKING_H / RATES[celsius] for celsius in (10, 20, 30)]
    assert hours == pytest.approx([2.7412, 1.5, 0.8541], abs=1e-3)
    assert [batch["use_by"][11:16] for batch in answer["batches"]] == ["10:44", "11:30", "12:51"]


@pytest.mark.parametrize(
    ("clock", "state"),
    [("08:00", "fresh"), ("09:07", "fresh"), ("09:08", "soon"), ("09:29", "soon"), ("09:30", "late")],
)
def test_a_batch_is_fresh_until_a_quarter_of_its_working_time_is_left(clock: str, state: str) -> None:
    answer = clock_at(clock, batches=[{"id": "b", "mixed_at": at("08:00")}])
    assert [batch["state"] for batch in answer["batches"]] == [state]
    assert ("batch_late" in codes_of(answer)) == (state == "late")


def test_batches_placed_or_thrown_away_need_nobody() -> None:
    batches = [
        {"id": "placed", "mixed_at": at("08:00"), "placed_at": at("09:00"), "section": "S1"},
        {"id": "too late", "mixed_at": at("08:10"), "placed_at": at("10:00"), "section": "S1"},
        {"id": "thrown", "mixed_at": at("08:20"), "thrown_at": at("10:00"), "section": "S1"},
    ]
    answer = clock_at("10:00", batches=batches)
    assert [batch["state"] for batch in answer["batches"]] == ["placed", "placed", "thrown"]
    assert [batch["is_in_time"] for batch in answer["batches"]] == [True, False, False]
    assert (answer["alarms"], section_of(answer, "S1")["batches_mixed"]) == ([], 2.0)


def test_a_section_in_place_has_all_that_was_mixed_for_it() -> None:
    batches = [{"mixed_at": at("08:00"), "section": "S1"}, {"mixed_at": at("08:30"), "section": "S1", "size": 0.5}]
    answer = clock_at("09:00", batches=batches, placements=[{"section": "S1", "placed_at": at("08:50")}])
    assert [batch["state"] for batch in answer["batches"]] == ["placed", "placed"]
    assert section_of(answer, "S1")["batches_mixed"] == 1.5


def test_a_batch_without_a_section_is_for_the_one_that_was_being_filled() -> None:
    batches = [{"id": clock, "mixed_at": at(clock)} for clock in ("08:00", "09:10", "10:20")]
    rows = [{"section": "S1", "placed_at": at("09:00")}, {"section": "S2", "placed_at": at("10:00")}]
    answer = clock_at("10:30", batches=batches, placements=rows)
    assert [(batch["id"], batch["section"]) for batch in answer["batches"]] == [
        ("08:00", "S1"),
        ("09:10", "S2"),
        ("10:20", "S3"),
    ]
    assert states_of(answer) == ["placed", "placed", "filling", "waiting", "waiting"]
    assert section_of(answer, "S3")["batches_needed"] == plan_of(long_room())["sections"][2]["batches"]


def test_channels_are_due_within_the_working_time_after_their_section_was_in_place() -> None:
    row = {"section": "S1", "placed_at": at("09:00"), "screeded_at": at("09:20")}
    for clock, is_late in (("09:30", False), ("10:29", False), ("10:30", True)):
        answer = clock_at(clock, placements=[row])
        assert section_of(answer, "S1")["channels_due"] == at("10:30")
        assert ("channels_late" in codes_of(answer)) == is_late
    packed = clock_at("11:00", placements=[row | {"channels_at": at("10:00")}])
    assert section_of(packed, "S1")["channels_due"] is None
    assert "channels_late" not in codes_of(packed)


def test_what_is_left_out_or_odd_is_told() -> None:
    rows = [
        {"section": "S77", "placed_at": at("09:00")},
        {"section": "S1", "mixed_at": at("09:00"), "placed_at": at("08:00")},
        {"section": "S2", "placed_at": at("12:00")},
    ]
    batches = [{"mixed_at": at("08:00"), "section": "nowhere"}]
    stoppages = [{"start": at("09:00"), "end": at("08:00")}]
    answer = clock_at("10:00", placements=rows, batches=batches, stoppages=stoppages, filling={"mixed": 1})
    assert {(notice["path"], notice["code"]) for notice in answer["notices"]} == {
        ("document.filling.mixed", "unknown_key"),
        ("document.placements[0].section", "unknown_section"),
        ("document.placements[1]", "times_backwards"),
        ("document.placements[2]", "time_ahead"),
        ("document.batches[0].section", "unknown_section"),
        ("document.stoppages[0]", "times_backwards"),
    }
    assert answer["stopped_hours"] == 0.0


def test_a_moment_that_is_none_is_a_problem() -> None:
    assert refusal_of("fill_clock", {"document": long_room(), "now": "noon"}) == [("now", "not_a_time")]
    assert refusal_of("fill_clock", {"document": long_room()}) == [("now", "missing")]
    climate = [{"at": at("08:00"), "air": 10.0}, {"at": at("08:00"), "air": 20.0}]
    assert refusal_of("fill_clock", {"document": long_room(climate=climate), "now": at("08:00")}) == [
        ("document.climate[1]", "contradictory_climate")
    ]


@pytest.mark.parametrize("now", ["0001-01-02T00:00:00+00:00", "9999-12-30T00:00:00+00:00", at("10:00")])
def test_the_ends_of_the_calendar_are_no_trouble(now: str) -> None:
    edges = ["0001-01-02T00:00:00+00:00", "9999-12-30T00:00:00+00:00"]
    rows = [{"section": f"S{n}", "mixed_at": edges[n % 2], "placed_at": edges[0]} for n in range(1, 4)]
    batches = [{"mixed_at": edge} for edge in edges]
    cold = {"activation": 20000.0, "assumed": -60.0}
    room = long_room(placements=rows, batches=batches, curing=cold, filling={"day_ends": edges[1]})
    assert math.isfinite(clock_of(room, now)["working_time"]["hours"])


def test_alarms_come_in_their_order_and_only_for_what_is_still_to_be_done() -> None:
    day = {
        "placements": [finished("S1", "08:00", "09:00")],
        "batches": [{"id": "b", "mixed_at": at("09:05"), "section": "S2"}],
        "filling": {"day_ends": at("13:00")},
    }
    last = clock_at("09:10", **day)["last_batch_by"]
    assert [
        (alarm["at"], alarm["code"], alarm["batch"], alarm["section"]) for alarm in clock_at("09:10", **day)["alarms"]
    ] == [
        (at("10:12").replace(":12:00", ":12:30"), "use_soon", "b", "S2"),
        (at("10:30"), "channels", None, "S1"),
        (at("10:35"), "use_by", "b", "S2"),
        (last, "last_batch", None, None),
        (at("13:00"), "day_ends", None, None),
    ]
    assert [alarm["code"] for alarm in clock_at("10:31", **day)["alarms"]] == ["use_by", "last_batch", "day_ends"]
    assert clock_at("13:00", **day)["alarms"] == []
    rows = [finished(f"S{n}", "08:00", "09:00", channels_at=at("09:05")) for n in range(1, 6)]
    assert clock_at("09:10", placements=rows, filling=day["filling"])["alarms"] == []


def test_a_batch_that_will_not_be_used_in_time_is_told_by_the_pace() -> None:
    rows = [finished("S1", "08:00", "09:00")]
    per_batch = clock_at("09:00", placements=rows)["pace"]["hours_per_batch"]
    assert 0.8 < per_batch < 1.0
    batches = [{"id": f"b{n}", "mixed_at": at("09:00")} for n in range(3)]
    answer = clock_at("09:00", placements=rows, batches=batches)
    assert [batch["is_in_time"] for batch in answer["batches"]] == [True, False, False]
    half = [batch | {"size": 0.5} for batch in batches]
    answer = clock_at("09:00", placements=rows, batches=half)
    assert [batch["is_in_time"] for batch in answer["batches"]] == [True, True, True]
    stopped = clock_at("10:20", placements=rows, batches=half[:1], stoppages=[{"start": at("09:05")}])
    assert stopped["batches"][0]["is_in_time"] is False


def test_sections_behind_fresh_bed_are_trapped_until_it_can_be_walked_on() -> None:
    """Walked on after 12 h at 20 °C: common practice, no source."""
    row = {"section": "S4", "mixed_at": at("08:00"), "placed_at": at("09:00")}
    answer = clock_at("10:00", placements=[row])
    assert [section["is_trapped"] for section in answer["sections"]] == [True, True, True, False, False]
    assert answer["next_section"] == "S5"
    assert "trapped" in codes_of(answer)
    for clock, is_trapped in (("20:59", True), ("21:00", False)):
        later = clock_at(clock, placements=[row])
        assert section_of(later, "S1")["is_trapped"] is is_trapped
    assert later["next_section"] == "S1"
    cold = clock_at("21:00", placements=[row], climate=[{"at": at("08:00"), "air": 5.0}])
    assert section_of(cold, "S1")["is_trapped"] is True


def test_a_room_that_is_filled_has_nothing_next() -> None:
    rows = [finished(f"S{n}", f"{7 + n:02}:00", f"{8 + n:02}:00", channels_at=at("14:00")) for n in range(1, 6)]
    answer = clock_at("14:00", placements=rows, filling={"day_ends": at("17:00")})
    assert states_of(answer) == ["packed"] * 5
    assert (answer["next_section"], answer["done"], answer["last_batch_by"]) == (None, None, None)
    assert (answer["fits_day"], answer["stop_edges"], answer["best_stop"]) == (True, [], None)
    assert codes_of(answer) == []


def test_figures_explain_themselves() -> None:
    rows = [finished("S1", "08:00", "09:00")]
    answer = clock_at(
        "09:30", placements=rows, batches=[{"mixed_at": at("09:00")}], filling={"day_ends": at("17:00")}
    )
    assert {path: told["code"] for path, told in answer["explanations"].items()} == {
        "working_time": "working_time",
        "batches[0].use_by": "working_time",
        "sections[0].channels_due": "channels_due",
        "stop_edges": "stop_edges",
        "best_stop": "best_stop",
        "pace": "pace",
        "done": "done",
        "last_batch_by": "last_batch",
    }
    assert answer["explanations"]["pace"]["inputs"]["hours_per_volume"] == answer["pace"]["hours_per_volume"]


def test_the_states_are_all_that_there_are() -> None:
    assert STATES == ("waiting", "filling", "placed", "screeded", "packed")
