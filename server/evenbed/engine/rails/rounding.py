"""Shims in whole sixteenths or millimetres, rounded so that neighbouring stations do not step."""

from collections.abc import Sequence
from itertools import pairwise

SIXTEENTH = 25.4 / 16.0  # mm
MILLIMETRE = 1.0  # mm
PARTS = 1_000_000  # of a unit: errors are weighed in whole numbers of them, so that equal ways are equal
MOST_OUT = 750_000  # parts that a shim may be out by: further, and two rails set so would stand apart by an eighth
_Errors = tuple[int, ...]
_Way = tuple[int, int, int]  # squared differences and squared errors so far, and which choice the one before made


def rounded_shims(shims: Sequence[float], unit: float) -> tuple[int, ...]:
    """The shims of a rail's stations, in order, in whole units: each rounded down or up, out by 3/4 of one at most.

    A strip lies on its ramps like a ruler on pegs: what two neighbours are out by alike only lifts it, what they are
    out by differently tilts it. So of all ways to round, first the largest difference of two neighbours' errors is
    least, then the sum of these differences squared, then the sum of the errors squared; of equal ways the one that
    rounds down. Shims are mm, `unit` is mm and positive; a shim of 0 or more never rounds below 0.
    """
    if not shims:
        return ()
    heights = [round(shim / unit * PARTS) for shim in shims]
    errors = [_errors_at(height) for height in heights]
    chosen = _smoothest(errors, _least_tilt(errors))
    return tuple((height + error) // PARTS for height, error in zip(heights, chosen, strict=True))


def _errors_at(height: int) -> _Errors:
    """What rounding down and what rounding up is out by, where that is not too far; a whole height has no choice."""
    over = height % PARTS
    return tuple(error for error in (-over, PARTS - over) if abs(error) <= MOST_OUT) if over else (0,)


def _least_tilt(errors: Sequence[_Errors]) -> int:
    """The least that the largest difference of two neighbours' errors can be."""
    most = [0 for _ in errors[0]]
    for before, here in pairwise(errors):
        most = [min(max(m, abs(e - b)) for m, b in zip(most, before, strict=True)) for e in here]
    return min(most)


def _smoothest(errors: Sequence[_Errors], most: int) -> list[int]:
    """The best choice of errors among those in which no two neighbours differ by more than `most`."""
    ways: list[list[_Way | None]] = [[(0, e * e, 0) for e in errors[0]]]
    for before, here in pairwise(errors):
        ways.append([_best_way(ways[-1], before, e, most) for e in here])
    _, at = min((way, n) for n, way in enumerate(ways[-1]) if way)
    chosen: list[int] = []
    for choices, stage in zip(reversed(errors), reversed(ways), strict=True):
        chosen.append(choices[at])
        way = stage[at]
        at = way[2] if way else at
    return chosen[::-1]


def _best_way(ways: Sequence[_Way | None], before: _Errors, error: int, most: int) -> _Way | None:
    """The best way to a station that is out by `error`; None where every step to it is larger than `most`."""
    open_ways = (
        (way[0] + (error - b) ** 2, way[1] + error * error, n)
        for n, (way, b) in enumerate(zip(ways, before, strict=True))
        if way and abs(error - b) <= most
    )
    return min(open_ways, default=None)
