"""Many readings as a few: cells over the floor, each with its middle place, median height and standard error."""

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean, median

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane, box_of
from evenbed.engine.surface import fitted_plane

MOST_SPOTS = 100
COARSER = 1.12  # a cell's growth where there are too many
FEW = 3  # fewer readings have no median worth the name
MEDIAN_LOSS = math.pi / 2.0  # variance of a median over that of a mean, many normal readings
SPREAD = 1.4826  # standard deviation over median absolute deviation, normal readings


@dataclass(frozen=True, order=True)
class Spot:
    """A height known at a place, with its standard error."""

    at: Point
    z: float
    sigma: float


def thinned(spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """At most MOST_SPOTS spots in the order of their places, whatever order they came in; few stay as they are."""
    if len(spots) <= MOST_SPOTS:
        return tuple(sorted(spots))
    lean = fitted_plane([(*s.at, s.z) for s in sorted(spots)])
    cells = _few_cells(sorted(spots))
    return tuple(sorted(_spot_of(cell, lean) for cell in cells))


def _few_cells(spots: Sequence[Spot]) -> list[list[Spot]]:
    low_x, low_y, high_x, high_y = box_of([s.at for s in spots])
    side = math.sqrt((high_x - low_x) * (high_y - low_y) / MOST_SPOTS)
    side = max(side, max(high_x - low_x, high_y - low_y) / MOST_SPOTS)
    while True:
        cells: dict[tuple[int, int], list[Spot]] = defaultdict(list)
        for s in spots:
            cells[int((s.at[0] - low_x) / side), int((s.at[1] - low_y) / side)].append(s)
        if len(cells) <= MOST_SPOTS:
            return list(cells.values())
        side *= COARSER


def _spot_of(cell: Sequence[Spot], lean: Plane) -> Spot:
    """One spot for a cell's readings: the middle of their places, the median of what they stand off the plane."""
    if len(cell) == 1:
        return cell[0]
    at = fmean(s.at[0] for s in cell), fmean(s.at[1] for s in cell)
    off = [s.z - lean.at(*s.at) for s in cell]
    middle = median(off) if len(cell) >= FEW else fmean(off)
    known = fmean(s.sigma**2 for s in cell)
    if len(cell) < FEW:
        return Spot(at, lean.at(*at) + middle, math.sqrt(known / len(cell)))
    seen = (SPREAD * median(abs(v - middle) for v in off)) ** 2
    return Spot(at, lean.at(*at) + middle, math.sqrt(max(known, seen) * MEDIAN_LOSS / len(cell)))
