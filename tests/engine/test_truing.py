"""Rails trued: an independent judge over the same readings, cases by hand, and what must change nothing."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bedded import SIXTEENTH, STRAIGHTEDGE, document_of, straight_rail
from tests.documents import turned
from tests.share import share_of

from evenbed.engine.document.rails import Check, RailDesign, Truing
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.truing.equations import system_from
from evenbed.engine.truing.places import Rails
from evenbed.engine.truing.solved import solution_of
from evenbed.engine.truing.trued import Trued, trued_from

CLOSE = 1e-9  # mm: two ways to solve the same equations
READING, SET, LEVEL = 0.5, 3.0, 2.0  # the standard errors believed in: mm, mm, mm/m
SEEDS = st.integers(0, 10**6)


def room_of_rails(rng: random.Random) -> list[Rail]:
    """Rails askew in the room, their tops bent at every station."""
    return [
        straight_rail(
            "ABCDEF"[n],
            (rng.uniform(0, 500), 1500.0 * n + rng.uniform(0, 200)),
            (rng.uniform(2000, 5000), 1500.0 * n + rng.uniform(0, 200)),
            [rng.uniform(-40, 40) for _ in range(rng.randint(2, 6))],
        )
        for n in range(rng.randint(1, 6))
    ]


def random_check(rng: random.Random, name: str, rails: Sequence[Rail]) -> Check:
    """A reading anywhere, along a rail or across two, of any level."""
    one, other = rng.choice(rails), rng.choice(rails)
    where = {"rail": one.id} if one is other else {"rails": (one.id, other.id)}
    start = rng.uniform(0, math.dist(one.start, one.end) / 2 - 200)
    end = rng.uniform(math.dist(other.start, other.end) / 2, math.dist(other.start, other.end))
    return Check(
        name,
        **where,
        start=start,
        end=end,
        off=rng.gauss(0, 5),
        length=rng.choice([0.0, 600.0, 1200.0, 1800.0]),
        reversed_off=rng.choice([None, rng.gauss(0, 5)]),
        level=rng.choice(["", "long"]),
    )


def judged(rails: Sequence[Rail], checks: Sequence[Check]) -> tuple[np.ndarray, np.ndarray, list[str]]:
    """numpy's least squares over equations written anew: ends, rail by rail, then levels; their covariance; names."""
    names = sorted({check.level for check in checks})
    number = {rail.id: n for n, rail in enumerate(rails)}
    rows, values = [], []
    for check in checks:
        first, last = (check.rail, check.rail) if check.rail else check.rails or ("", "")
        places = []
        for name, along in ((first, check.start), (last, check.end)):
            rail = rails[number[name]]
            share = along / np.linalg.norm(np.subtract(rail.end, rail.start))
            at = np.add(rail.start, np.multiply(share, np.subtract(rail.end, rail.start)))
            top = np.interp(along, [s.along for s in rail.stations], [s.top for s in rail.stations])
            places.append((number[name], share, at, top))
        (a, s, p, top_a), (b, t, q, top_b) = places
        run = np.linalg.norm(q - p)
        size = check.length or run
        for way, shown in ((1.0, check.off), (-1.0, check.reversed_off)):
            if shown is not None:
                row = np.zeros(2 * len(rails) + len(names))
                row[2 * b] += 1 - t
                row[2 * b + 1] += t
                row[2 * a] -= 1 - s
                row[2 * a + 1] -= s
                row[2 * len(rails) + names.index(check.level)] += way * run / 1000
                rows.append(row * size / run / READING)
                values.append((shown - (top_b - top_a) * size / run) / READING)
    beliefs = np.diag([1 / SET] * (2 * len(rails)) + [1 / LEVEL] * len(names))
    matrix = np.vstack([*rows, beliefs])
    found, *_ = np.linalg.lstsq(matrix, np.concatenate([values, np.zeros(len(beliefs))]), rcond=None)
    return found, np.linalg.inv(matrix.T @ matrix), names


@given(SEEDS)
@settings(max_examples=share_of(200), deadline=None)
def test_numpys_least_squares_finds_the_same_rails_levels_and_doubts(seed: int) -> None:
    rng = random.Random(seed)
    rails = room_of_rails(rng)
    checks = [random_check(rng, f"c{n}", rails) for n in range(rng.randint(1, 25))]
    system = system_from(checks, (), Rails(rails))
    solution = solution_of(system)
    values, covariance, names = judged(rails, checks)
    order = [2 * n + end for n in range(len(rails)) for end in (0, 1)] + [system.level[name] for name in names]
    np.testing.assert_allclose([solution.values[n] for n in order], values, rtol=0, atol=CLOSE)
    ours = [[solution.covariances[i][j] for j in order] for i in order]
    np.testing.assert_allclose(ours, covariance, rtol=0, atol=CLOSE)


def side_by_side(count: int = 3, length: float = 1800.0, apart: float = 1500.0) -> list[Rail]:
    return [straight_rail("ABCDEFGH"[n], (0.0, apart * n), (length, apart * n)) for n in range(count)]


def along(rail: str, off: float, turned_off: float | None = None, **more: object) -> Check:
    return replace(Check(f"along {rail}", rail=rail, start=0.0, end=1800.0, off=off, reversed_off=turned_off), **more)  # type: ignore[arg-type]


def across(one: str, other: str, at: float, off: float, turned_off: float | None = None, **more: object) -> Check:
    check = Check(f"{one}{other} {at}", rails=(one, other), start=at, end=at, off=off, reversed_off=turned_off)
    return replace(check, **more)  # type: ignore[arg-type]


def everything(rails: Sequence[Rail], heights: dict[str, tuple[float, float]]) -> list[Check]:
    """Every rail along, every pair across at both ends and in the middle, without any error, both ways round."""
    found = []
    for rail in rails:
        start, end = heights.get(rail.id, (0.0, 0.0))
        found.append(along(rail.id, end - start, end - start))
    for one, other in pairwise(rails):
        a, b = heights.get(one.id, (0.0, 0.0)), heights.get(other.id, (0.0, 0.0))
        for share in (0.0, 0.5, 1.0):
            off = b[0] + (b[1] - b[0]) * share - a[0] - (a[1] - a[0]) * share
            found.append(across(one.id, other.id, 1800.0 * share, off, off))
    return found


def trued(checks: Sequence[Check], rails: Sequence[Rail], truings: Sequence[Truing] = (), **design: float) -> Trued:
    made = RailDesign(straightedge=STRAIGHTEDGE)
    return trued_from(document_of(checks, truings, replace(made, **design)), rails)  # type: ignore[arg-type]


def test_a_level_turned_end_for_end_splits_the_difference() -> None:
    """Half the sum is the rail's, half the difference the level's (common practice, no source); a little less, as
    beliefs weigh in: a level of 0 ± 2 mm/m and ends of 0 ± 3 mm against two readings of ± 0.5 mm."""
    rail = straight_rail("A", (0.0, 0.0), (1000.0, 0.0))
    found = trued([Check("c", rail="A", start=0.0, end=1000.0, off=4.0, reversed_off=-2.0)], [rail])
    assert found.level_error == pytest.approx(3.0 * 4.0 / (4.0 + 0.125), abs=CLOSE)
    assert found.answer is not None
    (error,) = found.answer.rails
    assert error.to_off - error.from_off == pytest.approx(1.0 * 18.0 / (18.0 + 0.125), abs=CLOSE)
    assert found.answer.levels[0].flips == 1


def test_a_level_never_turned_is_not_known() -> None:
    assert trued([along("A", 4.0)], side_by_side(1)).level_error is None


def test_a_level_read_on_many_rails_is_known_less_well_than_one_that_was_turned() -> None:
    many = trued([along(rail.id, 5.4) for rail in side_by_side(6)], side_by_side(6)).answer
    flipped = trued([along("A", 5.4, -5.4)], side_by_side(6)).answer
    assert many is not None
    assert flipped is not None
    assert many.levels[0].sigma > 3.0 * flipped.levels[0].sigma


def test_a_rail_that_follows_a_falling_top_is_true_when_the_level_shows_the_fall() -> None:
    fall = 1800.0 / 48.0
    rail = straight_rail("A", (0.0, 0.0), (1800.0, 0.0), [40.0, 40.0 - fall / 2, 40.0 - fall])
    answer = trued([along("A", -fall, -fall)], [rail]).answer
    assert answer is not None
    assert answer.worst == pytest.approx(0.0, abs=CLOSE)
    assert answer.checks[0].off == pytest.approx(0.0, abs=CLOSE)


def test_the_one_rail_that_is_high_is_the_one_let_down() -> None:
    rails = side_by_side(5)
    found = trued(everything(rails, {"C": (6.0, 6.0)}), rails)
    assert {one.rail for one in found.corrections} == {"C"}
    assert [one.end for one in found.corrections] == ["from", "to"]
    assert all(one.raise_by == pytest.approx(-6.0, abs=0.3) for one in found.corrections)
    assert {one.sixteenths for one in found.corrections} == {-4}
    assert {one.thirty_seconds for one in found.corrections} == {-8}
    assert {one.station for one in found.corrections} == {0, 1}
    assert found.answer is not None
    assert found.answer.worst_after < 0.4


def test_one_end_too_low_takes_a_wedge_of_mortar_and_names_the_reading_that_shows_it() -> None:
    rails = side_by_side(3)
    found = trued(everything(rails, {"B": (0.0, -5.0)}), rails)
    (one,) = found.corrections
    assert (one.rail, one.end, one.check) == ("B", "to", "along B")
    assert one.mortar == pytest.approx(38.1 * 1800.0 * one.raise_by / 2.0 / 1e9)
    assert one.mortar > 0.0
    assert found.explanations["corrections[0].raise"].inputs["end_off"] == pytest.approx(-one.raise_by)


def test_rails_that_lie_well_are_good_enough_once_all_were_read_and_tied() -> None:
    rails = side_by_side(3)
    checks = everything(rails, {"B": (0.4, -0.4)})
    done = trued(checks, rails)
    assert done.answer is not None
    assert done.answer.is_good_enough
    assert done.corrections == ()
    assert done.answer.next_check is None
    for kept in (checks[1:], checks[:3]):  # rail A never read along; no pair tied
        partly = trued(kept, rails).answer
        assert partly is not None
        assert not partly.is_good_enough


def test_rails_that_seem_to_lie_well_are_not_good_enough_while_too_much_is_in_doubt() -> None:
    rails = side_by_side(2, length=5000.0)
    checks = [Check("a", rail="A", start=0.0, end=300.0), Check("b", rail="B", start=0.0, end=300.0)]
    answer = trued([*checks, across("A", "B", 0.0, 0.0)], rails).answer
    assert answer is not None
    assert answer.worst == 0.0
    assert not answer.is_good_enough
    assert answer.next_check is not None


def test_what_is_read_next_is_every_rail_then_every_pair() -> None:
    rails = side_by_side(3)
    steps: list[tuple[Check, object]] = [
        (along("A", 1.0, 1.0), "B"),
        (along("B", 1.0, 1.0), "C"),
        (along("C", 1.0, 1.0), ("A", "B")),
        (across("A", "B", 0.0, 1.0, 1.0), ("B", "C")),
    ]
    for n in range(len(steps)):
        answer = trued([check for check, _ in steps[: n + 1]], rails).answer
        assert answer is not None
        assert answer.next_check is not None
        assert (answer.next_check.rail or answer.next_check.rails) == steps[n][1]


def test_rails_out_of_each_others_reach_need_no_tie() -> None:
    rails = side_by_side(2, apart=4000.0)
    answer = trued([along("A", 0.0, 0.0), along("B", 0.0, 0.0)], rails).answer
    assert answer is not None
    assert answer.is_good_enough
    assert answer.next_check is None


def figures_of(found: Trued) -> list[float]:
    """Everything the answer says in numbers, but for which reading asks most."""
    assert found.answer is not None
    ends = [v for r in found.answer.rails for v in (r.from_off, r.to_off, r.sigma, r.from_after, r.to_after)]
    return [*ends, found.answer.worst, *(one.raise_by for one in found.corrections)]


@given(SEEDS)
@settings(max_examples=share_of(60), deadline=None)
def test_neither_order_nor_naming_the_other_end_first_nor_turning_the_room_changes_anything(seed: int) -> None:
    rng = random.Random(seed)
    rails = room_of_rails(rng)
    checks = [random_check(rng, f"c{n}", rails) for n in range(rng.randint(1, 20))]
    before = figures_of(trued(checks, rails))
    shuffled = rng.sample(checks, len(checks))
    swapped = [_other_end_first(c) if c.reversed_off is not None else c for c in checks]
    angle, by = rng.uniform(0, 7), (rng.uniform(-1e4, 1e4), rng.uniform(-1e4, 1e4))
    moved = [replace(r, start=turned(r.start, angle, by), end=turned(r.end, angle, by)) for r in rails]
    for other in (trued(shuffled, rails), trued(swapped, rails), trued(checks, moved)):
        np.testing.assert_allclose(figures_of(other), before, rtol=0, atol=1e-6)


def _other_end_first(check: Check) -> Check:
    """The same two readings told from the other end: high is low, and the level lay the other way round."""
    rails = None if check.rails is None else check.rails[::-1]
    assert check.reversed_off is not None
    off, back = -check.reversed_off, -check.off
    return replace(check, rails=rails, start=check.end, end=check.start, off=off, reversed_off=back)


def test_all_rails_higher_together_shows_on_no_level() -> None:
    rails = side_by_side(3)
    heights = {"A": (2.0, -1.0), "B": (0.5, 3.0), "C": (-4.0, 1.0)}
    higher = {name: (start + 7.0, end + 7.0) for name, (start, end) in heights.items()}
    same = figures_of(trued(everything(rails, heights), rails)), figures_of(trued(everything(rails, higher), rails))
    np.testing.assert_allclose(*same, rtol=0, atol=1e-9)
    cautions = [one.code for one in trued(everything(rails, heights), rails).cautions]
    assert "common_height_unknown" in cautions


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


def codes_of(found: Trued) -> dict[str, str]:
    return {one.code: one.where for one in found.cautions}


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


BEFORE, AT, AFTER = (f"2026-05-04T{n:02d}:00:00-05:00" for n in (8, 9, 10))


def test_a_rail_bedded_anew_is_told_by_later_readings_and_the_level_by_all() -> None:
    rails = side_by_side(1)
    old = along("A", 11.0, 1.0, taken_at=BEFORE)
    found = trued([old], rails, [Truing("A", 3.0, -3.0, AT)])
    assert found.answer is not None
    assert not found.answer.checks[0].counts
    assert found.corrections == ()
    assert found.level_error == pytest.approx(5.0 / 1.8, rel=0.1)
    again = trued([old, along("A", 5.0, -5.0, id="again", taken_at=AFTER)], rails, [Truing("A", 3.0, -3.0, AT)])
    assert again.answer is not None
    assert [fit.counts for fit in again.answer.checks] == [False, True]
    assert again.answer.worst < 0.2


def test_without_a_time_a_reading_came_before_the_rail_was_bedded_anew() -> None:
    found = trued([along("A", 6.0, 6.0)], side_by_side(1), [Truing("A", 3.0, -3.0, AT)]).answer
    assert found is not None
    assert not found.checks[0].counts


def test_what_was_read_before_still_tells_where_a_rail_was_moved_from() -> None:
    """Two ways of saying one thing: numpy over both lies of the rail, joined by what it was raised, ± 1 mm."""
    rail = straight_rail("A", (0.0, 0.0), (1800.0, 0.0))
    told = trued([along("A", 6.0, 6.0, taken_at=BEFORE)], [rail], [Truing("A", 2.0, -2.0, AT)]).answer
    untold = trued([along("A", 6.0, 6.0, taken_at=BEFORE)], [rail], [Truing("A", 0.0, 0.0, AT)]).answer
    assert told is not None
    assert untold is not None
    rows = [np.array([-1.0, 1.0, 0.0, 0.0]) / READING] * 2
    rows += [np.eye(4)[n] / SET for n in (0, 1)]
    rows += [np.array([-1.0, 0.0, 1.0, 0.0]), np.array([0.0, -1.0, 0.0, 1.0])]
    values = [6.0 / READING] * 2 + [0.0, 0.0, 2.0, -2.0]
    ends, *_ = np.linalg.lstsq(np.array(rows), np.array(values), rcond=None)
    assert (told.rails[0].from_off, told.rails[0].to_off) == pytest.approx((ends[2], ends[3]), abs=CLOSE)
    assert (untold.rails[0].from_off, untold.rails[0].to_off) == (0.0, 0.0)
    assert told.rails[0].sigma < untold.rails[0].sigma


def test_of_a_rail_bedded_anew_twice_the_oldest_readings_tell_of_the_level_alone() -> None:
    rails = side_by_side(1)
    oldest = along("A", 11.0, 1.0, id="oldest", taken_at=BEFORE)
    middle = along("A", 2.0, id="middle", taken_at="2026-05-04T09:30:00-05:00")
    truings = [Truing("A", 1.0, -1.0, AT), Truing("A", 0.5, -0.5, AFTER)]
    found = trued([oldest, middle], rails, truings)
    assert found.answer is not None
    assert [fit.counts for fit in found.answer.checks] == [False, False]
    assert found.level_error == pytest.approx(5.0 / 1.8, rel=0.1)


def test_truings_of_rails_that_are_not_there_change_nothing() -> None:
    rails = side_by_side(2)
    checks = everything(rails, {"B": (2.0, 3.0)})
    assert figures_of(trued(checks, rails, [Truing("Z", 5.0, 5.0, AT)])) == figures_of(trued(checks, rails))


def test_nothing_read_gives_no_answer() -> None:
    assert trued([], side_by_side()) == Trued(None, (), None)
    assert trued([along("A", 1.0)], []) == Trued(None, (), None)


def test_every_raise_is_told_in_sixteenths_thirty_seconds_and_millimetres_to_their_halves() -> None:
    rails = side_by_side(4)
    heights = {"A": (3.1, -2.2), "B": (7.7, 0.9), "C": (-5.4, 4.6), "D": (1.0, -8.0)}
    found = trued(everything(rails, heights), rails)
    assert found.corrections
    for one in found.corrections:
        assert abs(one.raise_by - one.sixteenths * SIXTEENTH) <= SIXTEENTH / 2 + CLOSE
        assert abs(one.raise_by - one.thirty_seconds * SIXTEENTH / 2) <= SIXTEENTH / 4 + CLOSE
        assert abs(one.raise_by - one.millimetres) <= 0.5 + CLOSE
        assert one.thirty_seconds != 0
