"""Symmetric matrices as triangles: what least squares with correlated errors stands on.

A lower triangle is a list of rows, row i with i + 1 entries, the last of them the pivot.
"""

import math
from collections.abc import Iterable, Sequence
from operator import mul

Row = list[float]
LEAST_PIVOT = 1e-10  # of the diagonal: two places so near that rounding makes them one


def lower_from(matrix: Iterable[Sequence[float]]) -> list[Row]:
    """L with L Lᵀ = matrix (Cholesky), for a symmetric positive matrix of which only the lower triangle is read.

    A pivot that rounding leaves at nothing or less becomes LEAST_PIVOT of its diagonal.
    """
    lower: list[Row] = []
    for given in matrix:
        row: Row = []
        for j, other in enumerate(lower):
            row.append((given[j] - sum(map(mul, row, other))) / other[j])
        diagonal = given[len(lower)]
        row.append(math.sqrt(max(diagonal - sum(map(mul, row, row)), LEAST_PIVOT * diagonal)))
        lower.append(row)
    return lower


def solved(lower: Sequence[Row], given: Iterable[float]) -> Row:
    """x with L x = given."""
    found: Row = []
    for row, value in zip(lower, given, strict=True):
        found.append((value - sum(map(mul, row, found))) / row[-1])
    return found


def dot(a: Iterable[float], b: Iterable[float]) -> float:
    """Sum of the products, entry by entry, as long as both last."""
    total: float = sum(map(mul, a, b))
    return total


def log_pivots(lower: Iterable[Row]) -> float:
    """Half the logarithm of the matrix's determinant."""
    return math.fsum(math.log(row[-1]) for row in lower)
