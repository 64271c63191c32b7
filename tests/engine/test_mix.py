"""The order for a bed: nothing lost between the bed, the batches and the bags."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenbed.engine.cost.material import WHOLE_TOLERANCE, WHYS, whole_from
from evenbed.engine.document.room import Mix
from evenbed.engine.formulas import FORMULAS
from evenbed.engine.mix import (
    MixPlan,
    bag_yield_from,
    batches_from,
    materials_for,
    mix_cautions,
    mix_explanations,
)

EXACT = 1e-12  # relative: a handful of rounded products
MIXES = st.builds(
    Mix,
    cement=st.floats(0.1, 10.0),
    lime=st.one_of(st.just(0.0), st.floats(0.05, 3.0)),
    sand=st.one_of(st.just(0.0), st.floats(0.5, 20.0)),
    bag_mass=st.floats(5.0, 1000.0),
    water_cement=st.floats(0.1, 2.0),
    air=st.floats(0.0, 0.8),
    waste=st.floats(0.0, 1.0),
    batch_volume=st.one_of(st.none(), st.floats(0.005, 1.0)),
)
VOLUMES = st.one_of(st.just(0.0), st.floats(1e-9, 50.0))  # a cubic millimetre and up, or nothing


def quantities(plan: MixPlan) -> dict[str, float]:
    return {m.item: m.quantity for m in plan.materials}


@given(mix=MIXES, volume=VOLUMES)
def test_the_mass_bought_is_the_mass_mixed(mix: Mix, volume: float) -> None:
    plan = materials_for(volume, mix)
    assert math.fsum(quantities(plan).values()) == pytest.approx(plan.mixed_volume * plan.density, rel=EXACT)


@given(mix=MIXES, volume=st.floats(0.001, 50.0))
def test_solids_water_and_voids_fill_the_mixed_volume(mix: Mix, volume: float) -> None:
    plan, found = materials_for(volume, mix), quantities(materials_for(volume, mix))
    water_density = 62.4 * 0.45359237 / 0.3048**3
    relative = {"cement": 3.15, "lime": 2.30, "sand": 2.65, "water": 1.0}
    solid = math.fsum(mass / relative[item] / water_density for item, mass in found.items())
    assert solid == pytest.approx(plan.mixed_volume * (1.0 - mix.air), rel=1e-11)


@given(mix=MIXES, volume=VOLUMES)
def test_bags_and_batches_hold_the_need_and_one_fewer_would_not(mix: Mix, volume: float) -> None:
    plan = materials_for(volume, mix)
    bags = next(m.packages for m in plan.materials if m.item == "cement")
    need = quantities(plan)["cement"] / mix.bag_mass
    assert bags is not None
    assert bags - 1.0 < need <= bags + WHOLE_TOLERANCE
    assert plan.batches - 1 < plan.mixed_volume / plan.batch.volume <= plan.batches + WHOLE_TOLERANCE


@given(mix=MIXES, volume=VOLUMES, factor=st.floats(0.1, 10.0))
def test_twice_the_bed_needs_twice_the_material(mix: Mix, volume: float, factor: float) -> None:
    once, more = quantities(materials_for(volume, mix)), quantities(materials_for(volume * factor, mix))
    assert more == pytest.approx({item: factor * q for item, q in once.items()}, rel=1e-9)


@given(mix=MIXES, scale=st.floats(0.1, 10.0))
def test_parts_are_ratios_and_their_scale_changes_nothing(mix: Mix, scale: float) -> None:
    scaled = Mix(
        mix.cement * scale, mix.lime * scale, mix.sand * scale, mix.bag_mass, mix.water_cement, mix.air, mix.waste
    )
    assert bag_yield_from(scaled).volume == pytest.approx(bag_yield_from(mix).volume, rel=1e-11)


@given(mix=MIXES, volume=VOLUMES, low=st.floats(0.5, 1.0), high=st.floats(1.0, 1.5))
def test_the_range_of_the_order_encloses_the_order(mix: Mix, volume: float, low: float, high: float) -> None:
    for m in materials_for(volume, mix, (volume * low, volume * high)).materials:
        assert m.quantity_range is not None
        assert m.quantity_range[0] * (1 - 1e-9) <= m.quantity <= m.quantity_range[1] * (1 + 1e-9)
        if m.packages is not None:
            assert m.packages_range is not None
            assert m.packages_range[0] <= m.packages <= m.packages_range[1]


@given(count=st.integers(1, 1000), each=st.floats(0.001, 1000.0), noise=st.floats(-1e-12, 1e-12))
def test_rounding_noise_buys_no_bag(count: int, each: float, noise: float) -> None:
    assert whole_from(count * each * (1.0 + noise), each) == count
    assert whole_from((count + 1e-5) * each, each) == count + 1


def test_nothing_to_place_needs_nothing() -> None:
    plan = materials_for(0.0, Mix(lime=0.5))
    assert {m.quantity for m in plan.materials} == {0.0}
    assert [m.packages for m in plan.materials] == [0, 0, None, None]
    assert plan.batches == 0


def test_a_batch_is_one_bag_where_nobody_named_the_mixer() -> None:
    plan = materials_for(1.0, Mix())
    assert plan.batch.bags == 1.0
    assert plan.batch.volume == plan.bag_yield


def test_a_small_mixer_takes_part_of_a_bag_and_needs_more_batches() -> None:
    mix = Mix(batch_volume=bag_yield_from(Mix()).volume / 2.0, waste=0.0)
    plan = materials_for(bag_yield_from(Mix()).volume * 5.0, mix)
    assert plan.batch.bags == pytest.approx(0.5, rel=EXACT)
    assert plan.batches == 10 == batches_from(plan.placed_volume, mix)


def test_lime_and_sand_are_ordered_only_where_the_mix_has_them() -> None:
    assert [m.item for m in materials_for(1.0, Mix()).materials] == ["cement", "sand", "water"]
    assert [m.item for m in materials_for(1.0, Mix(sand=0.0)).materials] == ["cement", "water"]
    assert [m.item for m in materials_for(1.0, Mix(lime=1.0)).materials] == ["cement", "lime", "sand", "water"]


def test_every_line_says_why_in_words_made_from_its_code_and_values() -> None:
    for m in materials_for(0.4, Mix(lime=0.5)).materials:
        assert m.why == WHYS[m.code].format(**m.values)
    water = materials_for(0.4, Mix()).materials[-1]
    assert "sand's own water" in water.why


def test_every_line_explains_itself_with_what_went_in() -> None:
    mix = Mix(lime=0.5)
    plan = materials_for(0.4, mix)
    found = mix_explanations(plan, mix)
    for i, m in enumerate(plan.materials):
        assert found[f"materials[{i}]"].formula == FORMULAS[m.code].text
        assert found[f"materials[{i}]"].inputs["sand_parts"] == mix.sand
    assert found["mix.batches"].inputs["batch_volume"] == plan.batch.volume


@given(mix=MIXES, moisture=st.floats(0.0, 0.5))
def test_damp_sand_and_added_water_bring_the_same_water_in_unless_the_sand_alone_brings_more(
    mix: Mix, moisture: float
) -> None:
    batch = materials_for(1.0, replace(mix, sand_moisture=moisture)).batch
    own = batch.sand_damp - batch.sand
    assert own == pytest.approx(batch.sand * moisture, rel=1e-9, abs=1e-9)
    assert batch.water_to_add == pytest.approx(max(0.0, batch.water - own), abs=1e-9 * batch.sand_damp)


@given(mix=MIXES, bulking=st.floats(0.0, 1.0))
def test_a_measure_of_sand_that_bulks_more_holds_less_sand_and_is_no_smaller(mix: Mix, bulking: float) -> None:
    usual, bulked = bag_yield_from(mix), bag_yield_from(replace(mix, sand_bulking=bulking))
    assert bulked.sand_loose == usual.sand_loose
    assert bulked.sand * (1.0 + bulking) == pytest.approx(usual.sand * 1.25, rel=1e-12)


def test_sand_wetter_than_the_mix_wants_is_cautioned_about_and_no_water_is_added() -> None:
    soaked = materials_for(1.0, Mix(sand_moisture=0.2))
    (caution,) = mix_cautions(soaked)
    assert soaked.batch.water_to_add == 0.0
    assert caution.code == "sand_too_wet"
    assert caution.values["own"] == pytest.approx(0.2 * soaked.batch.sand)
    assert mix_cautions(materials_for(1.0, Mix())) == ()


def test_only_sand_is_delivered_damp() -> None:
    damp = {m.item: m.damp_mass for m in materials_for(0.4, Mix(lime=0.5, sand_moisture=0.1)).materials}
    sand = next(m for m in materials_for(0.4, Mix(lime=0.5)).materials if m.item == "sand")
    assert damp == {"cement": None, "lime": None, "sand": pytest.approx(1.1 * sand.quantity), "water": None}
