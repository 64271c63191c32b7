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
from evenbed.engine.flatness.shapes import GapVerdict, StraightedgeCheck, Verdict
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
    known = [(one.gap, one.sigma) for one in (gap, hump) if one is not None]
    is_beyond = any(found > limit.gap + ROUNDING for found, _ in known)
    verdict = _verdict(is_beyond, judged >= ENOUGH and not is_awaited, bool(surface.spots or laid))
    telling = telling_of(known or [(0.0, sigma_of_none(surface))], is_beyond=is_beyond)
    is_sure = abs(telling[0] - limit.gap) >= DOUBT * telling[1]
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


def telling_of(found: Sequence[tuple[float, float]], *, is_beyond: bool) -> tuple[float, float]:
    """Of gaps and humps, each with its standard error, the one that a verdict stands by.

    Beyond the limit one is enough: the one that is so most surely. Within it all must be: the one that may be most.
    """
    doubt = -DOUBT if is_beyond else DOUBT
    return max(found, key=lambda one: one[0] + doubt * one[1])


def sigma_of_none(surface: BedSurface) -> float:
    """Standard error of a gap where none was found, mm: amid two readings of the worst; 0 where nothing was read."""
    return math.sqrt(1.5) * max(surface.sigmas, default=0.0)


def _verdict(is_beyond: bool, is_judged: bool, is_read: bool) -> Verdict:
    if is_beyond:
        return "beyond"
    if is_judged:
        return "within"
    return "too_sparse" if is_read else "not_read"


def gap_verdicts_of(limits: Limits, gaps: Sequence[MeasuredGap]) -> tuple[GapVerdict, ...]:
    """Every measured gap against the limit for the straightedge that lay there."""
    return tuple(_gap_verdict(limits, gap) for gap in gaps)


def _gap_verdict(limits: Limits, gap: MeasuredGap) -> GapVerdict:
    """Under one longer than the rule's nothing but what is within can be told: a shorter one shows less."""
    length = math.dist(gap.start, gap.end)
    limit = limits.at(length)
    if limit is None:
        longest = max((row for row in limits.rows if row.decides), key=lambda row: row.length, default=None)
        if longest is None or length < longest.length or gap.gap > longest.gap + ROUNDING:
            return GapVerdict(gap.id, gap.gap, None, "no_limit", length)
        limit = longest.gap
    return GapVerdict(gap.id, gap.gap, limit, "beyond" if gap.gap > limit + ROUNDING else "within", length)


def worst_verdict(verdicts: Iterable[Verdict]) -> Verdict:
    """The worst of several; `not_read` of none."""
    return min(verdicts, key=ORDER.index, default="not_read")
