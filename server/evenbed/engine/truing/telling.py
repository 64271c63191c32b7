"""The reading that would tell most now."""

from collections.abc import Iterable, Iterator
from itertools import chain

from evenbed.engine.truing.equations import READING_SIGMA
from evenbed.engine.truing.lying import Lying
from evenbed.engine.truing.places import LEAST_SPAN, Place, Span
from evenbed.engine.truing.shapes import NextCheck

SAME_PLACE = 50.0  # mm: read again there a level shows the same again
PARTS = 4  # along a lie: places are tried at both ends and at every fourth
KNOWN = 1 / 6  # of the tolerance: three standard errors are then half of it


def next_check_from(lying: Lying, tolerance: float) -> NextCheck | None:
    """A lie that no level lay along, then lies never tied to their neighbours, then what makes the worst end surer.

    Only of lies that are there now.

    None where every end is known well enough, or nothing that was not read yet tells of it.
    """
    unread = next((n for n in lying.system.now if n not in lying.along and _along(lying, n)), None)
    if unread is not None:
        return _named(lying, _along(lying, unread)[0])
    untied = [pair for pair in lying.within_reach if lying.tied[pair[0]] != lying.tied[pair[1]]]
    if untied:
        across = _across(lying, untied)
        return _named(lying, max(across, key=lambda span: lying.solution.variance(lying.system.difference(span))))
    return _surer(lying, tolerance)


def _surer(lying: Lying, tolerance: float) -> NextCheck | None:
    n, end = max(((n, end) for n in lying.system.now for end in (0, 1)), key=lambda e: lying.sigmas[e[0]][e[1]])
    if lying.sigmas[n][end] <= KNOWN * tolerance or (n, True) not in lying.system.place:
        return None
    members = lying.members[lying.group[n]]
    ends = [lying.system.place[m, True] + side for m in members for side in (0, 1)]
    sought = dict.fromkeys(ends, -1.0 / len(ends))
    sought[lying.system.place[n, True] + end] += 1.0
    rows = lying.solution.covariances
    towards = [sum(rows[i][j] * share for j, share in sought.items()) for i in range(lying.system.size)]
    pairs = [pair for pair in lying.within_reach if pair[0] in members]
    spans = chain.from_iterable(_along(lying, m) for m in members if m in lying.now)
    best = max(
        _unread(lying, chain(spans, _across(lying, pairs))),
        key=lambda span: _gain(lying, span, towards),
        default=None,
    )
    return None if best is None else _named(lying, best)


def _gain(lying: Lying, span: Span, towards: list[float]) -> float:
    """How much less uncertain the end sought becomes by a reading taken both ways round."""
    difference = lying.system.difference(span)
    pull = sum(factor * towards[i] for i, factor in difference.items())
    return pull * pull / (READING_SIGMA * READING_SIGMA / 2.0 + lying.solution.variance(difference))


def _along(lying: Lying, n: int) -> list[Span]:
    """Ways to lay the longest straightedge along a lie, first at its beginning."""
    size = lying.rails.lengths[n]
    run = min(size, lying.reach)
    if run < LEAST_SPAN or (n, True) not in lying.system.place:
        return []
    starts = [(size - run) * part / PARTS for part in range(PARTS + 1)] if size > run else [0.0]
    spans = (lying.rails.span((n, start), (n, start + run)) for start in starts)
    return [span for span in spans if span is not None]


def _across(lying: Lying, pairs: Iterable[tuple[int, int]]) -> list[Span]:
    known = [pair for pair in pairs if all((n, True) in lying.system.place for n in pair)]
    return [span for pair in known for span in lying.rails.crossings(*pair, lying.reach, PARTS)]


def _unread(lying: Lying, spans: Iterable[Span]) -> Iterator[Span]:
    """Spans not yet read both ways round; read one way only, they still tell more."""
    read: dict[tuple[int, int], list[Span]] = {}
    for one in lying.system.reads:
        if one.counts and one.check.reversed_off is not None and one.span is not None:
            read.setdefault(_lies_of(one.span), []).append(one.span)
    for span in spans:
        if not any(_is_same(one, span) for one in read.get(_lies_of(span), ())):
            yield span


def _lies_of(span: Span) -> tuple[int, int]:
    return min(span.start[0], span.end[0]), max(span.start[0], span.end[0])


def _is_same(one: Span, other: Span) -> bool:
    """True for two spans between the same places, whichever comes first."""
    ways = ((other.start, other.end), (other.end, other.start))
    return any(_is_near(one.start, a) and _is_near(one.end, b) for a, b in ways)


def _is_near(one: Place, other: Place) -> bool:
    return one[0] == other[0] and abs(one[1] - other[1]) <= SAME_PLACE


def _named(lying: Lying, span: Span) -> NextCheck:
    (one, _), (other, _) = span.start, span.end
    ids = lying.rails.lies[one].rail.id, lying.rails.lies[other].rail.id
    start, end = lying.rails.along(span.start), lying.rails.along(span.end)
    return NextCheck(ids[0] if one == other else None, None if one == other else ids, start, end)
