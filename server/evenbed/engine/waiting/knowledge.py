"""How far the temperature is known while a bed hardens, and what is said where it is not."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.waiting.foretold import MISSING_H
from evenbed.engine.waiting.hardening import Hardening

UNMEASURED_H = 12.0  # h: a longer time without a measurement hides a night or the heat of a day; no source


@dataclass(frozen=True)
class Foretold:
    """The hours at which somebody foretold a temperature, in order: the extremes of days, and single moments."""

    days: Sequence[float]
    moments: Sequence[float]


def knowledge_cautions(hardening: Hardening, foretold: Foretold, until: float) -> Iterator[Caution]:
    """What stands in for temperatures that nobody told, from the first placing until an hour.

    Nothing where the bed is not placed, or where nothing at all tells the temperature, which is said elsewhere.
    """
    known = hardening.known
    if known is None or not hardening.is_placed:
        return
    hole = longest_hole(hardening, foretold, until)
    if hole > 0.0:
        yield caution_at("readiness", "temperature_hole", hours=hole)
    singly = [*foretold.moments, *([] if known.measured_until is None else [known.measured_until])]
    if until > max([*foretold.days, *singly]):
        is_mean = bool(foretold.days) and known.hours[-1] > max(singly, default=foretold.days[0])
        yield caution_at("readiness", "forecast_ends" if is_mean else "temperature_ends", held=known.celsius[-1])


def longest_hole(hardening: Hardening, foretold: Foretold, until: float) -> float:
    """The longest time in h without a temperature, between placing and an hour, that is followed by one.

    0 where none is longer than UNMEASURED_H up to the last measurement, and than MISSING_H after it.
    """
    start, known = hardening.fresh_from, hardening.temperatures
    measured_until = start if known.measured_until is None else max(start, known.measured_until)
    measured = known.hours[bisect_right(known.hours, start) : bisect_right(known.hours, measured_until)]
    later = [hour for hour in sorted([*foretold.days, *foretold.moments]) if hour > measured_until]
    told = later[: bisect_left(later, until) + 1]
    holes = [
        *(b - a for a, b in pairwise([start, *measured]) if b - a > UNMEASURED_H and a < until),
        *(b - a for a, b in pairwise([measured_until, *told]) if b - a > MISSING_H and a < until),
    ]
    return max(holes, default=0.0)
