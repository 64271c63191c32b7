"""The check of the finished bed in the room document: against which limits, and what was measured on it."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length, time
from evenbed.engine.document.places import Point

Standard = Literal[
    "ansi_a108_02",
    "bs_8204_sr1",
    "bs_8204_sr2",
    "bs_8204_sr3",
    "din_18202_2",
    "din_18202_3",
    "din_18202_4",
    "aci_117_20_15",
    "aci_117_25_20",
    "aci_117_35_25",
    "aci_117_45_35",
    "aci_117_60_40",
    "own",
]
"""The rule that the bed is held against; `own` are the company's limits."""
TouchWay = Literal["rub", "fill"]


@dataclass(frozen=True)
class GapLimit:
    """The most that may stand open under a straightedge of one length."""

    gap: float = length(about="Most that may stand open under it", low=0.1, high=500.0)
    length: float = length(about="Length of the straightedge", low=50.0, high=30_000.0)


@dataclass(frozen=True)
class FlatnessDesign:
    """Against which limits the bed is checked."""

    standard: Standard = described("ansi_a108_02", about="Whose limits hold")
    own: tuple[GapLimit, ...] = described((), about="The company's own limits, for `own`", most=20)


@dataclass(frozen=True)
class MeasuredGap:
    """What a wedge showed under a straightedge laid on the bed, where it lay."""

    start: Point = height(about="One end of the straightedge", key="from")
    end: Point = height(about="The other end", key="to")
    gap: float = length(about="What stood open under it at the worst place", high=500.0)
    id: str = described("", about="Its name in this document")
    at: Point | None = height(None, "Where it stood open most; null: not told")
    passed_over: bool = described(
        False, about="True where the straightedge was passed over the whole bed, and this was the worst it showed"
    )
    taken_at: str | None = time(None, "When it was measured")


@dataclass(frozen=True)
class HeightLine:
    """Heights along a straight line over the bed, equally far apart, as a profile is measured for F-numbers."""

    heights: tuple[float, ...] = height(about="Heights in order, of any zero", most=2_000)
    spacing: float = length(300.0, "From each to the next", low=10.0, high=5_000.0)
    id: str = described("", about="Its name in this document")
    start: Point | None = height(None, "Where the first was taken; null: not told", key="from")
    end: Point | None = height(None, "Towards where the line runs; null: not told", key="to")
    taken_at: str | None = time(None, "When it was measured")


TOUCH_REACH = (
    300.0  # mm: about as far as a wood float reaches from the middle of a place (common practice, no source)
)


@dataclass(frozen=True)
class Touch:
    """A place of the bed that somebody rubbed down or filled up: what was read there before is out of date."""

    at: Point = height(about="Where")
    way: TouchWay = described(about="Rubbed down or filled up")
    done_at: str = time(about="When")
