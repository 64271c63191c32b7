"""Waiting against figures from outside: rates of hardening, the need of tile, the work range."""

import math
from itertools import pairwise

import pytest

from evenbed.engine.cure import AgeCurve, Temperatures, equivalent_age_from
from evenbed.engine.document.waiting import Curing
from evenbed.engine.readiness import COLDEST_WORK_C, DEFAULT_NEEDS, HOTTEST_WORK_C, readiness_from
from evenbed.engine.waiting.drying import KNEES, days_from
from evenbed.engine.waiting.evaporation import EITHER_WAY, THRESHOLD, evaporation_rate, level_of
from evenbed.engine.waiting.maturity import KELVIN, Factor, Rate

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


def held(celsius: float) -> Temperatures:
    return Temperatures((0.0,), (celsius,), 0.0)


def test_28_days_at_15_celsius_over_a_datum_of_minus_11_are_728_degree_days() -> None:
    """Nurse-Saul, as quoted: 28 d × (15 + 11) °C."""
    gathered = AgeCurve.of(held(15.0), 0.0, 28.0 * 24.0, Factor(-11.0)).ages[-1]
    assert gathered / 24.0 == pytest.approx(728.0, rel=1e-12)


def test_iowa_dot_instructional_memorandum_383_sums_temperature_and_ten_over_time() -> None:
    """M = Σ ((T₁ + T₂)/2 + 10) Δt, °C·h, over readings by hand: 20, 24, 22 and 15 °C after 0, 2, 4 and 10 h."""
    readings = Temperatures((0.0, 2.0, 4.0, 10.0), (20.0, 24.0, 22.0, 15.0), 10.0)
    by_hand = (22.0 + 10.0) * 2.0 + (23.0 + 10.0) * 2.0 + (18.5 + 10.0) * 6.0
    assert AgeCurve.of(readings, 0.0, 10.0, Factor(Curing().datum)).ages[-1] == pytest.approx(by_hand, rel=1e-12)


def test_below_the_datum_an_interval_counts_nothing() -> None:
    assert AgeCurve.of(held(-10.0), 0.0, 500.0, Factor(-10.0)).ages[-1] == 0.0
    assert AgeCurve.of(held(-25.0), 0.0, 500.0, Factor(-10.0)).ages[-1] == 0.0


def test_barnetts_activation_gives_a_day_at_5_celsius_its_share_of_a_day_at_20() -> None:
    """34 kJ/mol, Barnett and others 2006: exp(−34000/R (1/278.15 − 1/293.15)) by the gas constant, 0.47 of a day."""
    share = math.exp(-34_000.0 / GAS_CONSTANT * (1.0 / 278.15 - 1.0 / 293.15))
    found = equivalent_age_from(held(5.0), 0.0, 24.0, Rate(34_000.0 / GAS_CONSTANT, 20.0))
    assert found == pytest.approx(24.0 * share, rel=1e-12)
    assert share == pytest.approx(0.471, abs=0.001)


@pytest.mark.parametrize("swing", [0.0, 5.0, 12.0])
def test_the_fib_model_code_ages_a_bed_over_a_changing_temperature_as_its_own_constant_does_here(
    swing: float,
) -> None:
    """t_T = Σ exp(13.65 − 4000/(273 + T)) Δt over hourly steps: a judge of the shape, with Q = 4000 K and 20 °C."""
    hours = [float(h) for h in range(97)]
    celsius = [18.0 + swing * math.sin(math.pi * h / 12.0) for h in hours]
    fib = math.fsum(math.exp(13.65 - 4000.0 / (273.0 + (a + b) / 2.0)) for a, b in pairwise(celsius))
    course = Temperatures(tuple(hours), tuple(celsius), 96.0)
    assert equivalent_age_from(course, 0.0, 96.0, Rate(4000.0, 20.0)) == pytest.approx(fib, rel=0.006)


# Uno 1998 as quoted; the values are derived from its two published forms.
TO_CELSIUS, KM_PER_MILE, KG_PER_LB_FT2 = 1.8, 1.609344, 0.45359237 / 0.3048**2
UNO_PRINTED = 0.5e-4
FORMS_DIFFER = 0.05  # the metric form rounds the constants of the other


def celsius_from(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / TO_CELSIUS


def uno_pounds(bed_f: float, air_f: float, share: float, wind_mph: float) -> float:
    """lb/(ft²·h) by the form in degrees Fahrenheit and miles an hour."""
    return float((bed_f**2.5 - share * air_f**2.5) * (1.0 + 0.4 * wind_mph) * 1e-6)


def test_unos_form_in_pounds_gives_its_derived_value() -> None:
    assert uno_pounds(80.0, 80.0, 0.5, 10.0) == pytest.approx(0.1431, abs=UNO_PRINTED)


@pytest.mark.parametrize(
    ("celsius", "wind", "expected"), [(celsius_from(80.0), 10.0 * KM_PER_MILE, 0.6698), (30.0, 20.0, 0.9578)]
)
def test_evaporation_is_what_unos_metric_form_gives(celsius: float, wind: float, expected: float) -> None:
    assert evaporation_rate(celsius, celsius, 50.0, wind) == pytest.approx(expected, abs=UNO_PRINTED)


@pytest.mark.parametrize("fahrenheit", [60.0, 80.0, 95.0])
@pytest.mark.parametrize("humidity", [20.0, 50.0, 80.0])
@pytest.mark.parametrize("mph", [2.0, 10.0, 25.0])
def test_both_published_forms_of_uno_agree(fahrenheit: float, humidity: float, mph: float) -> None:
    bed, air = fahrenheit + 5.0, fahrenheit
    pounds = uno_pounds(bed, air, humidity / 100.0, mph) * KG_PER_LB_FT2
    metric = evaporation_rate(celsius_from(bed), celsius_from(air), humidity, mph * KM_PER_MILE)
    assert metric == pytest.approx(pounds, rel=FORMS_DIFFER)


def test_precautions_begin_above_one_kilogram_a_square_metre_and_hour_and_rates_differ_by_40_percent() -> None:
    """1 kg/(m²·h), as read; ±40 %, Hover 2020, as read."""
    assert (THRESHOLD, EITHER_WAY) == (1.0, 0.4)
    assert [level_of(rate) for rate in (0.49, 0.5, 1.0, 1.001)] == ["low", "watch", "watch", "act"]


def test_a_bed_dries_about_a_millimetre_a_day_to_40_mm_and_more_slowly_beyond() -> None:
    """BS 5385-3 as quoted; sources put the knee at 40, 50 or 75 mm."""
    assert KNEES == (40.0, 50.0, 75.0)
    for knee in KNEES:
        assert days_from(40.0, knee) == 40.0
        assert days_from(knee + 10.0, knee) > knee + 10.0
        assert days_from(knee, knee) == knee
