"""From the scan's own numbers to the room's: which unit it is in, how it is turned, where it lies."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Block, Numbers
from evenbed.scans.faults import ScanError
from evenbed.scans.room import Room
from evenbed.scans.sample import Sample
from evenbed.scans.wishes import MM, Two, Wishes
from evenbed.wire.scans import ScanUnit, Up

UNLIKELY: Mapping[ScanUnit, float] = {"m": 0.0, "mm": 0.0, "ft": 0.25, "cm": 0.6, "in": 0.6}
"""What a unit has to fit better by (natural logarithm of size) than one that scans are usually saved in."""
DOUBTFUL = 0.4
SHORT = 2.0  # times as strange: a scan shows the next room too rather than half of this one
CLOSE = 1e-6  # of the size: two places nearer than this are one
FLOOR_BAND = 150.0  # mm above the lowest dense level: what the low-left corner is told by
LEAST_DENSITY = 0.1  # of the mean, along an axis: sparser is no edge of the floor but a stray


@dataclass(frozen=True)
class Unit:
    """The unit, and why."""

    name: ScanUnit
    came_from: str
    is_doubtful: bool = False

    @property
    def mm(self) -> float:
        """Its length in mm."""
        return MM[self.name]


@dataclass(frozen=True)
class Rule:
    """A number that rises evenly over the scan: by so much along its x, y and z, from so much where they are 0."""

    x: float
    y: float
    z: float
    base: float

    def of(self, block: Block) -> Numbers:
        """The number at each point."""
        rises = zip(block, (self.x, self.y, self.z), strict=True)
        value, *more = [axis * rise for axis, rise in rises if rise]
        for part in more:
            value += part
        value += self.base
        return value


@dataclass(frozen=True)
class Seat:
    """Where a scan sits in the room: scaled, turned to the left by an angle, then shifted. mm and radians."""

    scale: float
    up: Up
    turn: float = 0.0
    shift: tuple[float, float] = (0.0, 0.0)
    two_points_off: float | None = None

    def placed(self, block: Block) -> Block:
        """The points in the room, mm."""
        x, y, z = standing(block, self.up)
        x, y = x * self.scale, y * self.scale
        if self.turn:
            cos, sin = math.cos(self.turn), math.sin(self.turn)
            x, y = cos * x - sin * y, sin * x + cos * y
        if any(self.shift):
            x, y = x + self.shift[0], y + self.shift[1]
        return x, y, z * self.scale

    def rule(self, x: float, y: float, z: float, base: float) -> Rule:
        """The same number over the scan's own x, y and z that this is over those in the room."""
        cos, sin = math.cos(self.turn), math.sin(self.turn)
        across, along, high = (self.scale * rise for rise in (cos * x + sin * y, cos * y - sin * x, z))
        base += x * self.shift[0] + y * self.shift[1]
        return Rule(across, high, -along, base) if self.up == "y" else Rule(across, along, high, base)


def standing(block: Block, up: Up) -> Block:
    """The points with z upwards, turned about the x axis where the scan has y upwards."""
    x, y, z = block
    return (x, -z, y) if up == "y" else block


def bulk_of(axis: Numbers) -> float:
    """How far most points reach along an axis: all but the outermost hundredth at either end."""
    low, high = np.quantile(axis, (0.01, 0.99))
    return float(high - low)


def unit_of(sample: Sample, wishes: Wishes, room: Room) -> Unit:
    """The unit as chosen, or the one that makes the scan about as large as the room."""
    if wishes.unit != "auto":
        return Unit(wishes.unit, "chosen")
    if wishes.placing == "two_points":
        scan, here = _pair(wishes)
        ratio, came_from = math.dist(here[:2], here[2:]) / math.dist(scan[:2], scan[2:]), "two_points"
    else:
        x, y, _ = standing((sample.x, sample.y, sample.z), wishes.up)
        ratio, came_from = math.hypot(*room.size) / max(math.hypot(bulk_of(x), bulk_of(y)), 1e-12), "size"
    misfits = sorted((_misfit(math.log(ratio / MM[name])) + less, name) for name, less in UNLIKELY.items())
    return Unit(misfits[0][1], came_from, misfits[1][0] - misfits[0][0] < DOUBTFUL)


def _misfit(larger: float) -> float:
    """How strange it is that the room is so much larger than the scan (natural logarithm); smaller is less so."""
    return SHORT * larger if larger > 0 else -larger


def _pair(wishes: Wishes) -> tuple[Two, Two]:
    """The two places in the scan and in the room. Raises ScanError where they are one."""
    scan, here = wishes.in_scan or (0.0,) * 4, wishes.in_room or (0.0,) * 4
    for where, (ax, ay, bx, by) in (("scan", scan), ("room", here)):
        if math.hypot(bx - ax, by - ay) <= CLOSE * max(1.0, abs(ax), abs(ay), abs(bx), abs(by)):
            raise ScanError("scan_points_one", where=where)
    return scan, here


def seat_of(sample: Sample, wishes: Wishes, unit: Unit, room: Room) -> Seat:
    """Where the scan sits, as wished."""
    seat = Seat(unit.mm, wishes.up)
    if wishes.placing == "two_points":
        return _fitted(seat, *_pair(wishes))
    if wishes.placing == "corner":
        x, y = _low_corner(*seat.placed((sample.x, sample.y, sample.z)))
        return Seat(unit.mm, wishes.up, shift=(room.box[0] - x, room.box[1] - y))
    return seat


def _fitted(seat: Seat, scan: Two, here: Two) -> Seat:
    """Turned so that the two lines run the same way and shifted so that their middles meet; never stretched."""
    ax, ay, bx, by = (seat.scale * value for value in scan)
    turn = math.atan2(here[3] - here[1], here[2] - here[0]) - math.atan2(by - ay, bx - ax)
    turn = math.remainder(turn, 2 * math.pi)
    cos, sin, mx, my = math.cos(turn), math.sin(turn), (ax + bx) / 2, (ay + by) / 2
    shift = (
        (here[0] + here[2]) / 2 - (cos * mx - sin * my),
        (here[1] + here[3]) / 2 - (sin * mx + cos * my),
    )
    off = math.hypot(bx - ax, by - ay) - math.hypot(here[2] - here[0], here[3] - here[1])
    return Seat(seat.scale, seat.up, turn, shift, off)


def _low_corner(x: Numbers, y: Numbers, z: Numbers) -> tuple[float, float]:
    """The low-left corner of the floor, strays left out."""
    low = lowest_dense(np.sort(z), FLOOR_BAND / 3)
    is_low = (z >= low - FLOOR_BAND / 3) & (z <= low + FLOOR_BAND)
    return _dense_edge(np.sort(x[is_low])), _dense_edge(np.sort(y[is_low]))


def lowest_dense(rising: Numbers, window: float, share: float = 0.3) -> float:
    """The lowest value from which a window holds at least a share of what the fullest window holds."""
    held = np.searchsorted(rising, rising + window, "right") - np.arange(len(rising))
    return float(rising[np.argmax(held >= share * held.max())])


def _dense_edge(rising: Numbers) -> float:
    """The lowest value from which on the values stand at least about as dense as LEAST_DENSITY of the mean."""
    some = max(3, len(rising) // 1000)
    if len(rising) <= 2 * some:
        return float(rising[0])
    reach = bulk_of(rising) * some / len(rising) / LEAST_DENSITY
    is_dense = rising[some:] - rising[:-some] <= reach
    return float(rising[np.argmax(is_dense)])
