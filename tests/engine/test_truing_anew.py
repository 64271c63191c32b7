"""Rails bedded anew: what readings before and after tell."""

import numpy as np
import pytest
from tests.bedded import straight_rail
from tests.read_rails import along, everything, figures_of, side_by_side, trued

from evenbed.engine.document.rails import Truing

CLOSE = 1e-9  # mm: two ways to solve the same equations
READING, SET, BEDDED = 0.5, 3.0, 1.0  # mm, the standard errors believed in
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
    rows += [np.array(row) / BEDDED for row in ([-1.0, 0.0, 1.0, 0.0], [0.0, -1.0, 0.0, 1.0])]
    values = [6.0 / READING] * 2 + [0.0, 0.0, 2.0 / BEDDED, -2.0 / BEDDED]
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
