"""How far each section is, from what was placed and what came from the mixer."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.filling.shapes import Section, SectionState
from evenbed.engine.filling.times import Clock
from evenbed.engine.problems import Problem, problem_at

AHEAD = 5.0 / 60.0  # h by which a time may lie after now before that is told: clocks differ


@dataclass(frozen=True)
class Record:
    """What happened to one section and when, hours from now; None for what did not.

    `mixed` is the first mixing for it. Of several rows the latest of each moment counts.
    """

    has_channels: bool
    mixed: float | None = None
    placed: float | None = None
    screeded: float | None = None
    packed: float | None = None

    @property
    def state(self) -> SectionState:
        """How far it is; what was told last counts, whatever was not told before."""
        if self.packed is not None or (self.screeded is not None and not self.has_channels):
            return "packed"
        if self.screeded is not None:
            return "screeded"
        if self.placed is not None:
            return "placed"
        return "waiting" if self.mixed is None else "filling"

    @property
    def is_filled(self) -> bool:
        """Whether its mortar is in place."""
        return self.state not in ("waiting", "filling")

    @property
    def filled(self) -> float | None:
        """When its mortar was in place."""
        return next((at for at in (self.placed, self.screeded, self.packed) if at is not None), None)

    @property
    def finished(self) -> float | None:
        """When it was cut off; where that was not told, when it was in place."""
        return next((at for at in (self.screeded, self.placed, self.packed) if at is not None), None)


@dataclass(frozen=True)
class Progress:
    """The records of all sections in their order, and which section each batch is for (None where all is filled)."""

    records: tuple[Record, ...]
    batch_sections: tuple[int | None, ...]

    @property
    def unfilled(self) -> frozenset[int]:
        """Sections still to be filled, by their places in the order."""
        return frozenset(n for n, record in enumerate(self.records) if not record.is_filled)

    @property
    def begun(self) -> int | None:
        """The section being filled; of several the one begun last."""
        return begun_of(self.records)


def begun_of(records: Sequence[Record]) -> int | None:
    """The section being filled; of several the one begun last; None where none is."""
    open_ones = [(r.mixed, -n) for n, r in enumerate(records) if r.mixed is not None and r.state == "filling"]
    return -max(open_ones)[1] if open_ones else None


def records_from(
    sections: Sequence[Section], placements: Sequence[Placement], batches: Sequence[MixedBatch], clock: Clock
) -> tuple[Record, ...]:
    """The records from placements and from the batches that name their section; unknown names count nowhere."""
    records = {section.id: Record(bool(section.channels)) for section in sections}
    for row in placements:
        if row.section in records:
            records[row.section] = _with_row(records[row.section], row, clock)
    for batch in batches:
        if batch.section in records and _is_used(batch):
            records[batch.section] = with_mixing(records[batch.section], clock.hour(batch.mixed_at))
    return tuple(records[section.id] for section in sections)


def _with_row(record: Record, row: Placement, clock: Clock) -> Record:
    mixed, placed, screeded, packed = (
        clock.hour_or_none(at) for at in (row.mixed_at, row.placed_at, row.screeded_at, row.channels_at)
    )
    record = record if mixed is None else with_mixing(record, mixed)
    return replace(
        record,
        placed=_latest(record.placed, placed),
        screeded=_latest(record.screeded, screeded),
        packed=_latest(record.packed, packed),
    )


def _latest(one: float | None, other: float | None) -> float | None:
    return max((at for at in (one, other) if at is not None), default=None)


def with_mixing(record: Record, at: float) -> Record:
    """The record with one more mixing."""
    return replace(record, mixed=at if record.mixed is None else min(at, record.mixed))


def _is_used(batch: MixedBatch) -> bool:
    """Whether any of a batch went, or is to go, into the floor."""
    return batch.thrown_at is None or batch.placed_at is not None


def progress_from(
    sections: Sequence[Section],
    records: Sequence[Record],
    batches: Sequence[MixedBatch],
    clock: Clock,
    upcoming: int | None,
) -> Progress:
    """How far the sections are when batches without a section count for the one that was being filled.

    That is the first finished after the batch was mixed; if none was, the one being filled, or `upcoming` next.
    """
    number = {section.id: n for n, section in enumerate(sections)}
    current = begun_of(records)
    current = upcoming if current is None else current
    finished = sorted((r.finished, n) for n, r in enumerate(records) if r.finished is not None)
    found, whose = list(records), list[int | None]()
    for batch in batches:
        mixed = clock.hour(batch.mixed_at)
        later = next((n for at, n in finished if at > mixed), current)
        n = number.get(batch.section or "", later)
        whose.append(n)
        if n is not None and _is_used(batch):
            found[n] = with_mixing(found[n], mixed)
    return Progress(tuple(found), tuple(whose))


def notices_of(
    sections: Sequence[Section], placements: Sequence[Placement], batches: Sequence[MixedBatch], clock: Clock
) -> Iterable[Problem]:
    """Entries that name no section of this room, run backwards, or lie after now."""
    known = {section.id for section in sections}
    for n, row in enumerate(placements):
        path = f"document.placements[{n}]"
        if row.section not in known:
            yield problem_at(f"{path}.section", "unknown_section", section=row.section[:40])
        moments = (row.mixed_at, row.placed_at, row.screeded_at, row.channels_at)
        yield from _order_notices(path, [clock.hour(at) for at in moments if at is not None])
    for n, batch in enumerate(batches):
        path = f"document.batches[{n}]"
        if batch.section is not None and batch.section not in known:
            yield problem_at(f"{path}.section", "unknown_section", section=batch.section[:40])
        told = (batch.mixed_at, batch.placed_at)
        yield from _order_notices(path, [clock.hour(at) for at in told if at is not None])


def _order_notices(path: str, hours: list[float]) -> Iterable[Problem]:
    if hours != sorted(hours):
        yield problem_at(path, "times_backwards")
    if max(hours, default=0.0) > AHEAD:
        yield problem_at(path, "time_ahead")
