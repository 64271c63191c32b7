"""A straightedge laid on the bed by hand: its profile, where it touches, how far it stands open, and the limit."""

import math
from collections.abc import Iterator

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.check import checked_document
from evenbed.engine.document.reading import read_json
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.cuts import Knots
from evenbed.engine.flatness.hull import hull_over
from evenbed.engine.flatness.lying import lying_of
from evenbed.engine.flatness.search import worst_on
from evenbed.engine.flatness.shapes import Lying, StraightedgeAnswer, StraightedgeQuestion
from evenbed.engine.flatness.verdicts import DOUBT
from evenbed.engine.geometry import between
from evenbed.engine.identity import identity
from evenbed.engine.problems import BadDocumentError, problem_at, problems_under
from evenbed.engine.region import stretches_along
from evenbed.engine.worked import WorkedRoom

SHORTEST = 1.0  # mm: less is a tap, not a straightedge
CUT = 1.0  # mm: less than this left out is a tap's own


def straightedge_from(given: object) -> StraightedgeAnswer:
    """The bed under a straightedge (parsed JSON in), over its longest stretch of read bed within the walls.

    The limit is that stretch's: what lies beyond it is not judged. Where it lies on no read bed there is no profile,
    and the limit is that of its whole length. Raises BadDocumentError for a room that gives no plan, and for a
    straightedge shorter than SHORTEST.
    """
    question, _ = read_json(StraightedgeQuestion, given)
    whole = math.dist(question.start, question.end)
    if whole < SHORTEST:
        raise BadDocumentError([problem_at("to", "profile_no_length")])
    with problems_under("document"):
        room = WorkedRoom(checked_document(question.document))
        found = room.flatness
        stretches = found.surface.profile(question.start, question.end)
        knots = max(stretches, key=_length_of, default=None)
        limit = found.limits.at(whole if knots is None else _length_of(knots))
        return _answer(question, found.surface, knots, limit)


def _length_of(knots: Knots) -> float:
    return knots[0][-1] - knots[0][0]


def _answer(
    question: StraightedgeQuestion, surface: BedSurface, knots: Knots | None, limit: float | None
) -> StraightedgeAnswer:
    if knots is None:
        return StraightedgeAnswer(identity(), (), (), None, None, limit, (_caution("straightedge_unread"),), 0.0)
    along, height = knots
    whole, length = math.dist(question.start, question.end), _length_of(knots)
    start, end = (between(question.start, question.end, t / whole) for t in (along[0], along[-1]))
    worst = worst_on(surface, start, end, length)
    gap, hump = (lying_of(surface, one, length) for one in (worst.gap, worst.hump))
    return StraightedgeAnswer(
        engine=identity(),
        profile=tuple(zip(along, height, strict=True)),
        edge=tuple((along[n], height[n]) for n in hull_over(along, height)),
        gap=gap,
        hump=hump,
        limit=limit,
        cautions=(*_laid_cautions(question, surface, length), *_gap_cautions(gap, limit)),
        length=length,
    )


def _laid_cautions(question: StraightedgeQuestion, surface: BedSurface, length: float) -> Iterator[Caution]:
    yield _caution("flatness_computed")
    left_out = math.dist(question.start, question.end) - length
    if len(stretches_along(surface.regions, question.start, question.end)) > 1:
        yield _caution("straightedge_parted", length=length)
    elif left_out > CUT:
        yield _caution("straightedge_cut", left_out=left_out)


def _gap_cautions(gap: Lying | None, limit: float | None) -> Iterator[Caution]:
    if gap is not None and limit is not None and abs(gap.gap - limit) < DOUBT * gap.sigma:
        values = {"gap": gap.gap, "limit": limit, "doubt": DOUBT * gap.sigma}
        yield _caution("flatness_near_limit", length=math.dist(gap.start, gap.end), **values)


def _caution(code: str, **values: float) -> Caution:
    return caution_at("straightedge", code, **values)
