"""The dates of all rooms that a person sees, as a calendar: composed of records, foretold by the engine, kept.

What the engine says of a room rests on that room's records alone, so it is asked once for every new state of a room,
and a job's records are read once for every new state of the job. Nothing in a calendar depends on when it is asked
for: the same records give the same text, byte by byte.
"""

import hashlib
import json
from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from threading import Lock
from typing import Any, TypeVar

from evenbed.engine.bridge import answer_text
from evenbed.engine.identity import identity
from evenbed.rooms.dates import Newest, RoomNames, Telling, dates_of_room
from evenbed.rooms.document import document_from_records
from evenbed.rooms.telling import Json, Row
from evenbed.rooms.words import said
from evenbed.store.dated import DatedRecord
from evenbed.store.people import Person
from evenbed.store.work import UnitOfWork

MOST_KEPT = 2_000
TICKS_AHEAD = timedelta(days=1)
"""How far a phone's clock may run ahead of the service's when somebody lets a milestone pass."""
NOBODY_CHANGED = "2020-01-01T00:00:00+00:00"
Kept = TypeVar("Kept")


class Keeping:
    """The newest answers by what they rest on; the one asked for longest ago goes first."""

    def __init__(self, most: int = MOST_KEPT) -> None:
        self._most = most
        self._answers: OrderedDict[Hashable, Any] = OrderedDict()
        self._turn = Lock()

    def forget(self) -> None:
        """Everything is made anew from now on."""
        with self._turn:
            self._answers.clear()

    def kept(self, key: Hashable, make: Callable[[], Kept]) -> Kept:
        """The answer under this key, made now where it is not there."""
        with self._turn:
            if key in self._answers:
                self._answers.move_to_end(key)
                answer: Kept = self._answers[key]
                return answer
        answer = make()
        with self._turn:
            self._answers[key] = answer
            while len(self._answers) > self._most:
                self._answers.popitem(last=False)
        return answer


@dataclass(frozen=True)
class RoomWaits:
    """What the engine says of one room's waiting, and what that rests on."""

    room_id: str
    names: RoomNames
    waiting: Json
    newest: Newest


@dataclass(frozen=True)
class Feed:
    """What a person's calendar rests on: each job's newest number, and what the company buys."""

    jobs: tuple[tuple[str, int], ...]
    supplies: DatedRecord | None

    @classmethod
    def of(cls, work: UnitOfWork, person: Person) -> "Feed":
        """Read in two questions, whatever the number of jobs."""
        return cls(tuple(sorted(work.dated.newest(person).items())), work.dated.supplies())

    def tag(self, telling: Telling) -> str:
        """The same for the same text: jobs, numbers, words and engine."""
        bought = self.supplies.sequence if self.supplies else 0
        told = [self.jobs, bought, telling.language, telling.zone, identity().hash]
        return hashlib.sha256(json.dumps(told).encode()).hexdigest()[:32]

    def text(self, work: UnitOfWork, keeping: Keeping, telling: Telling) -> str:
        """The calendar as iCalendar text."""
        waits = [one for job in self.jobs for one in self._of_job(work, keeping, *job)]
        dates = [
            date for one in waits for date in dates_of_room(one.room_id, one.names, one.waiting, telling, one.newest)
        ]
        made_at = max((one.newest.changed_at for one in waits), default=NOBODY_CHANGED)
        asked = {"name": said(telling.language, "dates.calendar"), "made_at": made_at, "dates": dates}
        text: str = json.loads(answer_text("calendar", json.dumps(asked)))["text"]
        return text

    def _of_job(self, work: UnitOfWork, keeping: Keeping, job_id: str, newest: int) -> tuple[RoomWaits, ...]:
        bought = self.supplies.sequence if self.supplies else 0
        return keeping.kept((job_id, newest, bought), lambda: self._read(work, keeping, job_id))

    def _read(self, work: UnitOfWork, keeping: Keeping, job_id: str) -> tuple[RoomWaits, ...]:
        records = work.dated.of_job(job_id)
        job = next((one for one in records if one.kind == "job"), None)
        if job is None or job.fields.get("deleted") is True:
            return ()
        found = (
            self._of_room(keeping, job, room, records)
            for room in sorted(records, key=lambda one: one.id)
            if room.kind == "room" and room.fields.get("deleted") is not True
        )
        return tuple(one for one in found if one is not None)

    def _of_room(
        self, keeping: Keeping, job: DatedRecord, room: DatedRecord, records: Iterable[DatedRecord]
    ) -> RoomWaits | None:
        own = [one for one in records if one is room or room.id == one.fields.get("room_id") or one.kind in JOBS]
        rests_on = [*own, *([self.supplies] if self.supplies else [])]
        newest = Newest(max(one.sequence for one in rests_on), max(one.changed_at for one in rests_on))
        waiting = keeping.kept((room.id, newest), lambda: self._waiting(room, own, newest))
        if waiting is None:
            return None
        name, place = str(job.fields.get("name") or ""), str(job.fields.get("place") or "")
        return RoomWaits(room.id, RoomNames(name, str(room.fields.get("name") or ""), place), waiting, newest)

    def _waiting(self, room: DatedRecord, own: Iterable[DatedRecord], newest: Newest) -> Json | None:
        """The engine's answer, less what dates need not; None for a room that it cannot read."""
        document = document_from_records(_row(room), map(_row, own), self.supplies.fields if self.supplies else None)
        if document is None or not (document["placements"] or document.get("ticks")):
            return None
        now = datetime.fromisoformat(newest.changed_at) + TICKS_AHEAD
        answer: Json = json.loads(answer_text("waiting", json.dumps({"document": document, "now": now.isoformat()})))
        return {"countdown": answer["countdown"], "curve": answer["curve"]} if "countdown" in answer else None


JOBS = ("job", "forecast_day")
"""Records of the job that matter to each of its rooms."""


def _row(record: DatedRecord) -> Row:
    return Row(record.kind, record.id, record.fields)
