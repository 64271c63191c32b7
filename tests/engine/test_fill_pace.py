"""The pace of a filling day, by hand: stoppages, nights, time zones, the clocks going back."""

import pytest
from tests.documents import plan_of
from tests.engine.fill_days import (
    at,
    clock_at,
    clock_of,
    finished,
    long_room,
    states_of,
)

VOLUME = 2.0 * 1.8 * 0.03175  # m³ in each section of the long room


def test_the_pace_of_alike_sections_foretells_the_rest() -> None:
    rows = [finished("S1", "08:00", "09:00"), finished("S2", "09:00", "10:00")]
    answer = clock_at("10:00", placements=rows, filling={"day_ends": at("13:00")})
    batch = plan_of(long_room())["mix"]["batch"]["volume"] / 1.1
    assert answer["pace"]["sections"] == 2
    assert answer["pace"]["hours_per_volume"] == pytest.approx(1.0 / VOLUME)
    assert answer["pace"]["hours_per_batch"] == pytest.approx(batch / VOLUME)
    assert answer["done"]["likely"] == at("13:00")
    assert answer["done"]["early"] < answer["done"]["likely"] < answer["done"]["late"]
    assert answer["fits_day"] is True
    late = clock_at("10:01", placements=rows, filling={"day_ends": at("13:00")})
    assert (late["done"]["likely"], late["fits_day"]) == (at("13:01"), False)


def test_the_last_batch_is_mixed_a_batchs_hours_before_the_day_ends() -> None:
    filling = {"day_ends": at("13:00")}
    rows = [finished("S1", "08:00", "09:00")]
    paced = clock_at("09:00", placements=rows, filling=filling)
    minutes = round(paced["pace"]["hours_per_batch"] * 60.0)
    assert paced["last_batch_by"][:16] == at(f"{(780 - minutes) // 60}:{(780 - minutes) % 60:02}")[:16]
    assert clock_at("09:00", filling=filling)["last_batch_by"] == at("11:30")


def test_stoppages_that_overlap_are_taken_out_once() -> None:
    rows = [finished("S1", "08:00", "09:00"), finished("S2", "09:00", "10:30")]
    stoppages = [
        {"start": at("09:10"), "end": at("09:30")},
        {"start": at("09:20"), "end": at("09:40")},
        {"start": at("07:00"), "end": at("08:10")},
    ]
    answer = clock_at("10:30", placements=rows, stoppages=stoppages)
    assert answer["pace"]["hours_per_volume"] * 2.0 * VOLUME == pytest.approx((150.0 - 30.0 - 10.0) / 60.0)
    assert answer["stopped_hours"] == pytest.approx(40.0 / 60.0)
    assert answer["is_stopped"] is False


def test_a_stoppage_without_an_end_lasts() -> None:
    rows = [finished("S1", "08:00", "09:00")]
    answer = clock_at("10:00", placements=rows, stoppages=[{"start": at("09:15")}])
    assert (answer["is_stopped"], answer["stopped_hours"]) == (True, pytest.approx(0.75))
    assert answer["done"]["likely"] == at("14:00")


def test_a_stoppage_still_to_come_puts_off_the_end() -> None:
    rows = [finished("S1", "08:00", "09:00")]
    lunch = [{"start": at("12:00"), "end": at("12:45")}]
    answer = clock_at("09:00", placements=rows, stoppages=lunch)
    assert (answer["is_stopped"], answer["done"]["likely"]) == (False, at("13:45"))


def test_a_section_that_was_begun_counts_by_its_batches_in_place_else_by_its_time() -> None:
    rows = [finished("S1", "08:00", "09:00"), {"section": "S2", "mixed_at": at("09:00")}]
    assert clock_at("09:30", placements=rows)["done"]["likely"] == at("13:00")
    assert clock_at("10:30", placements=rows)["done"]["likely"] == at("13:30")
    needed = plan_of(long_room())["sections"][1]["batches"]
    batch = {"mixed_at": at("09:00"), "section": "S2", "placed_at": at("09:20"), "size": needed / 4.0}
    assert clock_at("09:30", placements=rows, batches=[batch])["done"]["likely"] == at("13:15")


def test_a_night_between_sections_is_no_part_of_the_pace() -> None:
    rows = [finished("S1", "15:00", "16:00")]
    rows += [{"section": "S2", "mixed_at": at("08:00", "2026-05-05"), "placed_at": at("09:00", "2026-05-05")}]
    answer = clock_of(long_room(placements=rows), at("09:00", "2026-05-05"))
    assert answer["pace"]["hours_per_volume"] == pytest.approx(1.0 / VOLUME)


def test_work_goes_on_past_midnight() -> None:
    row = {"section": "S1", "mixed_at": at("22:30"), "placed_at": at("00:00", "2026-05-05")}
    batches = [{"mixed_at": at("23:50")}]
    answer = clock_of(long_room(placements=[row], batches=batches), at("00:30", "2026-05-05"))
    assert answer["done"]["likely"] == at("06:30", "2026-05-05")
    assert answer["batches"][0]["use_by"] == at("01:20", "2026-05-05")


def test_moments_in_other_time_zones_are_the_same_moments() -> None:
    mixed = {"section": "S1", "mixed_at": "2026-05-04T15:00:00+02:00", "placed_at": "2026-05-04T19:30:00+05:30"}
    answer = clock_of(long_room(placements=[mixed], filling={"day_ends": "2026-05-04T19:00:00Z"}), at("09:00"))
    same = clock_at("09:00", placements=[finished("S1", "08:00", "09:00")], filling={"day_ends": at("14:00")})
    assert answer["pace"] == same["pace"]
    assert answer["done"] == same["done"]
    assert answer["last_batch_by"] == same["last_batch_by"]


def test_when_the_clocks_go_back_only_hours_that_passed_count() -> None:
    """On 1 November 2026 clocks in New York went from 02:00 at -04:00 back to 01:00 at -05:00."""
    row = {"section": "S1", "mixed_at": "2026-11-01T01:30:00-04:00", "placed_at": "2026-11-01T01:30:00-05:00"}
    answer = clock_of(long_room(placements=[row]), "2026-11-01T01:30:00-05:00")
    assert answer["pace"]["hours_per_volume"] == pytest.approx(1.0 / VOLUME)
    assert answer["done"]["likely"] == "2026-11-01T05:30:00-05:00"


@pytest.mark.parametrize(
    "row",
    [
        {"section": "S2", "mixed_at": at("11:00"), "placed_at": at("08:30")},
        {"section": "S2", "placed_at": at("09:00", "2020-01-01")},
        {"section": "S2", "mixed_at": at("09:00", "2020-01-01"), "placed_at": at("09:00", "2021-01-01")},
        {"section": "S2", "placed_at": at("09:00", "2027-01-01")},
    ],
)
def test_times_that_make_no_sense_are_no_part_of_the_pace(row: dict[str, str]) -> None:
    answer = clock_at("10:00", placements=[finished("S1", "08:00", "09:00"), row])
    if answer["pace"] is not None:
        assert answer["pace"]["hours_per_volume"] == pytest.approx(1.0 / VOLUME)
    assert states_of(answer)[:2] == ["screeded", "placed"]


def test_without_a_beginning_there_is_no_pace() -> None:
    assert clock_at("10:00", placements=[{"section": "S1", "placed_at": at("09:00")}])["pace"] is None
