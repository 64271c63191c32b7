"""Random jobs: what several people did to one job on several phones, some of it without knowing of each other."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from evenbed.pictures import check_picture
from evenbed.store.work import Store, UnitOfWork
from evenbed.sync.accept import accept_push
from evenbed.sync.jobs import PARENTS
from evenbed.wire.exchange import Change, PushRequest
from evenbed.wire.protocol import PROTOCOL, SCHEMA
from tests.machine.edits import CHOICES, NEW, Fields
from tests.phones import uuid_text
from tests.pictures import Picture, jpeg
from tests.stores import START, author_of, join_device

PEOPLE = ("Ana", "Ben", "Cal")
JOB = uuid_text(1)
PICTURES = (jpeg(1), jpeg(2))
PLACED = sorted(set(NEW) - {"photo"})


@dataclass(frozen=True)
class Step:
    """One edit: by whom, how many minutes before or after the others, how much of the service's numbers they had
    seen (a share), and what it does. `kind` None: it edits or deletes a record that is there."""

    who: int
    minute: int
    seen: float
    kind: str | None
    which: int
    fields: Fields
    choices: dict[str, Fields]
    deleted: bool


def steps() -> st.SearchStrategy[list[Step]]:
    """What happens in a job after it was made."""
    kinds = st.sampled_from([None, None, None, "room", "photo", *PLACED])
    return st.lists(kinds.flatmap(_step), min_size=1, max_size=25)


def _step(kind: str | None) -> st.SearchStrategy[Step]:
    return st.builds(
        Step,
        who=st.integers(0, len(PEOPLE) - 1),
        minute=st.integers(0, 60),
        seen=st.sampled_from([0.0, 0.5, 1.0]),
        kind=st.just(kind),
        which=st.integers(0, 50),
        fields=NEW[kind] if kind in PLACED else st.just({}),
        choices=st.fixed_dictionaries(
            {name: CHOICES[name] for name in CHOICES if name not in ("prices", "supplies")}
        ),
        deleted=st.sampled_from([False, False, False, True]),
    )


def device_of(who: int) -> str:
    """The phone of a person."""
    return uuid_text(900 + who)


class Worked:
    """A job in a store, as the steps made it; it can be worked on further."""

    def __init__(self, store: Store, first_id: int = 1000) -> None:
        self._store = store
        self._at_work: UnitOfWork
        self._made: list[tuple[str, str]] = []
        self._numbers = dict.fromkeys(range(len(PEOPLE)), 0)
        self._next = first_id

    def begin(self) -> None:
        """The people, the job and a room."""
        for who, person in enumerate(PEOPLE):
            join_device(self._store, device_of(who), f"{person}'s phone", person)
        crew = [author_of(device_of(1), "Ben").person_id]
        with self._pushing():
            self._push(0, 0, 0.0, "job", JOB, {"name": "Alder", "crew": crew})
            self._push(0, 1, 1.0, "room", self._id(), {"job_id": JOB, "name": "Hall"})

    @contextmanager
    def _pushing(self) -> Iterator[None]:
        """Pushes that are kept together: each on its own would wait for the disk, and be no other push for it."""
        with self._store.writing() as work:
            self._at_work = work
            yield
            work.commit()

    def go_on(self, records: list[tuple[str, str]]) -> None:
        """From records that came otherwise, on phones that join anew."""
        self._made = list(records)
        join_device(self._store, device_of(2), "Cal's phone", "Cal")

    def work(self, steps: list[Step], people: tuple[int, ...] = (0, 1, 2)) -> None:
        """Do the steps, one push each; what the rules refuse is refused."""
        with self._pushing():
            for step in steps:
                who = people[step.who % len(people)]
                if step.kind is None:
                    self._edit(who, step)
                else:
                    self._push(who, step.minute, step.seen, step.kind, self._id(), self._new(step))

    def _id(self) -> str:
        self._next += 1
        return uuid_text(self._next)

    def _new(self, step: Step) -> Fields:
        assert step.kind is not None
        parent, field = PARENTS[step.kind]
        around = [record_id for kind, record_id in self._made if kind == parent]
        fields = PICTURES[step.which % len(PICTURES)].fields() if step.kind == "photo" else step.fields
        return fields | {field: around[step.which % len(around)]}

    def _edit(self, who: int, step: Step) -> None:
        kind, record_id = self._made[step.which % len(self._made)]
        fields: dict[str, Any] = {"deleted": True} if step.deleted else step.choices.get(kind, {"deleted": False})
        self._push(who, step.minute, step.seen, kind, record_id, fields)

    def _push(self, who: int, minute: int, seen: float, kind: str, record_id: str, fields: Fields) -> None:
        at, now = START + timedelta(minutes=minute), START + timedelta(hours=2)
        work = self._at_work
        self._numbers[who] += 1
        change = Change(
            change_id=self._id(),
            number=self._numbers[who],
            kind=kind,
            record_id=record_id,
            fields=fields,
            seen=int(seen * work.archive.latest()),
            device_time=at.isoformat(),
            schema=SCHEMA,
        )
        push = PushRequest(protocol=PROTOCOL, changes=[change], device_time=now.isoformat())
        author = author_of(device_of(who), PEOPLE[who])
        (result,) = accept_push(work.ledger(), author, "foreman", push, now)
        if result.outcome == "applied" and (kind, record_id) not in self._made:
            self._made.append((kind, record_id))

    def bring_photos(self, some: tuple[Picture, ...] = PICTURES) -> None:
        """The pictures that the job names, as far as somebody brought them."""
        by_hash = {picture.hash: picture for picture in some}
        with self._store.writing() as work:
            for expected in work.photos.expected_in(JOB):
                if not expected.complete and expected.hash in by_hash:
                    picture = by_hash[expected.hash]
                    thumbnail = check_picture(picture.content, picture.said(), 1_000_000)
                    work.photos.keep(expected, picture.content, thumbnail, START)
            work.commit()


def told_of(store: Store) -> dict[str, Any]:
    """All that is known of the job, less what every database counts for itself: numbers, and who brought a file."""
    with store.reading() as work:
        archive = work.archive
        past = archive.job_past(JOB, 0, 10_000)
        records = [record for record in archive.records() if record.job_id == JOB]
        photos = {one.hash: work.photos.content(JOB, one.hash) for one in work.photos.of_job(JOB)}
    return {
        "past": [
            (
                one.entry.change_id,
                *(one.entry.kind, one.entry.record_id, one.entry.fields, one.entry.schema, one.entry.at),
                *(one.entry.maker.person, one.entry.maker.device_id, one.entry.effect, one.knew),
            )
            for one in past
        ],
        "devices": [one.entry.origin.device_name if one.entry.origin else one.device_name for one in past],
        "records": sorted(_standing(records)),
        "photos": photos,
    }


def _standing(records: list[Any]) -> Iterator[tuple[str, str, Any]]:
    """Kind and id, and what is compared by value: 10 and 10.0 are one number, of which a phone writes the shorter."""
    for one in records:
        stamps = {name: (stamp.person, stamp.device_id, stamp.at) for name, stamp in one.stamps.items()}
        lost = {
            name: [(c.value, c.person, c.device_id, c.at) for c in conflicts]
            for name, conflicts in one.conflicts.items()
        }
        when: datetime = one.changed_at
        told = (one.fields, sorted(stamps.items()), sorted(lost.items()), one.created_by, one.changed_by, when)
        yield one.kind, one.id, told
