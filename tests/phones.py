"""A caller that pushes as a phone does: it numbers its edits, and keeps them until they are answered."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from evenbed.wire.exchange import Change, PushRequest, PushResult
from evenbed.wire.protocol import PROTOCOL, SCHEMA


def uuid_text(number: int) -> str:
    """A UUID of version 7, the same for the same number."""
    return str(UUID(int=(0x019DF2E4D900 << 80) | (7 << 76) | (2 << 62) | number))


@dataclass(frozen=True)
class Edit:
    """One edit as the phone made it; `at` is the true time, which no clock of the phone's needs to show."""

    change_id: str
    number: int
    kind: str
    record_id: str
    fields: dict[str, Any]
    seen: int
    at: datetime

    def as_change(self, offset: timedelta) -> Change:
        """The edit as it travels, told by a clock that is wrong by `offset`."""
        return Change(
            change_id=self.change_id,
            number=self.number,
            kind=self.kind,
            record_id=self.record_id,
            fields=self.fields,
            seen=self.seen,
            device_time=(self.at + offset).isoformat(),
            schema=SCHEMA,
        )


def push_of(edits: list[Edit], now: datetime, offset: timedelta) -> PushRequest:
    """A push of these edits at the true time `now`."""
    changes = [edit.as_change(offset) for edit in edits]
    return PushRequest(protocol=PROTOCOL, changes=changes, device_time=(now + offset).isoformat())


@dataclass
class Phone:
    """One device. `new_id` gives fresh identifiers; `clock_offset` is how far its clock is ahead of the truth."""

    device_id: str
    person: str
    new_id: Callable[[], str]
    clock_offset: timedelta = timedelta(0)
    number: int = 0
    cursor: int = 0
    waiting: list[Edit] = field(default_factory=list)
    refused: dict[str, str] = field(default_factory=dict)

    def edit(self, kind: str, record_id: str, fields: dict[str, Any], at: datetime) -> Edit:
        """Make an edit and keep it until it is answered."""
        self.number += 1
        made = Edit(self.new_id(), self.number, kind, record_id, fields, self.cursor, at)
        self.waiting.append(made)
        return made

    def hear(self, results: list[PushResult]) -> None:
        """The reply to a push: what was answered need not wait any longer."""
        answered = {result.change_id for result in results}
        self.waiting = [edit for edit in self.waiting if edit.change_id not in answered]
        for result in results:
            if result.reason is not None:
                self.refused[result.change_id] = result.reason
