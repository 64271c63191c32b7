"""Of many planes that take equally little mortar, the one that falls least."""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

Half = tuple[float, float, float]  # u x + v y >= least
Vector = tuple[float, float]
ROUNDING = 1e-9  # mm by which a demand may be missed
FLAT = 1e-9  # factors below this say nothing of the lean; of directions: parallel


def nearest_to_level(halves: Iterable[Half]) -> Vector | None:
    """The point nearest to (0, 0) that lies in every half-plane; None where there is none.

    It lies in the origin, at the foot on one half-plane's edge or where two edges meet. Taken in are only the
    half-planes that are missed, the worst first, until none is: few, however many are given.
    """
    given = [half for half in halves if math.hypot(*half[:2]) > FLAT]
    taken: list[Half] = []
    while True:
        kept = [at for at in _candidates(taken) if _worst(taken, at) >= -ROUNDING]
        if not kept:
            return None
        best = min(kept, key=lambda at: (math.hypot(*at), at))
        missed = [_over(half, best) for half in given]
        if min(missed, default=0.0) >= -ROUNDING:
            return best
        taken.append(given[missed.index(min(missed))])


def _candidates(halves: Sequence[Half]) -> Iterator[Vector]:
    yield 0.0, 0.0
    for u, v, least in halves:
        square = u * u + v * v
        yield u * least / square, v * least / square
    for (u, v, least), (s, t, other) in combinations(halves, 2):
        turn = u * t - v * s
        if abs(turn) > FLAT * math.hypot(u, v) * math.hypot(s, t):
            yield (least * t - other * v) / turn, (other * u - least * s) / turn


def _over(half: Half, at: Vector) -> float:
    return half[0] * at[0] + half[1] * at[1] - half[2]


def _worst(halves: Sequence[Half], at: Vector) -> float:
    return min((_over(half, at) for half in halves), default=0.0)
