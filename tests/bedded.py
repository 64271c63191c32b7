"""Rails bedded with random errors, what a level shows on them, and two ways to bring them true.

Where a figure is about people's hands it is an assumption of these simulations, common practice and no source.
"""

import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from evenbed.engine.document.rails import Check, RailDesign, Truing
from evenbed.engine.document.room import Document, Outline
from evenbed.engine.rails.shapes import LaidStrip, Rail, Station
from evenbed.engine.truing.trued import Trued

SIXTEENTH = 25.4 / 16.0
STRAIGHTEDGE = 1828.8  # mm, 6 ft
BEARING = 50.8
SET = 3.0  # mm, standard deviation of a rail's end as it was set
OUT = 1.5  # mm/m, standard deviation of the level's error
SHAKE = 0.2  # mm, standard deviation of a reading before it is rounded to 1/16 in
BEDDED = 0.2  # mm, standard deviation of an end raised by what was meant, beside the rounding of that
STRIP = LaidStrip(25.4, 38.1, 2438.4)
WORTH_CHASING = SIXTEENTH / 4.0  # mm: a reading as small as this is let be
Ends = tuple[float, float]
Raises = dict[int, Ends]
Where = tuple[int, float, int, float]  # the rails and places where the two ends of a level lie


def straight_rail(
    name: str, start: Sequence[float], end: Sequence[float], tops: Sequence[float] = (0.0, 0.0)
) -> Rail:
    """A rail with stations evenly along it, the top at each as given."""
    size, last = math.dist(start, end), len(tops) - 1
    stations = tuple(
        Station(
            (start[0] + (end[0] - start[0]) * n / last, start[1] + (end[1] - start[1]) * n / last),
            size * n / last,
            top - 40.0,
            top,
            14.6,
            9,
            15,
            is_break=False,
        )
        for n, top in enumerate(tops)
    )
    return Rail(name, (start[0], start[1]), (end[0], end[1]), STRIP, stations, (), 0.0)


def document_of(
    checks: Sequence[Check], truings: Sequence[Truing] = (), design: RailDesign | None = None
) -> Document:
    """A room of which only the rails' design and what was read on them matters."""
    design = design or RailDesign(straightedge=STRAIGHTEDGE)
    return Document(1, Outline(), (), rails=design, checks=tuple(checks), truings=tuple(truings))


@dataclass(frozen=True)
class Bedded:
    """Rails side by side, how much each end really stands too high, and what the level is out by (mm/m)."""

    rails: tuple[Rail, ...]
    ends: tuple[Ends, ...]
    level: float

    @property
    def length(self) -> float:
        """How long the rails are."""
        return math.dist(self.rails[0].start, self.rails[0].end)

    @property
    def is_within_a_millimetre(self) -> bool:
        """True where every end is within 1 mm."""
        return self.is_within(1.0)

    def is_within(self, most: float) -> bool:
        """True where some one height is no further than that from every end: no level tells which height it is."""
        flat = [end for pair in self.ends for end in pair]
        return max(flat) - min(flat) <= 2.0 * most

    def height(self, n: int, along: float) -> float:
        """How much a place of a rail stands too high."""
        start, end = self.ends[n]
        return start + (end - start) * along / self.length

    def moved(self, raises: Raises) -> "Bedded":
        """The same with rails raised."""
        ends = tuple(
            (pair[0] + raises.get(n, (0.0, 0.0))[0], pair[1] + raises.get(n, (0.0, 0.0))[1])
            for n, pair in enumerate(self.ends)
        )
        return replace(self, ends=ends)


def random_bedding(rng: random.Random) -> Bedded:
    """Two to six rails of 1.2 to 5 m, side by side within the straightedge's reach."""
    count, size = rng.randint(2, 6), rng.uniform(1200.0, 5000.0)
    apart = rng.uniform(0.8, 1.0) * (STRAIGHTEDGE - 2.0 * BEARING)
    rails = tuple(
        straight_rail("ABCDEF"[n], (0.0, n * apart), (size, n * apart), [0.0] * (max(2, round(size / 600.0) + 1)))
        for n in range(count)
    )
    return Bedded(rails, tuple((rng.gauss(0.0, SET), rng.gauss(0.0, SET)) for _ in rails), rng.gauss(0.0, OUT))


@dataclass(frozen=True)
class Level:
    """A level laid on a straightedge: what it shows over `length`, 0 for the whole distance, rounded to 1/16 in."""

    bedded: Bedded
    rng: random.Random
    length: float = 0.0

    def check(self, name: str, one: int, start: float, other: int, end: float) -> Check:
        """One reading, both ways round."""
        a, b = self.bedded.rails[one], self.bedded.rails[other]
        run = math.hypot(b.start[1] - a.start[1], end - start)
        size = min(self.length, run) or run
        rise = (self.bedded.height(other, end) - self.bedded.height(one, start)) * size / run
        own = self.bedded.level * size / 1000.0
        where = {"rail": a.id} if one == other else {"rails": (a.id, b.id)}
        off, turned = self._read(rise + own), self._read(rise - own)
        return Check(name, **where, start=start, end=end, off=off, length=size, reversed_off=turned)

    def _read(self, shown: float) -> float:
        return round((shown + self.rng.gauss(0.0, SHAKE)) / SIXTEENTH) * SIXTEENTH

    def protocol(self) -> tuple[Check, ...]:
        """Rail by rail: along it at both ends (once where the straightedge is as long), then across to the rail
        before it in the middle and at both ends; everything both ways round."""
        return tuple(self.check(f"c{n}", *where) for n, where in enumerate(self.places()))

    def places(self) -> Iterator[Where]:
        """The places of the protocol."""
        size = self.bedded.length
        starts = [0.0] if size <= STRAIGHTEDGE else [0.0, size - STRAIGHTEDGE]
        for n in range(len(self.bedded.rails)):
            yield from ((n, start, n, min(size, start + STRAIGHTEDGE)) for start in starts)
            if n > 0:
                yield from ((n - 1, share * size, n, share * size) for share in (0.5, 0.0, 1.0))


def raises_of(trued: Trued, bedded: Bedded, rng: random.Random, step: float) -> Raises:
    """By how much each rail moves when a person does what is proposed, in whole steps (0: not rounded)."""
    number = {rail.id: n for n, rail in enumerate(bedded.rails)}
    raises: dict[int, list[float]] = {}
    for one in trued.corrections:
        by = in_steps(one.raise_by, step)
        if by != 0.0:
            raises.setdefault(number[one.rail], [0.0, 0.0])[one.end == "to"] = by + rng.gauss(0.0, BEDDED)
    return {n: (by[0], by[1]) for n, by in raises.items()}


def in_steps(by: float, step: float) -> float:
    """The nearest whole steps, the same where there are none."""
    return round(by / step) * step if step else by


def chased(bedded: Bedded, level: Level, rng: random.Random, step: float) -> tuple[Bedded, int]:
    """The rails after correcting one check after the other, and how often a rail was lifted.

    The same readings in the same order, turned and the difference split, each acted on before the next one is taken:
    along a rail its far end, across in the middle the whole second rail, across at an end that end. Of several orders
    and limits tried this one did best.
    """
    lifts = 0
    for one, start, other, end in level.places():
        check = replace(level, bedded=bedded).check("", one, start, other, end)
        shown = (check.off + (check.reversed_off or 0.0)) / 2.0
        by = in_steps(-shown * (bedded.length / check.length if one == other else 1.0), step)
        if abs(shown) > WORTH_CHASING and by != 0.0:
            by += rng.gauss(0.0, BEDDED)
            ends = (0.0 if one == other or end == bedded.length else by, 0.0 if one != other and end == 0.0 else by)
            bedded, lifts = bedded.moved({other: ends}), lifts + 1
    return bedded, lifts
