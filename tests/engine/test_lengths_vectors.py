"""Every row of the shared length vectors; the phone's own reader is held to the same file."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from evenbed.engine.units import (
    LengthError,
    decimal_from_length,
    feet_inches_from_length,
    inches_from_length,
    length_from_text,
)

VECTORS = json.loads((Path(__file__).parents[1] / "vectors" / "lengths.json").read_text(encoding="utf-8"))
GOOD = [row for row in VECTORS["read"] if "length" in row]
BAD = [row for row in VECTORS["read"] if "problem" in row]


@pytest.mark.parametrize("row", GOOD, ids=lambda row: f"{row['text']} [{row['default_unit']}]")
def test_a_typed_length_is_the_millimetres_it_means(row: dict[str, Any]) -> None:
    found = length_from_text(row["text"], row["default_unit"])
    assert abs(found - row["length"]) <= VECTORS["tolerance"]


@pytest.mark.parametrize("row", BAD, ids=lambda row: f"{row['text']} [{row['default_unit']}]")
def test_a_text_that_is_no_length_is_refused_with_its_reason(row: dict[str, Any]) -> None:
    with pytest.raises(LengthError) as refusal:
        length_from_text(row["text"], row["default_unit"])
    assert refusal.value.code == row["problem"]


@pytest.mark.parametrize("row", VECTORS["print"], ids=lambda row: row["printed"])
def test_a_length_is_printed_as_people_write_it(row: dict[str, Any]) -> None:
    forms: dict[str, Callable[[], str]] = {
        "feet_inches": lambda: feet_inches_from_length(row["length"], row["denominator"]),
        "inches": lambda: inches_from_length(row["length"], row["denominator"]),
        "decimal": lambda: decimal_from_length(row["length"], row["unit"]),
    }
    assert forms[row["form"]]() == row["printed"]


def test_the_vectors_reach_every_refusal_a_length_can_meet() -> None:
    expected = {"too_long", "too_large", "too_small", "length_empty", "length_unclear", "length_two_marks"}
    expected |= {"length_needs_unit", "length_unit", "length_zero_denominator", "length_improper", "length_overflow"}
    assert {row["problem"] for row in BAD} == expected
