"""The flatness of the finished bed as a plan tells it."""

import math
import random
from typing import Any

import pytest
from tests.checked_bed import HIGH, checked_room, over_grid, rectangle
from tests.documents import Json, Spot, answer_to, plan_of

ROOM = rectangle(4000.0, 3000.0)
FOOT = 304.8
HOUR = "2026-05-04T{:02}:00:00-05:00"


def flat(x: float, y: float) -> float:
    return 0.0 * x * y


def flatness_of(room: Json) -> Json:
    found: Json = plan_of(room, "plan")["flatness"]
    assert found is not None
    return found


def checked(built: list[Spot], **more: Any) -> Json:
    return flatness_of(checked_room(ROOM, built, **more))


def codes_of(room: Json) -> set[str]:
    return {caution["code"] for caution in plan_of(room, "plan")["cautions"]}


def test_a_bed_of_which_nothing_was_measured_has_no_flatness() -> None:
    assert plan_of(checked_room(ROOM, []), "plan")["flatness"] is None


def test_a_quick_plan_leaves_flatness_out() -> None:
    room = checked_room(ROOM, over_grid(4000, 3000, 500, flat))
    assert plan_of(room)["flatness"] is None
    assert not [path for path in plan_of(room)["explanations"] if path.startswith("flatness")]


def test_readings_of_the_bed_change_nothing_of_the_floor() -> None:
    without, with_bed = (plan_of(checked_room(ROOM, spots)) for spots in ([], over_grid(4000, 3000, 500, flat)))
    for part in ("surface", "bed", "rails", "materials", "notices"):
        assert with_bed[part] == without[part]


def test_a_dip_is_told_with_its_place_and_its_rule() -> None:
    """By hand: a dip of 8 mm in a 1 m grid opens 8 mm under 10 ft, from reading to reading 2 m apart."""
    built = over_grid(4000, 3000, 1000, lambda x, y: -8.0 if (x, y) == (2000.0, 1000.0) else 0.0)
    found = checked(built)
    long, short = found["checks"]
    assert (long["length"], long["limit"], long["code"]) == (10 * FOOT, 6.35, "ansi_small_long")
    assert (short["length"], short["limit"]) == (FOOT, 1.5875)
    assert long["verdict"] == found["verdict"] == "beyond"
    assert long["gap"]["gap"] == pytest.approx(8.0, abs=1e-6)
    assert long["gap"]["at"] == pytest.approx([2000.0, 1000.0])
    assert math.dist(long["gap"]["from"], long["gap"]["to"]) == pytest.approx(10 * FOOT, abs=1e-6)
    assert 0.0 < long["beyond_share"] < 0.5


def test_large_tiles_have_the_narrower_rule() -> None:
    found = checked(over_grid(4000, 3000, 1000, flat), bed={"covering": {"longest_edge": 600.0}})
    assert [check["code"] for check in found["checks"]] == ["ansi_large_long", "ansi_large_short"]


def test_a_flat_bed_read_far_apart_is_too_sparse_for_a_short_straightedge_alone() -> None:
    found = checked(over_grid(4000, 3000, 1000, flat))
    assert [check["verdict"] for check in found["checks"]] == ["within", "too_sparse"]
    assert found["verdict"] == "too_sparse"
    assert found["spacing"] == pytest.approx(math.hypot(500, 500), abs=1.0)
    assert "flatness_sparse" in codes_of(checked_room(ROOM, over_grid(4000, 3000, 1000, flat)))


def test_read_places_stand_first_among_the_points_and_are_told_apart_from_the_middles_of_squares() -> None:
    built = over_grid(4000, 3000, 1000, flat)
    found = checked(built)
    read = [(x, y) for x, y, _ in found["points"][: found["spots"]]]
    assert sorted(read) == sorted((spot[0], spot[1]) for spot in built)
    assert len(found["points"]) == found["spots"] + 4 * 3  # a middle in each of the squares


def test_a_bed_read_closely_is_within_its_limits() -> None:
    room = checked_room(rectangle(1200.0, 900.0), over_grid(1200, 900, 100, flat))
    assert flatness_of(room)["verdict"] == "within"
    assert not {"flatness_sparse", "flatness_rubbing"} & codes_of(room)


def test_wedges_laid_all_over_judge_a_short_straightedge() -> None:
    gaps = [
        {"id": f"g{i}-{j}", "from": [100 * i, 300 * j], "to": [100 * i, 300 * j + FOOT], "gap": 0.5}
        for i in range(13)
        for j in range(3)
    ]
    room = checked_room(rectangle(1200.0, 900.0 + FOOT - 300), over_grid(1200, 900, 600, flat), gaps=gaps)
    found = flatness_of(room)
    assert found["checks"][1]["judged_share"] == 1.0
    assert found["verdict"] == "within"


@pytest.mark.parametrize(("gap", "verdict"), [(1.2, "within"), (1.7, "beyond")])
def test_a_short_straightedge_passed_over_the_whole_bed_judges_it_by_the_worst_it_showed(
    gap: float, verdict: str
) -> None:
    worst = {"id": "worst", "from": [500, 500], "to": [500 + FOOT, 500], "gap": gap, "passed_over": True}
    here = worst | {"passed_over": False}
    built = over_grid(4000, 3000, 1000, flat)
    found = checked(built, gaps=[worst])
    assert [check["judged_share"] for check in found["checks"]] == [1.0, 1.0]
    assert found["verdict"] == verdict
    assert checked(built, gaps=[here])["checks"][1]["judged_share"] < 0.2


def test_a_wedge_alone_shows_a_bed_beyond_its_limit() -> None:
    gaps = [
        {"id": "long", "from": [100, 100], "to": [100 + 10 * FOOT, 100], "gap": 6.4},
        {"id": "short", "from": [100, 500], "to": [100 + 200.0, 500], "gap": 1.5},
        {"id": "longest", "from": [0, 0], "to": [4000, 3000], "gap": 9.0},
    ]
    found = checked([], gaps=gaps)
    assert [(gap["gap"], gap["verdict"]) for gap in found["gaps"]] == [
        ("long", "beyond"),
        ("short", "within"),
        ("longest", "no_limit"),
    ]
    assert (found["verdict"], found["readings"], found["level"], found["spacing"]) == ("beyond", 0, None, None)
    assert all(check["gap"] is None for check in found["checks"])


def test_nothing_but_a_line_of_heights_leaves_the_straightedge_unread() -> None:
    found = checked([], height_lines=[{"id": "h", "heights": [0.1 * (n % 3) for n in range(14)]}])
    assert found["verdict"] == "not_read"
    assert {check["verdict"] for check in found["checks"]} == {"not_read"}
    assert (found["f_numbers"]["lines"], found["f_numbers"]["heights"], found["f_needs"]) == (1, 14, None)


def test_f_numbers_decide_by_aci_117_and_its_straightedge_is_a_note() -> None:
    line = {"id": "h", "heights": [4.0 * (n % 2) for n in range(14)]}
    found = checked(over_grid(4000, 3000, 1000, flat), height_lines=[line], flatness={"standard": "aci_117_25_20"})
    assert (found["needs_ff"], found["needs_fl"], found["verdict"]) == (25.0, 20.0, "beyond")
    assert [(check["code"], check["verdict"]) for check in found["checks"]] == [("aci_117_note", "within")]


def test_readings_a_foot_apart_in_line_give_f_numbers() -> None:
    dice = random.Random(1)
    built = [(100.0 + FOOT * n, 500.0, dice.gauss(0, 0.5)) for n in range(12)]
    found = checked([*built, (100.0, 2500.0, 0.0), (3500.0, 2500.0, 0.0)])
    assert [line["heights"] for line in found["f_lines"]] == [12]


def again(z: float, hour: int | None, n: str = "again") -> Json:
    taken = {} if hour is None else {"taken_at": HOUR.format(hour)}
    return {"id": n, "at": [2000.0, 1500.0], "down": -HIGH - z, "stage": "bed"} | taken


def test_of_several_readings_at_one_place_the_last_taken_holds() -> None:
    built = over_grid(4000, 3000, 500, flat)
    rest = [spot for spot in built if spot[:2] != (2000.0, 1500.0)]
    found = checked(rest, more_readings=[again(-9.0, 8, "before"), again(1.0, 10, "after"), again(5.0, None, "some")])
    assert found["readings"] == len(built)
    assert found["level"]["highest"] == pytest.approx(1.0)
    assert found["level"]["lowest"] == pytest.approx(0.0)


def test_of_readings_at_one_place_and_time_the_mean_holds() -> None:
    rest = [spot for spot in over_grid(4000, 3000, 500, flat) if spot[:2] != (2000.0, 1500.0)]
    found = checked(rest, more_readings=[again(1.0, None, "one"), again(3.0, None, "other")])
    assert found["level"]["highest"] == pytest.approx(2.0)


def test_set_ups_tied_by_a_mark_read_one_bed() -> None:
    """Half of the bed is read from a second line, 300 mm higher."""
    room = checked_room(ROOM, over_grid(4000, 3000, 500, flat))
    room["setups"] = [{"id": "s"}, {"id": "t"}]
    for n, reading in enumerate(room["readings"]):
        is_second = reading.get("stage") == "bed" and n % 2 == 1
        reading.update({"setup": "t", "down": reading["down"] + 300.0} if is_second else {"setup": "s"})
    room["readings"].append({"id": "tie", "setup": "t", "mark": "benchmark", "down": 300.0})
    level = flatness_of(room)["level"]
    assert (level["mean"], level["rms"]) == pytest.approx((0.0, 0.0), abs=1e-9)


def test_level_and_fall_are_held_against_the_design() -> None:
    """By hand: a bed 2 mm high all over, leaning 1 in 500 towards −x."""
    found = checked(over_grid(4000, 3000, 500, lambda x, _y: 2.0 + (x - 2000.0) / 500.0))["level"]
    assert (found["mean"], found["highest"], found["lowest"]) == pytest.approx((2.0, 6.0, -2.0))
    (fall,) = found["falls"]
    assert (fall["designed"], fall["readings"], fall["direction"]) == (0.0, 63, pytest.approx(180.0))
    assert fall["fall"] == pytest.approx(1 / 500)
    assert found["standing_water"] == []


DRAIN = {"id": "d", "kind": "drain", "at": [2000.0, 1500.0], "radius": 50.0}


def shower(built: list[Spot], fall: float = 1 / 48) -> Json:
    top = {"kind": "to_drain", "drain": "d", "fall": fall, "perimeter": HIGH + 60.0}
    room = checked_room(ROOM, [], fixtures=[DRAIN], bed={"top": top})
    top_at = [(facet, facet["polygon"]) for facet in plan_of(room)["bed"]["top"]]
    for n, (x, y, z) in enumerate(built):
        facet = max(top_at, key=lambda one: _depth(one[1], (x, y)))[0]
        height = facet["a"] + facet["b"] * x + facet["c"] * y + z
        room["readings"].append({"id": f"b{n}", "at": [x, y], "down": -height, "stage": "bed"})
    return room


def _depth(ring: list[list[float]], at: tuple[float, float]) -> float:
    edges = zip(ring, ring[1:] + ring[:1], strict=True)
    return min(((q[0] - p[0]) * (at[1] - p[1]) - (q[1] - p[1]) * (at[0] - p[0])) / math.dist(p, q) for p, q in edges)


def test_a_bed_that_falls_as_designed_is_flat_and_holds_no_water() -> None:
    found = flatness_of(shower(over_grid(4000, 3000, 500, flat)))
    assert max(check["gap"]["gap"] if check["gap"] else 0.0 for check in found["checks"]) == pytest.approx(
        0, abs=1e-6
    )
    assert found["level"]["standing_water"] == []
    assert (found["needs_fl"], found["f_lines"]) == (None, [])
    for fall in found["level"]["falls"]:
        assert fall["fall"] is None or fall["fall"] == pytest.approx(fall["designed"], abs=1e-6)


def test_water_stands_in_a_hollow_of_a_falling_bed() -> None:
    room = shower(over_grid(4000, 3000, 500, lambda x, y: -60.0 if (x, y) == (1000.0, 500.0) else 0.0))
    assert flatness_of(room)["level"]["standing_water"] == [[1000.0, 500.0]]
    assert "flatness_water" in codes_of(room)


def test_a_built_fall_less_than_a_quarter_inch_in_a_foot_is_told() -> None:
    flattened = over_grid(4000, 3000, 500, lambda x, y: 0.02 * (math.dist((x, y), (2000, 1500)) - 2500) * -1.0)
    assert "flatness_fall_short" in codes_of(shower(flattened))


@pytest.mark.parametrize("count", [1, 2, 3])
def test_too_few_readings_are_too_sparse_and_said_to_be(count: int) -> None:
    built = [(500.0 * n + 500.0, 500.0, 0.0) for n in range(count)]
    room = checked_room(ROOM, built)
    found = flatness_of(room)
    assert (found["verdict"], found["readings"], found["triangles"]) == ("too_sparse", count, [])
    assert (found["level"] is None) == (count < 3)
    assert "flatness_one_line" in codes_of(room)


def test_a_verdict_nearer_to_the_limit_than_readings_tell_is_not_sure() -> None:
    dip = [(x, y, -6.0 if (x, y) == (2000.0, 1000.0) else 0.0) for x, y, _ in over_grid(4000, 3000, 1000, flat)]
    fine = [{"id": "s", "sigma": 0.05}]
    coarse, known = checked(dip)["checks"][0], checked(dip, setups=fine)["checks"][0]
    assert (coarse["verdict"], coarse["sure"], known["verdict"], known["sure"]) == ("within", False, "within", True)
    assert known["gap"]["sigma"] == pytest.approx(0.05 * math.sqrt(1.5)), "by hand: half and half of two, less one"


def test_figures_explain_themselves() -> None:
    plan = plan_of(checked_room(ROOM, over_grid(4000, 3000, 500, lambda x, y: (x + y) % 700 / 100)), "plan")
    told = {path for path in plan["explanations"] if path.startswith("flatness")}
    assert {"flatness.checks[0].gap", "flatness.checks[0].limit", "flatness.level"} <= told


def test_a_straightedge_laid_by_hand_touches_and_stands_open() -> None:
    """By hand: over a dip of 8 mm between readings 1 m apart."""
    built = over_grid(4000, 3000, 1000, lambda x, y: -8.0 if (x, y) == (2000.0, 1000.0) else 0.0)
    asked = {"document": checked_room(ROOM, built), "from": [1000.0, 1000.0], "to": [3000.0, 1000.0]}
    answer = answer_to(asked, "straightedge")
    assert answer["gap"]["gap"] == pytest.approx(8.0)
    assert (answer["hump"], answer["length"], answer["limit"]) == (None, 2000.0, 6.35)
    assert answer["edge"] == [[0.0, pytest.approx(0.0)], [2000.0, pytest.approx(0.0)]]


def test_a_straightedge_that_runs_through_a_wall_is_judged_on_its_longest_piece_by_that_piece_s_limit() -> None:
    """By hand: two legs with a notch between; a dip of 3 mm in the first, the other 40 mm higher."""
    legs = [[0, 0], [3000, 0], [3000, 2000], [1600, 2000], [1600, 500], [1400, 500], [1400, 2000], [0, 2000]]
    places = [(float(x), float(y)) for x in (0, 700, 1400, 1600, 2300, 3000) for y in (0, 500, 1000, 1500, 2000)]
    built = [(x, y, 40.0 * (x > 1500) - 3.0 * ((x, y) == (700.0, 1500.0))) for x, y in places]
    asked = {"document": checked_room(legs, built), "from": [-100.0, 1500.0], "to": [2000.0, 1500.0]}
    answer = answer_to(asked, "straightedge")
    assert (answer["length"], answer["gap"]["gap"]) == (pytest.approx(1400.0), pytest.approx(3.0))
    assert max(answer["profile"][n][1] for n in range(len(answer["profile"]))) == pytest.approx(0.0, abs=1e-6)
    assert all(0.0 <= at[0] <= 1400.0 for at in (answer["gap"]["from"], answer["gap"]["to"]))
    assert [caution["code"] for caution in answer["cautions"]][:2] == ["flatness_computed", "straightedge_parted"]
    narrow = answer_to(asked | {"to": [1650.0, 1500.0], "from": [1200.0, 1500.0]}, "straightedge")
    assert (narrow["length"], narrow["limit"]) == (pytest.approx(200.0), 1.5875)


def test_a_straightedge_beside_what_was_read_lies_on_nothing() -> None:
    built = [(x, y, 0.0) for x, y, _ in over_grid(1000, 1000, 500, flat)]
    asked = {"document": checked_room(ROOM, built), "from": [2000.0, 2000.0], "to": [3000.0, 2000.0]}
    answer = answer_to(asked, "straightedge")
    assert (answer["profile"], answer["gap"], answer["length"]) == ([], None, 0.0)
    assert [caution["code"] for caution in answer["cautions"]] == ["straightedge_unread"]


def test_a_straightedge_without_a_length_is_refused() -> None:
    asked = {"document": checked_room(ROOM, []), "from": [1000.0, 1000.0], "to": [1000.0, 1000.0]}
    assert [p["code"] for p in answer_to(asked, "straightedge")["problems"]] == ["profile_no_length"]
