"""How the filling of one room stands at a moment.

What was told is taken as done, even where its time lies after now: phones' clocks differ and are put back. Bed in
place that has not hardened enough to be walked on is fresh: nobody walks over it.
"""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from evenbed.engine.document.room import Document
from evenbed.engine.filling.batches import Mortar, mortar_from
from evenbed.engine.filling.belonging import Belonging
from evenbed.engine.filling.kept import FillRoom
from evenbed.engine.filling.order import order_of
from evenbed.engine.filling.pace import Forecast, forecast_from
from evenbed.engine.filling.progress import Progress, notices_of, progress_from, records_from
from evenbed.engine.filling.shapes import BestStop, EdgeKind
from evenbed.engine.filling.stopping import best_stop_from, open_lengths
from evenbed.engine.filling.temperature import Mildness, mildness_of
from evenbed.engine.filling.times import Clock, Stops, is_stopped, stops_from
from evenbed.engine.problems import Problem, problem_at

LOOK_AHEAD = 3  # sections looked at for the best place to stop where the day's end or the pace is not known
MOST_AHEAD = 60  # and where they are


@dataclass(frozen=True)
class Standing:
    """One room being filled, at one moment; each part worked out once. Hours count from now."""

    document: Document
    kept: FillRoom
    clock: Clock

    @cached_property
    def mildness(self) -> Mildness:
        """The temperatures, and what they make of the mortar."""
        return mildness_of(self.document, self.clock)

    @cached_property
    def stops(self) -> Stops:
        """Times in which nobody worked."""
        return stops_from(self.document.stoppages, self.clock)

    @cached_property
    def progress(self) -> Progress:
        """How far the sections are, each batch counted for one."""
        sections, batches = self.kept.plan.sections, self.document.batches
        records = records_from(sections, self.document.placements, batches, self.clock)
        unfilled = [n for n, record in enumerate(records) if not record.is_filled]
        coming = self._coming(frozenset(unfilled), self.mildness.hardened(records))
        return progress_from(sections, records, batches, self.clock, next(iter(coming), None))

    @cached_property
    def changed(self) -> frozenset[int]:
        """Sections with placements that were made for another shape."""
        return Belonging(self.kept.plan.sections).changed(self.document.placements)

    @cached_property
    def mortars(self) -> tuple[Mortar, ...]:
        """The batches, in the document's order."""
        pairs = zip(self.document.batches, self.progress.batch_sections, strict=True)
        return tuple(
            mortar_from(
                batch,
                n,
                None if n is None else self.progress.records[n],
                self.clock,
                self.mildness.working(self.clock.hour(batch.mixed_at)),
            )
            for batch, n in pairs
        )

    @cached_property
    def hardened(self) -> frozenset[int]:
        """Sections that can be walked on."""
        return self.mildness.hardened(self.progress.records)

    @cached_property
    def trapped(self) -> frozenset[int]:
        """Unfilled sections that fresh bed cuts off from the way out."""
        ways, unfilled = self.kept.plan.ways, self.progress.unfilled
        return unfilled - ways.reached(unfilled | self.hardened, (i for i, _ in ways.exits))

    @cached_property
    def coming(self) -> tuple[int, ...]:
        """What is still to be filled, first to last: the section being filled, then by the order's rule."""
        unfilled, begun = self.progress.unfilled, self.progress.begun
        rest = self._coming(unfilled, self.hardened)
        return rest if begun is None else (begun, *(n for n in rest if n != begun))

    def _coming(self, unfilled: frozenset[int], hardened: frozenset[int]) -> tuple[int, ...]:
        """The order of what is unfilled over what can be walked on; what fresh bed cuts off comes after."""
        ways = self.kept.plan.ways
        mixer = ways.mixer if ways.mixer in unfilled else None
        ordered = order_of(replace(ways, mixer=mixer), unfilled | hardened).first_to_last
        reached = tuple(n for n in ordered if n in unfilled)
        return (*reached, *sorted(unfilled - {*reached}))

    @cached_property
    def forecast(self) -> Forecast | None:
        """The pace so far and what it makes of the rest."""
        placed = [-1.0] * len(self.kept.names)
        for mortar in self.mortars:
            if mortar.section is not None and not mortar.is_thrown:
                in_place = 0.0 if mortar.placed is None else mortar.size
                placed[mortar.section] = max(0.0, placed[mortar.section]) + in_place
        return forecast_from(self.kept.plan.sections, self.progress, placed, self.stops, self.kept.batch_yield)

    @property
    def hours_per_batch(self) -> float | None:
        """Working hours for a batch, None without a pace."""
        return None if self.forecast is None else self.forecast.pace.hours_per_batch

    @cached_property
    def day_ends(self) -> float | None:
        """When work ends today."""
        return self.clock.hour_or_none(self.document.filling.day_ends)

    @cached_property
    def last_batch(self) -> float | None:
        """The last moment to mix: a batch's working hours at the pace before the day ends, else its working time."""
        if self.day_ends is None or not self.progress.unfilled:
            return None
        needed = self.mildness.working(0.0) if self.hours_per_batch is None else self.hours_per_batch
        return self.day_ends - needed

    @property
    def is_stopping(self) -> bool:
        """Whether work stands still, or nothing can be mixed any more before the day ends."""
        is_late = self.last_batch is not None and self.last_batch <= 0.0
        return is_late or is_stopped(self.document.stoppages, self.clock)

    @cached_property
    def fits_day(self) -> bool | None:
        """Whether all is filled before the day ends."""
        if self.day_ends is None:
            return None
        if not self.progress.unfilled:
            return True
        if self.forecast is None:
            return None
        return self.stops.after(0.0, self.forecast.left) <= self.day_ends

    @cached_property
    def channels_due(self) -> dict[int, float]:
        """Until when channels must be packed: the working time of mortar mixed when their section was in place."""
        due = {}
        for n, record in enumerate(self.progress.records):
            if record.has_channels and record.state in ("placed", "screeded") and record.filled is not None:
                due[n] = record.filled + self.mildness.working(record.filled)
        return due

    @cached_property
    def filled(self) -> frozenset[int]:
        """Sections whose mortar is in place."""
        return frozenset(range(len(self.kept.names))) - self.progress.unfilled

    @cached_property
    def open_lengths(self) -> Counter[EdgeKind]:
        """How long the edges would be if work stopped now, by kind, mm."""
        return open_lengths(self.kept.edges, self.filled)

    @cached_property
    def best_stop(self) -> BestStop | None:
        """Where work had better stop; a section that was begun is finished first."""
        if not self.progress.unfilled or not (self.filled or self.progress.begun is not None):
            return None
        ends = list(self._ends())
        least = 0 if self.progress.begun is None else 1
        within = [end for end in ends if self.day_ends is None or end is None or end <= self.day_ends]
        coming = self.coming[: max(least, len(within))]
        count = best_stop_from(self.kept.edges, self.filled, coming, least)
        lengths = open_lengths(self.kept.edges, {*self.filled, *coming[:count]})
        at = ends[count - 1] if count else 0.0
        return BestStop(
            after=self.kept.names[coming[count - 1]] if count else None,
            at=None if at is None else self.clock.text(at),
            joint=float(lengths["joint"]),
            rail=float(lengths["rail"]),
            cut=float(lengths["cut"]),
        )

    def _ends(self) -> Iterator[float | None]:
        """When each coming section would be filled, as far as is looked ahead; None without a pace."""
        most = LOOK_AHEAD if self.forecast is None or self.day_ends is None else MOST_AHEAD
        if self.forecast is None:
            yield from [None] * min(most, len(self.coming))
            return
        volumes = [self.kept.plan.sections[n].volume for n in self.coming]
        rest = math.fsum(volumes[1:]) * self.forecast.pace.hours_per_volume
        hours = max(0.0, self.forecast.left - rest)
        for n, volume in enumerate(volumes[:most]):
            hours += volume * self.forecast.pace.hours_per_volume if n else 0.0
            yield self.stops.after(0.0, hours)

    @property
    def notices(self) -> Iterator[Problem]:
        """Entries left out, and why."""
        sections, stoppages = self.kept.plan.sections, self.document.stoppages
        yield from notices_of(sections, self.document.placements, self.document.batches, self.clock)
        for n, stoppage in enumerate(stoppages):
            if stoppage.end is not None and self.clock.hour(stoppage.end) < self.clock.hour(stoppage.start):
                yield problem_at(f"document.stoppages[{n}]", "times_backwards")
