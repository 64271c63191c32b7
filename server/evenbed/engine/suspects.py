"""Readings that look mis-read: against what their neighbours foretell, and against the adjusted network."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from evenbed.engine.document.places import Point3
from evenbed.engine.heights import Levels
from evenbed.engine.measured import Levelling, measured_from
from evenbed.engine.misreading import RodReading, likely_slip
from evenbed.engine.sifting import Doubted, doubted_among
from evenbed.engine.slips import Suspect

GROSS = (
    3.29  # standard errors: a good observation beyond it is one in a thousand (Baarda, A testing procedure for use
)
# in geodetic networks, 1968: α₀ = 0.001)
ALIKE = 1e-6  # of a standardised residual: observations that only their sum checks cannot be told apart


def suspects_from(levelling: Levelling, levels: Levels) -> tuple[Suspect, ...]:
    """Readings that look mis-read, the worst first; each once, its neighbours' word before the network's.

    A place read last is judged by what was read before it, since nothing else is there yet. Of the network only the
    worst is named, with those that cannot be told from it: what is left shows when that one is put right. Readings of
    the finished bed and of set-ups that nothing ties are judged by the network alone.
    """
    found = dict(_by_network(levelling, levels)) | dict(_by_neighbours(levelling, levels))
    order = sorted(found.values(), key=lambda s: (-abs(s.score), s.reading, s.expected))
    return tuple(order)


def _by_neighbours(levelling: Levelling, levels: Levels) -> Iterator[tuple[int, Suspect]]:
    spots = _subfloor(levelling, levels)
    numbers = list(spots)
    newest = _newest_of([levelling.readings[n].taken_at for n in numbers])
    for doubted in doubted_among(list(spots.values()), newest):
        n = numbers[doubted.number]
        yield n, _suspect(levelling, n, spots[n][2], doubted)


def _newest_of(moments: Sequence[str | None]) -> int | None:
    """Which was taken last; None where some bear no moment or two share the last."""
    times = [datetime.fromisoformat(moment) for moment in moments if moment is not None]
    if not times or len(times) < len(moments) or times.count(max(times)) > 1:
        return None
    return times.index(max(times))


def _subfloor(levelling: Levelling, levels: Levels) -> dict[int, Point3]:
    """The subfloor as read, not as adjusted, by the readings' numbers."""
    found: dict[int, Point3] = {}
    for n, (reading, height) in enumerate(zip(levelling.readings, levels.heights, strict=True)):
        if reading.stage == "subfloor" and height.at is not None and height.z is not None:
            found[n] = (*height.at, height.z + (height.residual or 0.0))
    return found


def _suspect(levelling: Levelling, n: int, read: float, doubted: Doubted) -> Suspect:
    difference, told = read - doubted.told.z, doubted.told
    reading = levelling.readings[n]
    slip = likely_slip(RodReading(reading.down, reading.as_typed), reading.down + difference, told.sigma)
    return Suspect(reading.id, told.z, difference, doubted.score, "neighbours", slip)


def _by_network(levelling: Levelling, levels: Levels) -> Iterator[tuple[int, Suspect]]:
    scores = {n: h.standardised for n, h in enumerate(levels.heights) if h.standardised is not None}
    worst = max(map(abs, scores.values()), default=0.0)
    if worst <= GROSS:
        return
    observations = measured_from(levelling).observations
    for n, score in scores.items():
        if abs(score) >= (1.0 - ALIKE) * worst:
            yield n, _gross(levelling, levels, n, observations[n].sigma)


def _gross(levelling: Levelling, levels: Levels, n: int, sigma: float) -> Suspect:
    """The reading against what all others make of it: its residual is only the share that the others hold it to."""
    height, reading = levels.heights[n], levelling.readings[n]
    z, residual, score = height.z or 0.0, height.residual or 0.0, height.standardised or 0.0
    difference = (sigma * score) ** 2 / residual
    told = abs(difference / score)
    slip = likely_slip(RodReading(reading.down, reading.as_typed), reading.down + difference, told)
    return Suspect(reading.id, z + residual - difference, difference, score, "network", slip)
