"""About where the floor lies: a plane through the lowest dense level of every part of the room.

A ceiling, a table or a wall may show more points than the floor beneath; they lie higher, and the floor is taken to
be the lowest level that holds a fair share of a part's points. Parts that show no floor at all (a bench that covers
everything) are outvoted by the rest.
"""

import numpy as np

from evenbed.engine.geometry import Plane
from evenbed.scans.cloud import Numbers, Whole
from evenbed.scans.faults import ScanError
from evenbed.scans.placing import Seat, lowest_dense
from evenbed.scans.room import Room
from evenbed.scans.sample import Sample

REACH = 150.0  # mm from the plane: what lies further off is not floor; more than any bed that is still mortar
WINDOW = 20.0  # mm that a dense level is thick
FAIR_SHARE = 0.3
PARTS = 8  # along each side of the room
LEAST_POINTS = 5  # in a part that has a say
MOST_ROUNDS = 25


def floor_of(sample: Sample, seat: Seat, room: Room, unit: str) -> Plane:
    """The plane, in the room's mm. Raises ScanError `scan_no_floor` where too few points lie in the room."""
    x, y, z = seat.placed((sample.x, sample.y, sample.z))
    inside = room.holds(x, y)
    count = int(inside.sum())
    if count < LEAST_POINTS:
        share = sample.count / len(sample.x)
        raise ScanError("scan_no_floor", inside=round(count * share), count=sample.count, unit=unit)
    return _plane(*_levels(room, x[inside], y[inside], z[inside]))


def _levels(room: Room, x: Numbers, y: Numbers, z: Numbers) -> tuple[Numbers, Numbers, Numbers]:
    """The middle of every part that has a say, and its lowest dense level."""
    x_low, y_low, *_ = room.box
    dx, dy = room.size[0] / PARTS, room.size[1] / PARTS
    column, row = (np.clip((v / d).astype(np.intp), 0, PARTS - 1) for v, d in ((x - x_low, dx), (y - y_low, dy)))
    rising = np.argsort(z)
    part = (row * PARTS + column).astype(np.int16)[rising]
    order = np.argsort(part, kind="stable")
    part, z = part[order], z[rising[order]]
    starts = np.flatnonzero(np.r_[True, part[1:] != part[:-1]])
    ends = np.r_[starts[1:], len(part)]
    least = min(LEAST_POINTS, int((ends - starts).max()))
    heard = [(part[a], z[a:b]) for a, b in zip(starts, ends, strict=True) if b - a >= least]
    numbers = np.array([number for number, _ in heard])
    levels = np.array([_level(heights) for _, heights in heard])
    return x_low + (numbers % PARTS + 0.5) * dx, y_low + (numbers // PARTS + 0.5) * dy, levels


def _level(rising: Numbers) -> float:
    low = lowest_dense(rising, WINDOW, FAIR_SHARE)
    return float(np.median(rising[(rising >= low) & (rising <= low + WINDOW)]))


def _plane(x: Numbers, y: Numbers, levels: Numbers) -> Plane:
    """The plane through most levels, found by leaving out what is off and fitting again until nothing changes."""
    kept = _around(levels, lowest_dense(np.sort(levels), REACH, 0.5))
    plane = Plane(float(np.median(levels[kept])), 0.0, 0.0)
    for _ in range(MOST_ROUNDS):
        plane = _fitted(x[kept], y[kept], levels[kept])
        off = levels - (plane.a + plane.b * x + plane.c * y)
        again = np.flatnonzero(np.abs(off) <= REACH)
        if len(again) == 0 or np.array_equal(again, kept):
            break
        kept = again
    return plane


def _around(levels: Numbers, low: float) -> Whole:
    return np.flatnonzero((levels >= low) & (levels <= low + REACH))


def _fitted(x: Numbers, y: Numbers, levels: Numbers) -> Plane:
    """The least-squares plane; level where there are too few places to tell a slope."""
    middle_x, middle_y, middle = float(x.mean()), float(y.mean()), float(levels.mean())
    places = np.column_stack((x - middle_x, y - middle_y))
    if len(places) < 3 or np.linalg.matrix_rank(places, tol=1.0) < 2:
        return Plane(middle, 0.0, 0.0)
    b, c = (float(slope) for slope in np.linalg.lstsq(places, levels - middle, rcond=None)[0])
    return Plane(middle - b * middle_x - c * middle_y, b, c)
