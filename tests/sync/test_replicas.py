"""Several phones, one office, everything that can go wrong on the way: in the end all hold the same.

The office is judged twice at every step: by the rules over a ledger in memory, whose phones all have true clocks, and
by the same rules over a real database of either kind, whose phones' clocks are wrong by hours. They never differ.
"""

import shutil
import tempfile
from collections.abc import Callable
from contextlib import ExitStack
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, ClassVar

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from tests.databases import Databases, PostgresDatabases, SqliteFiles
from tests.ledgers import MemoryLedger
from tests.phones import Edit, Phone, push_of, uuid_text
from tests.stores import FOREMAN, START, author_of, join_device

from evenbed.store.work import Store
from evenbed.sync.accept import DeviceForkedError, GapError, accept_push
from evenbed.sync.model import Author, Entry
from evenbed.sync.proof import differences
from evenbed.wire.exchange import PushResult

PHONES = 3
MOST_ATTEMPTS = 3  # the second as a new device, where the first was told that it is forked
WRONG_CLOCKS_H = (-30.5, 0.0, 200.25)
NO_OFFSET = timedelta(0)
VALUES: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "job": {"name": st.sampled_from(["Alder", "Birch", "Cedar", None]), "note": st.text(max_size=3)},
    "room": {"name": st.sampled_from(["Bath", "Hall"]), "bed.minimum_thickness": st.integers(15, 40)},
}
phones = st.integers(0, PHONES - 1)


class Replicas(RuleBasedStateMachine):
    """Phones that edit, lose replies, repeat, forget, and are restored from backups."""

    databases: ClassVar[Databases] = SqliteFiles()

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(prefix="evenbed-test-"))
        self.kept = ExitStack()
        self.store = Store(self.kept.enter_context(self.databases.fresh(self.folder)).url)
        self.judge = MemoryLedger()
        self.now = START
        self.ids = 0
        self.phones = [self._joined_phone(n) for n in range(PHONES)]
        self.backups: list[list[Phone]] = [[] for _ in range(PHONES)]
        self.keys: list[tuple[str, str]] = []
        self.saved: dict[str, Edit] = {}

    def new_id(self) -> str:
        self.ids += 1
        return uuid_text(self.ids)

    def _joined_phone(self, n: int) -> Phone:
        phone = Phone(self.new_id(), f"person {n}", self.new_id, timedelta(hours=WRONG_CLOCKS_H[n]))
        join_device(self.store, phone.device_id, person=phone.person)
        return phone

    def edit(self, phone: int, kind: str, record_id: str, fields: dict[str, Any]) -> None:
        self.now += timedelta(seconds=1)
        self.backups[phone].append(self.phones[phone].copied())
        made = self.phones[phone].edit(kind, record_id, fields, self.now)
        self.saved[made.change_id] = made

    @initialize()
    def first_job(self) -> None:
        self.new_job(0)

    @rule(phone=phones)
    def new_job(self, phone: int) -> None:
        self.keys.append(("job", self.new_id()))
        self.edit(phone, *self.keys[-1], {"name": "new"})

    @rule(phone=phones, data=st.data())
    def new_room(self, phone: int, data: st.DataObject) -> None:
        job = data.draw(st.sampled_from([i for kind, i in self.keys if kind == "job"]))
        self.keys.append(("room", self.new_id()))
        self.edit(phone, *self.keys[-1], {"job_id": job, "name": "new"})

    @precondition(lambda self: any(kind == "room" for kind, _ in self.keys))
    @rule(phone=phones, data=st.data(), down=st.integers(900, 1100))
    def new_reading(self, phone: int, data: st.DataObject, down: int) -> None:
        room = data.draw(st.sampled_from([i for kind, i in self.keys if kind == "room"]))
        self.keys.append(("reading", self.new_id()))
        self.edit(phone, *self.keys[-1], {"room_id": room, "down": down, "at": [0, down]})

    @rule(phone=phones, data=st.data())
    def change_a_choice(self, phone: int, data: st.DataObject) -> None:
        kind, record_id = data.draw(st.sampled_from([key for key in self.keys if key[0] in VALUES]))
        fields = data.draw(st.fixed_dictionaries({}, optional=VALUES[kind]).filter(bool))
        self.edit(phone, kind, record_id, fields)

    @rule(phone=phones, data=st.data(), deleted=st.booleans())
    def delete_or_undelete(self, phone: int, data: st.DataObject, deleted: bool) -> None:
        self.edit(phone, *data.draw(st.sampled_from(self.keys)), {"deleted": deleted})

    @rule(phone=phones, data=st.data(), wrong=st.sampled_from([{"colour": "red"}, {"down": 1}, {"deleted": 3}, {}]))
    def say_something_wrong(self, phone: int, data: st.DataObject, wrong: dict[str, Any]) -> None:
        self.edit(phone, *data.draw(st.sampled_from(self.keys)), wrong)

    @rule(hours=st.integers(1, 40))
    def wait(self, hours: int) -> None:
        self.now += timedelta(hours=hours)

    @rule(phone=phones, most=st.integers(1, 4))
    def push(self, phone: int, most: int) -> None:
        self._push(phone, most, self.phones[phone].hear)

    @rule(phone=phones, most=st.integers(1, 4))
    def push_and_lose_the_reply(self, phone: int, most: int) -> None:
        self._push(phone, most, lambda _results: None)

    @rule(phone=phones)
    def push_twice_in_one(self, phone: int) -> None:
        one = self.phones[phone]
        if one.waiting and not self._is_forked(one):
            first = one.waiting[0]
            results = self._send(one, [first, first], self.now)
            again = "refused" if results[0].outcome == "refused" else "already_applied"
            assert (results[1].outcome, results[1].reason) == (again, results[0].reason)

    @rule(phone=phones)
    def push_out_of_order(self, phone: int) -> None:
        one = self.phones[phone]
        if len(one.waiting) > 1 and not self._is_known(one.waiting[0]) and not self._is_forked(one):
            before = self._log()
            with pytest.raises(GapError):
                self._send(one, [one.waiting[0], *one.waiting[2:], one.waiting[1]][::-1], self.now)
            assert self._log() == before

    @rule(phone=phones)
    def server_dies_before_commit(self, phone: int) -> None:
        one = self.phones[phone]
        before = self._log()
        if one.waiting and not self._is_forked(one):
            with self.store.writing() as work:
                push = push_of(one.waiting, self.now, one.clock_offset)
                accept_push(work.ledger(), self._author(one), "foreman", push, self.now)
        assert self._log() == before

    @rule(phone=phones, limit=st.integers(1, 3))
    def pull(self, phone: int, limit: int) -> None:
        with self.store.reading() as work:
            page = work.archive.page(FOREMAN, self.phones[phone].cursor, limit)
        self.phones[phone].take(page.records, page.next)

    @precondition(lambda self: any(self.backups))
    @rule(data=st.data(), back=st.integers(1, 4))
    def go_on_from_a_backup(self, data: st.DataObject, back: int) -> None:
        """The phone's storage is put back to how it was some edits ago; what it alone held is gone with it."""
        phone = data.draw(st.sampled_from([n for n, backups in enumerate(self.backups) if backups]))
        lost = [edit.change_id for edit in self.phones[phone].waiting if not self._is_known(edit)]
        back = min(back, len(self.backups[phone]))
        self.phones[phone] = self.backups[phone][-back]
        del self.backups[phone][-back:]
        still_there = {edit.change_id for edit in self.phones[phone].waiting}
        for change_id in set(lost) - still_there:
            del self.saved[change_id]
        self.delete_or_undelete(phone, data, deleted=True)

    def _push(self, phone: int, most: int, hear: Callable[[list[PushResult]], None]) -> None:
        one = self.phones[phone]
        if one.waiting:
            try:
                hear(self._send(one, one.waiting[:most], self.now))
            except DeviceForkedError:
                one.become(self.new_id())
                join_device(self.store, one.device_id, person=one.person)

    def _send(self, phone: Phone, edits: list[Edit], now: datetime) -> list[PushResult]:
        """To the service with the phone's wrong clock, and to the judge with a true one; both must say the same."""
        said = self._judged(phone, edits, now)
        with self.store.writing() as work:
            push = push_of(edits, now, phone.clock_offset)
            if isinstance(said, Exception):
                with pytest.raises(type(said)):
                    accept_push(work.ledger(), self._author(phone), "foreman", push, now)
                raise said
            results = accept_push(work.ledger(), self._author(phone), "foreman", push, now)
            work.commit()
        assert results == said
        return results

    def _judged(self, phone: Phone, edits: list[Edit], now: datetime) -> list[PushResult] | Exception:
        kept = self.judge.latest, list(self.judge.entries), dict(self.judge.records)
        try:
            return accept_push(self.judge, self._author(phone), "foreman", push_of(edits, now, NO_OFFSET), now)
        except (GapError, DeviceForkedError) as error:
            self.judge.latest, self.judge.entries, self.judge.records = kept
            return error

    def _author(self, phone: Phone) -> Author:
        return author_of(phone.device_id, phone.person)

    def _is_forked(self, phone: Phone) -> bool:
        known = {e.number: e.change_id for e in self.judge.entries if e.author.device_id == phone.device_id}
        return any(known.get(edit.number, edit.change_id) != edit.change_id for edit in phone.waiting)

    def _is_known(self, edit: Edit) -> bool:
        return any(entry.change_id == edit.change_id for entry in self.judge.entries)

    def _log(self) -> list[Entry]:
        with self.store.reading() as work:
            return list(work.archive.log())

    @invariant()
    def numbers_are_dense_and_each_change_counts_once(self) -> None:
        log = self._log()
        assert [entry.sequence for entry in log] == list(range(1, len(log) + 1))
        assert len({entry.change_id for entry in log}) == len(log)

    @invariant()
    def records_can_be_made_again_from_the_log(self) -> None:
        with self.store.reading() as work:
            _count, wrong = differences(work.archive.log(), work.archive.records())
        assert wrong == []

    def teardown(self) -> None:
        try:
            self._come_to_rest()
            self._compare_replicas()
            self._look_for_lost_values()
        finally:
            self.store.close()
            self.kept.close()
            shutil.rmtree(self.folder)

    def _come_to_rest(self) -> None:
        for n, phone in enumerate(self.phones):
            for _attempt in range(MOST_ATTEMPTS):
                self.push(n, 500)
            assert phone.waiting == []
        for n, phone in enumerate(self.phones):
            while phone.cursor < self.judge.latest:
                self.pull(n, 2)

    def _compare_replicas(self) -> None:
        truth = {key: record.fields for key, record in self.judge.records.items()}
        with self.store.reading() as work:
            kept = {(record.kind, record.id): record.fields for record in work.archive.records()}
        assert kept == truth
        for phone in self.phones:
            assert phone.replica == truth

    def _look_for_lost_values(self) -> None:
        """Every edit a phone had saved is in the log with its values, or was refused and said so."""
        applied = {entry.change_id: entry for entry in self._log()}
        refused = {change_id for phone in self.phones for change_id in phone.refused}
        refused |= {entry.change_id for entry in self.judge.entries if entry.refusal}
        for change_id, edit in self.saved.items():
            if change_id in applied:
                assert applied[change_id].fields == edit.fields
            else:
                assert change_id in refused


Replicas.TestCase.settings = settings(max_examples=40, stateful_step_count=25, deadline=None)
TestReplicas = Replicas.TestCase


def test_the_same_holds_over_postgresql(postgres: PostgresDatabases) -> None:
    class OverPostgresql(Replicas):
        databases = postgres

    run_state_machine_as_test(
        OverPostgresql, settings=settings(max_examples=12, stateful_step_count=25, deadline=None)
    )
