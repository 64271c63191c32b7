"""What a straightedge laid all over the bed, and gaps measured with a wedge, come to against the limits.

A gap or a hump over its limit is beyond it, however few the readings. That none was found says nothing where the
readings are too far apart (`coverage`), or a place was worked over and nobody looked since: then it is too sparse to
judge.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.document.flatness import MeasuredGap
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.beyond import beyond_share_of
from evenbed.engine.flatness.coverage import ENOUGH, Coverage
from evenbed.engine.flatness.lying import lying_of
from evenbed.engine.flatness.search import worst_lying
from evenbed.engine.flatness.shapes import GapVerdict, Lying, StraightedgeCheck, Verdict
from evenbed.engine.flatness.standards import SLACK, Limit, Limits

DOUBT = 1.645  # standard errors: 90 % of what readings err by lies within them, either way
ROUNDING = 1e-6  # mm: what is no further over its limit is right at it, however the room lies on the drawing
ORDER: tuple[Verdict, ...] = ("beyond", "too_sparse", "not_read", "within")
"""The worst first: a floor is within its limits where every check is."""


@dataclass(frozen=True)
class Laid:
    """One length of straightedge over the bed: the check, and whether lines of it were left out."""

    check: StraightedgeCheck
    is_reduced: bool


def checks_of(
    limits: Limits, surface: BedSurface, coverage: Coverage, gaps: Sequence[MeasuredGap], *, is_awaited: bool
) -> tuple[Laid, ...]:
    """Every length of straightedge of a standard against its limit; `is_awaited` where a touched place is unread."""
    return tuple(_checked(limit, surface, coverage, gaps, is_awaited) for limit in limits.rows)


def _checked(
    limit: Limit, surface: BedSurface, coverage: Coverage, gaps: Sequence[MeasuredGap], is_awaited: bool
) -> Laid:
    worst = worst_lying(surface, limit.length, limit.gap)
    gap, hump = (lying_of(surface, found, limit.length) for found in (worst.gap, worst.hump))
    told = [one for one in gaps if tells_of(one, limit)]
    laid = [(one.start, one.end) for one in told]
    judged = 1.0 if any(one.passed_over for one in told) else coverage.judged_share(limit.length, laid)
    is_beyond = any(one is not None and one.gap > limit.gap + ROUNDING for one in (gap, hump))
    verdict = _verdict(is_beyond, judged >= ENOUGH and not is_awaited, bool(surface.spots or laid))
    is_sure = all(abs(found - limit.gap) >= DOUBT * sigma for found, sigma in _found(gap, hump))
    return Laid(
        StraightedgeCheck(
            limit=limit.gap,
            basis=limit.basis,
            code=limit.code,
            verdict=verdict,
            sure=is_sure and not (worst.is_reduced and verdict == "within"),
            gap=gap,
            hump=hump,
            judged_share=judged,
            beyond_share=beyond_share_of(surface, coverage, limit.length, limit.gap) if is_beyond else 0.0,
            length=limit.length,
        ),
        worst.is_reduced,
    )


def tells_of(gap: MeasuredGap, limit: Limit) -> bool:
    """True where a straightedge as long as the rule's, or a longer one that found no more than its limit, lay."""
    long = math.dist(gap.start, gap.end)
    is_as_long = abs(long - limit.length) <= SLACK * limit.length
    return is_as_long or (long > limit.length and gap.gap <= limit.gap)


def _found(gap: Lying | None, hump: Lying | None) -> Iterable[tuple[float, float]]:
    return [(one.gap, one.sigma) for one in (gap, hump) if one is not None]


def _verdict(is_beyond: bool, is_judged: bool, is_read: bool) -> Verdict:
    if is_beyond:
        return "beyond"
    if is_judged:
        return "within"
    return "too_sparse" if is_read else "not_read"


def gap_verdicts_of(limits: Limits, gaps: Sequence[MeasuredGap]) -> tuple[GapVerdict, ...]:
    """Every measured gap against the limit for the straightedge that lay there."""
    found = []
    for gap in gaps:
        length = math.dist(gap.start, gap.end)
        limit = limits.at(length)
        verdict = "no_limit" if limit is None else "beyond" if gap.gap > limit + ROUNDING else "within"
        found.append(GapVerdict(gap.id, gap.gap, limit, verdict, length))  # type: ignore[arg-type]
    return tuple(found)


def worst_verdict(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several; `not_read` of none."""
    return min(verdicts, key=ORDER.index, default="not_read")
