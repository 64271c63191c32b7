"""From readings to equations: what each level showed, how rails were bedded anew, and what is believed beforehand.

Unknown are two heights of every rail, its beginning and its end against the top of bed, and the slope error of every
level. A rail is one straight line, whatever strips it is made of. Of a rail that was bedded anew there are two lies:
the one that holds, and the last one before it that anybody read, joined to it by what it was raised.

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
from datetime import datetime

from evenbed.engine.document.rails import Check, Truing
from evenbed.engine.truing.places import Rails, Span

READING_SIGMA = (
    0.5  # mm over the level's length, read to 1/16 in: 1.6 mm / √12 and a little; common practice, no source
)
SET_SIGMA = 3.0  # mm: how well a rail's end lies once it is set from its stations; common practice, no source
BEDDED_SIGMA = 1.0  # mm: how well an end moves by what it was meant to; common practice, no source
LEVEL_SIGMA = 2.0  # mm/m: error of a level that nobody turned; common practice, no source
MOST_RAILS = 60  # reckoned together: a dozen is a large room
MOST_LEVELS = 20

Terms = dict[int, float]  # unknown → its factor
Lie = tuple[int, bool]  # which rail, and whether it is the lie that holds


@dataclass(frozen=True)
class Equation:
    """Σ factor × unknown = value, give or take sigma. `check` is the reading it stands for, None for a belief."""

    terms: Terms
    value: float
    sigma: float
    check: int | None = None


@dataclass(frozen=True)
class Read:
    """One reading: where it lay, and whether it tells how its rails lie now. No span: its places are not there."""

    check: Check
    span: Span | None
    counts: bool


@dataclass(frozen=True)
class System:
    """All equations. `place` numbers the beginning of each lie (its end is the next one), `level` each level."""

    equations: tuple[Equation, ...]
    reads: tuple[Read, ...]
    place: dict[Lie, int]
    level: dict[str, int]
    size: int
    is_cut: bool

    def difference(self, span: Span) -> Terms:
        """Height error at the span's end less that at its start, as the rails lie now."""
        terms: Terms = {}
        for (n, share), sign in zip(span.shares, (-1.0, 1.0), strict=True):
            _add(terms, self.place[n, True], sign, share)
        return terms


class _Bedding:
    """When each rail was bedded anew, and which of its lies a reading belongs to."""

    def __init__(
        self, rails: Rails, checks: Sequence[Check], spans: Sequence[Span | None], truings: Iterable[Truing]
    ):
        self.truings: dict[int, list[tuple[float, Truing]]] = {}
        for one in truings:
            if one.rail in rails.number:
                self.truings.setdefault(rails.number[one.rail], []).append((_moment(one.at), one))
        self.moments = {n: sorted(at for at, _ in made) for n, made in self.truings.items()}
        self.before: dict[int, int] = {}
        for check, span in zip(checks, spans, strict=True):
            for n in _rails_of(span):
                lie = self.lie_at(n, check)
                if lie < len(self.moments.get(n, ())):
                    self.before[n] = max(lie, self.before.get(n, 0))

    def lie_at(self, rail: int, check: Check) -> int:
        """How often the rail had been bedded anew by then. Without a time a reading came before them all."""
        return bisect_left(self.moments.get(rail, []), _moment(check.taken_at))

    def lie(self, rail: int, check: Check) -> Lie | None:
        """The lie a reading saw; None for one that others have been read after."""
        lie = self.lie_at(rail, check)
        if lie == len(self.moments.get(rail, ())):
            return rail, True
        return (rail, False) if lie == self.before[rail] else None

    def moved(self, rail: int) -> tuple[float, float, float] | None:
        """Raised since the lie before: beginning, end, and its standard error; None where one was not told."""
        since = sorted(self.truings[rail], key=lambda made: made[0])[self.before[rail] :]
        if any(one.from_raise == 0.0 and one.to_raise == 0.0 for _, one in since):
            return None
        start = math.fsum(one.from_raise for _, one in since)
        end = math.fsum(one.to_raise for _, one in since)
        return start, end, BEDDED_SIGMA * math.sqrt(len(since))


def system_from(checks: Sequence[Check], truings: Sequence[Truing], rails: Rails) -> System:
    """The equations of everything that was read. At most MOST_RAILS rails, those first that were read first."""
    spans = [rails.span_of(check) for check in checks]
    bedding = _Bedding(rails, checks, spans, truings)
    kept = list(dict.fromkeys(n for span in spans for n in _rails_of(span)))
    kept = sorted([*kept, *(n for n in range(len(rails.all)) if n not in set(kept))][:MOST_RAILS])
    place = {(n, True): 2 * i for i, n in enumerate(kept)}
    place |= {(n, False): 2 * (len(kept) + i) for i, n in enumerate(m for m in kept if m in bedding.before)}
    levels = list(dict.fromkeys(c.level for c, span in zip(checks, spans, strict=True) if span))
    level = {name: 2 * len(place) + i for i, name in enumerate(levels[:MOST_LEVELS])}
    reads, equations = [], [*_beliefs(place, level, bedding)]
    for n, (check, span) in enumerate(zip(checks, spans, strict=True)):
        is_known = span is not None and check.level in level and all((m, True) in place for m in _rails_of(span))
        lies = [bedding.lie(m, check) for m in (span.start[0], span.end[0])] if span is not None and is_known else []
        reads.append(Read(check, span, bool(lies) and all(lie is not None and lie[1] for lie in lies)))
        if span is not None and is_known:
            equations += _shown(n, check, _difference(span, lies, place), span, level[check.level])
    is_cut = len(kept) < len(rails.all) or len(levels) > MOST_LEVELS
    return System(tuple(equations), tuple(reads), place, level, 2 * len(place) + len(level), is_cut)


def _beliefs(place: dict[Lie, int], level: dict[str, int], bedding: _Bedding) -> Iterable[Equation]:
    for (rail, now), first in place.items():
        moved = bedding.moved(rail) if now and (rail, False) in place else None
        for end in (0, 1):
            if moved is None:
                yield Equation({first + end: 1.0}, 0.0, SET_SIGMA)
            else:
                yield Equation({first + end: 1.0, place[rail, False] + end: -1.0}, moved[end], moved[2])
    for own in level.values():
        yield Equation({own: 1.0}, 0.0, LEVEL_SIGMA)


def _difference(span: Span, lies: Sequence[Lie | None], place: dict[Lie, int]) -> Terms | None:
    """The same as the rails lay then; None where a lie is no longer reckoned with."""
    terms: Terms = {}
    for (_, share), lie, sign in zip(span.shares, lies, (-1.0, 1.0), strict=True):
        if lie is None:
            return None
        _add(terms, place[lie], sign, share)
    return terms


def _add(terms: Terms, first: int, sign: float, share: float) -> None:
    """The height at a share of a rail's length, of which `first` is the beginning."""
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


def _rails_of(span: Span | None) -> set[int]:
    return set() if span is None else {span.start[0], span.end[0]}


def _moment(at: str | None) -> float:
    """Seconds since 1970; before everything where there is no time."""
    return -math.inf if at is None else datetime.fromisoformat(at).timestamp()
