"""Every milestone at a moment: waiting, worth a try, due for a look, or ticked by somebody who looked."""

from collections.abc import Sequence
from typing import Literal

from evenbed.engine.cure import moment_from_time
from evenbed.engine.readiness import Readiness, ReadinessRow
from evenbed.engine.waiting.shapes import Countdown

State = Literal["not_placed", "waiting", "may_be_ready", "should_be_ready", "ticked", "never"]


def countdown_from(readiness: Readiness, now: float) -> tuple[Countdown, ...]:
    """Every milestone at an hour after placing. Only a tick of a person ticks one, whatever the figures say."""
    return tuple(_countdown(row, readiness, now) for row in readiness.rows)


def _countdown(row: ReadinessRow, readiness: Readiness, now: float) -> Countdown:
    hardening = readiness.hardening
    needs = row.needs if row.needs_factor is None else row.needs_factor
    gathered = hardening.curves.likely.age_at(now)
    share = None if not hardening.is_placed else 1.0 if gathered >= needs else gathered / needs
    is_timed = hardening.is_placed and row.after_h is not None
    return Countdown(
        milestone=row.milestone,
        early=row.early,
        likely=row.at,
        late=row.late,
        hours_left=row.after_h - now if is_timed and row.after_h is not None else None,
        share=share,
        ticked=row.ticked,
        state=_state(row, now, is_placed=hardening.is_placed),
    )


def _state(row: ReadinessRow, now: float, *, is_placed: bool) -> State:
    if row.ticked is not None:
        return "ticked"
    if not is_placed:
        return "not_placed"
    if row.early_after_h is None:
        return "never"
    if now < row.early_after_h:
        return "waiting"
    return "may_be_ready" if row.late_after_h is None or now < row.late_after_h else "should_be_ready"


def ticked_early(readiness: Readiness) -> Sequence[ReadinessRow]:
    """Milestones that somebody ticked before their window opened."""
    return [
        row
        for row in readiness.rows
        if row.ticked is not None and readiness.hardening.is_placed and _is_early(row, readiness)
    ]


def _is_early(row: ReadinessRow, readiness: Readiness) -> bool:
    if row.ticked is None:
        return False
    return row.early_after_h is None or readiness.hardening.hour(moment_from_time(row.ticked.at)) < row.early_after_h
