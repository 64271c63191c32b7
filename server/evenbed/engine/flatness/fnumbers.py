"""F-numbers, ASTM E1155M: how flat (FF) and how level (FL) a floor is, from heights 300 mm or 12 in apart.

q = h(i) − 2 h(i−1) + h(i−2) and z = h(i) − h(i−10); FF = 115.8 / (3 S + |mean|) of q, FL = 317.5 / (3 S + |mean|) of
z, mm, S with n − 1. The definitions were read; the two constants and the rule that combines lines (`combined`) are
from memory. The standard asks for more than this looks after: where lines may run and how many there must be.
"""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import fmean, stdev

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.shapes import FNumbers, LineNumbers

SPACINGS = (300.0, 304.8)  # mm: E1155M, and 12 in of E1155
NEAR = 0.02  # of the spacing
FLATNESS, LEVELNESS = 115.8, 317.5  # mm; from memory: 4.57 in and 12.5 in
RUN = 10  # spacings over which levelness is told
LEAST = 4  # heights: two values of q have a spread
LEAST_READ = 12  # readings in one line: fewer stand in line by chance; a shorter line has no FL
MOST_F = 1000.0  # a perfect line's numbers have no end

F_NEEDS = {
    "no_lines": "No line of heights was measured 300 mm or 12 in apart.",
    "other_spacing": "F-numbers want heights 300 mm or 12 in apart: the lines measured are not.",
    "too_short": "F-numbers want at least four heights in a line, and twelve for FL.",
}
"""Why there are no F-numbers, by code."""


@dataclass(frozen=True)
class Heights:
    """Heights of one line at even distances, and what it is called."""

    name: str
    heights: tuple[float, ...]
    spacing: float

    @property
    def is_spaced(self) -> bool:
        """True where the heights are 300 mm or 12 in apart, within 2 %."""
        return any(abs(self.spacing - one) <= NEAR * one for one in SPACINGS)


@dataclass(frozen=True)
class FlatAndLevel:
    """The F-numbers of a floor and of its lines; `needs` says why there are none."""

    overall: FNumbers | None
    lines: tuple[LineNumbers, ...]
    needs: str | None


def f_numbers_of(measured: Sequence[Heights], is_level: bool) -> FlatAndLevel:
    """F-numbers of lines of heights; a top that is to fall (`is_level` False) has no levelness."""
    spaced = [line for line in measured if line.is_spaced]
    rows = [(line, *numbers_of(line.heights)) for line in spaced if len(line.heights) >= LEAST]
    if not rows:
        return FlatAndLevel(None, (), "no_lines" if not measured else "too_short" if spaced else "other_spacing")
    told = [LineNumbers(row.name, len(row.heights), ff, fl if is_level else None) for row, ff, fl in rows]
    flat = combined([(ff, len(row.heights) - 2) for row, ff, _ in rows])
    levels = [(fl, len(row.heights) - RUN) for row, _, fl in rows if fl is not None]
    level = combined(levels) if levels and is_level else None
    count = sum(len(row.heights) for row, _, _ in rows)
    return FlatAndLevel(FNumbers(flat, level, len(rows), count), tuple(told), None)


def numbers_of(heights: Sequence[float]) -> tuple[float, float | None]:
    """FF and FL of one line of four heights or more; FL None where it has fewer than twelve."""
    bends = [c - 2.0 * b + a for a, b, c in zip(heights, heights[1:], heights[2:], strict=False)]
    rises = [b - a for a, b in zip(heights, heights[RUN:], strict=False)]
    return _number(FLATNESS, bends), _number(LEVELNESS, rises) if len(rises) > 1 else None


def _number(constant: float, values: Sequence[float]) -> float:
    spread = 3.0 * stdev(values) + abs(fmean(values))
    return min(MOST_F, constant / spread) if spread > 0.0 else MOST_F


def combined(numbers: Iterable[tuple[float, int]]) -> float:
    """One F-number of several, each with how many values it rests on: F² = Σ n / Σ (n / F²).

    For two it is F1 F2 √((n1 + n2) / (n2 F1² + n1 F2²)), the combining rule of ASTM E1155 (from memory).
    """
    rows = list(numbers)
    return math.sqrt(sum(n for _, n in rows) / math.fsum(n / (f * f) for f, n in rows))


def lines_among(spots: Sequence[tuple[str, Point, float]]) -> list[Heights]:
    """Lines of LEAST_READ readings or more that stand in a straight line 300 mm or 12 in apart (id, place, height).

    A reading may stand off by 2 % of the spacing; one may be in several lines that cross, but no line is part of one.
    """
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)
    for n, (_, (x, y), _) in enumerate(spots):
        cells[int(x // SPACINGS[1]), int(y // SPACINGS[1])].append(n)
    found: dict[frozenset[int], Heights] = {}
    for spacing in SPACINGS:
        for n in range(len(spots)):
            for step in _steps_from(spots, cells, n, spacing):
                chain = _chain(spots, cells, n, step)
                if len(chain) >= LEAST_READ:
                    found.setdefault(frozenset(chain), _as_line(spots, chain))
    return [line for chain, line in found.items() if not any(chain < other for other in found)]


def _steps_from(
    spots: Sequence[tuple[str, Point, float]], cells: dict[tuple[int, int], list[int]], n: int, spacing: float
) -> list[Point]:
    """The steps to readings one spacing onwards, where no reading stands one step back: there a line may begin."""
    x, y = spots[n][1]
    steps = []
    for m in _near(cells, (x, y)):
        dx, dy = spots[m][1][0] - x, spots[m][1][1] - y
        is_onward = dx > 0.0 or (dx == 0.0 and dy > 0.0)
        if is_onward and abs(math.hypot(dx, dy) - spacing) <= NEAR * spacing:
            size = spacing / math.hypot(dx, dy)
            step = dx * size, dy * size
            if _at(spots, cells, (x - step[0], y - step[1]), NEAR * spacing) is None:
                steps.append(step)
    return steps


def _chain(
    spots: Sequence[tuple[str, Point, float]], cells: dict[tuple[int, int], list[int]], n: int, step: Point
) -> list[int]:
    """Readings one after the other along a line; each step is from where the one before stood."""
    chain, slack = [n], NEAR * math.hypot(*step)
    while True:
        x, y = spots[chain[-1]][1]
        following = _at(spots, cells, (x + step[0], y + step[1]), slack)
        if following is None:
            return chain
        chain.append(following)
        x0, y0 = spots[n][1]
        steps = len(chain) - 1
        step = (spots[following][1][0] - x0) / steps, (spots[following][1][1] - y0) / steps


def _near(cells: dict[tuple[int, int], list[int]], at: Point) -> Iterable[int]:
    column, row = int(at[0] // SPACINGS[1]), int(at[1] // SPACINGS[1])
    around = ((column + i, row + j) for i in (-2, -1, 0, 1, 2) for j in (-2, -1, 0, 1, 2))
    return [m for cell in around for m in cells.get(cell, ())]


def _at(
    spots: Sequence[tuple[str, Point, float]], cells: dict[tuple[int, int], list[int]], at: Point, slack: float
) -> int | None:
    near = [m for m in _near(cells, at) if math.dist(spots[m][1], at) <= slack]
    return min(near, key=lambda m: math.dist(spots[m][1], at), default=None)


def _as_line(spots: Sequence[tuple[str, Point, float]], chain: Sequence[int]) -> Heights:
    first, last = spots[chain[0]], spots[chain[-1]]
    spacing = math.dist(first[1], last[1]) / (len(chain) - 1)
    return Heights(f"{first[0]} to {last[0]}", tuple(spots[n][2] for n in chain), spacing)
