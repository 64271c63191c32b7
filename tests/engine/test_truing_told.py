"""What truing says beside its figures: readings that do not count, cautions, explanations; and in a plan."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bedded import straight_rail
from tests.documents import SQUARE, Json, plan_of, room_over, value_at
from tests.read_rails import along, codes_of, everything, side_by_side, trued
from tests.share import share_of

from evenbed.engine.document.rails import Check, Truing

NOWHERE = {
    "a rail that is not there": Check("c", rail="Z", start=0.0, end=900.0, off=3.0),
    "no rail at all": Check("c", start=0.0, end=900.0, off=3.0),
    "one rail twice": Check("c", rails=("A", "A"), start=0.0, end=900.0, off=3.0),
    "beyond the rail": Check("c", rail="A", start=0.0, end=1900.0, off=3.0),
    "a level of no length": Check("c", rail="A", start=0.0, end=900.0, off=3.0, length=5e-324),
    "one place": Check("c", rail="A", start=900.0, end=900.0, off=3.0),
}


@pytest.mark.parametrize("check", NOWHERE.values(), ids=NOWHERE)
def test_a_reading_that_is_nowhere_is_kept_and_does_not_count(check: Check) -> None:
    found = trued([check], side_by_side())
    assert found.answer is not None
    assert found.corrections == ()
    (fit,) = found.answer.checks
    assert (fit.check, fit.counts, fit.residual) == ("c", False, None)
    assert found.answer.worst == 0.0
    assert not found.answer.is_good_enough


def test_more_than_is_reckoned_together_is_told() -> None:
    rails = [straight_rail(f"R{n}", (0.0, 1500.0 * n), (1800.0, 1500.0 * n)) for n in range(70)]
    checks = [along(rail.id, 1.0, id=rail.id, level=f"level {n % 30}") for n, rail in enumerate(rails)]
    found = trued(checks, rails)
    assert found.answer is not None
    assert "too_many_read" in {one.code for one in found.cautions}
    assert sum(fit.counts for fit in found.answer.checks) == sum(n < 60 and n % 30 < 20 for n in range(70))
    assert not found.answer.is_good_enough


def test_a_level_far_out_is_told_once_it_is_known() -> None:
    rails = side_by_side(1)
    assert codes_of(trued([along("A", 5.4, -5.4)], rails))["level_out"] == "truing.levels[0]"
    assert "level_out" not in codes_of(trued([along("A", 5.4)], rails))
    assert "level_out" not in codes_of(trued([along("A", 0.9, -0.9)], rails))


def test_a_reading_that_the_others_contradict_is_told() -> None:
    rails = side_by_side(3)
    checks = everything(rails, {"B": (2.0, 1.0)})
    assert not any("contradicts" in code for code in codes_of(trued(checks, rails)))
    wrong = [*checks[:4], replace(checks[4], off=checks[4].off + 6.35), *checks[5:]]
    found = codes_of(trued(wrong, rails))
    assert found["rail_reading_across_contradicts"] == "truing.checks[4]"


def test_a_level_much_shorter_than_what_it_is_read_over_is_told() -> None:
    rails = side_by_side(1)
    assert "level_short" in codes_of(trued([along("A", 1.0, length=600.0)], rails))
    assert "level_short" not in codes_of(trued([along("A", 1.0, length=1500.0)], rails))
    assert "level_short" not in codes_of(trued([along("A", 1.0)], rails))


def read_room() -> Json:
    """A room whose rails are laid by the plan, with a few readings on them."""
    checks = [
        {"id": "a", "rail": "A", "from": 0, "to": 1800, "off": 6.35, "reversed_off": 1.5875},
        {"id": "b", "rail": "B", "from": 0, "to": 1800, "off": 0, "reversed_off": -4.7625},
        {"id": "ab", "rails": ["A", "B"], "from": 0, "to": 0, "off": 3.175, "reversed_off": 0},
    ]
    spots = [(0.0, 0.0, 0.0), (4000.0, 0.0, 5.0), (4000.0, 3000.0, -3.0), (0.0, 3000.0, 2.0)]
    return room_over(SQUARE, spots, checks=checks)


def test_a_plan_tells_how_its_rails_lie_and_explains_every_figure() -> None:
    plan = plan_of(read_room())
    assert {fit["check"]: fit["counts"] for fit in plan["truing"]["checks"]} == {"a": True, "b": True, "ab": True}
    assert [error["rail"] for error in plan["truing"]["rails"]] == [rail["id"] for rail in plan["rails"]]
    assert plan["corrections"]
    assert plan["level_error"] == plan["truing"]["levels"][0]["per_metre"]
    told = {path for path in plan["explanations"] if path.startswith(("truing", "corrections", "level_error"))}
    raises = {f"corrections[{n}].{key}" for n in range(len(plan["corrections"])) for key in ("raise", "mortar")}
    assert told == {"truing.worst", "level_error"} | raises
    assert not {path for path in told if value_at(plan, path.replace("[", ".").replace("]", "")) is None}


def test_a_plan_without_readings_on_rails_says_nothing_of_truing() -> None:
    plan = plan_of(read_room() | {"checks": []})
    assert (plan["truing"], plan["corrections"], plan["level_error"]) == (None, [], None)
    assert not [one for one in plan["cautions"] if one["where"].startswith("truing")]


LENGTHS = st.sampled_from([0.0, 5e-324, 99.0, 101.0, 600.0, 1800.0, 1e6]) | st.floats(0.0, 1e6)
SHOWN = st.sampled_from([0.0, 1e6, -1e6, 1e-9]) | st.floats(-20.0, 20.0)
NAMES = st.sampled_from(["A", "B", "C", "Z", ""])
TIMES = st.none() | st.sampled_from(["0001-01-02T00:00:00Z", "2026-05-04T08:00:00-05:00", "9999-12-30T00:00:00Z"])
CHECKS = st.builds(
    Check,
    id=st.uuids().map(str),
    rail=st.none() | NAMES,
    rails=st.none() | st.tuples(NAMES, NAMES),
    start=LENGTHS,
    end=LENGTHS,
    off=SHOWN,
    length=LENGTHS,
    reversed_off=st.none() | SHOWN,
    level=st.sampled_from(["", "long"]),
    taken_at=TIMES,
)
TRUINGS = st.builds(Truing, rail=NAMES, from_raise=SHOWN, to_raise=SHOWN, at=TIMES)


@given(st.lists(CHECKS, min_size=1, max_size=8), st.lists(TRUINGS, max_size=4), st.sampled_from([0.1, 1.5875, 20.0]))
@settings(max_examples=share_of(300), deadline=None)
def test_any_readings_on_any_rails_give_an_answer_in_numbers(
    checks: list[Check], truings: list[Truing], tolerance: float
) -> None:
    rails = [*side_by_side(2), straight_rail("C", (5.0, 5.0), (5.0, 5.0))]
    found = trued(checks, rails, truings, tolerance=tolerance)
    assert found.answer is not None
    figures = [found.answer.worst, found.answer.worst_after, *(error.sigma for error in found.answer.rails)]
    figures += [value for fit in found.answer.checks for value in (fit.off, fit.residual) if value is not None]
    figures += [value for one in found.corrections for value in (one.raise_by, one.mortar)]
    assert all(math.isfinite(value) for value in figures)
    assert not found.answer.is_good_enough
