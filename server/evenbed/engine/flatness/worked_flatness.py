"""The flatness of one room's bed, each step worked out once; what was worked out last is kept.

A temperature, a tick or a rail changes nothing of it: answers are the same with and without that.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from evenbed.engine.document.flatness import FlatnessDesign, HeightLine, MeasuredGap, Touch
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document, Fixture
from evenbed.engine.document.tops import DrainTop
from evenbed.engine.flatness.bed_readings import BedReading, bed_readings_from
from evenbed.engine.flatness.bed_surface import BedSurface, bed_surface_from
from evenbed.engine.flatness.coverage import ENOUGH, NEAR, Coverage, coverage_of
from evenbed.engine.flatness.floating import floated, floating_setup
from evenbed.engine.flatness.fnumbers import LEAST_READ, FlatAndLevel, Heights, f_numbers_of, lines_among
from evenbed.engine.flatness.levelled import FALLS, level_check_of
from evenbed.engine.flatness.lying import longest_stretch
from evenbed.engine.flatness.next_places import can_be_read, next_places, places_to_read_again
from evenbed.engine.flatness.shapes import FNumbers, GapVerdict, LevelCheck, LineNumbers, Verdict
from evenbed.engine.flatness.standards import ACI_LOCAL, ACI_NEEDS, Limits, limits_of
from evenbed.engine.flatness.touched import is_near, is_stale, stale_readings, unread_touches
from evenbed.engine.flatness.verdicts import Laid, checks_of, gap_verdicts_of, tells_of, worst_verdict
from evenbed.engine.flatness.work import WorkList, work_from
from evenbed.engine.heights import Levels
from evenbed.engine.worked_bed import WorkedBed

KEPT = 2  # the room being worked on, and one looked at between


@dataclass(frozen=True)
class WorkedFlatness:
    """One bed and what was measured on it."""

    bed: WorkedBed
    design: FlatnessDesign
    gaps: tuple[MeasuredGap, ...]
    height_lines: tuple[HeightLine, ...]
    touches: tuple[Touch, ...]

    @property
    def is_measured(self) -> bool:
        """True where anything was measured on the bed."""
        read = any(reading.stage == "bed" for reading in self.bed.document.readings)
        return read or bool(self.gaps or self.height_lines)

    @cached_property
    def levels(self) -> Levels:
        """Heights of everything read; of a bed that nothing ties, as if its mean lay at the designed top."""
        return floated(self.bed.document, self.bed.levels, self.bed.top)

    @property
    def is_floating(self) -> bool:
        """True where nobody knows how high the bed lies."""
        return floating_setup(self.bed.document, self.bed.levels) is not None

    @cached_property
    def stale(self) -> tuple[str, ...]:
        """Ids of readings and gaps whose place was worked over since."""
        gaps = {gap.id for gap in self.gaps if is_stale(gap, self.touches)}
        return tuple(sorted(stale_readings(self.bed.document.readings, self.touches) | gaps))

    @cached_property
    def counting_gaps(self) -> tuple[MeasuredGap, ...]:
        """The gaps under which nothing was worked over since they were measured."""
        return tuple(gap for gap in self.gaps if not is_stale(gap, self.touches))

    @cached_property
    def readings(self) -> tuple[BedReading, ...]:
        """The bed's read places that count."""
        return bed_readings_from(self.bed.document, self.levels, frozenset(self.stale))

    @cached_property
    def surface(self) -> BedSurface:
        """The bed as it was read, in heights above the designed top."""
        return self._surface_of(self.readings)

    def _surface_of(self, readings: Sequence[BedReading]) -> BedSurface:
        spots = [(*one.at, one.z - self.bed.top.at(*one.at)) for one in readings]
        return bed_surface_from(spots, self.bed.regions, [one.sigma for one in readings])

    @cached_property
    def coverage(self) -> Coverage:
        """How near to a reading every place of the bed is."""
        return coverage_of(self.bed.figure, self.surface)

    @cached_property
    def limits(self) -> Limits:
        """The limits in force that fit the room."""
        longest = longest_stretch(self.bed.regions)
        return limits_of(self.design, self.bed.document.bed.covering.longest_edge).fitting(longest)

    @cached_property
    def laid(self) -> tuple[Laid, ...]:
        """Every length of straightedge laid all over the bed."""
        return checks_of(self.limits, self.surface, self.coverage, self.counting_gaps, is_awaited=bool(self.unread))

    @cached_property
    def gap_verdicts(self) -> tuple[GapVerdict, ...]:
        """The gaps measured with a wedge."""
        return gap_verdicts_of(self.limits, self.counting_gaps)

    @cached_property
    def work(self) -> WorkList:
        """Where to rub down and fill up: by what was read last everywhere, worked over since or not."""
        readings = bed_readings_from(self.bed.document, self.levels, self._read_again)
        surface = self.surface if len(readings) == len(self.readings) else self._surface_of(readings)
        deciding = [row for row in self.limits.rows if row.decides]
        return work_from(surface, deciding, [self._lowest(*spot) for spot in surface.points], self.touches)

    @cached_property
    def _read_again(self) -> frozenset[str]:
        """Ids of stale readings at whose place something was read since."""
        return frozenset(key for key, at in self._stale_places.items() if at not in self._left)

    @cached_property
    def _left(self) -> tuple[Point, ...]:
        """Places of stale readings at which nothing was read since."""
        return tuple(places_to_read_again(self._stale_places.values(), [one.at for one in self.readings]))

    @cached_property
    def unread(self) -> tuple[Touch, ...]:
        """Touches in the room whose work nobody looked at since."""
        holds = self.bed.figure.holds
        touches = [one for one in self.touches if holds(one.at) or any(is_near(one, at) for at in self._left)]
        return unread_touches(touches, [one.at for one in self.readings], self._left, self.counting_gaps)

    @cached_property
    def _stale_places(self) -> dict[str, Point]:
        stale = frozenset(self.stale)
        return {one.id: one.at for one in self.bed.document.readings if one.at is not None and one.id in stale}

    def _lowest(self, x: float, y: float, height: float) -> float:
        """By how much a spot may be lowered at most until the bed is as thin there as it may be."""
        thickness = self.bed.top.at(x, y) + height - self.bed.surface.height_at(x, y)
        return -max(0.0, thickness - self.bed.limits[0])

    @cached_property
    def next_readings(self) -> tuple[Point, ...]:
        """Where to read next, so that the bed can be judged."""
        rows = zip(self.limits.rows, self.laid, strict=True)
        unjudged = [
            row for row, laid in rows if row.decides and laid.check.judged_share < ENOUGH and can_be_read(row)
        ]
        shortest = min(unjudged, key=lambda row: row.length, default=None)
        ways = [] if shortest is None else [(g.start, g.end) for g in self.counting_gaps if tells_of(g, shortest)]
        again = [*self._left, *(one.at for one in self.unread if not any(is_near(one, at) for at in self._left))]
        reach = None if shortest is None else NEAR * shortest.length
        return next_places(self.coverage, reach, ways, again, self.bed.figure)

    @property
    def drain(self) -> Fixture | None:
        """The drain that the top falls to, None where it falls to none."""
        document = self.bed.document
        top = document.bed.top
        if not isinstance(top, DrainTop):
            return None
        return next((fixture for fixture in document.fixtures if fixture.id == top.drain), None)

    @cached_property
    def level(self) -> LevelCheck | None:
        """The bed against its designed top."""
        return level_check_of(self.surface, self.bed.top, self.drain)

    @cached_property
    def flat_and_level(self) -> FlatAndLevel:
        """F-numbers of the lines measured, and of those that readings stand in."""
        given = [Heights(line.id, line.heights, line.spacing) for line in self.height_lines]
        heights = {(x, y): z for x, y, z in self.surface.points}
        spots = [(one.id, one.at, heights[one.at]) for one in self.readings]
        return f_numbers_of([*given, *lines_among(spots)], self.bed.top.steepest < FALLS)

    @property
    def needs(self) -> tuple[float, float | None] | None:
        """Overall FF and FL asked for; no FL of a top that falls, and neither by a rule of straightedges."""
        asked = ACI_NEEDS.get(self.design.standard)
        if asked is None:
            return None
        return asked[0], asked[1] if self.bed.top.steepest < FALLS else None

    @cached_property
    def verdict(self) -> Verdict:
        """The worst of everything that decides."""
        worst = worst_verdict([*self._by_straightedge(), *self._by_wedge(), *self._by_numbers()])
        return "too_sparse" if worst == "within" and self.unread else worst

    def _by_straightedge(self) -> Iterator[Verdict]:
        rows = zip(self.limits.rows, self.laid, strict=True)
        return (laid.check.verdict for limit, laid in rows if limit.decides)

    def _by_wedge(self) -> Iterator[Verdict]:
        return ("beyond" for gap in self.gap_verdicts if gap.verdict == "beyond")

    def _by_numbers(self) -> Sequence[Verdict]:
        found, asked = self.flat_and_level.overall, self.needs
        if asked is None:
            return ()
        lines = [line for line in self.flat_and_level.lines if line.heights >= LEAST_READ]
        if found is None:
            return ("too_sparse" if self.surface.spots else "not_read",)
        if not lines:
            return ("too_sparse",)
        ff, fl = asked
        least_fl = None if fl is None else ACI_LOCAL * fl
        parts = [_is_below(line, ACI_LOCAL * ff, least_fl) for line in lines]
        if _is_below(found, ff, fl) or any(parts):
            return ("beyond",)
        return ("within" if fl is None or found.fl is not None else "too_sparse",)


def _is_below(found: FNumbers | LineNumbers, ff: float, fl: float | None) -> bool:
    """True where F-numbers are less than asked; what was not told or not asked is not less."""
    return found.ff < ff or (fl is not None and found.fl is not None and found.fl < fl)


def flatness_of(document: Document, bed: WorkedBed) -> WorkedFlatness:
    """The flatness of a room's bed: the one kept where an equal one was asked for lately."""
    return _kept(bed, document.flatness, document.gaps, document.height_lines, document.touches)


@lru_cache(maxsize=KEPT)
def _kept(
    bed: WorkedBed,
    design: FlatnessDesign,
    gaps: tuple[MeasuredGap, ...],
    height_lines: tuple[HeightLine, ...],
    touches: tuple[Touch, ...],
) -> WorkedFlatness:
    return WorkedFlatness(bed, design, gaps, height_lines, touches)
