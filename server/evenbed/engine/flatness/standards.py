"""What the standards allow to stand open under a straightedge, by its length. Lengths and gaps are mm.

Every table is published; `tests/published/test_flatness.py` names the source of each beside its figures.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.document.flatness import FlatnessDesign, Standard

FOOT, INCH = 304.8, 25.4  # mm
LARGE_EDGE = 15.0 * INCH  # a tile with an edge this long, or longer, is a large one: ANSI A108.02
SHORTEST = 10.0  # mm: less is no straightedge
USUAL = 2000.0  # mm: the straightedge most used with DIN 18202 (common practice, no source)
SLACK = 0.02  # of its length: a straightedge is taken for one of a rule's length, as tapped on a drawing

BASES = {
    "ansi_small_long": "ANSI A108.02, all edges of the tile under 15 in: 1/4 in in 10 ft",
    "ansi_small_short": "ANSI A108.02, all edges of the tile under 15 in: 1/16 in in 1 ft",
    "ansi_large_long": "ANSI A108.02, an edge of the tile 15 in or longer: 1/8 in in 10 ft",
    "ansi_large_short": "ANSI A108.02, an edge of the tile 15 in or longer: 1/16 in in 24 in",
    "bs_8204_sr1": "BS 8204, SR1: 3 mm under 2 m",
    "bs_8204_sr2": "BS 8204, SR2: 5 mm under 2 m",
    "bs_8204_sr3": "BS 8204, SR3: 10 mm under 2 m",
    "din_18202_2": "DIN 18202 table 3, row 2, linear between its spans, to the nearest mm",
    "din_18202_3": "DIN 18202 table 3, row 3, linear between its spans, to the nearest mm",
    "din_18202_4": "DIN 18202 table 3, row 4, linear between its spans, to the nearest mm",
    "aci_117_note": "Gap that goes with the FF asked for, under an unlevelled 10 ft straightedge; F-numbers decide",
    "own": "The company's own limits",
}
"""What a limit rests on, by its code."""

DIN_SPANS = (100.0, 1000.0, 4000.0, 10_000.0, 15_000.0)
DIN_LIMITS = {
    "din_18202_2": (5.0, 8.0, 12.0, 15.0, 20.0),
    "din_18202_3": (2.0, 4.0, 10.0, 12.0, 15.0),
    "din_18202_4": (1.0, 3.0, 9.0, 12.0, 15.0),
}
BS_LIMITS = {"bs_8204_sr1": 3.0, "bs_8204_sr2": 5.0, "bs_8204_sr3": 10.0}
ACI_NEEDS = {
    "aci_117_20_15": (20.0, 15.0),
    "aci_117_25_20": (25.0, 20.0),
    "aci_117_35_25": (35.0, 25.0),
    "aci_117_45_35": (45.0, 35.0),
    "aci_117_60_40": (60.0, 40.0),
}
ACI_LOCAL = 3.0 / 5.0  # of the overall F-numbers, the least of any one part
FF_GAPS = ((12.0, INCH / 2), (20.0, INCH * 5 / 16), (25.0, INCH / 4), (32.0, INCH * 3 / 16), (50.0, INCH / 8))
"""FF, and the gap under an unlevelled 10 ft straightedge that goes with it."""


@dataclass(frozen=True)
class Limit:
    """The most that may stand open under a straightedge of one length; `decides` is False for a mere note."""

    length: float
    gap: float
    code: str
    decides: bool = True

    @property
    def basis(self) -> str:
        """What it rests on, in English."""
        return BASES[self.code]


@dataclass(frozen=True)
class Limits:
    """All limits of one standard, the long straightedge first.

    `between` is the limit for any length between (None where there is none); a rule that has no such formula gives
    the least of what its lengths as long or longer allow.
    """

    standard: Standard
    rows: tuple[Limit, ...]
    between: Callable[[float], float | None] | None = None

    def fitting(self, longest: float) -> "Limits":
        """Of a table of many spans (`between`) those that fit a room, and the longest that does; else all.

        A bed may be beyond its limit at a length between two spans alone, so that the straightedge most used and the
        longest are laid too.
        """
        if self.between is None:
            return self
        spans = {row.length for row in self.rows if row.length <= longest} or {self.rows[-1].length}
        whole = float(min(math.floor(longest), self.rows[0].length))
        spans |= {length for length in (USUAL,) if length <= longest}
        spans |= {length for length in (whole,) if length > max(spans) * (1.0 + SLACK)}
        code = self.rows[0].code
        rows = [Limit(length, gap, code) for length in spans if (gap := self.between(length)) is not None]
        return Limits(self.standard, tuple(sorted(rows, key=lambda row: -row.length)), self.between)

    def at(self, length: float) -> float | None:
        """Most that may stand open under a straightedge of any length, None where no limit is for it.

        A gap never shrinks as the straightedge grows, so that what is over the limit of any that is as long or longer
        is over it under that one too. For one longer than the longest there is none.
        """
        if length < SHORTEST:
            return None
        if self.between is not None:
            return self.between(length)
        return min(
            (row.gap for row in self.rows if row.decides and length <= row.length * (1.0 + SLACK)), default=None
        )


def limits_of(design: FlatnessDesign, longest_edge: float) -> Limits:
    """The limits in force: `longest_edge` is the tile's, mm. A company's own may be none."""
    standard = design.standard
    if standard == "ansi_a108_02":
        return Limits(standard, _ansi(longest_edge))
    if standard in BS_LIMITS:
        return Limits(standard, (Limit(2000.0, BS_LIMITS[standard], standard),))
    if standard in DIN_LIMITS:
        table = DIN_LIMITS[standard]
        rows = tuple(Limit(span, gap, standard) for span, gap in zip(DIN_SPANS, table, strict=True))
        return Limits(standard, rows[::-1], lambda length: din_limit(table, length))
    if standard in ACI_NEEDS:
        gap = gap_of_ff(ACI_NEEDS[standard][0])
        return Limits(standard, (Limit(10.0 * FOOT, gap, "aci_117_note", decides=False),))
    own = sorted({(row.length, row.gap) for row in design.own}, reverse=True)
    return Limits(standard, tuple(Limit(length, gap, "own") for length, gap in own))


def _ansi(longest_edge: float) -> tuple[Limit, ...]:
    if longest_edge < LARGE_EDGE:
        return Limit(10.0 * FOOT, INCH / 4.0, "ansi_small_long"), Limit(FOOT, INCH / 16.0, "ansi_small_short")
    return Limit(10.0 * FOOT, INCH / 8.0, "ansi_large_long"), Limit(2.0 * FOOT, INCH / 16.0, "ansi_large_short")


def din_limit(table: Sequence[float], length: float) -> float | None:
    """A row of DIN 18202 table 3 at any span: linear between its spans, to the nearest mm; beyond 15 m as at 15 m.

    None for less than 0.1 m.
    """
    if length < DIN_SPANS[0] * (1.0 - SLACK):
        return None
    return float(math.floor(_between(list(zip(DIN_SPANS, table, strict=True)), length) + 0.5))


def gap_of_ff(ff: float) -> float:
    """The gap under an unlevelled 10 ft straightedge that goes with an FF: linear between the published pairs."""
    return _between(list(FF_GAPS), ff)


def _between(pairs: Sequence[tuple[float, float]], at: float) -> float:
    """Linear between pairs in order; before the first and after the last as there."""
    for (low, first), (high, second) in pairwise(pairs):
        if at < high:
            return first + (second - first) * max(0.0, (at - low) / (high - low))
    return pairs[-1][1]
