"""How fast a bed gathers maturity: by equivalent age (Arrhenius) or by the temperature-time factor (Nurse-Saul).

Both take a stretch of temperature as a quadratic through its two ends and its middle; where the middle lies half-way
that is a straight line.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil, exp, sqrt
from typing import Protocol

KELVIN = 273.15
STEEPEST = (
    1.0  # change of the exponent and of 1/T over one sub-interval that five Gauss–Legendre points carry to 1e-12
)
GENTLE = 0.01  # the same for two points,
HARDLY_BENT = 1e-4  # and for a bend, whose square two points miss
BENDS_COUNT = 3.0  # a bend takes sub-intervals so many times as short

# Abscissae and weights of Gauss–Legendre with five and two points, on 0 to 1 (Abramowitz and Stegun, table 25.4).
FIVE = (
    (0.04691007703066800, 0.11846344252809454),
    (0.23076534494715846, 0.23931433524968324),
    (0.5, 0.28444444444444444),
    (0.76923465505284154, 0.23931433524968324),
    (0.95308992296933200, 0.11846344252809454),
)
LOW_SHARE, HIGH_SHARE = 0.5 - sqrt(1.0 / 12.0), 0.5 + sqrt(1.0 / 12.0)


class Maturity(Protocol):
    """One way to count how far a bed has hardened."""

    def at(self, temperature_c: float) -> float:
        """What one hour at a temperature in °C gathers, 0 or more."""
        ...

    def gained(self, first_c: float, middle_c: float, last_c: float, hours: float) -> float:
        """What a stretch gathers whose temperature is the quadratic through its two ends and its middle."""
        ...


@dataclass(frozen=True)
class Rate:
    """Equivalent age, in the form of ASTM C1074 (from memory): hours at the reference that count the same.

    `activation` is Q in K (≥ 0), `reference` in °C is where the rate is 1.
    """

    activation: float
    reference: float

    def at(self, temperature_c: float) -> float:
        """Hours of equivalent age per hour at a temperature in °C, above absolute zero."""
        return exp(-self.activation * (1.0 / (temperature_c + KELVIN) - 1.0 / (self.reference + KELVIN)))

    def gained(self, first_c: float, middle_c: float, last_c: float, hours: float) -> float:
        """Equivalent age of a stretch, h: Gauss–Legendre on sub-intervals so short that it is right to 1e-10."""
        rise, bow = last_c - first_c, 4.0 * (middle_c - 0.5 * (first_c + last_c))
        coldest = min(first_c, middle_c, last_c) + KELVIN
        scale = (self.activation + coldest) / coldest**2  # of the exponent and of 1/T, a kelvin
        first, activation = first_c + KELVIN, -self.activation
        inverse = 1.0 / (self.reference + KELVIN)
        if scale * abs(rise) < GENTLE and scale * abs(bow) < HARDLY_BENT:
            low = first + LOW_SHARE * (rise + bow * HIGH_SHARE)
            high = first + HIGH_SHARE * (rise + bow * LOW_SHARE)
            return 0.5 * hours * (exp(activation * (1.0 / low - inverse)) + exp(activation * (1.0 / high - inverse)))
        steepness = scale * (abs(rise) + BENDS_COUNT * abs(bow))
        count = max(1, ceil(steepness / STEEPEST))
        total = 0.0
        for piece in range(count):
            for node, weight in FIVE:
                share = (piece + node) / count
                kelvin = first + share * (rise + bow * (1.0 - share))
                total += weight * exp(activation * (1.0 / kelvin - inverse))
        return total * hours / count


@dataclass(frozen=True)
class Factor:
    """The temperature-time factor, °C·h: Σ (T − datum) Δt, none below the datum (Nurse-Saul, Iowa DOT I.M. 383)."""

    datum: float

    def at(self, temperature_c: float) -> float:
        """°C·h of one hour at a temperature in °C: 0 at the datum and below."""
        return max(0.0, temperature_c - self.datum)

    def gained(self, first_c: float, middle_c: float, last_c: float, hours: float) -> float:
        """°C·h of a stretch, exact also where it crosses the datum."""
        first, middle, last = first_c - self.datum, middle_c - self.datum, last_c - self.datum
        bow = 4.0 * (middle - 0.5 * (first + last))
        if min(first, last) >= 0.0 and bow >= 0.0:
            return hours * (first + 4.0 * middle + last) / 6.0
        slope = last - first + bow

        def above(share: float) -> float:
            return first + share * (slope - bow * share)

        ends = [0.0, *_roots_within(first, slope, bow), 1.0]
        total = 0.0
        for low, high in pairwise(ends):
            centre = above(0.5 * (low + high))
            if centre > 0.0:
                total += (high - low) * (max(0.0, above(low)) + 4.0 * centre + max(0.0, above(high))) / 6.0
        return hours * total


def _roots_within(first: float, slope: float, bow: float) -> list[float]:
    """Shares between 0 and 1 at which first + slope s − bow s² is zero, in order."""
    if bow == 0.0:
        roots = [] if slope == 0.0 else [-first / slope]
    else:
        inside = slope * slope + 4.0 * bow * first
        if inside < 0.0:
            return []
        far = 0.5 * (slope + (sqrt(inside) if slope >= 0.0 else -sqrt(inside)))
        roots = [far / bow] if far == 0.0 else [far / bow, -first / far]
    return sorted(root for root in roots if 0.0 < root < 1.0)
