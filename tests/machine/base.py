"""What every part of the machine stands on: the crew, its phones and the service; how it begins, and the proof."""

import json
import shutil
from collections import Counter
from datetime import timedelta
from pathlib import Path
from tempfile import mkdtemp
from typing import ClassVar

from hypothesis import note
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule

from tests.machine import promises
from tests.machine.bases import CREW, Bases
from tests.machine.edits import Names
from tests.machine.happenings import NothingToDoError, happenings_of
from tests.machine.memory import Memory
from tests.machine.network import Fault
from tests.machine.office import Office, TrueTime
from tests.machine.phones import Contents, Phone, Phones, Row
from tests.machine.pipe import Answer, Pipe

WRONG_CLOCKS_H = (-30.5, 0.0, 200.25)
A_MOMENT = timedelta(seconds=1)
MOST_ROUNDS = 12
FINE: list[Fault] = []

numbers = st.integers(0, len(CREW) - 1)
tabs = st.integers(0, 1)


class Base(RuleBasedStateMachine):
    """A foreman and two setters, each with a phone, and their service."""

    bases: ClassVar[Bases]
    pipe: ClassVar[Pipe]
    steps: ClassVar[Counter[str]]
    """How often what happened."""
    met: ClassVar[Counter[str]]
    """What the phones came upon: outcomes, refusals, problems, conflicts."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(mkdtemp(prefix="evenbed-test-"))
        self.time, self.memory, self.names = TrueTime(), Memory(), Names()
        self.office = Office(self.bases.fresh(), self.time, self.folder, self.met)
        self.tool = Phones(self.pipe, self.office, self.time, self.taken)
        self.phones = [
            Phone(worker, worker.name, timedelta(hours=wrong))
            for worker, wrong in zip(CREW, WRONG_CLOCKS_H, strict=True)
        ]
        self.backups: list[Path] = []
        self.instead = 0
        """How often in this run somebody synced in the place of something else. What the class counts goes on from
        run to run, so nothing may be decided by it: the same draws must come to the same end."""

    def taken(self, by: Phone | None, answer: Answer) -> None:
        """The service's reply to a push."""
        results = json.loads(answer.body)["results"]
        taken = [one["change_id"] for one in results if one["outcome"] != "already_applied"]
        self.memory.arrived(taken, by, self.time.now)

    @rule(data=st.data())
    def something_happens(self, data: st.DataObject) -> None:
        """The next step."""
        may_happen = happenings_of(type(self))
        what = may_happen[data.draw(st.integers(0, len(may_happen) - 1))]
        told = {name: data.draw(drawn) for name, drawn in what.told.items()}
        note(f"{what.name}({', '.join(f'{name}={value!r}' for name, value in told.items())})")
        self.time.pass_by(A_MOMENT)
        try:
            getattr(self, what.name)(**told)
            self.steps[what.name] += 1
        except NothingToDoError:
            self.somebody_syncs()

    def somebody_syncs(self) -> None:
        """In the place of what cannot happen now."""
        self.steps["somebody_syncs_instead"] += 1
        self.instead += 1
        phone = self.phones[self.instead % len(self.phones)]
        self.tool.sync(phone, self.tool.line(phone, FINE))

    @initialize()
    def begin(self) -> None:
        """Everybody joins, and the foreman makes a first job for all."""
        for phone in self.phones:
            self.tool.open_first(phone)
            self.join(phone, FINE)
        crew = [worker.id for worker in CREW]
        self.write(0, 0, self.job_edits(self.names.new(), "first", crew))

    def job_edits(self, job_id: str, name: str, crew: list[str] | None) -> list[Row]:
        """A new job, and its crew as the app says it: in a change of its own."""
        told = [{"name": name}] if crew is None else [{"name": name}, {"crew": crew}]
        return [{"kind": "job", "id": job_id, "fields": fields} for fields in told]

    def write(self, n: int, tab: int, edits: list[Row], *, is_sound: bool = True) -> None:
        """Save these together on a phone, and remember it where it says that it did."""
        phone = self.phones[n]
        made = self.tool.write(phone, tab, edits)
        if made is not None:
            assert len(made) == len(edits)
            self.memory.note(made, phone, self.time.now, is_sound=is_sound)

    def join(self, phone: Phone, broken: list[Fault]) -> None:
        """With a fresh code, whether it has joined or not."""
        self.tool.join(phone, self.tool.line(phone, broken), self.office.code_for(phone.worker.id))

    def account(self, phone: Phone) -> Row:
        """Who the phone is, and how far it has come."""
        return next(row for row in self.tool.contents(phone)["meta"] if row["key"] == "account")

    def teardown(self) -> None:
        """Quiet, and the proof."""
        try:
            self._come_to_rest()
            self._prove()
        finally:
            self.office.close()
            self.bases.drop(self.office.url)
            shutil.rmtree(self.folder)

    def _come_to_rest(self) -> None:
        for phone in self.phones:
            self.tool.calm(phone)
        roles = self.office.roles()
        for worker in CREW:
            if roles[worker.id] == "viewer":
                self.office.decide("PATCH", f"/api/people/{worker.id}", json={"role": "setter"})
        for _round in range(MOST_ROUNDS):
            at_rest = [self._rests(phone) for phone in self.phones]
            if all(at_rest):
                return
        raise AssertionError("The phones do not come to rest.")

    def _rests(self, phone: Phone) -> bool:
        """One more exchange over a good line; whether there was nothing to do."""
        self.time.pass_by(A_MOMENT)
        before = self._latest()
        if not self.account(phone)["joined"]:
            self.join(phone, FINE)
        told = self.tool.sync(phone, self.tool.line(phone, FINE))
        contents = self.tool.contents(phone)
        account = next(row for row in contents["meta"] if row["key"] == "account")
        return told == "idle" and not contents["changes"] and before == self._latest() == account["cursor"]

    def _latest(self) -> int:
        with self.office.store.reading() as work:
            return work.archive.latest()

    def _prove(self) -> None:
        log, records, roles = self.office.log(), self.office.records(), self.office.roles()
        contents: dict[str, Contents] = {phone.disk: self.tool.contents(phone) for phone in self.phones}
        promises.check_log(log, records)
        self.met["conflict"] += sum(len(lost) for record in records for lost in record.conflicts.values())
        for phone in self.phones:
            told = contents[phone.disk], records, phone.worker.id, roles[phone.worker.id]
            promises.check_replica(self.tool.loaded(phone), *told)
            for tab in range(len(phone.tabs)):
                promises.check_replica(self.tool.shown(phone, tab), *told)
        promises.check_nothing_is_lost(self.memory, log, contents)
        promises.check_witnesses(self.memory.witnesses, log, contents)
        promises.check_what_stood(self.memory.stood, records, contents)
        promises.check_times(self.memory, log)
        promises.check_what_stands(log, records)
