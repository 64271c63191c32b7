"""Weighted least squares of all readings together, with the covariances of what it finds."""

from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.triangular import Row, dot, lower_from, solved
from evenbed.engine.truing.equations import Equation, System, Terms


@dataclass(frozen=True)
class Solution:
    """What every unknown is, and `inverse`: the rows of L⁻¹ transposed, so that covariances are products of two."""

    values: Row
    inverse: list[Row]

    @cached_property
    def covariances(self) -> list[Row]:
        """The covariance of any two unknowns."""
        lower = [[dot(a, b) for b in self.inverse[: n + 1]] for n, a in enumerate(self.inverse)]
        return [[lower[max(i, j)][min(i, j)] for j in range(len(lower))] for i in range(len(lower))]

    def value(self, terms: Terms) -> float:
        """A sum of unknowns."""
        return sum(factor * self.values[n] for n, factor in terms.items())

    def covariance(self, one: Terms, other: Terms) -> float:
        """The covariance of two sums of unknowns."""
        rows = self.covariances
        return sum(f * g * rows[i][j] for i, f in one.items() for j, g in other.items())

    def variance(self, terms: Terms) -> float:
        """How uncertain a sum of unknowns is, squared."""
        return max(0.0, self.covariance(terms, terms))

    def residual(self, one: Equation) -> float:
        """What the unknowns leave unexplained of an equation."""
        return one.value - self.value(one.terms)


def solution_of(system: System) -> Solution:
    """The unknowns that make Σ (residual / sigma)² least. Beliefs on every unknown leave none without a value."""
    normal = [[0.0] * system.size for _ in range(system.size)]
    right = [0.0] * system.size
    for one in system.equations:
        weight = 1.0 / (one.sigma * one.sigma)
        for i, factor in one.terms.items():
            share, row = weight * factor, normal[i]
            right[i] += share * one.value
            for j, other in one.terms.items():
                row[j] += share * other
    lower = lower_from(normal)
    units = ([float(i == n) for i in range(system.size)] for n in range(system.size))
    inverse = [solved(lower, unit) for unit in units]
    forward = solved(lower, right)
    return Solution([dot(row, forward) for row in inverse], inverse)
