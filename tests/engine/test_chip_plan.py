"""What to chip: the best depth for the prices given, against brute force, and places too thin under a given top."""

import math
from typing import Any

import numpy as np
import pytest
from tests.bumps import PRICES, Spot, bump, over
from tests.documents import SQUARE, Json, plan_of, room_over
from tests.rooms import random_room

from evenbed.engine.document.check import check_document
from evenbed.engine.mix import bag_yield_from
from evenbed.engine.worked import WorkedRoom

CHEAP = {"cement_bag": 40.0, "sand": 90.0, "labour": {"hour": 30.0, "chipping": 0.2, "chipping_depth": 0.01}}


def balance(room: WorkedRoom, prices: Json, depth: float) -> float:
    """What is saved at a depth, worked out anew from the prices."""
    mix, labour = room.document.mix, room.document.prices.labour
    bag = bag_yield_from(mix)
    material = (prices["cement_bag"] + prices["sand"] * bag.sand_loose) * (1.0 + mix.waste) / bag.volume
    hour = prices["labour"]["hour"]
    area, chipped = room.chipping.below.area(depth), room.chipping.below.volume(depth)
    mortar = room.figure.area * depth / 1e3 - chipped
    hours = labour.chipping * area + labour.chipping_depth * chipped * 1e3
    return float((material + labour.per_volume * hour) * mortar - hour * hours)


@pytest.mark.parametrize("prices", [PRICES, CHEAP], ids=["dear labour", "cheap labour"])
@pytest.mark.parametrize("seed", range(0, 24, 2))
def test_no_depth_saves_more_than_the_best_plan(seed: int, prices: Json) -> None:
    document = random_room(seed) | {"prices": prices}
    room = WorkedRoom(check_document(document)[0])
    plan = room.chipping.plan
    if plan is None:
        assert not room.chipping.rows
        return
    best = plan.saves_cost
    assert best is not None
    assert best == pytest.approx(balance(room, prices, plan.depth), rel=1e-9, abs=1e-9)
    unread = room.chipping.unread
    most = min(12.7, math.inf if unread is None else unread.spare)
    tried = [balance(room, prices, float(depth)) for depth in np.linspace(0.0, most, 400)]
    assert max(tried) <= best + 1e-6 * max(1.0, abs(best))
    assert plan.depth <= most


def test_where_chipping_costs_more_than_it_saves_the_best_plan_is_to_raise_the_top() -> None:
    """A ridge from wall to wall: the first hair of depth has an area already, and a square metre is dear to chip."""
    dear = {"cement_bag": 1.0, "sand": 1.0, "labour": {"hour": 90.0, "per_volume": 0.0, "chipping": 100.0}}
    ridge = [
        (x, y, 8.0 if x == 2000.0 else 0.0) for x in (0.0, 1500.0, 2000.0, 2500.0, 4000.0) for y in (0.0, 3000.0)
    ]
    bed = plan_of(room_over(SQUARE, ridge, prices=dear))["bed"]
    best = bed["chip_plan"]
    assert (best["depth"], best["saves_cost"], best["spots"], best["basis"]) == (0.0, 0.0, [], "prices")
    assert bed["chipping"][0]["saves_cost"] < 0.0


def test_without_prices_nothing_is_weighed() -> None:
    bed = plan_of(over(bump(1000, 1500, 10.0), bump(3000, 1500, 6.0)))["bed"]
    best = bed["chip_plan"]
    assert (best["basis"], best["saves_cost"], best["spots"]) == ("none", None, ["h1"])
    assert (best["depth"], best["top_lower_by"]) == pytest.approx((4.0, 4.0), abs=1e-9)
    assert best["labour_hours"] == pytest.approx(1.5 * best["area"] + 0.1 * best["chipped_volume"] * 1e3)
    assert all(row["saves_cost"] is None for row in bed["chipping"])


@pytest.mark.parametrize("missing", ["cement_bag", "sand", "labour"])
def test_one_price_missing_leaves_costs_unknown(missing: str) -> None:
    prices = {key: value for key, value in PRICES.items() if key != missing}
    best = plan_of(over(bump(2000, 1500, 10.0), prices=prices))["bed"]["chip_plan"]
    assert (best["basis"], best["saves_cost"]) == ("none", None)


def given_top(height: float, *bumps: list[Spot], **bed: Any) -> Json:
    return over(*bumps, bed={"top": {"kind": "level", "height": height}, **bed})


def test_under_a_given_top_only_what_is_too_thin_is_chipped_and_takes_mortar() -> None:
    plan = plan_of(given_top(36.75, bump(1000, 1500, 10.0), bump(3000, 1500, 6.0)))
    first, second = plan["bed"]["chipping"]
    assert (first["depth"], second["depth"]) == pytest.approx((5.0, 1.0), abs=1e-9)
    assert (first["area"], second["area"]) == pytest.approx((0.125, 0.5 / 36.0), rel=1e-9)
    assert first["chipped_volume"] == pytest.approx(0.125 * 0.005 / 3.0, rel=1e-9)
    assert first["saves_volume"] == pytest.approx(-first["chipped_volume"], rel=1e-9)
    chip_plan = plan["bed"]["chip_plan"]
    assert (chip_plan["top_lower_by"], chip_plan["spots"]) == (0.0, ["h1", "h2"])
    assert chip_plan["area"] == pytest.approx(first["area"] + second["area"], rel=1e-12)


def test_where_nothing_may_be_chipped_no_row_is_given_and_the_worst_place_is_said() -> None:
    plan = plan_of(given_top(36.75, bump(1000, 1500, 10.0), bump(3000, 1500, 6.0), chip_depth=0.0))
    assert (plan["bed"]["chipping"], plan["bed"]["chip_plan"]) == ([], None)
    told = [(c["code"], c["values"]["x"]) for c in plan["cautions"] if c["where"] == "bed.chipping"]
    assert told == [("chip_too_deep", 1000.0)]


@pytest.mark.parametrize("seed", range(30))
def test_under_a_given_top_the_spots_together_are_all_that_is_too_thin(seed: int) -> None:
    height = 22.0 + seed
    bed = plan_of(random_room(seed) | {"bed": {"top": {"kind": "level", "height": height}}})["bed"]
    rows = bed["chipping"]
    assert math.fsum(row["area"] for row in rows) == pytest.approx(bed["too_thin_area"], rel=1e-9, abs=1e-6)
    assert len({tuple(row["at"]) for row in rows}) == len(rows)
    assert all(row["depth"] <= 12.7 for row in rows)


def test_a_given_top_that_is_thick_enough_everywhere_needs_no_chipping() -> None:
    bed = plan_of(given_top(60.0, bump(1000, 1500, 10.0)))["bed"]
    assert (bed["chipping"], bed["chip_plan"]) == ([], None)


def test_no_more_is_chipped_than_may_be_and_what_remains_is_said() -> None:
    plan = plan_of(given_top(31.75, bump(2000, 1500, 10.0), chip_depth=4.0))
    (row,) = plan["bed"]["chipping"]
    assert row["depth"] == 4.0
    assert row["chipped_volume"] == pytest.approx(0.5 * 0.010 / 3.0 * (1.0 - 0.6**3), rel=1e-9)
    (told,) = [c for c in plan["cautions"] if c["code"] == "chip_too_deep"]
    assert told["values"]["needed"] == pytest.approx(10.0)
    assert told["values"]["most"] == 4.0


def test_chipping_where_the_top_lay_below_the_subfloor_takes_the_mortar_that_then_fits() -> None:
    """A pyramid of 10 mm under a top at 4 mm with a minimum of 1 mm: above 3 mm it is cut away, and refilled by 1."""
    (row,) = plan_of(given_top(4.0, bump(2000, 1500, 10.0), minimum_thickness=1.0))["bed"]["chipping"]
    foot, bare = 0.5 * 0.7**2, 0.5 * 0.6**2
    above_3_below_4 = foot * 0.007 / 3.0 - bare * 0.006 / 3.0 - bare * 0.001
    before, after = (foot - bare) * 0.001 - above_3_below_4, foot * 0.001
    assert row["area"] == pytest.approx(foot, rel=1e-9)
    assert row["saves_volume"] == pytest.approx(before - after, rel=1e-9)


def test_rows_and_plan_explain_themselves() -> None:
    told = plan_of(over(bump(2000, 1500, 10.0), prices=PRICES))["explanations"]
    assert told["bed.chipping[0]"]["code"] == "chip_lowered"
    assert told["bed.chip_plan"]["inputs"]["hour"] == 50.0
