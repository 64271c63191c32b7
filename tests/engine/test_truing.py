"""Rails trued: cases by hand."""

import pytest
from tests.bedded import SIXTEENTH, straight_rail
from tests.read_rails import across, along, everything, side_by_side, trued

from evenbed.engine.document.rails import Check
from evenbed.engine.truing.trued import Trued

CLOSE = 1e-9  # mm: arithmetic by hand


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
