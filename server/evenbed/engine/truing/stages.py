"""Which lies of the strips are there now, and on which of two that overlap a reading was taken.

Rails longer than a strip are laid in several lies, one after the other, all rails side by side (common practice, no
source): while the first lies are trued there is no strip further on, and once the second ones lie, the first are
finished bed. How far the work is, is told by what was read and bedded anew beyond any overlap.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import accumulate

from evenbed.engine.document.rails import Check, Truing
from evenbed.engine.truing.places import Rails, Span


@dataclass(frozen=True)
class Laid:
    """Where every reading lay, None for one that lay on no lie; and the lies that are there now, one of each rail."""

    spans: tuple[Span | None, ...]
    now: tuple[int, ...]


class _Stages:
    """How far the work was at any moment: the furthest lie that anything tells of without doubt, 1 at first."""

    def __init__(self, told: Sequence[tuple[float, int]]) -> None:
        ordered = sorted(told)
        self.moments = [at for at, _ in ordered]
        self.furthest = list(accumulate((order for _, order in ordered), max))

    def at(self, moment: float) -> int:
        """The stage at a moment."""
        count = bisect_right(self.moments, moment)
        return self.furthest[count - 1] if count else 1


def laid_from(checks: Sequence[Check], truings: Sequence[Truing], rails: Rails) -> Laid:
    """Where the readings lay. One that two lies hold was taken on the one that was there then."""
    held = [rails.holding(check) for check in checks]
    trued = [(moment_of(one.at), rails.lies[n].order) for one in truings if one.lie for n in rails.trued(one)]
    sure = [
        (moment_of(check.taken_at), rails.lies[lies[0]].order)
        for check, both in zip(checks, held, strict=True)
        for lies in both
        if len(lies) == 1
    ]
    stages = _Stages([*trued, *sure])
    spans = tuple(
        _span(rails, check, both, stages.at(moment_of(check.taken_at)))
        for check, both in zip(checks, held, strict=True)
    )
    read = (rails.lies[n].order for span in spans if span is not None for n in (span.start[0], span.end[0]))
    stage = max([1, *read, *(order for _, order in trued)])
    return Laid(spans, tuple(lies[min(stage, len(lies)) - 1] for lies in rails.of.values()))


def _span(rails: Rails, check: Check, held: tuple[list[int], list[int]], stage: int) -> Span | None:
    if not all(held):
        return None
    start, end = (_there(rails, lies, stage) for lies in held)
    first, last = check.start - rails.lies[start].first, check.end - rails.lies[end].first
    return rails.span((start, first), (end, last))


def _there(rails: Rails, lies: Sequence[int], stage: int) -> int:
    """Of the lies that hold a place the last that was there at that stage, else the first."""
    return max((n for n in lies if rails.lies[n].order <= stage), default=lies[0])


def moment_of(at: str | None) -> float:
    """Seconds since 1970; before everything where there is no time."""
    return -math.inf if at is None else datetime.fromisoformat(at).timestamp()
