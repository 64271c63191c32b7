"""Batches: until when each can be worked, and whether it will be in place by then."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.filling import MixedBatch
from evenbed.engine.filling.progress import Record
from evenbed.engine.filling.shapes import BatchClock, BatchState
from evenbed.engine.filling.times import Clock, Stops

SOON_SHARE = 0.25  # of the working time before its end: then a batch is told of; common practice, no source


@dataclass(frozen=True)
class Mortar:
    """One batch in hours from now; `placed` is when it was in place, by its own entry or with its whole section."""

    id: str
    section: int | None
    size: float
    mixed: float
    use_by: float
    placed: float | None
    is_thrown: bool

    @property
    def soon(self) -> float:
        """When little of its working time is left."""
        return self.use_by - SOON_SHARE * (self.use_by - self.mixed)

    @property
    def is_open(self) -> bool:
        """Whether it is still to be used."""
        return self.placed is None and not self.is_thrown

    @property
    def state(self) -> BatchState:
        """How it is now. What was thrown away after some of it was in place counts as thrown away."""
        if self.is_thrown:
            return "thrown"
        if self.placed is not None:
            return "placed"
        return "late" if self.use_by <= 0.0 else "soon" if self.soon <= 0.0 else "fresh"


def mortar_from(
    batch: MixedBatch, section: int | None, record: Record | None, clock: Clock, working_h: float
) -> Mortar:
    """One batch that can be worked for `working_h` hours. A section in place has all that was mixed for it before."""
    mixed, placed = clock.hour(batch.mixed_at), clock.hour_or_none(batch.placed_at)
    whole = None if record is None else record.filled
    if placed is None and whole is not None and whole >= mixed:
        placed = whole
    return Mortar(batch.id, section, batch.size, mixed, mixed + working_h, placed, batch.thrown_at is not None)


def batch_clocks(
    mortars: Sequence[Mortar], names: Sequence[str], clock: Clock, stops: Stops, hours_per_batch: float | None
) -> tuple[BatchClock, ...]:
    """Every batch, the oldest first; without a pace an open one is in time until it is late."""
    ordered = sorted(mortars, key=lambda one: (one.mixed, one.id))
    ends = dict(_ends(ordered, stops, hours_per_batch))
    return tuple(
        BatchClock(
            one.id,
            None if one.section is None else names[one.section],
            one.state,
            clock.text(one.use_by),
            not one.is_thrown and ends[one.id] <= one.use_by,
        )
        for one in ordered
    )


def _ends(ordered: Sequence[Mortar], stops: Stops, hours_per_batch: float | None) -> Iterator[tuple[str, float]]:
    """When each batch was or will be in place: open ones one after the other, from now on."""
    placed = [one.placed for one in ordered if one.placed is not None and one.placed <= 0.0]
    free_since = max(placed, default=None)
    queue = 0.0
    for one in ordered:
        if one.placed is not None or not one.is_open or hours_per_batch is None:
            yield one.id, one.placed or 0.0
            continue
        since = one.mixed if free_since is None else max(one.mixed, free_since)
        done = 0.0 if queue else max(0.0, stops.worked(since, 0.0))
        queue += max(0.0, one.size * hours_per_batch - done)
        yield one.id, stops.after(0.0, queue)
