"""The bed read from several set-ups: a place read from both ties them, unless it was worked over between."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of

from evenbed.engine.document.flatness import TOUCH_REACH

FLOOR = [([0.0, 0.0], 1000.0), ([4000.0, 0.0], 1002.0), ([4000.0, 3000.0], 1001.0), ([0.0, 3000.0], 1003.0)]
TIE, AWAY, OTHER = [1000.0, 1000.0], [3000.0, 1000.0], [2000.0, 2500.0]
LINE, HIGHER = 960.0, 37.0
"""mm: how far the bed lies under the first set-up's line, and by how much the second one's stands higher."""
EXACT = 1e-9

lengths = st.floats(-9.0, 9.0)


def bed(number: int, setup: str, at: list[float], down: float) -> Json:
    """A reading of the bed, a minute after the one before."""
    taken = f"2026-05-05T08:{number:02d}:00Z"
    return {"id": f"b{number}", "setup": setup, "at": at, "down": down, "stage": "bed", "taken_at": taken}


def rubbed(minute: int, at: list[float]) -> Json:
    """Told half a minute after that reading."""
    return {"at": at, "way": "rub", "done_at": f"2026-05-05T08:{minute:02d}:30Z"}


def room_of(readings: list[Json], touches: list[Json]) -> Json:
    """A room whose subfloor was read from the first set-up, and its bed so."""
    floor = [{"id": f"f{n}", "setup": "s", "at": at, "down": down} for n, (at, down) in enumerate(FLOOR)]
    room = {"document": 1, "outline": {"vertices": SQUARE}, "setups": [{"id": "s"}, {"id": "t"}]}
    return room | {"readings": [*floor, *readings], "touches": touches}


def levels(readings: list[Json], touches: list[Json] | None = None) -> Json:
    """What the plan says of the levels of that room."""
    found: Json = plan_of(room_of(readings, touches or []))["levels"]
    return found


def line_of_t(found: Json) -> float | None:
    """How much higher the second set-up's line is than the first one's."""
    lines = {one["id"]: one["line_height"] for one in found["setups"]}
    return None if lines["t"] is None else lines["t"] - lines["s"]


@given(lengths, lengths)
def test_a_place_read_from_both_ties_them_whenever_it_was_read(one: float, other: float) -> None:
    read = [bed(1, "s", TIE, LINE + one), bed(2, "t", TIE, LINE + HIGHER + one), bed(3, "t", AWAY, LINE + other)]
    found = levels(read)
    assert found["untied"] == []
    assert line_of_t(found) == pytest.approx(HIGHER, abs=EXACT)
    z = {row["reading"]: row["z"] for row in found["heights"]}
    assert z["b1"] - z["b3"] == pytest.approx(other - one - HIGHER, abs=EXACT)


@given(st.floats(-9.0, -0.5))
def test_a_place_worked_over_between_does_not_lower_the_second_line(taken_off: float) -> None:
    """The tie at another place holds alone, exactly; nothing there is told as a contradiction."""
    read = [bed(1, "s", TIE, LINE), bed(2, "s", OTHER, LINE), bed(3, "t", OTHER, LINE + HIGHER)]
    read.append(bed(4, "t", TIE, LINE + HIGHER - taken_off))
    found = levels(read, [rubbed(2, [TIE[0] + TOUCH_REACH - 1.0, TIE[1]])])
    assert line_of_t(found) == pytest.approx(HIGHER, abs=EXACT)
    assert found["misclosures"] == []


@settings(max_examples=4)  # whole plans
@given(st.floats(-500.0, 500.0), lengths)
def test_a_bed_read_whole_from_a_set_up_that_nothing_ties_is_judged_by_its_shape(lift: float, hump: float) -> None:
    """The laser was moved, no mark was read, the subfloor is covered: flatness asks for no height."""
    places = [[x, y] for x in (200.0, 1400.0, 2600.0, 3800.0) for y in (200.0, 1500.0, 2800.0)]
    downs = [LINE - (hump if n == 4 else 0.0) for n in range(len(places))]

    def checked(setup: str, by: float) -> Json:
        read = [bed(n, setup, at, down + by) for n, (at, down) in enumerate(zip(places, downs, strict=True))]
        found: Json = plan_of(room_of(read, []), "plan")
        return found

    tied, floating = checked("s", 0.0), checked("t", lift)
    told = [[row | {"at": None} for row in plan["flatness"]["checks"]] for plan in (tied, floating)]
    assert [row["verdict"] for row in told[1]] == [row["verdict"] for row in told[0]]
    for one, other in zip(*told, strict=True):
        gaps = [0.0 if row["gap"] is None else row["gap"]["gap"] for row in (one, other)]
        assert gaps[1] == pytest.approx(gaps[0], abs=1e-6)
    assert floating["flatness"]["level"]["mean"] == pytest.approx(0.0, abs=1e-6)
    codes = [[caution["code"] for caution in plan["cautions"]] for plan in (tied, floating)]
    assert ("flatness_floating" in codes[0], "flatness_floating" in codes[1]) == (False, True)


def test_a_place_worked_over_between_ties_nothing_by_itself() -> None:
    read = [bed(1, "s", TIE, LINE), bed(3, "t", TIE, LINE + HIGHER + 4.0)]
    assert levels(read, [rubbed(1, TIE)])["untied"] == [{"setup": "t", "readings": 1}]
    assert levels(read, [rubbed(3, TIE)])["untied"] == []
    assert levels(read, [rubbed(1, AWAY)])["untied"] == []


def test_read_again_from_its_own_set_up_it_is_of_another_height_from_then_on() -> None:
    """By hand: rubbed down by 3 mm though nobody told; the second set-up meets it after that."""
    read = [bed(1, "s", TIE, LINE), bed(2, "s", TIE, LINE + 3.0), bed(3, "t", TIE, LINE + 3.0 + HIGHER)]
    found = levels(read)
    assert line_of_t(found) == pytest.approx(HIGHER, abs=EXACT)
    z = {row["reading"]: row["z"] for row in found["heights"]}
    assert z["b1"] - z["b2"] == pytest.approx(3.0, abs=EXACT)
    assert z["b2"] == pytest.approx(z["b3"], abs=EXACT)
