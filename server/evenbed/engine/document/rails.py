"""Rails in the room document: the tools at hand, what a person laid, and what a level showed."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import FARTHEST, described, height, length, time
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class Strip:
    """The strip that makes a rail."""

    thickness: float = length(25.4, "Height of the strip as it lies", low=1.0, high=200.0)
    width: float = length(38.1, "Width of the strip as it lies", low=1.0, high=500.0)
    length: float = length(2438.4, "Length of one strip", low=100.0, high=20_000.0)


@dataclass(frozen=True)
class StripsOnHand:
    """Strips of one length and thickness that are on hand."""

    thickness: float = length(about="Height of the strip as it lies", low=1.0, high=200.0)
    length: float = described(about="Length of one strip", unit="mm", low=100.0, high=20_000.0)
    count: int = described(2, about="How many of them", low=1, high=200)
    width: float | None = described(
        None, about="Width as it lies; null for the width of `strip`", unit="mm", low=1.0, high=500.0
    )


@dataclass(frozen=True)
class RailLine:
    """A rail's line as a person placed it."""

    start: Point = described(about="Its beginning", unit="mm", key="from", low=-FARTHEST, high=FARTHEST)
    end: Point = described(about="Its end", unit="mm", key="to", low=-FARTHEST, high=FARTHEST)
    id: str = described("", about="Its name in this document")


@dataclass(frozen=True)
class RailDesign:
    """How rails are laid: the tools at hand and the habits."""

    straightedge: float = length(1828.8, "Length of the straightedge", low=200.0, high=20_000.0)
    straightedges: tuple[float, ...] = described(
        (), about="Further straightedges on hand, by length", unit="mm", low=200.0, high=20_000.0, most=20
    )
    bearing: float = length(50.8, "How much of it rests on each rail", high=1000.0)
    inset: float = length(152.4, "Rail's centre line to the wall", high=2000.0)
    strip: Strip = described(Strip(), about="The strip that makes a rail")
    strips: tuple[StripsOnHand, ...] = described(
        (), about="Strips on hand; none told: as many of `strip` as it takes", most=20
    )
    overlap: float = length(304.8, "Strip kept in finished bed at a move", high=5000.0)
    station_spacing: float = length(609.6, "Most between stations", low=50.0, high=10_000.0)
    direction: float | Literal["auto"] = described(
        "auto", about="Way the rails run, anticlockwise from +x", unit="degree", low=-360.0, high=360.0
    )
    lines: tuple[RailLine, ...] | None = described(
        None, about="The rails as a person placed them, side by side; null for the ones proposed", most=500
    )
    tolerance: float = length(1.5875, "Most a rail may be out before it is corrected", low=0.1, high=20.0)
    wood: bool = described(True, about="True where the strips are of wood, which is soaked before it is bedded")


@dataclass(frozen=True)
class Check:
    """What a level showed on a rail or across two of them."""

    id: str = described("", about="Its name in this document")
    rail: str | None = described(None, about="The rail the level lay along")
    rails: tuple[str, str] | None = described(None, about="The two rails it bridged")
    start: float = length(0.0, "Where its one end lay, from the rail's beginning (the first rail's)", key="from")
    end: float = length(0.0, "Where its other end lay, from the rail's beginning (the second rail's)", key="to")
    off: float = height(0.0, "How far out over its length, + where the `to` end is high")
    length: float = length(0.0, "Length of the level; 0 for the distance between `from` and `to`")
    reversed_off: float | None = height(None, "The same with the level turned end for end")
    level: str = described("", about="Which level it was; each has an error of its own")
    taken_at: str | None = time(None, "When it was read")


@dataclass(frozen=True)
class Truing:
    """A rail that was taken up and bedded anew: by how much each end of its strip was moved."""

    rail: str = described(about="The rail's id")
    from_raise: float = height(0.0, "How much its beginning was raised; negative where it was let down")
    to_raise: float = height(0.0, "How much its end was raised")
    at: str | None = time(None, "When; readings before it no longer tell how the rail lies")
    lie: int | None = described(None, about="Which lie of its strip, by its order; null for all of the rail", low=1)
