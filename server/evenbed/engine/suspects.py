"""Readings that look mis-read: against what their neighbours foretell, and against the adjusted network."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from evenbed.engine.document.flatness import Touch
from evenbed.engine.document.levelling import Adjustment, Difference, InstrumentCheck, Mark, Reading, Setup
from evenbed.engine.document.places import Point3
from evenbed.engine.foretold import Foretold
from evenbed.engine.heights import Levels, ReadHeight, SetupHeight
from evenbed.engine.levels import levels_from
from evenbed.engine.measured import Levelling, measured_from, setup_ids
from evenbed.engine.misreading import RodReading, likely_slip
from evenbed.engine.sifting import doubted_among, is_beyond, sifted_round
from evenbed.engine.slips import Suspect

GROSS = (
    3.29  # standard errors: a good observation beyond it is one in a thousand (Baarda, A testing procedure for use
)
# in geodetic networks, 1968: α₀ = 0.001)
ALIKE = 1e-6  # of a standardised residual: observations that only their sum checks cannot be told apart


@dataclass(frozen=True)
class _Rest:
    """A document's levels without some of its readings."""

    readings: tuple[Reading, ...]
    setups: tuple[Setup, ...]
    marks: tuple[Mark, ...]
    differences: tuple[Difference, ...]
    instrument_checks: tuple[InstrumentCheck, ...]
    adjustment: Adjustment
    touches: tuple[Touch, ...]


def suspects_from(levelling: Levelling, levels: Levels) -> tuple[Suspect, ...]:
    """Readings that look mis-read, the worst first, each once.

    A reading just typed is judged by those before it, since the document holds no others yet. Of the network only the
    worst is named, with those that cannot be told from it, unless the floor round them tells which of them is wrong;
    what is left shows when that one is put right. Readings of the finished bed and of set-ups that nothing ties are
    judged by the network alone.
    """
    read = _read_heights(levelling, levels, levels.setups)
    gross = _by_network(levelling, levels, read)
    lines = levels_from(_without(levelling, gross), None).setups if gross else levels.setups
    spots = _subfloor(levelling, _read_heights(levelling, levels, lines))
    clean = {n: spot for n, spot in spots.items() if n not in gross}
    told = _doubted(clean) | _wrong_of(gross, spots, list(clean.values()))
    found = {n: _suspect(levelling.readings[n], read[n], spots[n][2], one) for n, one in told.items()}
    if not gross.keys() & found.keys():
        found |= gross
    return tuple(sorted(found.values(), key=lambda s: (-abs(s.score), s.reading, s.expected)))


def _doubted(spots: Mapping[int, Point3]) -> dict[int, Foretold]:
    numbers = list(spots)
    return {numbers[one.number]: one.told for one in doubted_among(list(spots.values()))}


def _wrong_of(gross: Iterable[int], spots: Mapping[int, Point3], clean: Sequence[Point3]) -> dict[int, Foretold]:
    """Which of the readings that disagree in the network the floor round them does not bear out."""
    told = {n: sifted_round(spots[n], clean) for n in gross if n in spots}
    return {n: one for n, one in told.items() if one is not None and is_beyond(spots[n][2], one)}


def _without(levelling: Levelling, left_out: Collection[int]) -> Levelling:
    rest = tuple(reading for n, reading in enumerate(levelling.readings) if n not in left_out)
    given = levelling
    return _Rest(
        rest, given.setups, given.marks, given.differences, given.instrument_checks, given.adjustment, given.touches
    )


def _read_heights(levelling: Levelling, levels: Levels, lines: Iterable[SetupHeight]) -> dict[int, float]:
    """Heights as read from these level lines, not as adjusted, by the readings' numbers."""
    line = {setup.id: setup.line_height for setup in lines}
    pairs = zip(setup_ids(levelling), levelling.readings, levels.heights, strict=True)
    heights = ((line.get(setup), reading.down - height.correction) for setup, reading, height in pairs)
    return {n: above - down for n, (above, down) in enumerate(heights) if above is not None}


def _subfloor(levelling: Levelling, heights: Mapping[int, float]) -> dict[int, Point3]:
    return {
        n: (*reading.at, heights[n])
        for n, reading in enumerate(levelling.readings)
        if reading.stage == "subfloor" and reading.at is not None and n in heights
    }


def _suspect(reading: Reading, read: float, z: float, told: Foretold) -> Suspect:
    """Told in heights as `read`; `z` is the same with no gross error of the network left in it."""
    difference = z - told.z
    slip = likely_slip(RodReading(reading.down, reading.as_typed), reading.down + difference, told.sigma)
    return Suspect(reading.id, read - difference, difference, difference / told.sigma, "neighbours", slip)


def _by_network(levelling: Levelling, levels: Levels, read: Mapping[int, float]) -> dict[int, Suspect]:
    scores = {n: h.standardised for n, h in enumerate(levels.heights) if h.standardised is not None}
    worst = max(map(abs, scores.values()), default=0.0)
    if worst <= GROSS:
        return {}
    observations = measured_from(levelling).observations
    named = [n for n, score in scores.items() if abs(score) >= (1.0 - ALIKE) * worst]
    return {n: _gross(levelling.readings[n], read[n], levels.heights[n], observations[n].sigma) for n in named}


def _gross(reading: Reading, read: float, height: ReadHeight, sigma: float) -> Suspect:
    """The reading against what all others make of it: its residual is only the share that the others hold it to."""
    residual, score = height.residual or 0.0, height.standardised or 0.0
    difference = (sigma * score) ** 2 / residual
    expected, error = reading.down + difference, abs(difference / score)
    slip = likely_slip(RodReading(reading.down, reading.as_typed), expected, error)
    return Suspect(reading.id, read - difference, difference, score, "network", slip)
