"""Figures of the bed that the screens show explain themselves, and its limits are passed by more than rounding."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over

FLOOR = [(0.0, 0.0, 0.0), (4000.0, 0.0, 3.0), (4000.0, 3000.0, -4.0), (0.0, 3000.0, 8.0)]


def _plan(**bed: object) -> Json:
    return plan_of(room_over(SQUARE, FLOOR, bed=bed))


def test_areas_beyond_the_limits_tell_the_limit_that_they_are_beyond() -> None:
    plan = _plan(minimum_thickness=30.0, maximum_thickness=35.0, top={"kind": "level", "height": 35.0})
    thin, thick = (plan["explanations"][f"bed.{name}"] for name in ("too_thin_area", "too_thick_area"))
    assert plan["bed"]["too_thin_area"] > 0.0 < plan["bed"]["too_thick_area"]
    assert (thin["code"], thin["inputs"]) == ("thin_area", {"minimum": 30.0, "area": 12.0})
    assert (thick["code"], thick["inputs"]) == ("thick_area", {"maximum": 35.0, "area": 12.0})


def test_the_recipe_of_a_batch_follows_from_its_volume_and_a_bag() -> None:
    plan = plan_of(room_over(SQUARE, FLOOR, mix={"batch_volume": 0.05}))
    batch, why = plan["mix"]["batch"], plan["explanations"]["mix.batch"]["inputs"]
    assert why == {"batch_volume": 0.05, "yield": plan["mix"]["bag_yield"]}
    assert batch["cement"] == pytest.approx(42.637683 * why["batch_volume"] / why["yield"])
    mixed = plan["explanations"]["mix.mixed_volume"]["inputs"]
    assert plan["mix"]["mixed_volume"] == pytest.approx(mixed["volume"] * (1.0 + mixed["waste"]))


@given(st.floats(-500.0, 500.0), st.floats(20.0, 60.0))
@settings(deadline=None)
def test_a_bed_as_thick_as_it_may_be_is_not_called_too_thick(floor: float, limit: float) -> None:
    spots = [(x, y, floor) for x, y, _ in FLOOR]
    bed = {"minimum_thickness": limit, "maximum_thickness": limit}
    for beyond, told in ((0.0, False), (1e-3, True)):
        top = {"kind": "level", "height": floor + limit + beyond}
        codes = {caution["code"] for caution in plan_of(room_over(SQUARE, spots, bed=bed | {"top": top}))["cautions"]}
        assert ("too_thick" in codes) is told


def test_too_thick_is_told_with_digits_that_tell_it_from_the_limit() -> None:
    plan = _plan(top={"kind": "level", "height": 47.2})
    (text,) = (caution["text"] for caution in plan["cautions"] if caution["code"] == "too_thick")
    assert text.startswith("The bed is 51.2 mm at its thickest, more than 50.8 mm:")
