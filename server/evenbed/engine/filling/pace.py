"""How fast the filling goes, and when the room will be done.

A section takes the time from the end of the one before to its own end: moving rails, packing channels and mixing are
part of it. The first of a spell, and one whose first mixing lies a long pause after the end of the one before, counts
from its own mixing. Stoppages are taken out. What makes no sense (no beginning, an end before it, a whole day for one
section) is left out of the pace.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.filling.progress import Progress, Record
from evenbed.engine.filling.shapes import DoneTimes, Pace, Section
from evenbed.engine.filling.times import Clock, Stops

LONG_PAUSE = 2.0  # working hours between sections beyond which a stoppage was forgotten; common practice, no source
LONGEST_SECTION = 12.0  # working hours: nobody takes longer over one section; common practice, no source
USUAL_SPREAD = 0.2  # how far sections' own paces lie from their mean, as a share of it; common practice, no source
USUAL_WEIGHT = 3.0  # how many sections the usual spread counts as much as; common practice, no source
ONE_IN_TWENTY = 1.645  # standard deviations beyond which one in twenty of a normal distribution lies, on one side


@dataclass(frozen=True)
class Own:
    """What one finished section took: working hours, and its volume in m³."""

    hours: float
    volume: float


@dataclass(frozen=True)
class Forecast:
    """The pace, and what is left in working hours; `spread` is the share by which that may be off, one in twenty."""

    pace: Pace
    left: float
    spread: float

    def done(self, clock: Clock, stops: Stops) -> DoneTimes:
        """When all is filled: early, likely and late."""
        shares = (max(0.0, 1.0 - self.spread), 1.0, 1.0 + self.spread)
        return DoneTimes(*(clock.text(stops.after(0.0, self.left * share)) for share in shares))


def forecast_from(
    sections: Sequence[Section], progress: Progress, batches_placed: Sequence[float], stops: Stops, batch_yield: float
) -> Forecast | None:
    """The pace so far and what it makes of the rest; None until a section is finished.

    `batches_placed` tells for each section how many batches for it are in place, negative where none were entered;
    `batch_yield` is the bed that one batch makes, waste taken off, m³.
    """
    own = list(own_paces(sections, progress.records, stops))
    if not own:
        return None
    hours, volume = math.fsum(one.hours for one in own), math.fsum(one.volume for one in own)
    pace = Pace(hours / volume, hours / volume * batch_yield, len(own))
    unfilled = sorted(progress.unfilled)
    left = math.fsum(_left(sections[n], progress.records[n], pace, batches_placed[n], stops) for n in unfilled)
    return Forecast(pace, left, spread_of(own, pace.hours_per_volume, len(unfilled)))


def own_paces(sections: Sequence[Section], records: Sequence[Record], stops: Stops) -> Iterable[Own]:
    """What each finished section took, in the order they were finished."""
    before: float | None = None
    finished = [(r.finished, n) for n, r in enumerate(records) if r.finished is not None]
    for end, n in sorted(finished):
        mixed = records[n].mixed
        if mixed is not None and mixed > end:
            continue
        start = _start(mixed, before, stops)
        hours = -1.0 if start is None else stops.worked(start, end)
        if 0.0 < hours <= LONGEST_SECTION and sections[n].volume > 0.0:
            yield Own(hours, sections[n].volume)
        before = end


def _start(mixed: float | None, before: float | None, stops: Stops) -> float | None:
    if mixed is None or before is None:
        return mixed if before is None else before
    return mixed if stops.worked(before, mixed) > LONG_PAUSE else before


def _left(section: Section, record: Record, pace: Pace, placed: float, stops: Stops) -> float:
    """Working hours that a section still takes: by its batches in place, else by the time since it was begun."""
    whole = section.volume * pace.hours_per_volume
    if record.mixed is None:
        return whole
    if placed >= 0.0:
        return whole * max(0.0, 1.0 - placed / section.batches) if section.batches > 0.0 else 0.0
    return max(0.0, whole - max(0.0, stops.worked(record.mixed, 0.0)))


def spread_of(own: Sequence[Own], pace: float, left: int) -> float:
    """The share by which the time for what is left may be off, one in twenty on either side.

    From how far the sections' own paces lie from their mean, with the usual spread beside them as if it had been seen
    in `USUAL_WEIGHT` sections: few sections tell little. The mean of what is done and that of what is left both vary.
    """
    if not left:
        return 0.0
    squares = math.fsum((one.hours / one.volume / pace - 1.0) ** 2 for one in own)
    variance = (USUAL_WEIGHT * USUAL_SPREAD**2 + squares) / (USUAL_WEIGHT + len(own) - 1.0)
    return ONE_IN_TWENTY * math.sqrt(variance * (1.0 / len(own) + 1.0 / left))
