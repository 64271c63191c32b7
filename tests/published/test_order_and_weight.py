"""Order and weight against figures from outside: bulking of sand, laps, a table of dead loads, span tables."""

import pytest

from evenbed.engine.cost.allowances import allowances_of
from evenbed.engine.document.room import BedDesign, Covering, Mix
from evenbed.engine.document.supplies import Membrane, Reinforcement
from evenbed.engine.load import POUND_PER_SQUARE_FOOT, covering_load, load_from
from evenbed.engine.mix import CUBIC_FOOT, POUND, bag_yield_from, sand_loose_density

GRAVITY = 9.80665  # m/s², standard
# Tables of dead load are rounded up, and what tile and mortar weigh is not given there: within a fifth is agreement.
ASCE_TOLERANCE = 0.20


def test_sand_200_mm_high_damp_and_160_mm_flooded_bulks_by_a_quarter() -> None:
    """The bulking test as published: the same dry sand, measured damp and flooded."""
    bulking = 200.0 / 160.0 - 1.0
    assert bulking == pytest.approx(0.25)
    assert sand_loose_density(0.0) / sand_loose_density(bulking) == pytest.approx(200.0 / 160.0, rel=1e-12)


def test_the_usual_sand_holds_80_lb_dry_in_a_cubic_foot_by_the_convention_of_astm_c270_from_memory() -> None:
    assert sand_loose_density(Mix().sand_bulking) * CUBIC_FOOT / POUND == 80.0


def test_laps_are_four_inches_of_membrane_and_one_mesh_of_two_inches_from_memory() -> None:
    assert Membrane().lap == pytest.approx(4 * 25.4)
    assert Reinforcement().lap == pytest.approx(2 * 25.4)


def test_tile_of_19_mm_on_25_mm_of_bed_weighs_about_what_asce_7_16_table_c3_1_1b_says() -> None:
    """1.10 kN/m²: 23.0 lb/ft². No bond coat is tabled there."""
    tile = covering_load(Covering(tile_thickness=19.0, bond_thickness=0.0), 1500.0)
    load = load_from(0.025, 1.0, 25.0, bag_yield_from(Mix()).density, tile).load
    assert load.total_mean * GRAVITY / 1000.0 == pytest.approx(1.10, rel=ASCE_TOLERANCE)
    assert load.total_mean_lb_ft2 == pytest.approx(22.97, rel=ASCE_TOLERANCE)


def test_span_tables_allow_10_and_20_lb_and_a_usual_bed_with_tile_passes_both() -> None:
    """IRC R502.3.1 as quoted; a nominal bed is 1 1/4 in thick."""
    covering = covering_load(BedDesign().covering, 1500.0)
    density = bag_yield_from(Mix()).density
    ten, twenty = allowances_of(load_from(0.03175, 1.0, 31.75, density, covering).load)
    assert [a.limit_kg_m2 / POUND_PER_SQUARE_FOOT for a in (ten, twenty)] == pytest.approx([10.0, 20.0])
    assert ten.exceeded_by_mean is not None
    assert twenty.exceeded_by_mean is not None
    bare = allowances_of(load_from(0.03175, 1.0, 31.75, density).load)
    assert bare[0].exceeded_by_mean is not None
    assert bare[1].exceeded_by_mean is None
