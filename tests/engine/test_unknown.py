"""What is still unknown of a floor: what must hold for any room, and rooms at the ends of what can be read."""

import copy
import itertools
import json
import math
import random
import time
from functools import cache
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.answers import check_answer
from tests.documents import SQUARE, Json, plan_of, room_over, turned
from tests.rooms import polygon_of, random_room
from tests.share import share_of

from evenbed.engine.bridge import answer_text
from evenbed.engine.next_readings import MOST_NEXT
from evenbed.engine.unknown import FROM_THE_WALL, ROD_FOOT

LEVEL = {"top": {"kind": "level", "height": 60.0}}
MOST_DOUBTS = 150
SEEDS = range(share_of(20))


def whole_plan_of(room: Json) -> Json:
    return plan_of(room, "plan")


def room_of(seed: int) -> Json:
    """A random room without its own rails, on a benchmark, with a drain where there is room for one."""
    room = {k: v for k, v in random_room(seed).items() if k != "rails"}
    readings = [{**r, "down": r["down"] - 1200.0} for r in room["readings"]]
    line = {"id": "on the benchmark", "mark": "benchmark", "down": 0.0}
    return room | {"readings": [*readings, line], "marks": [{"id": "benchmark", "height": 0.0}]}


@cache
def plan_of_seed(seed: int) -> Json:
    """The whole plan of that room, worked out once for all who only look at it."""
    return whole_plan_of(room_of(seed))


@pytest.mark.parametrize("seed", SEEDS)
def test_doubts_stand_in_the_room_and_chances_fall_with_the_amount(seed: int) -> None:
    room = room_of(seed)
    statistics = plan_of_seed(seed)["surface"]["statistics"]
    assert 20 <= len(statistics["doubts"]) <= MOST_DOUBTS
    assert all(d["sigma"] > 0.0 for d in statistics["doubts"])
    places = [shapely.Point(d["at"]) for d in statistics["doubts"]]
    assert all(polygon_of(room).distance(p) < 1e-6 for p in places)
    chances = [h["probability"] for h in statistics["higher"]]
    assert all(0.0 <= later <= earlier <= 1.0 for earlier, later in itertools.pairwise(chances))


@pytest.mark.parametrize("seed", SEEDS)
def test_ranges_hold_the_plans_own_figures(seed: int) -> None:
    plan = plan_of_seed(seed)
    low, high = plan["bed"]["volume_range"]
    assert 0.0 <= low <= plan["bed"]["volume"] <= high
    assert plan["surface"]["statistics"]["volume_range"] == [low, high]
    (cement,) = (m for m in plan["materials"] if m["item"] == "cement")
    fewest, most = plan["mix"]["bags_range"]
    assert fewest <= cement["packages"] <= most
    assert cement["packages_range"] == [fewest, most]
    each = cement["quantity"] / plan["bed"]["volume"]
    assert cement["quantity_range"] == pytest.approx([low * each, high * each])


@pytest.mark.parametrize("seed", SEEDS)
def test_a_quick_plan_is_the_plan_without_the_unknown(seed: int) -> None:
    quick, plan = json.loads(answer_text("quick_plan", json.dumps(room_of(seed)))), plan_of_seed(seed)
    assert quick["surface"]["statistics"] is None
    assert quick["bed"]["volume_range"] is None
    assert quick["mix"]["bags_range"] is None
    assert [n["why"] for n in quick["levels"]["next_readings"]] == [
        n["why"] for n in plan["levels"]["next_readings"] if n["why"] == "estimated_governs"
    ]
    assert stripped(quick) == stripped(plan)


def without_ranges(row: Json) -> Json:
    return {key: value for key, value in row.items() if not key.endswith("_range")}


def stripped(plan: Json) -> Json:
    rest = copy.deepcopy(plan)
    del rest["surface"]["statistics"], rest["bed"]["volume_range"], rest["mix"]["bags_range"]
    del rest["levels"]["next_readings"]
    rest["materials"], quote = [without_ranges(m) for m in rest["materials"]], without_ranges(rest["quote"])
    rest["quote"] = quote | {"lines": [without_ranges(line) for line in quote["lines"]]}
    doubt = ("surface.statistics.", "bed.volume_range", "mix.bags_range", "levels.next_readings")
    rest["explanations"] = {k: v for k, v in rest["explanations"].items() if not k.startswith(doubt)}
    return rest


@pytest.mark.parametrize("seed", SEEDS)
def test_next_readings_stand_where_a_rod_can_and_nothing_is_read_yet(seed: int) -> None:
    room = room_of(seed)
    middle = polygon_of(room).representative_point()
    room["fixtures"] = [{"id": "drain", "kind": "drain", "at": [middle.x, middle.y], "radius": 150.0}]
    plan = whole_plan_of(room)
    proposed = plan["levels"]["next_readings"]
    assert len(proposed) == MOST_NEXT
    read = [h["at"] for h in plan["levels"]["heights"] if h["at"] is not None]
    for entry in proposed:
        assert entry["sigma"] > 0.0
        assert 0.0 <= entry["gain"] <= 1.0
        if entry["why"] != "estimated_governs":
            at = shapely.Point(entry["at"])
            assert polygon_of(room).contains(at)
            assert polygon_of(room).boundary.distance(at) >= FROM_THE_WALL - 1e-6
            assert at.distance(middle) >= 150.0 + ROD_FOOT
            assert min(math.dist(entry["at"], p) for p in read) >= ROD_FOOT
    apart = itertools.combinations([p["at"] for p in proposed], 2)
    assert all(math.dist(a, b) >= ROD_FOOT for a, b in apart)


@pytest.mark.parametrize("seed", range(4))
def test_the_order_of_reading_leaves_no_trace_in_the_unknown(seed: int) -> None:
    room = room_of(seed)
    mixed = copy.deepcopy(room)
    random.Random(seed).shuffle(mixed["readings"])
    assert unknown_of(mixed) == unknown_of(room)


def test_the_order_of_very_many_readings_leaves_no_trace_either() -> None:
    dice = random.Random(5)
    spots = [(dice.uniform(0, 4000), dice.uniform(0, 3000), dice.gauss(0, 3)) for _ in range(700)]
    here, there = (unknown_of(room_over(SQUARE, some)) for some in (spots, spots[::-1]))
    assert here == there


def unknown_of(room: Json) -> tuple[Any, ...]:
    plan = whole_plan_of(room)
    return plan["surface"]["statistics"], plan["levels"]["next_readings"], plan["bed"]["volume_range"]


@given(st.integers(0, 400), st.floats(-100, 100), st.floats(-0.05, 0.05), st.floats(-0.05, 0.05))
@settings(max_examples=share_of(6), deadline=None)
def test_a_plane_added_to_floor_and_top_changes_no_doubt(seed: int, a: float, b: float, c: float) -> None:
    base = room_of(seed)
    lean = copy.deepcopy(base)
    for r in (r for r in lean["readings"] if "at" in r):
        r["down"] -= a + b * r["at"][0] + c * r["at"][1]
    flat, tilt = (
        whole_plan_of(d | {"bed": {"top": plane(*p)}}) for d, p in ((base, (60, 0, 0)), (lean, (60 + a, b, c)))
    )
    assert sigmas(tilt) == pytest.approx(sigmas(flat), rel=1e-5)
    assert tilt["bed"]["volume_range"] == pytest.approx(flat["bed"]["volume_range"], rel=1e-5)


def plane(a: float, b: float, c: float) -> Json:
    return {"kind": "plane", "through": [[0, 0, a], [3000, 0, a + 3000 * b], [0, 3000, a + 3000 * c]]}


def sigmas(plan: Json) -> list[float]:
    return [d["sigma"] for d in plan["surface"]["statistics"]["doubts"]]


@given(st.integers(0, 400), st.floats(-3.1, 3.1), st.floats(-2e4, 2e4), st.floats(-2e4, 2e4))
@settings(max_examples=share_of(6), deadline=None)
def test_a_room_turned_or_moved_keeps_its_doubt(seed: int, angle: float, dx: float, dy: float) -> None:
    room = room_of(seed)
    moved: Json = copy.deepcopy(room)
    outline = moved["outline"]
    outline["vertices"] = [turned(p, angle, (dx, dy)) for p in outline["vertices"]]
    outline["cutouts"] = [[turned(p, angle, (dx, dy)) for p in ring] for ring in outline["cutouts"]]
    for r in (r for r in moved["readings"] if "at" in r):
        r["at"] = turned(r["at"], angle, (dx, dy))
    here, there = whole_plan_of(room), whole_plan_of(moved)
    assert there["bed"]["volume_range"] == pytest.approx(here["bed"]["volume_range"], rel=1e-4)
    assert sorted(sigmas(there)) == pytest.approx(sorted(sigmas(here)), rel=0.02)


def test_a_reading_taken_where_it_was_proposed_lowers_the_doubt_there() -> None:
    places = [(float(x), float(y)) for x in range(0, 4001, 1000) for y in (0, 1500, 3000)]
    plan = whole_plan_of(room_over(SQUARE, [(*p, rolling(*p)) for p in places]))
    entry = plan["levels"]["next_readings"][0]
    places.append((entry["at"][0], entry["at"][1]))
    again = whole_plan_of(room_over(SQUARE, [(*p, rolling(*p)) for p in places]))
    near = min(again["surface"]["statistics"]["doubts"], key=lambda d: math.dist(d["at"], entry["at"]))
    assert near["sigma"] < entry["sigma"]


def rolling(x: float, y: float) -> float:
    return 0.004 * x + 3.0 * math.sin(x / 1100.0) * math.cos(y / 900.0)


FEW = [(0.0, 0.0, 0.0), (4000.0, 0.0, 2.0), (4000.0, 3000.0, -1.0), (0.0, 3000.0, 3.0), (2000.0, 1400.0, 1.0)]


@pytest.mark.parametrize("count", [3, 4, 5])
def test_a_few_readings_leave_much_unknown_and_say_so(count: int) -> None:
    few = whole_plan_of(room_over(SQUARE, FEW[:count], bed=LEVEL))
    grid = [(500.0 * x, 500.0 * y, 0.0) for x in range(9) for y in range(7)]
    many = whole_plan_of(room_over(SQUARE, grid, bed=LEVEL))
    assert width(few) > 3.0 * width(many)
    assert max(sigmas(few)) > 1.0


def width(plan: Json) -> float:
    low, high = plan["bed"]["volume_range"]
    return float(high - low)


EXTREMES: dict[str, Json] = {
    "equal heights": room_over(SQUARE, [(x, y, 0.0) for x, y, _ in FEW]),
    "no reading error at all": room_over(SQUARE, FEW, setups=[{"id": "s", "sigma": 0.0}]),
    "readings worth nothing": room_over(SQUARE, FEW, setups=[{"id": "s", "sigma": 1000.0}]),
    "nearly on one line": room_over(
        SQUARE,
        [(x, 1500.0 + (9.0 if x == 2000.0 else 0.0), x / 900) for x, _, _ in FEW[:2]] + [(2000.0, 1509.0, 1.0)],
    ),
    "a metre": room_over([(0, 0), (1000, 0), (1000, 1000), (0, 1000)], [(x / 4, y / 3, z) for x, y, z in FEW]),
    "a hand": room_over([(0, 0), (110, 0), (110, 110), (0, 110)], [(x / 40, y / 30, z) for x, y, z in FEW]),
    "a hall": room_over(
        [(0, 0), (60_000, 0), (60_000, 45_000), (0, 45_000)], [(15 * x, 15 * y, z) for x, y, z in FEW]
    ),
    "a corridor": room_over([(0, 0), (30_000, 0), (30_000, 1000), (0, 1000)], [(7 * x, y / 3, z) for x, y, z in FEW]),
    "cliffs": room_over(SQUARE, [(x, y, 2e5 * z) for x, y, z in FEW], bed={"top": {"kind": "level", "height": 0.0}}),
    "a top under the floor": room_over(SQUARE, FEW, bed={"top": {"kind": "level", "height": -90.0}}),
    "a top through the floor": room_over(SQUARE, FEW, bed={"top": {"kind": "level", "height": 1.0}}),
    "all but a rim cut out": room_over(SQUARE, FEW[:4])
    | {"outline": {"vertices": SQUARE, "cutouts": [[[20, 20], [3980, 20], [3980, 2980], [20, 2980]]]}},
    "two arms of a kilometre": room_over(
        [(0, 0), (1e6, 0), (1e6, 100), (100, 100), (100, 1e6), (0, 1e6)],
        [(0, 0, 0), (1e6, 50, 3), (50, 1e6, 2), (50, 5e5, 1)],
    ),
    "a spot read again and again": room_over(SQUARE, [*FEW, *((2000.0 + k, 1500.0, k % 2) for k in range(1, 40))]),
}


@pytest.mark.parametrize("name", sorted(EXTREMES))
def test_at_the_ends_of_what_can_be_read_every_figure_is_finite(name: str) -> None:
    text = answer_text("plan", json.dumps(EXTREMES[name]))
    check_answer(text)
    plan = json.loads(text)
    assert "problems" not in plan, plan
    low, high = plan["bed"]["volume_range"]
    assert 0.0 <= low <= plan["bed"]["volume"] <= high


def test_under_a_top_far_below_the_floor_there_is_surely_no_mortar() -> None:
    plan = whole_plan_of(EXTREMES["a top under the floor"])
    assert plan["bed"]["volume_range"] == pytest.approx([0.0, 0.0], abs=1e-8)  # 10 mm³
    assert plan["mix"]["bags_range"] == [0, 0]


@pytest.mark.parametrize(("count", "patience"), [(40, 1.0), (150, 2.5), (5_000, 3.0)])
def test_the_unknown_never_takes_long(count: int, patience: float) -> None:
    """Several times what it takes on a machine at rest."""
    dice = np.random.default_rng(count)
    places = dice.uniform((0.0, 0.0), (4000.0, 3000.0), (count, 2))
    spots = [(float(x), float(y), 3.0 * math.sin(x / 900) + float(dice.normal())) for x, y in places]
    text = json.dumps(room_over(SQUARE, spots))
    quick, whole = (seconds(question, text) for question in ("quick_plan", "plan"))
    assert whole - quick < patience


def seconds(question: str, text: str) -> float:
    start = time.process_time()
    answer_text(question, text)
    return time.process_time() - start
