"""How deep to chip so that the mortar saved is worth most beyond the labour.

Between the levels at which the area's growth changes, the area below is quadratic in the depth and the balance cubic:
its best depth is found in closed form, stretch by stretch.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.chipping.below import Below
from evenbed.engine.chipping.worth import Worth

NEAR = 1e-4  # mm: levels closer than this count as one while depths are compared


@dataclass(frozen=True)
class _Change:
    """What changes at a level: by how much the area jumps, its growth and the growth of that."""

    level: float
    jump: float = 0.0
    growth: float = 0.0
    bend: float = 0.0


@dataclass(frozen=True)
class _Stretch:
    """From one level to the next: area, its growth and bend at the start, and the volume below the start."""

    start: float
    length: float
    area: float
    growth: float
    bend: float
    volume: float

    def area_at(self, on: float) -> float:
        return self.area + on * (self.growth + on * self.bend / 2.0)

    def volume_at(self, on: float) -> float:
        return self.volume + on * (self.area + on * (self.growth / 2.0 + on * self.bend / 6.0))


def best_depth(below: Below, room: float, worth: Worth, mortar: float, most: float) -> float:
    """The depth from 0 to `most`, mm, that saves most; the least of those that save alike.

    `room` is the floor's area in m², `mortar` what a m³ in place costs.
    """
    balances = [(0.0, 0.0)]
    for stretch in _stretches(below, most):
        for on in _turns(stretch, room * 1e6, worth, mortar):
            depth, area, volume = stretch.start + on, stretch.area_at(on), stretch.volume_at(on)
            chipped = worth.hour * worth.hours(area / 1e6, volume / 1e9)
            balances.append((mortar * (room * 1e6 * depth - volume) / 1e9 - chipped, depth))
    least_gain = 1e-9 * max(abs(balance) for balance, _ in balances)
    most_saved = max(balance for balance, _ in balances)
    depth = min(depth for balance, depth in balances if balance >= most_saved - least_gain)
    known = (level for level in (0.0, *below.levels, most) if 0.0 <= level <= most)
    return next((level for level in known if abs(level - depth) <= NEAR), depth)


def _turns(stretch: _Stretch, room: float, worth: Worth, mortar: float) -> Iterator[float]:
    """Where on a stretch the balance can be greatest: at its end, and where a mm more costs what it saves."""
    per_area, per_volume = worth.hour * worth.hours_area / 1e6, worth.hour * worth.hours_depth / 1e6
    value = mortar / 1e9
    rate = value + per_volume
    constant = rate * stretch.area + per_area * stretch.growth - value * room
    linear = rate * stretch.growth + per_area * stretch.bend
    yield stretch.length
    yield from (on for on in _roots(rate * stretch.bend / 2.0, linear, constant) if 0.0 < on < stretch.length)


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Real roots of a x² + b x + c, without losing digits where a is small."""
    under = b * b - 4.0 * a * c
    if under < 0.0:
        return ()
    q = -(b + math.copysign(math.sqrt(under), b)) / 2.0
    return tuple(top / bottom for top, bottom in ((q, a), (c, q)) if bottom != 0.0)


def _stretches(below: Below, most: float) -> Iterator[_Stretch]:
    area = growth = bend = volume = level = 0.0
    for change in (*_changes(below, most), _Change(most)):
        length = change.level - level
        if length > 0.0:
            stretch = _Stretch(level, length, area, growth, bend, volume)
            yield stretch
            area, volume, growth = stretch.area_at(length), stretch.volume_at(length), growth + bend * length
        level = max(level, change.level)
        area, growth, bend = area + change.jump, growth + change.growth, bend + change.bend


def _changes(below: Below, most: float) -> list[_Change]:
    """Every change from 0 on and before `most`, in order; what lies lower than 0 by rounding counts as 0."""
    changes = (
        change for slope in below.slopes for change in _changes_of(slope.low, slope.middle, slope.high, slope.area)
    )
    return sorted((c for c in changes if c.level < most), key=lambda c: c.level)


def _changes_of(low: float, middle: float, high: float, area: float) -> Iterator[_Change]:
    """How one triangle's area below a level begins, bends and ends; levels nearer than NEAR taken as one."""
    if high - low <= NEAR:
        yield _Change(max(0.0, low), jump=area)
        return
    first = 2.0 * area / ((middle - low) * (high - low)) if middle - low > NEAR else 0.0
    last = 2.0 * area / ((high - middle) * (high - low)) if high - middle > NEAR else 0.0
    begins = 0.0 if first else 2.0 * area / (high - low)
    ends = 0.0 if last else -2.0 * area / (high - low)
    yield _Change(max(0.0, low), growth=begins, bend=first)
    yield _Change(max(0.0, middle), bend=-first - last)
    yield _Change(max(0.0, high), growth=ends, bend=last)
