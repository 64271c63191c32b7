"""Waiting against figures from outside: rates of hardening, the need of tile, the work range."""

import math

import pytest

from evenbed.engine.cure import Temperatures, equivalent_age_from
from evenbed.engine.document.waiting import Curing
from evenbed.engine.readiness import COLDEST_WORK_C, DEFAULT_NEEDS, HOTTEST_WORK_C, readiness_from
from evenbed.engine.waiting.maturity import KELVIN, Rate

PRINTED = 0.5e-4  # the published digits stop at the fourth
GAS_CONSTANT = 8.314462618  # J/(mol·K), CODATA 2018

# Form of ASTM C1074 with Q = 5000 K (from memory); rates relative to 20 °C, derived. The table counts kelvin from
# 273 instead of 273.15, so that its every temperature, the reference too, lies 0.15 K below the one it names.
TABLE_SHIFT = 0.15
TABLE_ERROR = 0.0012  # relative: what that shift amounts to at most, at 0 and 40 °C
RATES = [
    (0.0, 0.2865),
    (5.0, 0.3982),
    (10.0, 0.5472),
    (15.0, 0.7436),
    (20.0, 1.0),
    (25.0, 1.3315),
    (30.0, 1.7563),
    (35.0, 2.2958),
    (40.0, 2.9755),
]


@pytest.mark.parametrize(("celsius", "relative"), RATES)
def test_an_hour_counts_what_the_table_of_rates_says(celsius: float, relative: float) -> None:
    rate, as_tabled = Rate(5000.0, 20.0 - TABLE_SHIFT), celsius - TABLE_SHIFT
    assert rate.at(as_tabled) == pytest.approx(relative, abs=PRINTED)
    held = Temperatures((0.0,), (as_tabled,), 0.0)
    assert equivalent_age_from(held, 0.0, 10.0, rate) == pytest.approx(10.0 * relative, abs=10.0 * PRINTED)


@pytest.mark.parametrize(("celsius", "relative"), RATES)
def test_true_kelvin_differ_from_the_table_by_no_more_than_its_rounded_zero(celsius: float, relative: float) -> None:
    defined = math.exp(-5000.0 * (1.0 / (celsius + 273.15) - 1.0 / 293.15))
    assert Rate(5000.0, 20.0).at(celsius) == pytest.approx(defined, rel=1e-14)
    assert defined == pytest.approx(relative, rel=TABLE_ERROR)


def test_the_usual_activation_lies_near_the_mortar_measured_by_barnett_and_others_in_2006() -> None:
    """34 kJ/mol for portland-cement mortar; 5000 K is 41.6 kJ/mol, the same size and on the slow side when cold."""
    measured = 34_000.0 / GAS_CONSTANT
    assert 0.75 < measured / 5000.0 < 1.25
    assert Rate(5000.0, 20.0).at(5.0) < Rate(measured, 20.0).at(5.0)


@pytest.mark.parametrize("celsius", [5.0, 10.0, 20.0, 30.0, 40.0])
def test_the_fib_model_code_has_the_same_shape(celsius: float) -> None:
    """t_T = Σ exp(13.65 − 4000/(273 + T)) Δt: the same form with Q = 4000 K, its constants rounded to 1 at 20 °C."""
    fib = math.exp(13.65 - 4000.0 / (273.0 + celsius))
    assert Rate(4000.0, 20.0).at(celsius) == pytest.approx(fib, rel=0.005)


def test_tile_needs_twenty_hours_at_21_celsius_from_memory_of_ansi_a108_1b() -> None:
    at_21 = Curing(assumed=21.0)
    row = next(r for r in readiness_from(at_21, [], []).rows if r.milestone == "tile")
    assert row.after_h == pytest.approx(20.0, rel=1e-9)
    assert (DEFAULT_NEEDS["tile"].age_h, DEFAULT_NEEDS["tile"].temperature_c) == (20.0, 21.0)


def test_the_older_bulletin_of_24_hours_at_70_fahrenheit_is_met_within_a_quarter_more() -> None:
    """24 h at 70 °F, read in an older bulletin: the default asks a little less and says so in its basis."""
    seventy = Rate(5000.0, 20.0).at((70.0 - 32.0) / 1.8)
    row = next(r for r in readiness_from(Curing(), [], []).rows if r.milestone == "tile")
    assert row.needs < 24.0 * seventy < 1.25 * row.needs
    assert "24 h at 70 °F" in row.basis


def test_the_work_range_is_10_to_38_celsius_from_memory() -> None:
    assert (COLDEST_WORK_C, HOTTEST_WORK_C) == (10.0, 38.0)
    assert KELVIN == 273.15
