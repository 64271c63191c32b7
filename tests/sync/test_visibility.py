"""Nobody reads or writes across the line, and nothing is missing on this side of it.

People make jobs, are put on crews and taken off, become foremen and setters, and pull page by page while all that
goes on. The judge remembers in its own simple way who made what and who is on which crew.
"""

import shutil
import tempfile
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule
from tests.phones import uuid_text
from tests.share import share_of
from tests.stores import START, author_of, fresh_file, join_device, url_of

from evenbed.store.archive import Page
from evenbed.store.people import Person
from evenbed.store.work import Store
from evenbed.sync.accept import accept_push
from evenbed.sync.proof import differences
from evenbed.wire.exchange import Change, PushRequest, PushResult, Role
from evenbed.wire.refusals import Reason
from evenbed.wire.supplies import COMPANYS

NAMES = ("Ana", "Ben", "Eva", "Ole")
ROLES: tuple[Role, ...] = ("foreman", "setter", "setter", "viewer")
NOWHERE = uuid_text(999_999)
everybody, anybody = st.sets(st.sampled_from(NAMES)), st.sampled_from(NAMES)
roles: st.SearchStrategy[Role] = st.sampled_from(["foreman", "setter", "viewer"])


@dataclass
class Held:
    """A phone's stored records with the view each came in, and how far it has pulled."""

    rows: dict[str, tuple[int, dict[str, Any]]] = field(default_factory=dict)
    cursor: int = 0
    view: int = 0

    def take(self, page: Page, view: int) -> None:
        """One page; after the last, whatever came in an older view goes."""
        self.rows |= {record.id: (view, dict(record.fields)) for record in page.records}
        self.cursor, self.view = page.next, view
        if not page.more:
            self.rows = {id_: row for id_, row in self.rows.items() if row[0] == view}


@dataclass
class Job:
    """What the judge knows of a job: who made it, who is on the crew (None: never said), and what is in it."""

    owner: str
    crew: set[str] | None = None
    records: dict[str, dict[str, Any]] = field(default_factory=dict)
    sequences: dict[str, int] = field(default_factory=dict)


class Crews(RuleBasedStateMachine):
    """Four people with a phone each; the first is a foreman for good."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(prefix="evenbed-test-"))
        self.store = Store(url_of(fresh_file(self.folder)[0]))
        self.ids = 0
        self.role: dict[str, Role] = dict(zip(NAMES, ROLES, strict=True))
        self.device = {name: self.new_id() for name in NAMES}
        for name in NAMES:
            join_device(self.store, self.device[name], person=name, role=self.role[name])
        self.numbers = dict.fromkeys(NAMES, 0)
        self.held = {name: Held() for name in NAMES}
        self.jobs: dict[str, Job] = {}
        self.company: dict[str, dict[str, Any]] = {}
        self.companys_newest = {"prices": 0, "supplies": 0}

    def new_id(self) -> str:
        self.ids += 1
        return uuid_text(self.ids)

    def sees(self, name: str, job: Job) -> bool:
        on_it = {job.owner} if job.crew is None else job.crew
        return self.role[name] == "foreman" or name in on_it

    def visible(self, name: str) -> dict[str, dict[str, Any]]:
        of_jobs = {i: f for job in self.jobs.values() if self.sees(name, job) for i, f in job.records.items()}
        return of_jobs | {
            COMPANYS[kind]: self.company[kind] for kind in self.company if self.sees_companys(name, kind)
        }

    def sees_companys(self, name: str, kind: str) -> bool:
        return self.role[name] == "foreman" or kind == "supplies"

    def push(self, name: str, *edits: tuple[str, str, dict[str, Any]]) -> list[PushResult]:
        changes = [self._change(name, *edit) for edit in edits]
        push = PushRequest(protocol=1, changes=changes, device_time=START.isoformat())
        with self.store.writing() as work:
            author = author_of(self.device[name], name)
            results = accept_push(work.ledger(), author, self.role[name], push, START)
            work.commit()
        return results

    def _change(self, name: str, kind: str, record_id: str, fields: dict[str, Any]) -> Change:
        self.numbers[name] += 1
        told = {"change_id": self.new_id(), "number": self.numbers[name], "device_time": START.isoformat()}
        return Change.model_validate(
            told | {"kind": kind, "record_id": record_id, "fields": fields, "seen": 10**9, "schema": 1}
        )

    def edit(self, name: str, kind: str, record_id: str, fields: dict[str, Any], job_id: str) -> None:
        """An edit without a fault: it is refused exactly where its author does not see the job."""
        (result,) = self.push(name, (kind, record_id, fields))
        if not self.sees(name, self.jobs[job_id]):
            assert (result.outcome, result.reason) == ("refused", Reason.NOT_ASSIGNED)
            return
        assert result.sequence is not None
        job = self.jobs[job_id]
        job.records[record_id] = job.records.get(record_id, {}) | fields
        job.sequences[record_id] = result.sequence

    @initialize()
    def two_jobs_with_rooms_that_everybody_has_pulled(self) -> None:
        for name in NAMES[1:3]:
            self.new_job(name)
        for job_id, job in self.jobs.items():
            self.edit(job.owner, "room", self.new_id(), {"job_id": job_id}, job_id)
        for name in NAMES:
            self.pull_to_the_end(name, 9)

    @rule(name=anybody)
    def new_job(self, name: str) -> None:
        job_id = self.new_id()
        self.jobs[job_id] = Job(name)
        self.edit(name, "job", job_id, {"name": "new"}, job_id)
        assert self.sees(name, self.jobs[job_id])

    @rule(name=anybody, data=st.data())
    def new_room(self, name: str, data: st.DataObject) -> None:
        job_id = data.draw(st.sampled_from(sorted(self.jobs)))
        self.edit(name, "room", self.new_id(), {"job_id": job_id}, job_id)

    @rule(name=anybody, data=st.data(), note=st.sampled_from("abc"), deleted=st.booleans())
    def change_a_record(self, name: str, data: st.DataObject, note: str, deleted: bool) -> None:
        job_id, record_id = data.draw(st.sampled_from([(j, r) for j, job in self.jobs.items() for r in job.records]))
        kind = "job" if record_id == job_id else "room"
        self.edit(name, kind, record_id, {"note": note, "deleted": deleted}, job_id)

    @rule(data=st.data(), crew=everybody)
    def the_foreman_says_who_is_on_the_crew(self, data: st.DataObject, crew: set[str]) -> None:
        self.say_who_is_on_the_crew(NAMES[0], data, crew)

    @rule(name=anybody, data=st.data(), crew=st.none() | everybody)
    def say_who_is_on_the_crew(self, name: str, data: st.DataObject, crew: set[str] | None) -> None:
        job_id = data.draw(st.sampled_from(sorted(self.jobs)))
        ids = None if crew is None else sorted(author_of("", one).person_id for one in crew)
        if self.role[name] == "foreman":
            self.edit(name, "job", job_id, {"crew": ids}, job_id)
            self.jobs[job_id].crew = crew
            return
        (result,) = self.push(name, ("job", job_id, {"crew": ids}))
        reason = Reason.FOREMAN_ONLY if self.sees(name, self.jobs[job_id]) else Reason.NOT_ASSIGNED
        assert (result.outcome, result.reason) == ("refused", reason)

    @rule(
        name=anybody, what=st.sampled_from([("prices", "margin"), ("supplies", "tile.waste")]), value=st.floats(0, 1)
    )
    def say_what_the_company_buys(self, name: str, what: tuple[str, str], value: float) -> None:
        kind, field_name = what[0], ".".join(what)
        (result,) = self.push(name, (kind, COMPANYS[kind], {field_name: value}))
        if self.role[name] != "foreman":
            assert (result.outcome, result.reason) == ("refused", Reason.FOREMAN_ONLY)
            return
        assert result.sequence is not None
        self.company[kind] = {field_name: value}
        self.companys_newest[kind] = result.sequence

    @rule(name=anybody, data=st.data())
    def cross_the_line_in_one_push(self, name: str, data: st.DataObject) -> None:
        """A room in a job that is not there, a room moved to another job, and a job of one's own: the queue moves."""
        own, rooms = self.new_id(), [(j, r) for j, job in self.jobs.items() for r in job.records if r != j]
        edits: list[tuple[str, str, dict[str, Any]]] = [("room", self.new_id(), {"job_id": NOWHERE})]
        expected = [Reason.UNKNOWN_PARENT]
        if rooms:
            job_id, room_id = data.draw(st.sampled_from(rooms))
            edits.append(("room", room_id, {"job_id": own}))
            expected.append(Reason.PARENT_IS_FINAL if self.sees(name, self.jobs[job_id]) else Reason.NOT_ASSIGNED)
        *wrong, right = self.push(name, *edits, ("job", own, {"name": "own"}))
        assert [one.reason for one in wrong] == expected
        assert right.sequence is not None
        self.jobs[own] = Job(name, None, {own: {"name": "own"}}, {own: right.sequence})

    @rule(name=st.sampled_from(NAMES[1:]), role=roles)
    def give_a_role(self, name: str, role: Role) -> None:
        with self.store.writing() as work:
            work.people.save(replace(self.person(name), role=role))
            work.commit()
        self.role[name] = role

    def person(self, name: str) -> Person:
        with self.store.reading() as work:
            person = work.people.with_id(author_of("", name).person_id)
        assert person is not None
        return person

    @rule(name=anybody, limit=st.integers(1, 4))
    def pull_a_page(self, name: str, limit: int) -> None:
        held, person = self.held[name], self.person(name)
        with self.store.reading() as work:
            page = work.archive.page(person, held.cursor, limit, held.view)
        visible = self.visible(name)
        assert all(record.fields == visible[record.id] for record in page.records)
        assert len(page.records) <= limit
        held.take(page, person.view)

    @rule(limit=st.integers(1, 4))
    def everybody_pulls_a_page(self, limit: int) -> None:
        for name in NAMES:
            self.pull_a_page(name, limit)

    @rule(name=anybody, limit=st.integers(1, 9))
    def pull_to_the_end(self, name: str, limit: int) -> None:
        held = self.held[name]
        for _page in range(2 * self.ids):
            self.pull_a_page(name, limit)
            if held.cursor == self._latest():
                break
        assert {id_: fields for id_, (_view, fields) in held.rows.items()} == self.visible(name)
        assert {view for view, _fields in held.rows.values()} <= {self.person(name).view}

    def _latest(self) -> int:
        with self.store.reading() as work:
            return work.archive.latest()

    @rule(name=anybody)
    def look_at_every_record_by_itself(self, name: str) -> None:
        person, visible = self.person(name), self.visible(name)
        newest = [n for job in self.jobs.values() if self.sees(name, job) for n in job.sequences.values()]
        newest += [n for kind, n in self.companys_newest.items() if self.sees_companys(name, kind)]
        with self.store.reading() as work:
            assert work.archive.latest_for(person) == max(newest, default=0)
            for job_id, job in self.jobs.items():
                for record_id in job.records:
                    kind = "job" if record_id == job_id else "room"
                    assert work.archive.is_seen(person, kind, record_id) == (record_id in visible)
            for kind, record_id in COMPANYS.items():
                assert work.archive.is_seen(person, kind, record_id) == (record_id in visible)

    @invariant()
    def records_and_assignments_can_be_made_again_from_the_log(self) -> None:
        with self.store.reading() as work:
            _count, wrong = differences(work.archive.log(), work.archive.records(), work.archive.assignments())
        assert wrong == []

    def teardown(self) -> None:
        try:
            for limit, name in enumerate(NAMES, start=1):
                self.pull_to_the_end(name, limit)
                self.look_at_every_record_by_itself(name)
        finally:
            self.store.close()
            shutil.rmtree(self.folder)


Crews.TestCase.settings = settings(max_examples=share_of(40), stateful_step_count=25, deadline=None)
TestCrews = Crews.TestCase
