"""The least point of a few unknowns under many linear demands: three or four unknowns, tens of thousands of rows.

The dual simplex method with the inverse of the few rows that are active. What is least is lexicographic: the first
unknown, among equals the second, and so on, so that every answer is one point, and no choice of a row ever repeats
itself (A. Charnes, Optimality and Degeneracy in Linear Programming, 1952; C. E. Lemke, 1954; both from memory).
Each step looks for the row missed most and takes it in; the rows that are never missed cost one look a step.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import mul

Row = tuple[float, ...]  # the factors of the unknowns, then the least that their sum may be
MISSED = 1e-11  # of the largest number asked for: less is rounding
HAIR = 1e-14  # of the largest unknown: a cut nearer than this to the point moves it no more
LEAST_MISSED = 1e-9  # mm, the same where all numbers are small
SAME = 1e-9  # a factor this small is rounding of zero
DIGITS = 12  # after the point, to which ratios are compared
MOST_STEPS = 1000  # a room of 3200 readings takes about thirty

Cut = Callable[[Sequence[float]], Row | None]
Basis = list[int]
Inverse = list[list[float]]


class NoEndError(ArithmeticError):
    """Rounding keeps the steps from ending: the numbers are too far apart for floating point."""


@dataclass(frozen=True)
class Least:
    """The least point, and how much the first unknown falls by for each unit that a row is relieved by.

    `weights` has the active rows alone, none negative; rows beyond those given are the cuts, in the order they came.
    Where more rows meet in the point than it takes, they are those of one choice of enough of them.
    """

    point: tuple[float, ...]
    weights: dict[int, float]


@dataclass(frozen=True)
class Contradiction:
    """Rows that cannot all hold: multiplied by their weights and added up they ask for 0 ≥ something positive."""

    weights: dict[int, float]


def least_of(rows: Sequence[Row], cut: Cut | None = None) -> Least | Contradiction:
    """The lexicographically least point x with Σ row[k] x[k] ≥ row[-1] for every row.

    The first rows bound the unknowns from below, each in its turn: (1, 0, …, low), (0, 1, …, low), and so on. `cut`
    is asked at every point that keeps all rows for one more that this point misses; it answers None where there is
    none. Factors should be near 1 in size. Raises NoEndError beyond MOST_STEPS.
    """
    kept = list(rows)
    count = len(rows[0]) - 1
    slack = max(LEAST_MISSED, MISSED * max(abs(row[-1]) for row in rows[count:] or rows))
    basis: Basis = list(range(count))
    for _ in range(MOST_STEPS):
        inverse = _inverse([kept[n][:-1] for n in basis])
        point = _times(inverse, [kept[n][-1] for n in basis])
        entering = _most_missed(kept, point, slack, basis)
        if entering is None:
            more = cut(point) if cut else None
            if more is None or _over(more, point) > -HAIR * max(map(abs, point)):
                return Least(tuple(point), _weights(basis, inverse[0]))
            entering = len(kept)
            kept.append(more)
        shares = _times(list(zip(*inverse, strict=True)), kept[entering][:-1])
        leaving = _leaving(inverse, shares)
        if leaving is None:
            return Contradiction({entering: 1.0, **_weights(basis, [-share for share in shares])})
        basis[leaving] = entering
    raise NoEndError(f"no end after {MOST_STEPS} steps")


def _most_missed(rows: Sequence[Row], point: Sequence[float], slack: float, basis: Basis) -> int | None:
    """The row that the point misses by most, the first of equals; None where none is missed beyond rounding."""
    at = (*point, -1.0)
    over = [sum(map(mul, row, at)) for row in rows]
    for n in basis:
        over[n] = 0.0
    worst = min(over)
    return over.index(worst) if worst < -slack else None


def _over(row: Row, point: Sequence[float]) -> float:
    """By how much the point keeps a row; negative where it misses it."""
    return math.fsum(map(mul, row, (*point, -1.0)))


def _leaving(inverse: Inverse, shares: Sequence[float]) -> int | None:
    """Which active row makes room: the one whose weights run out first; None where none ever does."""
    columns = list(zip(*inverse, strict=True))
    ratios = {
        n: tuple(round(weight / share, DIGITS) for weight in columns[n])
        for n, share in enumerate(shares)
        if share > SAME
    }
    return min(ratios, key=lambda n: ratios[n], default=None)


def _weights(basis: Basis, weights: Sequence[float]) -> dict[int, float]:
    return {n: weight for n, weight in zip(basis, weights, strict=True) if weight > SAME}


def _times(matrix: Sequence[Sequence[float]], column: Sequence[float]) -> list[float]:
    return [sum(map(mul, row, column)) for row in matrix]


def _inverse(matrix: Sequence[Sequence[float]]) -> Inverse:
    """The inverse of a few rows by Gauss and Jordan, the largest pivot first."""
    size = len(matrix)
    work = [[*row, *(float(n == m) for m in range(size))] for n, row in enumerate(matrix)]
    for k in range(size):
        top = max(range(k, size), key=lambda n: abs(work[n][k]))
        work[k], work[top] = work[top], work[k]
        pivot = work[k][k]
        work[k] = [value / pivot for value in work[k]]
        for n, row in enumerate(work):
            if n != k and row[k]:
                factor = row[k]
                work[n] = [value - factor * lead for value, lead in zip(row, work[k], strict=True)]
    return [row[size:] for row in work]
