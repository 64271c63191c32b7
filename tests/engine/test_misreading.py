"""Each way to mis-read a rod is named from what was typed, and only where it fits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenbed.engine.misreading import RodReading, likely_slip
from evenbed.engine.units import length_from_text

SIGMA = 2.5  # mm


def inches(text: str) -> float:
    return length_from_text(text, "in")


# What was typed, its unit, what stood on the rod, and the slip.
SLIPS = [
    ("3' 5 7/16", "in", "3' 4 7/16", "whole_inch"),
    ("3' 5 7/16", "in", "3' 7 7/16", "whole_inch"),
    ("3' 5 7/16", "in", "4' 5 7/16", "whole_foot"),
    ("3' 5 7/16\"", "mm", "2' 5 7/16", "whole_foot"),
    ("41.5 in", "mm", "40.5", "whole_inch"),
    ("3' 5 4/16", "in", "3' 5 8/16", "fraction"),
    ("3' 5 8/16", "in", "3' 5", "fraction"),
    ("3' 5 3/16", "in", "3' 5 3/4", "fraction"),
    ("3' 5 2/16", "in", "3' 5 7/8", "wrong_way"),
    ("41 15/16", "in", "41 1/16", "wrong_way"),
    ("14 3/16", "in", "41 3/16", "transposed"),
    ("3' 5 3/16", "in", "5' 3 3/16", "transposed"),
    ("1049", "mm", "1094 mm", "transposed"),
    ("1049", "mm", "1059 mm", "whole_centimetre"),
    ("1049", "mm", "1019 mm", "whole_centimetre"),
    ("1049", "mm", "949 mm", "whole_decimetre"),
    ("1.049", "m", "2049 mm", "whole_metre"),
    ("104.9", "cm", "109.4 cm", "transposed"),
    ("2' 7 8/16", "in", "2.75 ft", "other_side"),
    ("2.625 ft", "in", "2' 6 1/4", "other_side"),
    ("1049", "mm", "1100 mm", ""),
    ("41.0", "in", "410 mm", "other_side"),
    ("413", "mm", "41.3 in", "other_side"),
]


@pytest.mark.parametrize(("typed", "unit", "truth", "kind"), SLIPS)
def test_a_slip_is_named_from_what_was_typed(typed: str, unit: str, truth: str, kind: str) -> None:
    down, meant = length_from_text(typed, unit), inches(truth)  # type: ignore[arg-type]
    slip = likely_slip(RodReading(down, typed), meant, SIGMA)
    assert (slip.kind if slip else "") == kind
    assert slip is None or slip.down == pytest.approx(meant, abs=0.1)


@pytest.mark.parametrize(
    ("down", "meant", "kind"),
    [
        (1049.0, 1094.0, "transposed"),
        (25.4 * 41, 25.4 * 14, "transposed"),
        (25.4 * 41.125, 25.4 * 41.875, "wrong_way"),
        (1033.33, 1033.33 - 25.4, "whole_inch"),
        (1033.33, 1033.33 + 100.0, "whole_decimetre"),
        (-25.4 * 3.25, -25.4 * 3.75, "fraction"),
        (1033.33, 1033.33 + 60.0, None),
    ],
)
def test_without_a_text_the_digits_are_those_of_the_reading(down: float, meant: float, kind: str | None) -> None:
    slip = likely_slip(RodReading(down), meant, SIGMA)
    assert (slip and slip.kind) == kind
    assert slip is None or slip.down == pytest.approx(meant, abs=1e-6)


def test_a_metric_reading_is_no_inch_off_and_an_imperial_one_no_centimetre() -> None:
    metric, imperial = RodReading(1049.0, "1049"), RodReading(inches("41 5/16"), "41 5/16")
    assert likely_slip(metric, 1049.0 + 25.4, 1.0) is None
    assert likely_slip(imperial, imperial.down + 20.0, 0.5) is None


def test_the_simplest_slip_wins_where_two_fit() -> None:
    slip = likely_slip(RodReading(1098.0, "1098"), 1089.0, SIGMA)
    assert slip is not None
    assert (slip.kind, slip.down) == ("whole_centimetre", 1088.0)


@given(st.floats(-5000.0, 5000.0), st.text(max_size=12), st.floats(-5000.0, 5000.0), st.floats(0.5, 50.0))
def test_whatever_was_typed_the_slip_named_fits(down: float, typed: str, expected: float, sigma: float) -> None:
    slip = likely_slip(RodReading(down, typed), expected, sigma)
    assert slip is None or abs(slip.down - expected) <= 2.0 * sigma
