"""Truing, composed: from what a level showed to how the rails lie and what to correct."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.document.room import Document
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.truing.shapes import CheckFit, Correction, TruingAnswer


@dataclass(frozen=True)
class Trued:
    """The answer, None while nothing was read on the rails; what to correct; and what the level is out by, mm/m."""

    answer: TruingAnswer | None
    corrections: tuple[Correction, ...]
    level_error: float | None


def trued_from(document: Document, rails: Sequence[Rail]) -> Trued:
    """How the rails lie, from every check together."""
    if not document.checks or not rails:
        return Trued(None, (), None)
    fits = tuple(CheckFit(check.id, counts=False, off=None, residual=None) for check in document.checks)
    answer = TruingAnswer(document.rails.tolerance, False, 0.0, 0.0, (), fits, (), None)
    return Trued(answer, (), None)
