"""A straightedge laid by brute force: numpy samples lines all over a surface, scipy refines the best of them.

Nothing of the engine is used: the surface is scipy's own triangulation, a gap is the definition of one, the two
places that the straightedge rests on and the place between them.
"""

import math
from typing import Any

import numpy as np
from scipy.interpolate import LinearNDInterpolator
from scipy.optimize import minimize

Array = np.ndarray[Any, Any]
DIRECTIONS, OFFSETS, STEPS = 48, 40, 20  # lines, and samples in one length of straightedge
STARTS = 6
INWARDS = 1e-9  # of the way to the middle: scipy has no height on the very rim


class Judge:
    """A surface through spots, linear over scipy's Delaunay triangles."""

    def __init__(self, spots: list[tuple[float, float, float]]) -> None:
        given = np.array(spots)
        self.places = given[:, :2]
        self.middle = self.places.mean(axis=0)
        self.heights = LinearNDInterpolator(self.places, given[:, 2])

    def gap_of(self, first: Array, at: Array, second: Array) -> float:
        """How far one place lies below the line through two others."""
        places = np.array([first, at, second], dtype=float)
        za, zp, zb = self.heights(places + INWARDS * (self.middle - places))
        share = math.dist(first, at) / math.dist(first, second)
        return float((1.0 - share) * za + share * zb - zp)

    def worst(self, length: float, sign: float = 1.0) -> float:
        """The largest gap found under a straightedge of a length, or the highest hump with sign -1."""
        starts = sorted(self._sampled(length, sign), key=lambda one: -one[0])
        return max(
            [0.0, *(gap for gap, _ in starts[:1]), *(self._refined(x, length, sign) for _, x in starts[:STARTS])]
        )

    def _gap(self, x: Array, length: float, sign: float) -> float:
        """Of a straightedge from (x0, x1) to (x2, x3) at the share x4, cut to its length; 0 where it cannot lie."""
        first, second, share = x[:2], x[2:4], float(x[4])
        apart = math.dist(first, second)
        if not 0.0 < share < 1.0 or apart == 0.0:
            return 0.0
        second = first + (second - first) * min(1.0, length / apart)
        gap = sign * self.gap_of(first, first + share * (second - first), second)
        return gap if math.isfinite(gap) else 0.0

    def _less(self, length: float, sign: float) -> Any:
        return lambda x: -self._gap(x, length, sign)

    def _refined(self, x: Array, length: float, sign: float) -> float:
        best = 0.0
        for size in (60.0, 10.0):
            simplex = np.vstack([x, *(x + size * e for e in np.eye(5)[:4]), x + 0.05 * np.eye(5)[4]])
            options: Any = {"initial_simplex": simplex, "xatol": 1e-4, "fatol": 1e-6, "maxiter": 600}
            found: Any = minimize(self._less(length, sign), x, method="Nelder-Mead", options=options)
            best, x = max(best, -float(found.fun)), found.x
        return best

    def _sampled(self, length: float, sign: float) -> list[tuple[float, Array]]:
        radius = float(np.hypot(*(self.places - self.middle).T).max())
        along = np.arange(-radius, radius + length / STEPS, length / STEPS)
        offsets = np.linspace(-radius, radius, OFFSETS)
        found: list[tuple[float, Array]] = []
        for angle in math.pi * (np.arange(DIRECTIONS) + 0.5) / DIRECTIONS:
            ahead, aside = np.array([math.cos(angle), math.sin(angle)]), np.array([-math.sin(angle), math.cos(angle)])
            places = self.middle + offsets[:, None, None] * aside + along[None, :, None] * ahead
            heights = sign * self.heights(places.reshape(-1, 2)).reshape(len(offsets), -1)
            found += _best_of(heights, places)
        return found


def _best_of(heights: Array, places: Array) -> list[tuple[float, Array]]:
    """The best places to rest on and to be open over, on all sampled lines of one direction."""
    found = []
    for width in range(2, min(STEPS, heights.shape[1] - 1) + 1):
        first, second = heights[:, :-width], heights[:, width:]
        for inner in range(1, width):
            share = inner / width
            gap = (1.0 - share) * first + share * second - heights[:, inner : heights.shape[1] - width + inner]
            if np.isfinite(gap).any():
                m, n = np.unravel_index(np.nanargmax(gap), gap.shape)
                found.append((float(gap[m, n]), np.array([*places[m, n], *places[m, n + width], share])))
    return sorted(found, key=lambda one: -one[0])[:3]
