"""Cautions and sources are closed sets; every sentence can be made, and none calls a floor strong enough."""

import re
import string

import pytest

from evenbed.engine.cautions import CAUTIONS, caution_at
from evenbed.engine.formulas import FORMULAS
from evenbed.engine.sources import SOURCES, explanation_of

VERDICT = re.compile(r"\b(ok|okay|safe|strong enough|can carry|will hold)\b", re.IGNORECASE)


def names_in(text: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


@pytest.mark.parametrize("code", CAUTIONS)
def test_no_caution_passes_a_verdict_on_structure(code: str) -> None:
    assert not VERDICT.search(CAUTIONS[code])


def test_a_caution_carries_its_code_place_text_and_values() -> None:
    caution = caution_at("readiness", "frost", lowest=-3.0)
    assert caution.text.startswith("Down to -3.0 °C")
    assert (caution.code, caution.where, caution.values) == ("frost", "readiness", {"lowest": -3.0})


def test_a_caution_outside_the_set_or_without_its_values_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(KeyError):
        caution_at("bed", "no_such_caution")
    with pytest.raises(KeyError):
        caution_at("readiness", "frost")


def test_the_load_is_left_to_the_local_code_and_an_engineer_in_both_units() -> None:
    assert "licensed engineer" in CAUTIONS["load"]
    assert names_in(CAUTIONS["load"]) >= {"mean", "max", "mean_lb_ft2", "max_lb_ft2", "mass"}


@pytest.mark.parametrize("code", FORMULAS)
def test_every_formula_rests_on_a_source_in_the_set(code: str) -> None:
    explanation = explanation_of(code, volume=1.0)
    assert explanation.source == SOURCES[FORMULAS[code].source_code]
    assert explanation.inputs == {"volume": 1.0}


def test_no_source_is_listed_that_no_formula_rests_on() -> None:
    assert {formula.source_code for formula in FORMULAS.values()} == set(SOURCES)


def test_what_was_not_read_says_that_it_is_from_memory() -> None:
    for code in ("sand_loose", "lime_loose", "maturity", "tile_on_cured_bed"):
        assert "from memory" in SOURCES[code]
    assert SOURCES["common_practice"] == "Common practice, no source."
