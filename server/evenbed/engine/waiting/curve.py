"""The course of the waiting, thinned to be drawn."""

from bisect import bisect_left

from evenbed.engine.readiness import Readiness
from evenbed.engine.waiting.hardening import Hardening
from evenbed.engine.waiting.shapes import CurvePoint

MOST_POINTS = 200
EVENLY = 160  # of them evenly spaced; the rest is kept for moments of their own
NOTHING_KNOWN_H = 168.0  # drawn where no milestone is ever met


def curve_points(readiness: Readiness, now: float | None) -> tuple[CurvePoint, ...]:
    """At most MOST_POINTS points from placing until the last milestone's late end, windows and `now` (h) among them.

    Between two neighbours the temperature is as good as straight; where nothing is placed the hours count from the
    first temperature.
    """
    hardening = readiness.hardening
    met = [h for row in readiness.rows for h in (row.early_after_h, row.after_h, row.late_after_h) if h is not None]
    end = max([*met, now or 0.0], default=0.0) or max(NOTHING_KNOWN_H, hardening.temperatures.hours[-1])
    own = [*met, hardening.foretold_from, now]
    hours = {end * n / (EVENLY - 1) for n in range(EVENLY)} | {h for h in own if h is not None and 0.0 <= h <= end}
    points = (_point(hardening, hour) for hour in sorted(hours | _turns(hardening, end, MOST_POINTS - len(hours))))
    return tuple(point for point in points if point is not None)


def _turns(hardening: Hardening, end: float, most: int) -> set[float]:
    """The widest swings' turning points, so that a high or a low is drawn where it is."""
    hours, celsius = hardening.temperatures.hours, hardening.temperatures.celsius
    inside = range(max(1, bisect_left(hours, 0.0)), min(len(hours) - 1, bisect_left(hours, end)))
    turns = [n for n in inside if (celsius[n] - celsius[n - 1]) * (celsius[n + 1] - celsius[n]) < 0.0]
    middle = sum(celsius[n] for n in turns) / max(1, len(turns))
    widest = sorted(turns, key=lambda n: -abs(celsius[n] - middle))
    return {hours[n] for n in widest[: max(0, most)]}


def _point(hardening: Hardening, hour: float) -> CurvePoint | None:
    at = hardening.time_at(hour)
    if at is None:
        return None
    measured_until = hardening.measured_until
    return CurvePoint(
        at=at,
        hours=hour,
        celsius=hardening.temperatures.at(hour),
        age=hardening.ages.age_at(hour),
        factor=hardening.factors.age_at(hour),
        measured=measured_until is not None and hour <= measured_until,
    )
