"""The bed as dead load, and the cautions that stand beside it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenbed.engine.document.room import Mix
from evenbed.engine.load import load_cautions, load_explanations, load_from, material_cautions
from evenbed.engine.mix import materials_for

POSITIVE = st.floats(0.01, 1000.0)


@given(area=POSITIVE, thickness=st.floats(1.0, 200.0), density=st.floats(500.0, 3000.0))
def test_an_even_bed_loads_the_same_on_average_and_at_its_thickest(
    area: float, thickness: float, density: float
) -> None:
    weight = load_from(area * thickness / 1000.0, area, thickness, density)
    assert weight.load.mean == pytest.approx(weight.load.max, rel=1e-12)
    assert weight.mass == pytest.approx(weight.load.mean * area, rel=1e-12)


def test_a_pound_a_square_foot_is_4_88_kg_a_square_metre() -> None:
    load = load_from(1.0, 1.0, 1000.0, 4.882428).load
    assert load.mean_lb_ft2 == pytest.approx(1.0, rel=1e-7)
    assert load.max_lb_ft2 == pytest.approx(1.0, rel=1e-7)


def test_no_bed_loads_nothing_and_needs_no_caution() -> None:
    weight = load_from(0.0, 0.0, 0.0, 2100.0)
    assert (weight.mass, weight.load.mean, weight.load.max) == (0.0, 0.0, 0.0)
    assert load_cautions(weight) == ()


def test_a_load_is_always_left_to_the_code_and_an_engineer_and_never_called_fine() -> None:
    (caution,) = load_cautions(load_from(0.5, 12.0, 60.0, 2100.0))
    assert "local code and a licensed engineer" in caution.text
    assert " ok" not in caution.text.lower()
    assert caution.values["mean"] == pytest.approx(87.5)


def test_a_bed_of_an_inch_and_a_quarter_goes_past_ten_pounds_a_square_foot() -> None:
    """Span tables allow 10 or 20 lb/ft² of dead load (IRC R502.3.1, read at second hand): a bed alone exceeds 10."""
    density = materials_for(1.0, Mix()).density
    assert load_from(31.75 / 1000.0, 1.0, 31.75, density).load.mean_lb_ft2 > 10.0


def test_a_94_lb_bag_is_a_lift_for_two_and_a_23_kg_bag_is_not() -> None:
    heavy = {c.code for c in material_cautions(materials_for(0.5, Mix()))}
    light = {c.code for c in material_cautions(materials_for(0.5, Mix(bag_mass=23.0)))}
    assert heavy == {"wet_cement", "silica", "stacked_bags", "lifting"}
    assert light == heavy - {"lifting"}


def test_a_single_bag_is_not_a_stack() -> None:
    assert "stacked_bags" not in {c.code for c in material_cautions(materials_for(0.01, Mix()))}


def test_each_figure_explains_itself_at_its_place_in_the_plan() -> None:
    weight = load_from(0.5, 12.0, 60.0, 2100.0)
    found = load_explanations(weight, 0.5, 12.0, 60.0, 2100.0)
    assert set(found) == {"bed.mass", "bed.load.mean", "bed.load.max"}
    assert found["bed.load.max"].inputs == {"thickness": 60.0, "density": 2100.0}
