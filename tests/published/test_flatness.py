"""Published tables of flatness, and a measured slab with published figures."""

from typing import get_args

import pytest

from evenbed.engine.document.flatness import FlatnessDesign, GapLimit, Standard
from evenbed.engine.flatness.fnumbers import Heights, combined, f_numbers_of, numbers_of
from evenbed.engine.flatness.standards import ACI_LOCAL, ACI_NEEDS, BASES, FF_GAPS, gap_of_ff, limits_of

INCH, FOOT = 25.4, 304.8
SMALL, LARGE = 300.0, 600.0  # longest edges of tiles, mm
PRINTED = 0.0005  # mm: the published q have three decimals
ROUNDED = 0.005  # of an F-number with two decimals

# Line a and line c of a slab (an engineering sheet of a US national laboratory, 2003; mm), with the q it prints.
LINE_A = (
    418.617, 419.938, 421.894, 423.748, 425.221, 424.739, 423.799, 424.307, 425.425, 424.688, 423.164, 422.758,
    420.472, 416.738,
)  # fmt: skip
Q_A = (0.635, -0.102, -0.381, -1.956, -0.457, 1.448, 0.610, -1.854, -0.787, 1.118, -1.880, -1.448)
LINE_C = (
    418.338, 419.659, 419.227, 419.227, 418.668, 418.186, 418.973, 419.379, 420.141, 419.532, 418.643, 418.719,
    416.763, 414.782,
)  # fmt: skip
Q_C = (-1.753, 0.432, -0.559, 0.076, 1.270, -0.381, 0.356, -1.372, -0.279, 0.965, -2.032, -0.025)


def told(standard: Standard, edge: float = SMALL) -> list[tuple[float, float]]:
    return [(row.length, row.gap) for row in limits_of(FlatnessDesign(standard), edge).rows]


def test_ansi_a108_02_by_the_tiles_longest_edge() -> None:
    """As quoted by the US Access Board and in two trade journals."""
    small = [(10 * FOOT, INCH / 4), (FOOT, INCH / 16)]
    large = [(10 * FOOT, INCH / 8), (2 * FOOT, INCH / 16)]
    assert told("ansi_a108_02", 15 * INCH - 0.01) == small
    assert told("ansi_a108_02", 15 * INCH) == large
    assert told("ansi_a108_02", LARGE) == large


@pytest.mark.parametrize(("standard", "limit"), [("bs_8204_sr1", 3.0), ("bs_8204_sr2", 5.0), ("bs_8204_sr3", 10.0)])
def test_bs_8204_under_two_metres(standard: Standard, limit: float) -> None:
    """The Concrete Society."""
    assert told(standard) == [(2000.0, limit)]


@pytest.mark.parametrize(
    ("standard", "limits"),
    [("din_18202_2", (5, 8, 12, 15, 20)), ("din_18202_3", (2, 4, 10, 12, 15)), ("din_18202_4", (1, 3, 9, 12, 15))],
)
def test_din_18202_table_3_by_span(standard: Standard, limits: tuple[float, ...]) -> None:
    """DIN 18202 table 3 as printed in two places; linear between, to the nearest mm."""
    spans = (100, 1000, 4000, 10_000, 15_000)
    assert told(standard)[::-1] == list(zip(spans, limits, strict=True))
    between = limits_of(FlatnessDesign(standard), SMALL)
    assert [between.at(span) for span in spans] == list(limits)
    assert between.at(20_000) == limits[-1]
    assert between.at(50) is None


@pytest.mark.parametrize(
    ("span", "limit"), [(2000, 6), (2500, 7), (2499, 7), (1250, 5), (1249, 4), (550, 3), (7000, 11)]
)
def test_din_18202_row_3_between_its_spans(span: float, limit: float) -> None:
    """By hand: 4 + (span − 1) × 6 / 3 from 1 to 4 m, 2 + (span − 0.1) × 2 / 0.9 below, 10 + (span − 4) / 3 above."""
    assert limits_of(FlatnessDesign("din_18202_3"), SMALL).at(span) == limit


def test_aci_117_overall_numbers_and_their_local_share() -> None:
    """ACI 117-10, table 4.8.5.1."""
    assert list(ACI_NEEDS.values()) == [(20, 15), (25, 20), (35, 25), (45, 35), (60, 40)]
    assert ACI_LOCAL == 3 / 5


def test_gaps_under_an_unlevelled_ten_foot_straightedge_by_ff() -> None:
    """US Access Board: FF 12, 1/2 in; 20, 5/16; 25, 1/4; 32, 3/16; 50, 1/8."""
    published = {12: 1 / 2, 20: 5 / 16, 25: 1 / 4, 32: 3 / 16, 50: 1 / 8}
    assert {ff: gap / INCH for ff, gap in FF_GAPS} == pytest.approx(published)
    assert {ff: gap_of_ff(ff) / INCH for ff in published} == pytest.approx(published)


def test_every_standard_has_limits_with_a_basis() -> None:
    for standard in get_args(Standard):
        design = FlatnessDesign(standard, (GapLimit(3.0, 2000.0),))
        rows = limits_of(design, SMALL).rows
        assert rows
        assert {row.code for row in rows} <= BASES.keys()


def test_a_gap_between_two_lengths_of_a_rule_keeps_the_next_longer_ones_limit() -> None:
    ansi = limits_of(FlatnessDesign("ansi_a108_02"), SMALL)
    assert ansi.at(200.0) == ansi.at(FOOT) == INCH / 16
    assert ansi.at(2 * FOOT) == ansi.at(10 * FOOT) == INCH / 4
    assert ansi.at(16 * FOOT) is None


@pytest.mark.parametrize(("heights", "published"), [(LINE_A, Q_A), (LINE_C, Q_C)])
def test_the_bends_of_the_slab_are_as_published(heights: tuple[float, ...], published: tuple[float, ...]) -> None:
    """Published q against ours, to the printed digits' doubled rounding in heights."""
    bends = [c - 2 * b + a for a, b, c in zip(heights, heights[1:], heights[2:], strict=False)]
    assert bends == pytest.approx(published, abs=4 * PRINTED)


@pytest.mark.parametrize(("heights", "ff", "fl"), [(LINE_A, 28.77, 20.21), (LINE_C, 34.55, 39.55)])
def test_f_numbers_of_the_slab(heights: tuple[float, ...], ff: float, fl: float) -> None:
    """Derived from the slab's heights by the definitions of ASTM E1155M; its constants are from memory."""
    found_ff, found_fl = numbers_of(heights)
    assert found_ff == pytest.approx(ff, abs=ROUNDED)
    assert found_fl == pytest.approx(fl, abs=ROUNDED)


@pytest.mark.parametrize("heights", [LINE_A, LINE_C])
def test_doubled_heights_halve_both_numbers(heights: tuple[float, ...]) -> None:
    ff, fl = numbers_of(heights)
    twice_ff, twice_fl = numbers_of([2 * z for z in heights])
    assert fl is not None
    assert (2 * twice_ff, 2 * (twice_fl or 0.0)) == pytest.approx((ff, fl), rel=1e-9)


def test_two_lines_are_combined_as_the_standard_combines_two() -> None:
    """F1 F2 √((n1 + n2) / (n2 F1² + n1 F2²)), ASTM E1155, from memory."""
    (f1, _), (f2, _) = numbers_of(LINE_A), numbers_of(LINE_C)
    n1, n2 = 12, 12
    assert combined([(f1, n1), (f2, n2)]) == pytest.approx(f1 * f2 * ((n1 + n2) / (n2 * f1**2 + n1 * f2**2)) ** 0.5)


def test_lines_at_another_spacing_or_too_short_give_no_numbers() -> None:
    assert f_numbers_of([], True).needs == "no_lines"
    assert f_numbers_of([Heights("a", LINE_A, 500.0)], True).needs == "other_spacing"
    assert f_numbers_of([Heights("a", LINE_A[:3], 300.0)], True).needs == "too_short"
    assert f_numbers_of([Heights("a", LINE_A, 305.0)], True).needs is None


def test_levelness_is_of_level_tops_and_of_lines_of_twelve_heights() -> None:
    falling = f_numbers_of([Heights("a", LINE_A, 300.0)], False)
    short = f_numbers_of([Heights("a", LINE_A[:11], 300.0)], True)
    assert falling.overall is not None
    assert short.overall is not None
    assert (falling.overall.fl, falling.lines[0].fl, short.overall.fl) == (None, None, None)
