"""Bed, covering and stacked material as a load: sums, published allowances, and never a verdict."""

import json
import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over

from evenbed.engine.cost.allowances import allowance_cautions, allowances_of
from evenbed.engine.cost.material import Material, area_material
from evenbed.engine.cost.stacked import stacked_from
from evenbed.engine.document.room import Covering
from evenbed.engine.load import POUND_PER_SQUARE_FOOT, covering_load, load_from

FLAT = [(x, y, 0.0) for x, y in SQUARE]
VERDICT = re.compile(r"\b(ok|okay|safe|strong enough|can carry|will hold)\b", re.IGNORECASE)
THICKNESS = st.floats(1.0, 200.0)


def bed_at(height: float, **more: object) -> Json:
    return plan_of(room_over(SQUARE, FLAT, bed={"top": {"kind": "level", "height": height}}, **more))


def bag_row(item: str, packages: int, size: float) -> Material:
    row = area_material("bond_coat", packages * size, "kg", size, thickness=1.0, area=1.0, waste_percent=0.0)
    return replace(row, item=item)


@given(THICKNESS, st.floats(1.0, 100.0), st.floats(0.0, 100.0))
def test_the_total_is_the_bed_and_what_lies_on_it(thickness: float, area: float, covering: float) -> None:
    weight = load_from(area * thickness / 1000.0, area, thickness, 2000.0, covering)
    load = weight.load
    assert load.total_mean == pytest.approx(load.mean + covering, rel=1e-12)
    assert load.total_max == pytest.approx(load.max + covering, rel=1e-12)
    assert load.total_mass == pytest.approx(load.total_mean * area, rel=1e-12)
    assert load.total_max_lb_ft2 * POUND_PER_SQUARE_FOOT == pytest.approx(load.total_max, rel=1e-12)


def test_covering_is_tile_and_fresh_bond_coat() -> None:
    """By hand: 10 mm at 2300 and 4 mm of 1500 kg of powder with a quarter of water: 23 + 7.5 kg/m²."""
    assert covering_load(Covering(tile_thickness=10.0, bond_thickness=4.0), 1500.0) == pytest.approx(30.5)
    assert covering_load(Covering(tile_thickness=0.0, bond_thickness=0.0), 1500.0) == 0.0


@given(THICKNESS, st.floats(0.0, 60.0))
def test_an_allowance_is_passed_by_what_lies_beyond_it_and_null_where_nothing_does(
    thickness: float, covering: float
) -> None:
    load = load_from(thickness / 1000.0, 1.0, 2 * thickness, 2000.0, covering).load
    for allowance, pounds in zip(allowances_of(load), (10.0, 20.0), strict=True):
        limit = pounds * 4.88242763638305  # kg/m² in a lb/ft²
        assert allowance.limit_lb_ft2 == pounds
        assert allowance.exceeded_by_mean == (
            pytest.approx(load.total_mean - limit) if load.total_mean > limit else None
        )
        assert allowance.exceeded_by_max == (
            pytest.approx(load.total_max - limit) if load.total_max > limit else None
        )
        assert (allowance.source_code, allowance.turn_to) == ("span_tables", "engineer_and_building_office")


def test_only_the_largest_allowance_that_is_passed_is_cautioned_about() -> None:
    def limits(thickness: float) -> list[float | str]:
        load = load_from(thickness / 1000.0, 1.0, thickness, 2000.0, 20.0).load
        return [caution.values["limit_lb_ft2"] for caution in allowance_cautions(load)]

    assert [limits(t) for t in (10.0, 20.0, 60.0)] == [[], [10.0], [20.0]]


def test_the_plan_says_whom_to_turn_to_beside_the_load_and_passes_no_verdict() -> None:
    plan = bed_at(60.0)
    (told,) = (c for c in plan["cautions"] if c["code"] == "span_tables")
    assert told["where"] == "bed.load"
    assert "licensed engineer and the local building office" in told["text"]
    said = json.dumps([plan["bed"]["load"], plan["bed"]["allowances"], plan["bed"]["stacked"], plan["cautions"]])
    assert not VERDICT.search(said)


def test_a_thin_bed_alone_is_still_told_as_a_load_for_an_engineer() -> None:
    assert "load" in {c["code"] for c in bed_at(35.0)["cautions"]}


def test_no_bed_gives_no_caution_about_span_tables() -> None:
    assert "span_tables" not in {c["code"] for c in bed_at(-10.0)["cautions"]}


def test_stacked_bags_stand_five_high_and_weigh_what_they_hold() -> None:
    plan = bed_at(40.0)
    rows = {row["item"]: row for row in plan["materials"]}
    bags = rows["cement"]["packages"] + rows["bond_coat"]["packages"]
    mass = sum(rows[item]["packages"] * rows[item]["package_size"] for item in ("cement", "bond_coat"))
    stacked = plan["bed"]["stacked"]
    assert stacked["bags"] == bags
    assert stacked["bag_mass"] == pytest.approx(mass)
    assert stacked["mass"] == pytest.approx(mass + rows["sand"]["damp_mass"])
    assert stacked["area"] == pytest.approx(-(-bags // 5) * 0.24)
    assert stacked["load"] == pytest.approx(5 * rows["cement"]["package_size"] / 0.24)
    assert stacked["load_lb_ft2"] == pytest.approx(stacked["load"] / POUND_PER_SQUARE_FOOT)


def test_a_last_stack_that_is_not_full_lightens_no_other_and_the_heaviest_bags_stand_together() -> None:
    bags = [bag_row("cement", 3, 42.0), bag_row("lime", 0, 60.0), bag_row("bond_coat", 3, 20.0)]
    stacked = stacked_from(bags)
    assert (stacked.bags, stacked.area) == (6, 0.48)
    assert stacked.load == pytest.approx((3 * 42.0 + 2 * 20.0) / 0.24)


def test_nothing_to_stack_stacks_nothing() -> None:
    covering = {"tile_thickness": 0.0, "bond_thickness": 0.0}
    bed = {"top": {"kind": "level", "height": -10.0}, "covering": covering}
    stacked = plan_of(room_over(SQUARE, FLAT, bed=bed))["bed"]["stacked"]
    assert set(stacked.values()) == {0}


def test_every_load_explains_itself() -> None:
    explained = bed_at(40.0)["explanations"].keys()
    names = ("covering", "total_mean", "total_max", "total_mass", "mean", "max")
    assert {f"bed.load.{name}" for name in names} <= explained
    assert {"bed.stacked", "bed.allowances[0]", "bed.allowances[1]"} <= explained
