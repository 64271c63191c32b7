"""The plane of least mortar in rooms that can be reckoned by hand, and what holds in every room."""

import copy
import math
import random
from typing import Any

import pytest
import shapely
from tests.documents import SQUARE, Json, plan_of, room_over, turned
from tests.engine.least_cases import COVERED, best_of, least_room, top_of

from evenbed.engine.top import linear_programme
from evenbed.engine.top.designed import DesignedTop
from evenbed.engine.top.requirements import Requirement

MINIMUM = 31.75
AREA = 12.0  # m² of the 4 by 3 m room
DOORS = [
    {"id": "west", "wall": 3, "from": 1000.0, "to": 1800.0, "adjoining_height": 60.0},
    {"id": "east", "wall": 1, "from": 1000.0, "to": 1800.0, "adjoining_height": 48.0},
]


def flat_room(bump: tuple[float, float, float] | None = None, holds: Any = (), **top: Any) -> Json:
    """A flat room of 4 by 3 m at height 0, perhaps with one bump."""
    spots = [(x, y, 0.0) for x, y in SQUARE]
    bed = {"maximum_thickness": 80.0, "top": {"kind": "least_mortar", "holds": list(holds), **top}}
    return room_over(SQUARE, [*spots, *([bump] if bump else [])], openings=copy.deepcopy(DOORS), bed=bed)


def plane_in(room: Json) -> Any:
    (cell,) = best_of(room).top.cells
    return cell.plane


def mortar_in(room: Json) -> float:
    """Mortar over a room of the 4 by 3 m kind, less what its subfloor takes; m³."""
    return AREA * float(plane_in(room).at(2000.0, 1500.0)) / 1e3


def price(top: DesignedTop, kind: str) -> float:
    return math.fsum(r.saves for r in top.requirements if r.kind == kind)


def test_over_a_flat_floor_the_bed_is_as_thin_as_allowed_everywhere() -> None:
    top = best_of(flat_room())
    assert (top.top.cells[0].plane.a, top.top.steepest) == pytest.approx((MINIMUM, 0.0), abs=1e-9)
    assert {r.kind for r in top.requirements} == {"minimum_thickness"}
    assert price(top, "minimum_thickness") == pytest.approx(AREA / 1e3)
    assert top.explanation is not None
    assert top.explanation.code == "least_mortar"
    assert top.explanation.inputs == {"saves_minimum_thickness": pytest.approx(AREA / 1e3)}


def test_over_a_bump_in_the_middle_every_lean_takes_as_much_and_the_level_one_is_chosen() -> None:
    top = best_of(flat_room((2000.0, 1500.0, 8.0)))
    assert (top.top.cells[0].plane.a, top.top.steepest) == pytest.approx((MINIMUM + 8.0, 0.0), abs=1e-9)
    (bump,) = top.requirements
    assert (bump.kind, bump.at) == ("minimum_thickness", (2000.0, 1500.0))
    assert bump.saves == pytest.approx(AREA / 1e3)
    assert top.explanation is not None
    assert top.explanation.code == "least_mortar_tied"


def test_over_a_bump_to_one_side_the_bed_leans_over_it_from_the_far_wall() -> None:
    room = flat_room((3000.0, 1500.0, 6.0))
    plane = plane_in(room)
    assert (plane.a, plane.b, plane.c) == pytest.approx((MINIMUM, 6.0 / 3000.0, 0.0), abs=1e-9)
    level = AREA * (MINIMUM + 6.0) / 1e3
    assert level - mortar_in(room) == pytest.approx(AREA * 2.0 / 1e3)
    dearest = best_of(room).requirements[0]
    assert dearest.at == (3000.0, 1500.0)
    assert dearest.saves == pytest.approx(AREA / 1e3 * 2.0 / 3.0)


def test_between_two_doorways_the_best_plane_saves_half_their_difference_over_a_level_top() -> None:
    room = flat_room(holds=[{"opening": "west"}, {"opening": "east"}])
    plane = plane_in(room)
    assert plane.at(0.0, 1400.0) + COVERED == pytest.approx(60.0)
    assert plane.at(4000.0, 1000.0) + COVERED == pytest.approx(48.0)
    assert AREA * (60.0 - COVERED) / 1e3 - mortar_in(room) == pytest.approx(AREA * 6.0 / 1e3)


def test_one_doorway_held_up_lifts_its_side_alone_and_says_what_that_costs() -> None:
    room = flat_room(holds=[{"opening": "west", "low": 60.0}])
    plane = plane_in(room)
    assert plane.at(0.0, 1000.0) + COVERED == pytest.approx(60.0)
    assert plane.at(4000.0, 0.0) == pytest.approx(MINIMUM)
    held = next(r for r in best_of(room).requirements if r.kind == "held_low")
    assert (held.path, held.id, held.limit) == ("bed.top.holds[0]", "west", 60.0)
    assert held.at in ((0.0, 1200.0), (0.0, 2000.0))


def test_a_largest_fall_of_nothing_makes_it_level() -> None:
    room = flat_room((3000.0, 1500.0, 6.0), largest_fall=0.0)
    assert plane_in(room).at(0.0, 0.0) == pytest.approx(MINIMUM + 6.0)
    assert best_of(room).top.steepest < 1e-15


def test_a_fixture_is_met_at_its_top_and_a_linear_drain_at_both_ends() -> None:
    drain: Json = {"id": "drain", "kind": "drain", "at": [1000.0, 500.0], "to": [3000.0, 500.0], "height": 52.0}
    room = {**flat_room(holds=[{"fixture": "drain"}, {"at": [2000, 2500], "low": 56.0}]), "fixtures": [drain]}
    plane = plane_in(room)
    for at in (drain["at"], drain["to"]):
        assert plane.at(*at) + COVERED == pytest.approx(52.0)
    assert plane.c == pytest.approx(4.0 / 2000.0)


def feasible(seeds: range) -> list[int]:
    return [seed for seed in seeds if isinstance(top_of(least_room(seed)), DesignedTop)]


SEEDS = feasible(range(1000, 1030))


def relieved(room: Json, requirement: Requirement, by: float) -> Json:
    """The room with one requirement a little easier: by mm, or by as many 1/1000 of the fall."""
    eased = copy.deepcopy(room)
    bed = eased["bed"]
    if requirement.kind == "minimum_thickness":
        bed["minimum_thickness"] = MINIMUM - by
    elif requirement.kind == "maximum_thickness":
        bed["maximum_thickness"] += by
    elif requirement.kind == "largest_fall":
        bed["top"]["largest_fall"] += by / 1000.0
    else:
        hold = bed["top"]["holds"][int(requirement.path[-2])]
        door = next((d for d in eased["openings"] if d["id"] == hold.get("opening")), None)
        if door is not None and "low" not in hold:
            hold["low"] = hold["high"] = door["adjoining_height"]
        side = requirement.kind.removeprefix("held_")
        hold[side] += -by if side == "low" else by
    return eased


@pytest.mark.parametrize("fall", [None, 0.003])
def test_a_little_relief_saves_its_price_and_never_more(fall: float | None) -> None:
    exact, by = 0, 1e-3
    for seed in SEEDS:
        room = least_room(seed)
        room["bed"]["top"]["largest_fall"] = fall
        before = top_of(room)
        if not isinstance(before, DesignedTop):
            continue
        for requirement in before.requirements:
            after = best_of(relieved(room, requirement, by))
            promised = price(before, requirement.kind) if "thickness" in requirement.kind else requirement.saves
            saved = mortar_between(before, after, room) / by
            assert saved <= promised + 1e-8
            exact += saved == pytest.approx(promised, rel=2e-3, abs=1e-8)
    assert exact > 2.5 * len(SEEDS) * (0.4 if fall else 1.0)


def mortar_between(one: DesignedTop, other: DesignedTop, room: Json) -> float:
    """m³ that the other top takes less, over shapely's centroid."""
    shape = shapely.Polygon(room["outline"]["vertices"])
    at = shape.centroid.x, shape.centroid.y
    return float(shape.area) / 1e9 * (one.top.at(*at) - other.top.at(*at))


@pytest.mark.parametrize("seed", SEEDS[:6])
def test_the_plan_finds_no_place_too_thin_or_too_thick_and_meets_its_doorways(seed: int) -> None:
    room = least_room(seed)
    plan = plan_of(room)
    bed = plan["bed"]
    assert bed["violations"] == []
    assert bed["thickness"]["min"] > MINIMUM - 1e-9
    assert bed["thickness"]["max"] < room["bed"]["maximum_thickness"] + 1e-9
    assert len(bed["requirements"]) >= 1
    assert plan["explanations"]["bed.top[0]"]["code"].startswith("least_mortar")
    met = [hold["opening"] for hold in room["bed"]["top"]["holds"] if "opening" in hold and "low" not in hold]
    for door in bed["doorways"]:
        assert door["id"] not in met or door["step"] == pytest.approx(0.0, abs=1e-8)


@pytest.mark.parametrize("seed", SEEDS[:8])
def test_a_plane_laid_under_everything_comes_out_on_top(seed: int) -> None:
    room, lean = least_room(seed), (12.0, 0.004, -0.007)

    def lifted(x: float, y: float) -> float:
        return lean[0] + lean[1] * x + lean[2] * y

    moved = copy.deepcopy(room)
    for reading in moved["readings"]:
        if "at" in reading:
            reading["down"] -= lifted(*reading["at"])
    moved["bed"]["top"]["holds"] = [h for h in moved["bed"]["top"]["holds"] if "at" in h]
    room["bed"]["top"]["holds"] = copy.deepcopy(moved["bed"]["top"]["holds"])
    for hold in moved["bed"]["top"]["holds"]:
        for side in {"low", "high"} & hold.keys():
            hold[side] += lifted(*hold["at"])
    before, after = plane_in(room), plane_in(moved)
    assert after.b - before.b == pytest.approx(lean[1], abs=1e-10)
    assert after.c - before.c == pytest.approx(lean[2], abs=1e-10)
    assert after.at(0.0, 0.0) - before.at(0.0, 0.0) == pytest.approx(lean[0], abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS[:8])
def test_a_room_turned_and_moved_keeps_its_bed(seed: int) -> None:
    room, angle, by = least_room(seed), 0.7, (5000.0, -800.0)
    moved = copy.deepcopy(room)
    moved["outline"]["vertices"] = [turned(corner, angle, by) for corner in room["outline"]["vertices"]]
    for thing in (*moved["readings"], *moved["bed"]["top"]["holds"]):
        if "at" in thing:
            thing["at"] = turned(thing["at"], angle, by)
    before, after = best_of(room), best_of(moved)
    for reading in room["readings"][:-1]:
        here, there = reading["at"], turned(reading["at"], angle, by)
        assert after.top.at(*there) == pytest.approx(before.top.at(*here), abs=1e-7)
    for kind in ("minimum_thickness", "maximum_thickness", "held_low", "held_high"):
        assert price(after, kind) == pytest.approx(price(before, kind), abs=1e-10)


@pytest.mark.parametrize("angle", [0.0, 0.7, 2.5])
def test_of_planes_that_take_as_much_the_one_that_falls_least_is_chosen_however_the_room_lies(angle: float) -> None:
    held = [3000.0, 1500.0]
    spots = [(*turned((x, y), angle), z) for x, y, z in [*((x, y, 0.0) for x, y in SQUARE), (2000.0, 1500.0, 8.0)]]
    hold = {"at": turned(held, angle), "low": 43.0 + COVERED}
    bed = {"top": {"kind": "least_mortar", "holds": [hold]}}
    top = best_of(room_over([turned(corner, angle) for corner in SQUARE], spots, bed=bed))
    assert top.top.at(*turned((2000.0, 1500.0), angle)) == pytest.approx(MINIMUM + 8.0)
    assert top.top.at(*turned(held, angle)) == pytest.approx(43.0)
    assert top.top.steepest == pytest.approx((43.0 - MINIMUM - 8.0) / 1000.0)


@pytest.mark.parametrize("seed", [*SEEDS[:8], None])
def test_the_order_of_the_readings_changes_nothing(seed: int | None) -> None:
    room = flat_room((2000.0, 1500.0, 8.0)) if seed is None else least_room(seed)
    other = copy.deepcopy(room)
    random.Random(4).shuffle(other["readings"])
    before, after = best_of(room), best_of(other)
    assert after.top.cells[0].plane.a == pytest.approx(before.top.cells[0].plane.a, abs=1e-9)
    assert [r.at for r in after.requirements] == [r.at for r in before.requirements]
    assert [r.saves for r in after.requirements] == pytest.approx([r.saves for r in before.requirements])


def test_where_rounding_would_never_end_no_plane_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(linear_programme, "MOST_STEPS", 2)
    found = top_of(flat_room((3000.0, 1500.0, 6.0)))
    assert not isinstance(found, DesignedTop)
    assert [(problem.path, problem.code) for problem in found] == [("bed.top", "top_not_found")]
