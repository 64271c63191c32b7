"""What must be said beside truing: cautions, and how its figures explain themselves."""

import math
from collections.abc import Iterable, Sequence

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.truing.equations import (
    MOST_LEVELS,
    MOST_RAILS,
    READING_SIGMA,
    SET_SIGMA,
    Equation,
    Read,
)
from evenbed.engine.truing.levels import KNOWN
from evenbed.engine.truing.lying import Lying
from evenbed.engine.truing.shapes import Correction, LevelError, TruingAnswer

LEVEL_OUT = 1.0  # mm/m: a level out by more is set, or turned every time; common practice, no source
FOUR_FEET_M = 1.2192
SHORT = 2.0 / 3.0  # of what it is read over: a level shorter than this tells too little
DOUBTED = 3.29  # standard errors of a residual, as of any reading (data snooping): once in a thousand good ones
TELLING = 0.05  # of a reading's variance: where less is left to its residual, nothing else checks it


def truing_cautions_of(lying: Lying, answer: TruingAnswer) -> Iterable[Caution]:
    """Every caution of truing."""
    yield caution_at("truing", "common_height_unknown")
    if lying.system.is_cut:
        yield caution_at("truing", "too_many_read", rails=MOST_RAILS, levels=MOST_LEVELS)
    yield from _contradictions(lying)
    for n, level in enumerate(answer.levels):
        if level.sigma <= KNOWN and abs(level.per_metre) > LEVEL_OUT:
            out = abs(level.per_metre)
            values = {"per_metre": out, "per_four_feet": out * FOUR_FEET_M}
            yield caution_at(f"truing.levels[{n}]", "level_out", **values)
    yield from _short_levels(lying)


def _contradictions(lying: Lying) -> Iterable[Caution]:
    """The one reading of what lies now that the others bear out least, where it is beyond doubt."""
    worst = max(lying.system.equations, key=lambda one: _standardised(lying, one))
    if worst.check is None or _standardised(lying, worst) <= DOUBTED:
        return
    read = lying.system.reads[worst.check]
    where, by = f"truing.checks[{worst.check}]", abs(lying.solution.residual(worst))
    if read.span is None or read.span.is_along:
        yield caution_at(where, "rail_reading_contradicts", rail=read.check.rail or "", by=by)
    else:
        first, second = read.check.rails or ("", "")
        yield caution_at(where, "rail_reading_across_contradicts", first=first, second=second, by=by)


def _standardised(lying: Lying, one: Equation) -> float:
    """A reading's residual over its own standard error; 0 where it does not count, or nothing else checks it."""
    if one.check is None or not _is_of_now(lying, lying.system.reads[one.check]):
        return 0.0
    residual = abs(lying.solution.residual(one))
    if residual * residual <= DOUBTED * DOUBTED * TELLING * one.sigma * one.sigma:
        return 0.0
    left = one.sigma * one.sigma - lying.solution.variance(one.terms)
    return residual / math.sqrt(left) if left > TELLING * one.sigma * one.sigma else 0.0


def _is_of_now(lying: Lying, read: Read) -> bool:
    """True for a reading that counts and lay on what is there now: what lay before is finished bed."""
    return read.counts and read.span is not None and not lying.now.isdisjoint((read.span.start[0], read.span.end[0]))


def _short_levels(lying: Lying) -> Iterable[Caution]:
    """The reading whose level was shortest beside what it was read over."""
    reads = [read for read in lying.system.reads if read.counts and read.span is not None and read.check.length]
    pairs = [(read.check.length, read.span.run) for read in reads if read.span is not None]
    length, run = min(pairs, key=lambda pair: pair[0] / pair[1], default=(1.0, 1.0))
    if length < SHORT * run:
        yield caution_at("truing", "level_short", length=length, run=run, times=run / length)


def truing_explanations_of(
    lying: Lying, answer: TruingAnswer, corrections: Sequence[Correction], level: LevelError | None
) -> dict[str, Explanation]:
    """What stands behind the worst end, every correction and the level's error, by their paths in the plan."""
    count = sum(read.counts for read in lying.system.reads)
    common = {"rail_checks": count, "reading_sigma": READING_SIGMA, "set_sigma": SET_SIGMA}
    found = {"truing.worst": explanation_of("truing_worst", tolerance=answer.tolerance, **common)}
    errors = {error.rail: error for error in answer.rails}
    for n, one in enumerate(corrections):
        error = errors[one.rail]
        off = error.to_off if one.end == "to" else error.from_off
        found[f"corrections[{n}].raise"] = explanation_of("truing_raise", end_off=off, error=error.sigma, **common)
        found[f"corrections[{n}].mortar"] = explanation_of("truing_mortar", raised=one.raise_by)
    if level is not None:
        found["level_error"] = explanation_of("level_error", flips=level.flips, level_sigma=level.sigma)
    return found
