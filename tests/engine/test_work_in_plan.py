"""The work list in the plan: what was worked over, where to read next, and whether the bed is still green."""

from datetime import datetime, timedelta

import pytest
import shapely
from tests.worked_over_bed import (
    CORNERS,
    DEEP,
    HUMP,
    LATER,
    NEXT_DAY,
    PLACED,
    PLACEMENT,
    PLACES,
    READ,
    RUBBED,
    WIDE,
    cautions,
    document,
    flatness,
    reading,
    worked,
)

from evenbed.engine.flatness.account import flatness_cautions_of
from evenbed.engine.flatness.work_account import work_cautions_of
from evenbed.engine.plan import plan_from


def test_a_hump_is_to_be_rubbed_down_where_it_is() -> None:
    (work,) = flatness(document()).work
    assert (work.id, work.way, work.at, work.length) == ("K1", "rub", HUMP, 2000.0)
    assert work.before == pytest.approx(6.0)
    assert work.after < 3.0
    assert shapely.Polygon(work.polygon).contains(shapely.Point(HUMP))
    assert work.done_at is None


def test_within_the_limit_there_is_nothing_to_do() -> None:
    assert flatness(document(hump=2.0)).work == ()
    assert cautions(document(hump=2.0)) == set()


def test_what_was_read_before_its_place_was_worked_over_counts_no_more_and_is_asked_for_again() -> None:
    touched = flatness(document(touches=[RUBBED]))
    stale = f"b{PLACES.index(HUMP)}"
    assert touched.stale == (stale,)
    assert touched.readings == len(PLACES) - 1
    assert touched.next_readings[0] == HUMP
    assert [one.done_at for one in touched.work] == [LATER]


def test_a_bed_is_not_within_its_limits_while_nobody_looked_where_it_was_worked_over() -> None:
    touched = document(touches=[RUBBED])
    found = flatness(touched)
    assert (found.verdict, [check.verdict for check in found.checks]) == ("too_sparse", ["too_sparse"])
    told = {one.code: one for one in flatness_cautions_of(worked(touched).flatness)}
    assert told["flatness_touched"].values == {"count": 1}
    beside = reading(99, (HUMP[0] + 200.0, HUMP[1]), 0.0, NEXT_DAY)
    assert flatness(touched | {"readings": [*touched["readings"], beside]}).verdict == "too_sparse"
    beyond_the_walls = RUBBED | {"at": [WIDE + 400.0, DEEP]}
    assert flatness(document(hump=0.0, touches=[beyond_the_walls])).verdict == "within"


def test_a_straightedge_laid_where_it_was_worked_over_or_passed_over_all_since_is_a_look_at_it() -> None:
    gap = {"id": "g", "from": [500.0, 800.0], "to": [2500.0, 800.0], "gap": 1.0, "taken_at": NEXT_DAY}
    far = gap | {"from": [500.0, 2300.0], "to": [2500.0, 2300.0]}
    passed = far | {"passed_over": True}
    cases = [(gap, "within"), (far, "too_sparse"), (passed, "within"), (passed | {"taken_at": READ}, "too_sparse")]
    for one, verdict in cases:
        assert flatness(document(touches=[RUBBED], gaps=[one])).verdict == verdict


def test_a_place_worked_over_where_nothing_was_ever_read_is_asked_for() -> None:
    between = RUBBED | {"at": [500.0, 1200.0]}
    found = flatness(document(hump=0.0, touches=[between]))
    assert (found.verdict, found.next_readings) == ("too_sparse", ((500.0, 1200.0),))


def test_read_again_it_counts_and_the_work_is_gone() -> None:
    given = document(touches=[RUBBED])
    given["readings"].append(reading(99, HUMP, 1.0, NEXT_DAY))
    again = flatness(given)
    assert again.readings == len(PLACES)
    assert (again.work, again.verdict) == ((), "within")
    assert HUMP not in again.next_readings


def test_read_again_and_still_too_high_there_is_more_to_do_there() -> None:
    given = document(touches=[RUBBED])
    given["readings"].append(reading(99, HUMP, 4.5, NEXT_DAY))
    (work,) = flatness(given).work
    assert work.at == HUMP
    assert work.depth < 3.0


def test_only_readings_near_what_was_touched_before_or_without_a_time_are_stale() -> None:
    far = {"at": [850.0, 850.0 + 301.0], "way": "fill", "done_at": LATER}
    assert flatness(document(touches=[far])).stale == ()
    early = RUBBED | {"done_at": PLACED}
    assert flatness(document(touches=[early])).stale == ()
    given = document(touches=[early])
    for one in given["readings"]:
        one.pop("taken_at", None)
    assert flatness(given).stale == (f"b{PLACES.index(HUMP)}",)


def test_a_gap_counts_until_the_bed_under_its_straightedge_is_worked_over() -> None:
    gap = {"id": "g", "from": [200.0, 1550.0], "to": [2200.0, 1550.0], "gap": 5.0, "taken_at": READ}
    wide = document(hump=0.0, gaps=[gap])
    assert flatness(wide).verdict == "beyond"
    filled = {"at": [1200.0, 1600.0], "way": "fill", "done_at": LATER}
    done = flatness(wide | {"touches": [filled]})
    assert done.gaps == ()
    assert "g" in done.stale
    assert flatness(wide | {"touches": [filled | {"done_at": PLACED}]}).verdict == "beyond"
    assert flatness(wide | {"touches": [filled | {"at": [1200.0, 2300.0]}]}).verdict == "beyond"


def test_a_bed_at_its_least_thickness_is_filled_round_the_hump() -> None:
    given = document(bed={"top": {"kind": "level", "height": 40.0}, "minimum_thickness": 46.0})
    found = flatness(given)
    assert found.work
    assert {one.way for one in found.work} == {"fill"}


def test_a_place_asked_for_lies_in_the_room_and_far_from_all_readings() -> None:
    few = document()
    few["readings"] = [one for one in few["readings"] if one.get("stage") != "bed" or one["at"][0] < 1000.0]
    found = flatness(few)
    room = shapely.Polygon(CORNERS)
    read = [shapely.Point(one["at"]) for one in few["readings"] if one.get("stage") == "bed"]
    off = [min(place.distance(shapely.Point(at)) for place in read) for at in found.next_readings]
    assert found.next_readings
    assert all(room.contains(shapely.Point(at)) for at in found.next_readings)
    assert off[0] == pytest.approx(found.spacing, abs=60.0)
    assert min(off) > 2000.0 / 4


def test_a_bed_that_is_judged_all_over_asks_for_nothing() -> None:
    assert flatness(document(hump=0.0)).next_readings == ()


def test_the_bed_is_green_while_it_cannot_be_walked_on_and_hardened_after() -> None:
    assert flatness(document()).is_green is None
    fresh = flatness(document(placements=PLACEMENT))
    assert fresh.is_green is True
    rows = worked(document(placements=PLACEMENT)).readiness.rows
    walk = next(row for row in rows if row.milestone == "walk")
    assert fresh.green_until == walk.early
    later = document(placements=PLACEMENT)
    later["readings"].append(reading(99, (2800.0, 200.0), 0.0, NEXT_DAY))
    assert flatness(later).is_green is False


def test_somebody_who_walked_on_it_says_that_it_is_hard() -> None:
    tick = {"milestone": "walk", "at": READ, "by": "Ana", "how": "foot"}
    assert flatness(document(placements=PLACEMENT, ticks=[tick])).is_green is False


def test_what_must_be_said_goes_by_the_state_of_the_bed() -> None:
    hard = document(placements=PLACEMENT)
    hard["readings"].append(reading(99, (2800.0, 200.0), 0.0, NEXT_DAY))
    assert cautions(document()) == {"work_any"}
    assert cautions(document(placements=PLACEMENT)) == {"work_green_set"}
    assert cautions(hard) == {"work_hardened"}


@pytest.mark.parametrize(("hours", "code"), [(1.9, "work_green_set"), (2.1, "work_green")])
def test_fresh_mortar_is_advised_within_its_working_time_alone(hours: float, code: str) -> None:
    curing = {"assumed": 20.0, "reference": 20.0, "working_time": hours}  # read two hours after it was placed
    given = document(placements=PLACEMENT, curing=curing)
    (found,) = work_cautions_of(worked(given))
    assert found.code == code
    until = datetime.fromisoformat(str(found.values["fill_until"]))
    assert until - datetime.fromisoformat(PLACED) == pytest.approx(timedelta(hours=hours), abs=timedelta(seconds=1))


def test_the_plan_tells_all_of_it_and_explains_the_work() -> None:
    plan = plan_from(document())
    assert plan.flatness == flatness(document())
    assert {one.code for one in plan.cautions if one.where == "flatness.work"} == {"work_any"}
    assert plan.explanations["flatness.work[0]"].code == "work_least"
