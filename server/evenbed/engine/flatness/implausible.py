"""What no limit of flatness forbids and nobody meant: a bed that leans as a whole, a reading far off the others."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point, Point3
from evenbed.engine.flatness.verdicts import DOUBT
from evenbed.engine.levels_check import are_on_a_line
from evenbed.engine.sifting import doubted_among
from evenbed.engine.surface import fitted_plane

USUAL_LEAN = 1.0 / 480.0  # 1/4 in in 10 ft off the design (common practice, no source)
FAR_OFF = (
    20.0  # mm: no bed that was cut off along rails is so far off between two readings (common practice, no source)
)
FEWEST = 4  # readings: three lie on a plane whatever they err by


@dataclass(frozen=True)
class FarOff:
    """A reading far off: where, and by how much it is above what those round it foretell, mm; below is negative."""

    at: Point
    by: float


@dataclass(frozen=True)
class Lean:
    """How the bed leans off its design as a whole: rise over run, and mm from side to side of what was read."""

    slope: float
    rise: float


def far_off_among(spots: Sequence[Point3]) -> tuple[FarOff, ...]:
    """Readings (x, y, mm above the design) more than FAR_OFF off what those round them foretell, the farthest first.

    None among fewer than six, or where the whole bed is no more uneven than that. A plane added to them changes
    nothing: what leans as a whole is no slip.
    """
    if len(spots) < FEWEST or _unevenness(spots) <= FAR_OFF:
        return ()
    doubted = (FarOff(spots[one.number][:2], spots[one.number][2] - one.told.z) for one in doubted_among(spots))
    return tuple(sorted((one for one in doubted if abs(one.by) > FAR_OFF), key=lambda one: (-abs(one.by), one.at)))


def _unevenness(spots: Sequence[Point3]) -> float:
    """From the lowest to the highest about the plane that fits best, mm; infinite where the spots tell of none."""
    if are_on_a_line([spot[:2] for spot in spots]):
        return math.inf
    plane = fitted_plane(spots)
    off = [z - plane.at(x, y) for x, y, z in spots]
    return max(off) - min(off)


def lean_of(spots: Sequence[Point3], sigma: float) -> Lean | None:
    """How the bed leans, where that is surely more than USUAL_LEAN; None else, or where readings tell of no plane.

    `sigma`, mm, is what a reading errs by; where readings scatter more about the plane, that scatter takes its place.
    """
    if len(spots) < FEWEST or are_on_a_line([spot[:2] for spot in spots]):
        return None
    plane = fitted_plane(spots)
    slope = math.hypot(plane.b, plane.c)
    if slope <= USUAL_LEAN:
        return None
    scatter = math.fsum((z - plane.at(x, y)) ** 2 for x, y, z in spots) / (len(spots) - 3)
    doubt = DOUBT * max(sigma, math.sqrt(scatter)) * _spread_of_slope(spots, (plane.b / slope, plane.c / slope))
    along = [(plane.b * x + plane.c * y) for x, y, _ in spots]
    return Lean(slope, max(along) - min(along)) if slope - doubt > USUAL_LEAN else None


def _spread_of_slope(spots: Sequence[Point3], way: Point) -> float:
    """Standard error of the fitted plane's slope along a way, for readings that err by 1 mm: least squares, 1/mm."""
    mx, my = (math.fsum(spot[k] for spot in spots) / len(spots) for k in (0, 1))
    away = [(x - mx, y - my) for x, y, _ in spots]
    xx, xy, yy = (math.fsum(d[i] * d[j] for d in away) for i, j in ((0, 0), (0, 1), (1, 1)))
    u, v = way
    return math.sqrt((u * u * yy - 2.0 * u * v * xy + v * v * xx) / (xx * yy - xy * xy))
