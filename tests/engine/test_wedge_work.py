"""What a wedge alone shows is told with the work: where, how much, and no more once it was worked over."""

from typing import Any

import pytest
from tests.worked_over_bed import HUMP, LATER, NEXT_DAY, READ, cautions, document, worked

from evenbed.engine.flatness.wedge_work import WedgeWork, wedge_work_of

GAP = {"id": "g", "from": [200.0, 1550.0], "to": [2200.0, 1550.0], "gap": 5.0, "taken_at": READ}
FILLED = {"at": [1200.0, 1550.0], "way": "fill", "done_at": LATER}


def told(gap: dict[str, Any], hump: float = 0.0, **more: Any) -> list[WedgeWork]:
    """The wedge's work on a bed whose readings show nothing, but for a hump."""
    return list(wedge_work_of(worked(document(hump, gaps=[gap], **more)).flatness))


def test_a_gap_beyond_its_limit_is_to_be_filled_until_it_is_at_four_fifths_of_it() -> None:
    """By hand: 5 mm where 3 mm may stand open; 5 − 4/5 of 3 = 2.6 mm, amid the straightedge."""
    (found,) = told(GAP)
    assert (found.at, found.gap, found.limit, found.length) == ((1200.0, 1550.0), 5.0, 3.0, 2000.0)
    assert found.by == pytest.approx(2.6)
    assert cautions(document(hump=0.0, gaps=[GAP])) == {"work_any", "work_wedge"}


def test_where_it_stood_open_most_is_told_by_who_laid_it() -> None:
    (found,) = told(GAP | {"at": [700.0, 1560.0]})
    assert found.at == (700.0, 1550.0)


def test_nothing_is_to_do_within_the_limit_or_where_no_place_is_known() -> None:
    assert told(GAP | {"gap": 3.0}) == []
    assert told(GAP | {"passed_over": True}) == []
    assert len(told(GAP | {"passed_over": True, "at": [700.0, 1550.0]})) == 1
    assert cautions(document(hump=0.0, gaps=[GAP | {"gap": 3.0}])) == set()


def test_it_is_told_until_the_place_is_worked_over_and_anew_where_it_is_still_open_after() -> None:
    assert told(GAP, touches=[FILLED]) == []
    assert len(told(GAP | {"taken_at": NEXT_DAY}, touches=[FILLED])) == 1


def test_a_place_that_the_readings_show_already_is_told_once() -> None:
    across = GAP | {"from": [HUMP[0], 100.0], "to": [HUMP[0], 2100.0], "at": list(HUMP)}
    assert told(across, hump=6.0) == []
    assert cautions(document(hump=6.0, gaps=[across])) == {"work_any"}
