"""When tile can be set: the same day on the fresh bed, or when the bed has hardened.

A fresh bed takes tile for a few hours, longer where it is cold, counted for each section from when it was in place.
The section placed first closes first: its end is the end for whoever wants to tile all of the bed at once. Sections
placed later stay open longer, each for itself, the last one longest.
"""

from collections.abc import Sequence

from evenbed.engine.cure import AgeCurve, moment_from_time
from evenbed.engine.document.filling import Placement
from evenbed.engine.document.waiting import Curing
from evenbed.engine.readiness import Readiness
from evenbed.engine.waiting.hardening import Hardening, rate_from
from evenbed.engine.waiting.shapes import TileWindow


def tile_window_from(curing: Curing, placements: Sequence[Placement], readiness: Readiness) -> TileWindow:
    """The window of tile. Where nothing is placed there are hours and no moments."""
    hardening = readiness.hardening
    row = next(row for row in readiness.rows if row.milestone == "tile")
    placed = sorted(hardening.hour(moment_from_time(p.placed_at)) for p in placements if p.placed_at is not None)
    first, last = (placed[0], placed[-1]) if placed else (0.0, 0.0)
    hours, last_hours = (fresh_hours(curing, hardening, start) for start in (first, last))
    moment = hardening.time_at if placed else (lambda _: None)
    return TileWindow(
        chosen=curing.tile_when,
        fresh_from=moment(first),
        fresh_until=moment(first + hours),
        fresh_hours=hours,
        last_from=moment(last),
        last_until=moment(last + last_hours),
        hardened_from=row.early,
        hardened_likely=row.at,
    )


def fresh_hours(curing: Curing, hardening: Hardening, start: float) -> float:
    """How long bed placed at an hour (0 or before) takes tile, h: the time at the reference, longer where colder."""
    before = AgeCurve.of(hardening.temperatures, start, 0.0, rate_from(curing))
    needs = curing.fresh_window - before.ages[-1]
    return (before.hour_at(curing.fresh_window) if needs <= 0.0 else hardening.ages.hour_at(needs)) - start
