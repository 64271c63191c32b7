"""From readings to equations: what each level showed, how rails were bedded anew, and what is believed beforehand.

Unknown are two heights of every lie of a strip, its beginning and its end against the top of bed, and the slope error
of every level. A lie is one straight line: a whole rail, where its strip is not moved. Of a lie that was bedded anew
there are two beds: the one that holds, and the last one before it that anybody read, joined by what it was raised.

A level over `length` shows

    off = length / run × (height error at `to` − height error at `from` + rise of the top) + error × length

and turned end for end the same with − error (to turn a level and split the difference: common practice, no source).
It is taken to lie the same way round towards `to` in every first reading. What it shows is the same wherever all
rails lie together: no level tells their common height, and what is believed beforehand holds it where it was set.
"""

import math
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.document.rails import Check, Truing
from evenbed.engine.truing.places import Ends, Rails, Span
from evenbed.engine.truing.stages import Laid, laid_from, moment_of

READING_SIGMA = (
    0.5  # mm over the level's length, read to 1/16 in: 1.6 mm / √12 and a little; common practice, no source
)
SET_SIGMA = 3.0  # mm: how well a rail's end lies once it is set from its stations; common practice, no source
BEDDED_SIGMA = 1.0  # mm: how well an end moves by what it was meant to; common practice, no source
LEVEL_SIGMA = 2.0  # mm/m: error of a level that nobody turned; common practice, no source
MOST_RAILS = 60  # lies reckoned together: a dozen side by side is a large room
MOST_LEVELS = 20

Terms = dict[int, float]  # unknown → its factor
Bed = tuple[int, bool]  # which lie, and whether it is the bed that holds


@dataclass(frozen=True)
class Equation:
    """Σ factor × unknown = value, give or take sigma. `check` is the reading it stands for, None for a belief."""

    terms: Terms
    value: float
    sigma: float
    check: int | None = None


@dataclass(frozen=True)
class Read:
    """One reading: where it lay, and whether it tells how its lies lie now. No span: its places are on none."""

    check: Check
    span: Span | None
    counts: bool


@dataclass(frozen=True)
class System:
    """All equations. `place` numbers the beginning of each bed (its end is the next one), `level` each level.

    `now` are the lies that are there now, one of each rail.
    """

    equations: tuple[Equation, ...]
    reads: tuple[Read, ...]
    place: dict[Bed, int]
    level: dict[str, int]
    size: int
    is_cut: bool
    now: tuple[int, ...]

    def difference(self, span: Span) -> Terms:
        """Height error at the span's end less that at its start, as its lies lie now."""
        terms: Terms = {}
        for (n, share), sign in zip(span.shares, (-1.0, 1.0), strict=True):
            _add(terms, self.place[n, True], sign, share)
        return terms


class _Bedding:
    """When each lie was bedded anew, and which of its beds a reading belongs to."""

    def __init__(self, rails: Rails, checks: Sequence[Check], laid: Laid, truings: Iterable[Truing]):
        self.truings: dict[int, list[tuple[float, Ends]]] = {}
        for one in truings:
            for n in rails.trued(one):
                self.truings.setdefault(n, []).append((moment_of(one.at), rails.lies[n].raised(one)))
        self.moments = {n: sorted(at for at, _ in made) for n, made in self.truings.items()}
        self.before: dict[int, int] = {}
        for check, span in zip(checks, laid.spans, strict=True):
            for n in _lies_of(span):
                count = self.count_at(n, check)
                if count < len(self.moments.get(n, ())):
                    self.before[n] = max(count, self.before.get(n, 0))

    def count_at(self, lie: int, check: Check) -> int:
        """How often the lie had been bedded anew by then. Without a time a reading came before them all."""
        return bisect_left(self.moments.get(lie, []), moment_of(check.taken_at))

    def bed(self, lie: int, check: Check) -> Bed | None:
        """The bed a reading saw; None for one that others have been read after."""
        count = self.count_at(lie, check)
        if count == len(self.moments.get(lie, ())):
            return lie, True
        return (lie, False) if count == self.before[lie] else None

    def moved(self, lie: int) -> tuple[float, float, float] | None:
        """Raised since the bed before: beginning, end, and its standard error; None where one was not told."""
        since = [by for _, by in sorted(self.truings[lie], key=lambda made: made[0])[self.before[lie] :]]
        if any(by == (0.0, 0.0) for by in since):
            return None
        start, end = (math.fsum(by[end] for by in since) for end in (0, 1))
        return start, end, BEDDED_SIGMA * math.sqrt(len(since))


def system_from(checks: Sequence[Check], truings: Sequence[Truing], rails: Rails) -> System:
    """The equations of everything that was read, over the lies that were read or are there now.

    At most MOST_RAILS lies: those that are there now first, of these the ones that were read first.
    """
    laid = laid_from(checks, truings, rails)
    bedding = _Bedding(rails, checks, laid, truings)
    known = _by_weight(laid)
    kept = sorted(known[:MOST_RAILS])
    place = {(n, True): 2 * i for i, n in enumerate(kept)}
    place |= {(n, False): 2 * (len(kept) + i) for i, n in enumerate(m for m in kept if m in bedding.before)}
    levels = list(dict.fromkeys(c.level for c, span in zip(checks, laid.spans, strict=True) if span))
    level = {name: 2 * len(place) + i for i, name in enumerate(levels[:MOST_LEVELS])}
    reads, equations = [], [*_beliefs(place, level, bedding)]
    for n, (check, span) in enumerate(zip(checks, laid.spans, strict=True)):
        is_known = span is not None and check.level in level and all((m, True) in place for m in _lies_of(span))
        beds = [bedding.bed(m, check) for m in (span.start[0], span.end[0])] if span is not None and is_known else []
        reads.append(Read(check, span, bool(beds) and all(bed is not None and bed[1] for bed in beds)))
        if span is not None and is_known:
            equations += _shown(n, check, _difference(span, beds, place), span, level[check.level])
    is_cut = len(kept) < len(known) or len(levels) > MOST_LEVELS
    return System(tuple(equations), tuple(reads), place, level, 2 * len(place) + len(level), is_cut, laid.now)


def _by_weight(laid: Laid) -> list[int]:
    """The lies to reckon with, those first that matter most."""
    now = set(laid.now)
    read = dict.fromkeys(n for span in laid.spans for n in _lies_of(span))
    return [
        *(n for n in read if n in now),
        *(n for n in read if n not in now),
        *(n for n in laid.now if n not in read),
    ]


def _beliefs(place: dict[Bed, int], level: dict[str, int], bedding: _Bedding) -> Iterable[Equation]:
    for (lie, now), first in place.items():
        moved = bedding.moved(lie) if now and (lie, False) in place else None
        for end in (0, 1):
            if moved is None:
                yield Equation({first + end: 1.0}, 0.0, SET_SIGMA)
            else:
                yield Equation({first + end: 1.0, place[lie, False] + end: -1.0}, moved[end], moved[2])
    for own in level.values():
        yield Equation({own: 1.0}, 0.0, LEVEL_SIGMA)


def _difference(span: Span, beds: Sequence[Bed | None], place: dict[Bed, int]) -> Terms | None:
    """The same as the rails lay then; None where a bed is no longer reckoned with."""
    terms: Terms = {}
    for (_, share), bed, sign in zip(span.shares, beds, (-1.0, 1.0), strict=True):
        if bed is None:
            return None
        _add(terms, place[bed], sign, share)
    return terms


def _add(terms: Terms, first: int, sign: float, share: float) -> None:
    """The height at a share of a lie's length, of which `first` is the beginning."""
    terms[first] = terms.get(first, 0.0) + sign * (1.0 - share)
    terms[first + 1] = terms.get(first + 1, 0.0) + sign * share


def _shown(n: int, check: Check, difference: Terms | None, span: Span, level: int) -> Iterable[Equation]:
    """What one reading says; where its rails no longer tell, a level turned end for end still tells of itself."""
    size = check.length or span.run
    scale, own = size / span.run, size / 1000.0
    turned = check.reversed_off
    if difference is None:
        if turned is not None:
            yield Equation({level: 2.0 * own}, check.off - turned, READING_SIGMA * math.sqrt(2.0), n)
        return
    terms = {unknown: scale * factor for unknown, factor in difference.items()}
    yield Equation({**terms, level: own}, check.off - scale * span.rise, READING_SIGMA, n)
    if turned is not None:
        yield Equation({**terms, level: -own}, turned - scale * span.rise, READING_SIGMA, n)


def _lies_of(span: Span | None) -> set[int]:
    return set() if span is None else {span.start[0], span.end[0]}
