"""How far each section is, from what was placed and what came from the mixer."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.document.places import Point
from evenbed.engine.filling.belonging import Belonging
from evenbed.engine.filling.shapes import Section, SectionState
from evenbed.engine.filling.times import Clock
from evenbed.engine.problems import Problem, problem_at

AHEAD = 5.0 / 60.0  # h by which a time may lie after now before that is told: clocks differ
SAME_PLACE = 1.0  # mm within which two rows are of one place: phones that look at one plan keep the same


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
    """The records from placements and from the batches that tell their section; what is in none counts nowhere."""
    belonging = Belonging(sections)
    rows = [(belonging.number(row), row) for row in placements]
    records = [
        record_from([row for m, row in rows if m == n], bool(section.channels), clock)
        for n, section in enumerate(sections)
    ]
    for batch in batches:
        n = belonging.number(batch)
        if n is not None and _is_used(batch):
            records[n] = with_mixing(records[n], clock.hour(batch.mixed_at))
    return tuple(records)


def record_from(rows: Sequence[Placement], has_channels: bool, clock: Clock) -> Record:
    """One section's record: rows of different places are parts that became one; rows without a place are its own."""
    parts: list[tuple[Point, Record]] = []
    for row in rows:
        if row.at is not None:
            n, part = _part_at(parts, row.at, has_channels)
            parts[n : n + 1] = [(row.at, _with_row(part, row, clock))]
    record = joined([part for _, part in parts], has_channels)
    for row in rows:
        record = record if row.at is not None else _with_row(record, row, clock)
    return record


def _part_at(parts: Sequence[tuple[Point, Record]], at: Point, has_channels: bool) -> tuple[int, Record]:
    """Which part a place is, and its record so far; a new one after the others."""
    known = (n for n, (place, _) in enumerate(parts) if math.dist(place, at) <= SAME_PLACE)
    n = next(known, len(parts))
    return n, parts[n][1] if n < len(parts) else Record(has_channels)


def joined(parts: Sequence[Record], has_channels: bool) -> Record:
    """Parts that became one section: begun with the first of them, as far as the last."""
    if len(parts) < 2:
        return parts[0] if parts else Record(has_channels)
    told = [at for part in parts for at in (part.mixed, part.placed, part.screeded, part.packed) if at is not None]
    if not all(part.is_filled for part in parts):
        return Record(has_channels, min(told, default=None))
    return Record(
        has_channels,
        min((part.mixed for part in parts if part.mixed is not None), default=None),
        _all([part.filled for part in parts]),
        _all([part.packed if part.screeded is None else part.screeded for part in parts]),
        _all([part.packed for part in parts]),
    )


def _all(moments: Sequence[float | None]) -> float | None:
    """The last of these moments, None where one of them did not come."""
    told = [at for at in moments if at is not None]
    return max(told) if len(told) == len(moments) else None


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
    belonging = Belonging(sections)
    current = begun_of(records)
    current = upcoming if current is None else current
    finished = sorted((r.finished, n) for n, r in enumerate(records) if r.finished is not None)
    found, whose = list(records), list[int | None]()
    for batch in batches:
        mixed = clock.hour(batch.mixed_at)
        later = next((n for at, n in finished if at > mixed), current)
        own = belonging.number(batch)
        n = later if own is None else own
        whose.append(n)
        if n is not None and _is_used(batch):
            found[n] = with_mixing(found[n], mixed)
    return Progress(tuple(found), tuple(whose))


def notices_of(
    sections: Sequence[Section], placements: Sequence[Placement], batches: Sequence[MixedBatch], clock: Clock
) -> Iterable[Problem]:
    """Entries that are for no section of this room, run backwards, or lie after now."""
    belonging = Belonging(sections)
    for n, row in enumerate(placements):
        path = f"document.placements[{n}]"
        yield from _belonging_notices(path, row, belonging)
        moments = (row.mixed_at, row.placed_at, row.screeded_at, row.channels_at)
        yield from _order_notices(path, [clock.hour(at) for at in moments if at is not None])
    for n, batch in enumerate(batches):
        path = f"document.batches[{n}]"
        yield from _belonging_notices(path, batch, belonging)
        told = (batch.mixed_at, batch.placed_at)
        yield from _order_notices(path, [clock.hour(at) for at in told if at is not None])


def _belonging_notices(path: str, entry: Placement | MixedBatch, belonging: Belonging) -> Iterable[Problem]:
    if belonging.number(entry) is not None:
        return
    if entry.at is not None:
        yield problem_at(f"{path}.at", "no_section_there")
    elif entry.section is not None:
        yield problem_at(f"{path}.section", "unknown_section", section=entry.section[:40])


def _order_notices(path: str, hours: list[float]) -> Iterable[Problem]:
    if hours != sorted(hours):
        yield problem_at(path, "times_backwards")
    if max(hours, default=0.0) > AHEAD:
        yield problem_at(path, "time_ahead")
