"""The mortar against figures from outside: absolute volume, the bag, the rule of 38, Sabin."""

import pytest

from evenbed.engine.document.room import Mix
from evenbed.engine.mix import (
    CEMENT_LOOSE_DENSITY,
    CUBIC_FOOT,
    POUND,
    POUND_PER_CUBIC_FOOT,
    SAND_LOOSE_DENSITY,
    bag_yield_from,
)

BAG = 94.0 * POUND
PRINTED = 0.5e-4  # ft³: the published digits stop at the fourth

# Derived from absolute volume: one 94 lb bag, 80 lb of dry sand per ft³ at 2.65, cement at 3.15, no air.
YIELDS = [
    (5, 0.45, 3.5751),
    (5, 0.60, 3.8010),
    (4, 0.45, 3.0913),
    (4, 0.60, 3.3172),
    (3, 0.45, 2.6075),
    (3, 0.60, 2.8335),
    (6, 0.45, 4.0589),
    (6, 0.60, 4.2848),
]

# Rule of 38 (US Navy, Builder, read at second hand): 38 ft³ of dry ingredients make 27 ft³ of mortar. The rule is
# a rounded one and silent about water and voids: what lies within an eighth of it agrees with it.
RULE_38_BAND = 0.125


def mix_of(sand: float, water_cement: float, air: float = 0.0) -> Mix:
    return Mix(sand=sand, water_cement=water_cement, air=air, bag_mass=BAG)


@pytest.mark.parametrize(("sand", "water_cement", "cubic_feet"), YIELDS)
def test_a_bag_yields_what_absolute_volume_says(sand: float, water_cement: float, cubic_feet: float) -> None:
    volume = bag_yield_from(mix_of(sand, water_cement)).volume / CUBIC_FOOT
    assert volume == pytest.approx(cubic_feet, abs=PRINTED)


def test_a_94_lb_bag_is_a_cubic_foot_and_a_cubic_foot_of_sand_holds_80_lb_from_memory_of_astm_c270() -> None:
    bag = bag_yield_from(mix_of(3.0, 0.5))
    assert bag.cement_loose / CUBIC_FOOT == pytest.approx(1.0, rel=1e-12)
    assert bag.sand / POUND == pytest.approx(240.0, rel=1e-12)


@pytest.mark.parametrize(("water_cement", "air"), [(0.45, 0.0), (0.5, 0.0), (0.5, 0.05), (0.6, 0.0), (0.6, 0.1)])
def test_nine_and_a_half_bags_at_1_to_3_make_about_a_cubic_yard(water_cement: float, air: float) -> None:
    made = 9.5 * bag_yield_from(mix_of(3.0, water_cement, air)).volume / CUBIC_FOOT
    assert made == pytest.approx(27.0, rel=RULE_38_BAND)


def test_damp_sand_by_volume_lies_between_sabins_loose_and_packed_cement() -> None:
    """Sabin 1905, table 59: n parts of dry sand by weight are n × 1.0625 (loose cement) to 1.375 (packed), damp."""
    volume_per_weight = CEMENT_LOOSE_DENSITY / SAND_LOOSE_DENSITY
    assert 1.0625 < volume_per_weight < 1.375


def test_the_default_mortar_weighs_what_mortar_weighs_from_memory() -> None:
    """120 to 145 lb/ft³, from memory."""
    assert 120.0 < bag_yield_from(Mix()).density / POUND_PER_CUBIC_FOOT < 145.0
