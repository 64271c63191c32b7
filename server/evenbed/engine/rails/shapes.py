"""What the plan says of rails: stations, lies of the strip, and places that no pair of rails serves."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point

HandKind = Literal["beside_wall", "rail_end", "alcove", "behind_fixture", "doorway", "narrow", "between"]
HandWay = Literal["overhanging_straightedge", "short_straightedge", "float"]


@dataclass(frozen=True)
class LaidStrip:
    """The strip a rail is made of."""

    thickness: float = described(about="Height as it lies", unit="mm")
    width: float = described(about="Width as it lies", unit="mm")
    length: float = described(about="Length of one", unit="mm")


@dataclass(frozen=True)
class Station:
    """A place on a rail where the ramp's height is given."""

    at: Point = height(about="Where on the drawing")
    along: float = length(about="From the rail's beginning")
    subfloor: float = height(about="Subfloor, z")
    top: float = height(about="Top of bed, z")
    shim: float = height(about="Height of the ramp under the strip: top less strip less subfloor")
    sixteenths: int = described(about="The shim in whole sixteenths of an inch, so that neighbours do not step")
    millimetres: int = described(about="The same in whole millimetres")
    is_break: bool = described(about="True where the top bends along the rail: at a hip, a valley, a drain's ring")


@dataclass(frozen=True)
class Setting:
    """One lie of a strip along a rail, in the order they are used."""

    order: int = described(about="1 is laid first, at the end away from the way out")
    start: float = length(about="Where the strip begins, from the rail's beginning", key="from")
    end: float = length(about="Where it ends, from the rail's beginning", key="to")
    stations: tuple[int, ...] = described(about="Stations under the strip, from the far end on, counted from 0")
    overlap: float = length(about="How much of it lies in finished bed; 0 for the first and after a break")
    strip: int | None = described(about="Which of the strips on hand, counted from 0; null where none were told")


@dataclass(frozen=True)
class Rail:
    """One rail: a straight line of strips whose top edges lie in the top of bed."""

    id: str = described(about="A letter from one side to the other, a number where the line is interrupted")
    start: Point = described(about="Its beginning", unit="mm", key="from")
    end: Point = described(about="Its end", unit="mm", key="to")
    strip: LaidStrip = described(about="The strip it is made of; where lengths differ, the longest")
    stations: tuple[Station, ...] = described(about="From its beginning to its end")
    settings: tuple[Setting, ...] = described(about="The strips' lies, first to last")
    ramp_volume: float = described(about="Mortar in its ramps, part of the bed's volume", unit="m3")


@dataclass(frozen=True)
class HandArea:
    """A place that no straightedge on a pair of rails serves, and how it is finished."""

    id: str = described(about="H1, H2, ... from one side to the other")
    kind: HandKind = described(about="What kind of place")
    way: HandWay = described(about="How it is finished")
    straightedge: float | None = described(about="The short straightedge that fits, null for none", unit="mm")
    at: Point = height(about="Its middle")
    polygon: tuple[Point, ...] = height(about="The place itself, anticlockwise")
    area: float = described(about="How much bed there is in it", unit="m2")


@dataclass(frozen=True)
class FirstStation:
    """Where to start: the station with the least shim of all."""

    rail: str = described(about="The rail's id")
    station: int = described(about="The station, counted from 0")
