"""Rails longer than their strip: trued lie by lie, what lay before being finished bed, what comes after not there."""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bedded import straight_rail
from tests.documents import plan_of, room_over
from tests.read_rails import across, along, everything, figures_of, random_check, side_by_side, trued
from tests.share import share_of

from evenbed.engine.document.rails import Check, Truing
from evenbed.engine.rails.moves import Run, settings_along
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.truing.trued import Trued

LONG, STRIP, SPACING = 6000.0, 2400.0, 600.0  # mm
LIES = ((3600.0, 6000.0), (1800.0, 4200.0), (0.0, 2400.0))  # from the far end on, 600 mm of each in finished bed
CLOSE = 1e-9  # mm: arithmetic by hand
EIGHT, NINE, TEN, ELEVEN = (f"2026-05-04T{n:02d}:00:00-05:00" for n in (8, 9, 10, 11))


def long_rail(name: str, y: float = 0.0, spacing: float = SPACING) -> Rail:
    """A rail of 6 m with stations evenly along it, its strip of 2.4 m laid from the far end, its `to`, on."""
    rail = straight_rail(name, (0.0, y), (LONG, y), [0.0] * (round(LONG / spacing) + 1))
    alongs = [station.along for station in rail.stations]
    laid = settings_along([Run(0.0, LONG, STRIP, None)], alongs, SPACING, is_start_far=False)
    assert tuple((one.start, one.end) for one in laid) == LIES
    return replace(rail, settings=laid)


def read_on(rail: str, lie: int, off: float, at: str | None = None) -> Check:
    """A level over the whole of a lie, both ways round."""
    start, end = LIES[lie - 1]
    return Check(f"{rail}{lie}", rail=rail, start=start, end=end, off=off, reversed_off=off, taken_at=at)


def errors_of(found: Trued) -> dict[str, tuple[int, float, float]]:
    assert found.answer is not None
    return {one.rail: (one.lie, one.from_off, one.to_off) for one in found.answer.rails}


def done_of(found: Trued) -> list[tuple[str, int, str, int]]:
    return [(one.rail, one.lie, one.end, one.station) for one in found.corrections]


def test_readings_on_the_first_lie_move_its_own_ends_and_nothing_that_is_not_there() -> None:
    """By hand: half of 8 mm at either end, a little less as beliefs weigh in (18 against 18.125 mm², of ends ± 3 mm
    and two readings ± 0.5 mm). A line over the whole rail would have its beginning out by 16 mm."""
    found = trued([read_on("A", 1, 8.0)], [long_rail("A")])
    half = 4.0 * 18.0 / 18.125
    assert done_of(found) == [("A", 1, "from", 6), ("A", 1, "to", 10)]
    assert [one.raise_by for one in found.corrections] == pytest.approx([half, -half], abs=CLOSE)
    assert found.corrections[0].mortar == pytest.approx(38.1 * STRIP * half / 2.0 / 1e9)
    assert errors_of(found)["A"] == pytest.approx((1, -half, half), abs=CLOSE)


def test_a_strip_that_goes_on_past_its_end_stations_is_raised_by_what_it_is_out_there() -> None:
    """By hand: 12 mm over 2400 mm are 10 mm over the 2000 mm between its stations, a little less as above."""
    found = trued([read_on("A", 2, 12.0)], [long_rail("A", spacing=500.0)])
    assert done_of(found) == [("A", 2, "from", 4), ("A", 2, "to", 8)]
    half = 5.0 * 1.44 * 18.0 / (1.44 * 18.0 + 0.125)
    assert [one.raise_by for one in found.corrections] == pytest.approx([half, -half], abs=CLOSE)


def test_once_the_strip_lies_further_on_what_lay_before_is_left_alone() -> None:
    rails = [long_rail("A"), long_rail("B", 1500.0)]
    first = [read_on(name, 1, 8.0, EIGHT) for name in "AB"]
    found = trued([*first, read_on("A", 2, -8.0, NINE)], rails)
    assert done_of(found) == [("A", 2, "from", 3), ("A", 2, "to", 7)]
    assert found.answer is not None
    assert [one.lie for one in found.answer.rails] == [2, 2]
    assert found.answer.next_check is not None
    assert (found.answer.next_check.rail, found.answer.next_check.start) == ("B", 1800.0)


def test_what_was_read_on_one_lie_says_nothing_of_another() -> None:
    rail = long_rail("A")
    second = read_on("A", 2, -5.0, NINE)
    alone, both = trued([second], [rail]), trued([read_on("A", 1, 8.0, EIGHT), second], [rail])
    assert errors_of(alone)["A"][0] == 2
    assert errors_of(both)["A"] == pytest.approx(errors_of(alone)["A"], abs=CLOSE)


def test_bedding_the_first_lie_anew_undoes_no_reading_on_the_second() -> None:
    rail = long_rail("A")
    checks = [read_on("A", 1, 8.0, EIGHT), read_on("A", 2, -5.0, NINE)]
    untouched = trued(checks, [rail])
    late = Truing("A", 4.0, -4.0, TEN, lie=1)
    found = trued(checks, [rail], [late])
    assert found.answer is not None
    assert [fit.counts for fit in found.answer.checks] == [False, True]
    assert figures_of(found) == pytest.approx(figures_of(untouched), abs=CLOSE)
    whole = trued(checks, [rail], [replace(late, lie=None)]).answer
    assert whole is not None
    assert [fit.counts for fit in whole.checks] == [False, False]


def test_a_lie_bedded_anew_is_the_one_that_lies_also_before_it_is_read_again() -> None:
    checks = [read_on("A", 1, 0.0, EIGHT), read_on("A", 2, -5.0, NINE)]
    found = trued(checks, [long_rail("A")], [Truing("A", -2.5, 2.5, TEN, lie=2)])
    assert errors_of(found)["A"][0] == 2
    assert done_of(found) == []
    assert errors_of(found)["A"][1:] == pytest.approx((0.0, 0.0), abs=0.1)


def test_a_whole_rail_raised_moved_each_lie_by_its_share() -> None:
    """By hand: raised by 6 mm at the end alone, the first lie moved by 3.6 mm at 3600 mm and by 6 mm at 6000 mm."""
    checks, rails = [read_on("A", 1, 0.0, EIGHT)], [long_rail("A")]
    whole = errors_of(trued(checks, rails, [Truing("A", 0.0, 6.0, NINE)]))["A"]
    told = errors_of(trued(checks, rails, [Truing("A", 3.6, 6.0, NINE, lie=1)]))["A"]
    assert whole[1:] == pytest.approx(told[1:], abs=CLOSE)


def test_a_level_over_two_lies_tells_of_neither() -> None:
    found = trued([Check("c", rail="A", start=3000.0, end=4800.0, off=5.0)], [long_rail("A")]).answer
    assert found is not None
    assert not found.checks[0].counts
    assert found.checks[0].off is None
    assert found.worst == 0.0


def test_where_two_lies_overlap_a_reading_is_of_the_strip_that_was_there_then() -> None:
    rails = [long_rail("A"), long_rail("B", 1500.0)]
    firsts = [read_on(name, 1, 0.0, EIGHT) for name in "AB"]
    early = across("A", "B", 3700.0, 6.0, 6.0, id="early", taken_at=NINE)
    assert {one.lie for one in trued([*firsts, early], rails).corrections} == {1}
    seconds = [read_on(name, 2, 0.0, TEN) for name in "AB"]
    late = across("A", "B", 3700.0, -6.0, -6.0, id="late", taken_at=ELEVEN)
    both = trued([*firsts, early, *seconds, late], rails)
    alone = trued([*seconds, late], rails)
    assert {one.lie for one in both.corrections} == {2}
    assert figures_of(both) == pytest.approx(figures_of(alone), abs=CLOSE)


def test_rails_of_one_strip_stay_beside_one_whose_strip_is_moved() -> None:
    short = straight_rail("B", (0.0, 1500.0), (STRIP, 1500.0), [0.0] * 5)
    checks = [read_on("A", 3, 0.0), Check("b", rail="B", start=0.0, end=STRIP)]
    found = trued([*checks, across("A", "B", 1200.0, 5.0, 5.0)], [long_rail("A"), short])
    assert {name: lie for name, (lie, *_) in errors_of(found).items()} == {"A": 3, "B": 1}
    assert found.answer is not None
    assert all(fit.counts for fit in found.answer.checks)


@given(st.integers(0, 10**6))
@settings(max_examples=share_of(60), deadline=None)
def test_a_lie_is_answered_as_a_rail_of_its_own_whatever_was_read_before_it(seed: int) -> None:
    rng = random.Random(seed)
    lie = rng.randint(1, 3)
    start, end = LIES[lie - 1]
    cut = [straight_rail(name, (start, y), (end, y), [0.0] * 5) for name, y in (("A", 0.0), ("B", 1500.0))]
    read = [replace(random_check(rng, f"c{n}", cut), taken_at=ELEVEN) for n in range(rng.randint(1, 8))]
    moved = [replace(one, start=one.start + start, end=one.end + start) for one in read]
    before = [read_on("A", n, rng.gauss(0, 5), f"2026-05-04T0{n}:00:00-05:00") for n in range(1, lie)]
    told = [replace(one, level="another") for one in before]  # of the same level it would tell of that
    there = read_on("A", lie, 1.0, TEN)
    alone = trued([replace(there, start=0.0, end=STRIP), *read], cut)
    checks = [*told, there, *moved]
    found = trued(rng.sample(checks, len(checks)), [long_rail("A"), long_rail("B", 1500.0)])
    assert figures_of(found) == pytest.approx(figures_of(alone), abs=1e-6)


def test_in_a_plan_the_corrections_stand_at_stations_under_the_strip_that_lies() -> None:
    corners = [(0.0, 0.0), (7000.0, 0.0), (7000.0, 3000.0), (0.0, 3000.0)]
    room = room_over(corners, [(*corner, 0.0) for corner in corners])
    rail = plan_of(room)["rails"][0]
    first, *more = rail["settings"]
    assert more
    check = {"id": "a", "rail": rail["id"], "from": first["from"], "to": first["to"], "off": 9.0, "reversed_off": 9.0}
    plan = plan_of(room | {"checks": [check]})
    ends = {min(first["stations"]), max(first["stations"])}
    assert {(one["rail"], one["lie"], one["station"]) for one in plan["corrections"]} == {
        (rail["id"], 1, station) for station in ends
    }


@given(st.integers(0, 10**6))
@settings(max_examples=share_of(40), deadline=None)
def test_what_is_read_next_lies_on_what_is_there_now_until_that_is_good_enough(seed: int) -> None:
    rng = random.Random(seed)
    rails = [long_rail("A"), long_rail("B", 1500.0)]
    lie = rng.randint(1, 3)
    start, end = LIES[lie - 1]
    checks = [read_on("A", n, 0.0, f"2026-05-04T0{n}:00:00-05:00") for n in range(1, lie + 1)]
    answer = trued(checks, rails).answer
    while answer is not None and (told := answer.next_check) is not None:
        assert len(checks) < 40
        for along_rail in (told.start, told.end):
            assert start - CLOSE <= along_rail <= end + CLOSE
        at = f"2026-05-04T12:{len(checks):02d}:00-05:00"
        name = f"c{len(checks)}"
        checks.append(Check(name, told.rail, told.rails, told.start, told.end, reversed_off=0.0, taken_at=at))
        answer = trued(checks, rails).answer
        assert answer is not None
        assert answer.checks[-1].counts
        assert [one.lie for one in answer.rails] == [lie, lie]
    assert answer is not None
    assert answer.is_good_enough


def test_a_rail_of_one_lie_is_answered_as_one_without_any() -> None:
    """The strip as long as its rail, told and untold."""
    rails = side_by_side(3)
    laid = [
        replace(
            rail, settings=settings_along([Run(0.0, 1800.0, 1800.0, None)], [0.0, 1800.0], 300.0, is_start_far=True)
        )
        for rail in rails
    ]
    checks = everything(rails, {"A": (1.0, 3.0), "B": (-4.0, 2.0)})
    truings = [Truing("B", 1.0, 2.0, NINE, lie=1)]
    assert trued(checks, laid, truings) == trued(checks, rails, [replace(truings[0], lie=None)])
    assert all(math.isfinite(v) for v in figures_of(trued([along("A", 1.0)], laid)))
