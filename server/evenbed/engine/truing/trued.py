"""Truing, composed: from what a level showed to how the rails lie and what to correct."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from evenbed.engine.cautions import Caution
from evenbed.engine.document.room import Document
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.sources import Explanation
from evenbed.engine.truing.account import truing_cautions_of, truing_explanations_of
from evenbed.engine.truing.corrected import Corrected, fine_within
from evenbed.engine.truing.equations import Read, system_from
from evenbed.engine.truing.levels import level_errors_of, level_known
from evenbed.engine.truing.lying import Lying
from evenbed.engine.truing.places import Rails
from evenbed.engine.truing.shapes import CheckFit, Correction, RailError, TruingAnswer
from evenbed.engine.truing.solved import solution_of
from evenbed.engine.truing.telling import next_check_from


@dataclass(frozen=True)
class Trued:
    """The answer, None while nothing was read on the rails; what to correct; and what the level is out by, mm/m."""

    answer: TruingAnswer | None
    corrections: tuple[Correction, ...]
    level_error: float | None
    cautions: tuple[Caution, ...] = ()
    explanations: dict[str, Explanation] = field(default_factory=dict)


def trued_from(document: Document, rails: Sequence[Rail]) -> Trued:
    """How the rails lie, from every check together.

    A reading on a rail that is not there any more, beyond its end, over two lies of its strip, or between two places
    that are one, is kept and does not count. Raises nothing: any readings on any rails give an answer.
    """
    if not document.checks or not rails:
        return Trued(None, (), None)
    design = document.rails
    placed = Rails(rails)
    system = system_from(document.checks, document.truings, placed)
    reach = max(design.straightedge, *design.straightedges, 0.0)
    lying = Lying(placed, system, solution_of(system), reach, fine_within(design.tolerance))
    corrected = Corrected(lying, design.tolerance)
    answer = _answer(corrected)
    known = level_known(lying)
    cautions = tuple(truing_cautions_of(lying, answer))
    explanations = truing_explanations_of(lying, answer, corrected.corrections, known)
    return Trued(answer, corrected.corrections, None if known is None else known.per_metre, cautions, explanations)


def _answer(corrected: Corrected) -> TruingAnswer:
    lying, tolerance = corrected.lying, corrected.tolerance
    rails = tuple(_rail_error(corrected, n) for n in lying.system.now)
    return TruingAnswer(
        tolerance=tolerance,
        is_good_enough=corrected.is_good_enough,
        worst=max(max(abs(rail.from_off), abs(rail.to_off)) for rail in rails),
        worst_after=max(max(abs(rail.from_after), abs(rail.to_after)) for rail in rails),
        rails=rails,
        checks=tuple(_fit(lying, read) for read in lying.system.reads),
        levels=level_errors_of(lying),
        next_check=next_check_from(lying, tolerance),
    )


def _rail_error(corrected: Corrected, n: int) -> RailError:
    lying, lie = corrected.lying, corrected.lying.rails.lies[n]
    sigma, count = max(lying.sigmas[n]), lying.counts[n]
    return RailError(lie.rail.id, lie.order, *lying.off(n), sigma, count, *corrected.after(n))


def _fit(lying: Lying, read: Read) -> CheckFit:
    """What a reading says of its lies, over the distance between its places."""
    check, span = read.check, read.span
    if span is None or check.level not in lying.system.level:
        return CheckFit(check.id, read.counts, None, None)
    size = check.length or span.run
    own = lying.solution.values[lying.system.level[check.level]] * size / 1000.0
    shown = check.off - own if check.reversed_off is None else (check.off + check.reversed_off) / 2.0
    off = shown * span.run / size - span.rise
    residual = off - lying.solution.value(lying.system.difference(span)) if read.counts else None
    return CheckFit(check.id, read.counts, off, residual)
