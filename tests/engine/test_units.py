"""Lengths: what is printed reads back as the same step, and any text whatever is read or refused."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenbed.engine.problems import PROBLEMS, problem_at
from evenbed.engine.units import (
    DENOMINATORS,
    MM_PER_UNIT,
    WORDS,
    LengthError,
    Unit,
    decimal_from_length,
    exact_length_from_text,
    feet_inches_from_length,
    inches_from_length,
    length_from_text,
)

STEPS = st.integers(-600_000, 600_000)  # of a sixteenth: a little below a kilometre either way
UNITS: st.SearchStrategy[Unit] = st.sampled_from(("mm", "cm", "m", "in", "ft"))
LENGTH_LIKE = st.text("0123456789 .,-/'\"″′½¼⅜mcinft−", max_size=20)


def read_or_refused(text: str, default_unit: Unit) -> float | LengthError:
    try:
        return length_from_text(text, default_unit)
    except LengthError as refusal:
        return refusal


@given(steps=STEPS, denominator=st.sampled_from((16, 32)), default_unit=UNITS)
def test_feet_and_inches_read_back_as_the_same_sixteenth_or_thirty_second(
    steps: int, denominator: int, default_unit: Unit
) -> None:
    length = Fraction(254, 10) * steps / denominator
    for printed in (feet_inches_from_length, inches_from_length):
        assert exact_length_from_text(printed(float(length), denominator), default_unit) == length


@given(tenths=st.integers(-10_000_000, 10_000_000), unit=st.sampled_from(("mm", "cm", "m")), default_unit=UNITS)
def test_metric_lengths_read_back_as_the_same_tenth_of_a_millimetre(
    tenths: int, unit: Unit, default_unit: Unit
) -> None:
    printed = decimal_from_length(tenths / 10, unit)
    assert exact_length_from_text(printed, default_unit) == Fraction(tenths, 10)
    assert exact_length_from_text(printed.replace(".", ","), default_unit) == Fraction(tenths, 10)


@given(length=st.floats(-9e5, 9e5), denominator=st.sampled_from(DENOMINATORS))
def test_what_is_printed_lies_within_half_a_step(length: float, denominator: int) -> None:
    half = Fraction(254, 20) / denominator
    slack = half / 10**8
    assert abs(exact_length_from_text(inches_from_length(length, denominator)) - Fraction(length)) <= half + slack


@given(length=st.floats(0.01, 9e5), denominator=st.sampled_from(DENOMINATORS))
def test_a_length_and_its_opposite_are_printed_alike_but_for_the_sign(length: float, denominator: int) -> None:
    up, down = feet_inches_from_length(length, denominator), feet_inches_from_length(-length, denominator)
    assert down == (up if up == '0"' else f"-{up}")


@given(
    number=st.decimals(0, 300, places=4),
    word=st.sampled_from(sorted(WORDS)),
    gap=st.sampled_from(("", " ", "  ", "\u00a0", "\u202f")),
    default_unit=UNITS,
)
def test_a_named_unit_counts_whatever_the_default(number: Fraction, word: str, gap: str, default_unit: Unit) -> None:
    expected = Fraction(number) * MM_PER_UNIT[WORDS[word]]
    assert exact_length_from_text(f"{number}{gap}{word.upper()}", default_unit) == expected
    assert exact_length_from_text(f"-{number}{gap}{word}", default_unit) == -expected


@given(text=st.one_of(st.text(max_size=80), LENGTH_LIKE), default_unit=UNITS)
def test_any_text_is_a_length_within_a_kilometre_or_a_refusal_from_the_closed_set(
    text: str, default_unit: Unit
) -> None:
    found = read_or_refused(text, default_unit)
    if isinstance(found, LengthError):
        assert found.code in PROBLEMS
        assert problem_at("levels", found.code, **found.values).message == str(found)
    else:
        assert math.isfinite(found)
        assert abs(found) <= 1e6


def test_a_length_too_far_is_told_in_figures_without_needless_digits() -> None:
    with pytest.raises(LengthError, match=r"^1000010 is too large: the most is 1000000\.$"):
        length_from_text("100001", "cm")


def test_a_million_characters_are_refused_by_their_count() -> None:
    with pytest.raises(LengthError) as refusal:
        length_from_text("9" * 1_000_000)
    assert refusal.value.code == "too_long"
    assert len(str(refusal.value)) < 100


@pytest.mark.parametrize("length", [math.nan, math.inf, -math.inf])
def test_a_length_that_is_not_finite_is_not_printed(length: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        feet_inches_from_length(length)
    with pytest.raises(ValueError, match="finite"):
        decimal_from_length(length, "mm")


@pytest.mark.parametrize("denominator", [0, -16, 3, 10, 128])
def test_a_rule_divides_inches_in_halves_of_halves_only(denominator: int) -> None:
    with pytest.raises(ValueError, match="divided"):
        inches_from_length(100.0, denominator)


def test_the_inch_and_the_foot_are_what_the_international_agreement_of_1959_says() -> None:
    assert MM_PER_UNIT["in"] == Fraction("25.4")
    assert MM_PER_UNIT["ft"] == Fraction("304.8")
