"""What the machine remembers: every change that a phone showed as saved, and what may no longer be asked of it."""

import json
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any

from evenbed.sync.model import Record
from evenbed.wire.supplies import COMPANYS
from tests.machine.phones import Contents, Phone, Row


@dataclass(frozen=True)
class Seen:
    """A phone as it was at some moment: its storage, and what it showed."""

    phone: Phone
    contents: Contents
    rows: list[Row]


@dataclass(frozen=True)
class Saved:
    """A change that a phone showed as saved. `at` is the true time; `turns` how often its clock had been set then."""

    change: Row
    phone: Phone
    life: int
    at: datetime
    turns: int
    is_sound: bool


@dataclass(frozen=True)
class Witness:
    """A phone showed this value of a field when the service went back to a backup."""

    phone: Phone
    life: int
    kind: str
    record_id: str
    field: str
    value: Any


@dataclass(frozen=True)
class Stood:
    """When the service went back, this value stood, and some phones had pulled it with when it was set."""

    value: Any
    held_by: tuple[tuple[Phone, int], ...]


NO_CLOCK = -1
"""In the place of how often a phone's clock had been set."""

Place = tuple[str, str, str]
"""Kind and id of a record, and a field of it."""


@dataclass
class Memory:
    """`excused` are changes that went with a phone's storage, or with the service's, and nobody can hand over."""

    saved: dict[str, Saved] = field(default_factory=dict)
    excused: set[str] = field(default_factory=set)
    dismissed: set[str] = field(default_factory=set)
    witnesses: list[Witness] = field(default_factory=list)
    stood: dict[Place, Stood] = field(default_factory=dict)
    keys: list[tuple[str, str]] = field(default_factory=list)
    restores: int = 0
    well_timed: set[str] = field(default_factory=set)
    misled_until: dict[str, datetime] = field(default_factory=dict)

    def note(self, made: Iterable[Row], phone: Phone, at: datetime, *, is_sound: bool) -> None:
        """The phone has just shown these as saved. `is_sound` where nothing is wrong with their values."""
        for change in made:
            self.saved[change["change_id"]] = Saved(change, phone, phone.life, at, phone.turns, is_sound)
            key = change["kind"], change["record_id"]
            self.forget_what_stood(change)
            if key not in self.keys:
                self.keys.append(key)

    def brought(self, changes: Iterable[Row], phone: Phone, at: datetime) -> None:
        """The phone has just taken these out of a job's file.

        Those that nobody saved tell a whole record that another phone knew: they too may not be lost, but no clock
        says when they were made.
        """
        for change in changes:
            self.forget_what_stood(change)
            if change["change_id"] not in self.saved:
                self.saved[change["change_id"]] = Saved(change, phone, phone.life, at, NO_CLOCK, is_sound=False)

    def makers(self, record_id: str) -> list[str]:
        """The first change of a record."""
        return [one for one, saved in self.saved.items() if saved.change["record_id"] == record_id][:1]

    def arrived(self, change_ids: Iterable[str], by: Phone | None, received_at: datetime) -> None:
        """The service has just taken these, brought by a phone, or None where the request was held up on the way.

        A phone whose clock was set since an edit cannot tell when that was made; a request that was held up misleads
        about all in it, and about what was made before it arrived.
        """
        for change_id in change_ids:
            saved = self.saved.get(change_id)
            if saved is None:
                continue
            is_misled = saved.at < self.misled_until.get(saved.phone.disk, saved.at)
            if by is saved.phone and saved.turns == by.turns and not is_misled:
                self.well_timed.add(change_id)
            else:
                self.well_timed.discard(change_id)
            if by is None:
                self.misled_until[saved.phone.disk] = received_at

    def storage_lost(self, before: Contents, after: Iterable[Contents]) -> None:
        """A phone's storage is gone; `after` is what stands in its place, and what the other phones hold."""
        held = set().union(*map(held_in, after))
        self.excused |= held_in(before) - held
        self.excused -= held

    def forget_what_stood(self, change: Row) -> None:
        """An edit since, or one that waited then, decides anew."""
        for name in change["fields"]:
            self.stood.pop((change["kind"], change["record_id"], name), None)

    def dismiss(self, refused: Row, by: Phone) -> None:
        """Its person has read why this was refused, and lets go of the values that the phone had shown of it."""
        self.dismissed.add(refused["change_id"])
        told = {(refused["kind"], refused["record_id"], *_told(field)) for field in refused["fields"].items()}
        self.witnesses = [
            one
            for one in self.witnesses
            if one.phone is not by or (one.kind, one.record_id, *_told((one.field, one.value))) not in told
        ]

    def only_looks(self, phone: Phone) -> None:
        """Its person is a viewer now, who offers nothing."""
        self._offers_none(phone, lambda _kind: True)

    def is_no_foremans(self, phone: Phone) -> None:
        """Its person offers nothing of what is the company's."""
        self._offers_none(phone, lambda kind: kind in COMPANYS)

    def _offers_none(self, phone: Phone, of: Callable[[str], bool]) -> None:
        self.witnesses = [one for one in self.witnesses if one.phone is not phone or not of(one.kind)]
        for place, one in self.stood.items():
            if of(place[0]):
                held_by = tuple((other, life) for other, life in one.held_by if other is not phone)
                self.stood[place] = replace(one, held_by=held_by)

    def service_went_back(self, phones: dict[str, Seen], log: set[str], before: Iterable[Record]) -> None:
        """What no phone has waiting can only be offered by its value, which some phone still shows."""
        waiting = set().union(*(held_in(seen.contents) for seen in phones.values()))
        self.restores += 1
        self.excused |= self.saved.keys() - waiting - log
        self.witnesses = [
            Witness(seen.phone, seen.phone.life, row["kind"], row["id"], name, value)
            for seen in phones.values()
            for row in [*seen.rows, *seen.contents["held"]]
            for name, value in row["fields"].items()
        ]
        self.stood = dict(_what_stood(phones, before))
        for seen in phones.values():
            for change in seen.contents["changes"]:
                self.forget_what_stood(change)


def _told(field: tuple[str, Any]) -> tuple[str, str]:
    """A field and its value, to be compared as JSON."""
    return field[0], json.dumps(field[1], sort_keys=True)


def _what_stood(phones: dict[str, Seen], before: Iterable[Record]) -> Iterator[tuple[Place, Stood]]:
    pulled = {
        (disk, row["kind"], row["id"]): row for disk, seen in phones.items() for row in seen.contents["records"]
    }
    held = {(row["kind"], row["id"]) for seen in phones.values() for row in seen.contents["held"]}
    for record in before:
        if (record.kind, record.id) in held:
            continue  # an offer from before the last going back is still to come
        if _is_undated(phones, pulled, record):
            continue
        rows = {disk: pulled.get((disk, record.kind, record.id)) for disk in phones}
        held_by = tuple(
            (phones[disk].phone, phones[disk].phone.life)
            for disk, row in rows.items()
            if row and row["sequence"] == record.sequence and "times" in row
        )
        for name, value in record.fields.items():
            if held_by and name != "crew":
                yield (record.kind, record.id, name), Stood(value, held_by)


def _is_undated(phones: dict[str, Seen], pulled: dict[tuple[str, str, str], Row], record: Record) -> bool:
    """A phone holds it as the app's first version did, without a moment: it goes by its own clock when it last
    exchanged, and that clock has been set, so it may take what it holds for newer than it is."""
    rows = ((seen.phone, pulled.get((disk, record.kind, record.id))) for disk, seen in phones.items())
    return any(phone.turns and row is not None and "changed_at" not in row for phone, row in rows)


def held_in(contents: Contents) -> set[str]:
    """The changes that a phone still has, waiting or refused."""
    waiting = {change["change_id"] for change in contents["changes"] if not change["acked"]}
    return waiting | {change["change_id"] for change in contents["refused"]}
