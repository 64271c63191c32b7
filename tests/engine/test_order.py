"""Orders of several rooms: added up before they are rounded, in any order, and never a package short."""

import math
import random
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import Json, plan_of
from tests.questions import answer_to, refusal_of
from tests.rooms import random_room

from evenbed.engine.cost.order import order_from

PRICES = {"cement_bag": 15.0, "sand": 40.0, "tile_box": 30.0, "membrane_roll": 0.0, "reinforcement_sheet": 9.0}
ROOMS = [
    {"name": f"Room {seed}", "materials": plan_of(random_room(seed), "bed_design")["materials"]} for seed in range(4)
]

ROWS = st.builds(
    lambda item, quantity, size: {"item": item, "quantity": quantity, "package_size": size},
    st.sampled_from(["cement", "tile", "bond_coat", "perimeter_strip"]),
    st.floats(0.0, 500.0),
    st.sampled_from([1.0, 22.6796185, 42.637683]),
)
ROOM_LISTS = st.lists(st.fixed_dictionaries({"materials": st.lists(ROWS, max_size=4)}), max_size=5)


def row(item: str, quantity: float, size: float | None = None, **more: Any) -> Json:
    return {"item": item, "quantity": quantity, "package_size": size, **more}


@given(ROOM_LISTS)
@settings(max_examples=60, deadline=None)
def test_rooms_add_up_before_rounding_as_whole_fractions_do(rooms: list[Json]) -> None:
    needed: dict[tuple[str, float], Fraction] = {}
    for each in (each for room in rooms for each in room["materials"]):
        key = (each["item"], each["package_size"])
        needed[key] = needed.get(key, Fraction(0)) + Fraction(each["quantity"])
    found = {(r.item, r.package_size): r for r in order_from({"rooms": rooms}).materials}
    assert found.keys() == needed.keys()
    for (item, size), quantity in needed.items():
        together = found[(item, size)]
        assert together.quantity == pytest.approx(float(quantity), rel=1e-15)
        assert together.packages is not None
        assert together.packages_apart is not None
        assert together.packages <= together.packages_apart
        assert together.packages * Fraction(size) >= quantity - Fraction(size) * len(rooms) * 4 / 10**6
        assert (together.packages - 1) * Fraction(size) < quantity or together.packages == 0


@settings(max_examples=20, deadline=None)
@given(st.randoms(use_true_random=False))
def test_the_order_of_the_rooms_changes_no_digit(dice: random.Random) -> None:
    rooms = ROOMS.copy()
    dice.shuffle(rooms)
    shuffled, plain = order_from({"rooms": rooms, "prices": PRICES}), order_from({"rooms": ROOMS, "prices": PRICES})
    assert shuffled.quote == plain.quote
    assert [r.quantity for r in shuffled.materials] == [r.quantity for r in plain.materials]
    assert [r.packages for r in shuffled.materials] == [r.packages for r in plain.materials]


def test_one_room_alone_is_ordered_as_its_plan_says() -> None:
    order = answer_to("order", rooms=ROOMS[:1])
    asked = ROOMS[0]["materials"]
    for name in ("item", "quantity", "unit", "packages", "package_size", "loose_volume"):
        assert [r[name] for r in order["materials"]] == [r[name] for r in asked], name
    assert order["saves"] == 0.0


def test_two_rooms_of_half_a_bag_take_one_bag_and_the_other_is_saved() -> None:
    rooms = [{"name": name, "materials": [row("cement", 20.0, 40.0)]} for name in ("Bath", "Hall")]
    order = answer_to("order", rooms=rooms, prices={"cement_bag": 15.0, "labour": {"hour": 50.0}})
    (bags,) = order["materials"]
    assert (bags["packages"], bags["packages_apart"], bags["rooms"]) == (1, 2, ["Bath", "Hall"])
    assert order["saves"] == 15.0
    assert order["quote"]["total"] == 15.0


def test_what_would_be_saved_is_unknown_where_its_price_is() -> None:
    rooms = [{"materials": [row("cement", 20.0, 40.0)]}] * 2
    assert answer_to("order", rooms=rooms)["saves"] is None


def test_packages_of_two_sizes_are_kept_apart_and_no_one_price_is_put_on_them() -> None:
    rooms = [{"materials": [row("cement", 30.0, 40.0)]}, {"materials": [row("cement", 30.0, 25.0)]}]
    order = answer_to("order", rooms=rooms, prices={"cement_bag": 15.0})
    assert [(r["package_size"], r["packages"]) for r in order["materials"]] == [(25.0, 2), (40.0, 1)]
    assert order["mixed_packages"] == order["quote"]["unpriced"] == ["cement"]
    assert order["quote"]["total"] is None


def test_hours_and_ranges_add_up_and_go_into_the_quote() -> None:
    first = row("sand", 100.0, loose_volume=0.08, quantity_range=[90.0, 120.0], loose_range=[0.07, 0.1])
    rooms = [{"materials": [first], "labour_hours": 5.0, "labour_hours_range": [4.0, 7.0]}] * 2
    order = answer_to("order", rooms=rooms, prices={"sand": 50.0, "labour": {"hour": 10.0}, "margin": 0.5})
    assert order["materials"][0]["quantity_range"] == [180.0, 240.0]
    assert order["quote"]["total"] == pytest.approx((0.16 * 50.0 + 100.0) * 1.5)
    assert order["quote"]["total_range"] == pytest.approx([(7.0 + 80.0) * 1.5, (10.0 + 140.0) * 1.5])


def test_no_rooms_order_nothing() -> None:
    order = answer_to("order", rooms=[])
    assert (order["materials"], order["mixed_packages"], order["saves"]) == ([], [], 0.0)
    assert order["quote"]["total"] == 0.0


def test_real_rooms_together_save_packages_and_never_need_more() -> None:
    order = answer_to("order", rooms=ROOMS, prices=PRICES)
    for each in order["materials"]:
        assert each["packages"] is None or each["packages"] <= each["packages_apart"]
        assert each["quantity"] == math.fsum(
            r["quantity"] for room in ROOMS for r in room["materials"] if r["item"] == each["item"]
        )
    assert any(r["packages"] is not None and r["packages"] < r["packages_apart"] for r in order["materials"])


@pytest.mark.parametrize(
    ("rooms", "where", "code"),
    [
        ([{"materials": [row("gold", 1.0, 1.0)]}], "rooms[0].materials[0].item", "not_one_of"),
        ([{"materials": [row("tile", 1.0)]}], "rooms[0].materials[0].package_size", "missing"),
        ([{"materials": [row("sand", 1.0)]}], "rooms[0].materials[0].loose_volume", "missing"),
        ([{"materials": [row("tile", -1.0, 1.0)]}], "rooms[0].materials[0].quantity", "too_small"),
        ([{"materials": [row("tile", 1.0, 0.0)]}], "rooms[0].materials[0].package_size", "too_small"),
        ([{}], "rooms[0].materials", "missing"),
        ("Bath", "rooms", "not_a_list"),
    ],
)
def test_what_no_plan_would_say_is_named(rooms: object, where: str, code: str) -> None:
    assert refusal_of("order", {"rooms": rooms}) == [(where, code)]
