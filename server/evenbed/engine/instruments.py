"""Tests of instruments: the error each one found, and what it takes off readings made later.

A two-peg test compares a difference of height read from the middle, where the level's error falls out, with the same
read from beyond. A flip test reads a slope with a level and again with the level turned end for end: half the
difference is the level's own. A rod test says what the rod reads too much. (Two-peg: Ghilani and Wolf, Elementary
Surveying, chapter 5; flip test: common practice.)

The signs: a tilt above 0 means that the level line rises with the sight, so that readings come out too large. A level
that shows the end ahead high on a floor that is level stands low there when its bubble is centred, so its line falls:
the tilt is less than 0. It holds for a level laid the way round it was laid first in the test.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from evenbed.engine.document.levelling import InstrumentCheck, Reading, Setup
from evenbed.engine.problems import Problem, problem_at

SHORTEST = 1.0  # mm: the least length, or difference of sights, that tells anything of a tilt
NEEDED = {"two_peg": ("first", "second", "sights"), "flip": ("off", "reversed_off", "length"), "rod": ("offset",)}


@dataclass(frozen=True)
class Correction:
    """What is taken off one reading, mm; by which checks; and whether a tilt was left for want of the sight."""

    amount: float = 0.0
    checks: tuple[str, ...] = ()
    lacks_sight: bool = False


def check_problems(checks: Sequence[InstrumentCheck]) -> list[Problem]:
    """Tests that lack a value or tell nothing."""
    found = []
    for n, check in enumerate(checks):
        path = f"instrument_checks[{n}]"
        lacking = [key for key in NEEDED[check.kind] if getattr(check, key) is None]
        found += [problem_at(f"{path}.{key}", f"{check.kind}_incomplete") for key in lacking]
        if check.sights is not None and abs(check.sights[0] - check.sights[1]) < SHORTEST and not lacking:
            found.append(problem_at(f"{path}.sights", "sights_alike"))
        if check.kind == "flip" and check.length is not None and check.length < SHORTEST:
            found.append(problem_at(f"{path}.length", "too_small", value=check.length, low=SHORTEST))
    return found


def tilt_of(check: InstrumentCheck) -> float | None:
    """How much the instrument's line rises, mm per metre of sight; None where the test does not tell."""
    if check.kind == "two_peg" and check.first and check.second and check.sights:
        (a1, b1), (a2, b2), (near_a, near_b) = check.first, check.second, check.sights
        return 1000.0 * ((a2 - b2) - (a1 - b1)) / (near_a - near_b)
    if check.kind == "flip" and check.length and check.off is not None and check.reversed_off is not None:
        return -1000.0 * (check.off - check.reversed_off) / 2.0 / check.length
    return None


def sight_of(setup: Setup, reading: Reading) -> float | None:
    """Length of a sight in mm: from the two places, else as it was given; None where neither tells."""
    if setup.at is not None and reading.at is not None:
        return math.dist(setup.at, reading.at)
    return reading.sight


def corrections_for(
    readings: Sequence[Reading], setups: Sequence[Setup], checks: Sequence[InstrumentCheck]
) -> list[Correction]:
    """What accepted checks take off each reading; `setups` are those of the readings, one for each.

    Of a level's tests the latest before the reading counts, and so of a rod's; a test without a time counts for every
    reading, a reading without a time gets only those. Of tests of one moment what they say decides, not their order.
    """
    by_instrument: dict[str, list[InstrumentCheck]] = {}
    for check in sorted((c for c in checks if c.accepted), key=_rank):
        by_instrument.setdefault(check.instrument, []).append(check)
    return [
        _correction(reading, setup, by_instrument.get(setup.instrument, []))
        for reading, setup in zip(readings, setups, strict=True)
    ]


def _correction(reading: Reading, setup: Setup, checks: Sequence[InstrumentCheck]) -> Correction:
    level = _latest(reading, checks, lambda c: c.kind != "rod")
    rod = _latest(reading, checks, lambda c: c.kind == "rod")
    tilt, sight = None if level is None else tilt_of(level), sight_of(setup, reading)
    amounts = {}
    if level is not None and tilt is not None and sight is not None:
        amounts[level.id] = tilt * sight / 1000.0
    if rod is not None and rod.offset is not None:
        amounts[rod.id] = rod.offset
    return Correction(math.fsum(amounts.values()), tuple(amounts), tilt is not None and sight is None)


def _latest(
    reading: Reading, checks: Sequence[InstrumentCheck], of_kind: Callable[[InstrumentCheck], bool]
) -> InstrumentCheck | None:
    taken = _moment(reading.taken_at)
    return next((c for c in reversed(checks) if of_kind(c) and _moment(c.at) <= taken), None)


def _rank(check: InstrumentCheck) -> tuple[float, str, str]:
    """Later tests rank higher."""
    return _moment(check.at), repr(replace(check, id="", at=None)), check.id


def _moment(at: str | None) -> float:
    """Seconds since 1970; before everything where there is no time."""
    return -math.inf if at is None else datetime.fromisoformat(at).timestamp()
