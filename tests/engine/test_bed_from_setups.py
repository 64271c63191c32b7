"""The bed read from several set-ups: a place read from both ties them, unless it was worked over between."""

import pytest
from hypothesis import given
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


def levels(readings: list[Json], touches: list[Json] | None = None) -> Json:
    """What the plan says of the levels of a room whose bed was read so."""
    floor = [{"id": f"f{n}", "setup": "s", "at": at, "down": down} for n, (at, down) in enumerate(FLOOR)]
    room = {"document": 1, "outline": {"vertices": SQUARE}, "setups": [{"id": "s"}, {"id": "t"}]}
    found: Json = plan_of(room | {"readings": [*floor, *readings], "touches": touches or []})["levels"]
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
