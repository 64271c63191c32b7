"""Looking things up: pages of what changed, the history of a record, the whole log; to each person what they see."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import ColumnElement, and_, func, or_, true
from sqlalchemy import select as select_columns
from sqlmodel import Session, col, select

from evenbed.store.lookups import stories_of
from evenbed.store.people import Person
from evenbed.store.rows import SHOWN, Shown, entry_from, record_from, shown_from
from evenbed.store.tables import AssignmentRow, ChangeRow, DeviceRow, RecordRow, ServiceRow
from evenbed.sync.jobs import SEEN_BY_ALL
from evenbed.sync.knowledge import Told, last_known
from evenbed.sync.model import Entry, Record
from evenbed.wire.exchange import FieldValues


@dataclass(frozen=True)
class Page:
    """Records in the order of their sequence. Everything up to `next` has been seen with it."""

    records: tuple[Shown, ...]
    latest: int
    next: int
    more: bool


@dataclass(frozen=True)
class Past:
    """One applied change and the name of the device it came from."""

    entry: Entry
    device_name: str


@dataclass(frozen=True)
class JobPast:
    """One applied change of a job, the name of the device it came from, and the ids that say what its maker knew."""

    entry: Entry
    device_name: str
    knew: tuple[str, ...]


class Archive:
    """Reads inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def page(self, person: Person, after: int, limit: int, view: int | None = None) -> Page:
        """What changed after a number among what the person sees, at most `limit` records.

        The number was counted in a `view`. Where the person sees other jobs now, it is everything from the start. A
        phone of the first version names no view, and gets what changed in any case.

        The newest number is read first: every change up to it was committed before the records are read, for numbers
        are given and committed one transaction after the other. So a cursor never passes a change it has not seen.
        """
        latest = self.latest()
        after = after if view in (None, person.view) else 0
        newer = select_columns(*SHOWN).where(col(RecordRow.sequence) > after, seen_by(person))
        rows = self._session.connection().execute(newer.order_by(col(RecordRow.sequence)).limit(limit + 1)).all()
        records, more = tuple(shown_from(row) for row in rows[:limit]), len(rows) > limit
        last = records[-1].sequence if records else after
        end = max(latest, last)
        return Page(records, latest=end, next=last if more else end, more=more)

    def latest(self) -> int:
        """The last number given."""
        return self._session.exec(select(ServiceRow.latest)).one()

    def latest_for(self, person: Person) -> int:
        """The newest number among what the person sees; 0 where they see nothing."""
        return self._session.exec(select(func.max(RecordRow.sequence)).where(seen_by(person))).one() or 0

    def is_seen(self, person: Person, kind: str, record_id: str) -> bool:
        """True where there is such a record and the person sees it."""
        one = select(RecordRow.id).where(RecordRow.kind == kind, RecordRow.id == record_id, seen_by(person))
        return self._session.exec(one).first() is not None

    def fields_of(self, person: Person, kind: str, record_id: str) -> FieldValues | None:
        """The fields of a record as they stand; None where there is none that the person sees, or it is deleted."""
        one = select(RecordRow.fields).where(RecordRow.kind == kind, RecordRow.id == record_id, seen_by(person))
        fields = self._session.exec(one).first()
        return None if fields is None or fields.get("deleted") is True else dict(fields)

    def history(self, kind: str, record_id: str) -> tuple[Past, ...]:
        """Every applied change of a record, oldest first; empty where there is no such record."""
        of_record = (
            select(ChangeRow, DeviceRow.name)
            .join(DeviceRow)
            .where(ChangeRow.kind == kind, ChangeRow.record_id == record_id, col(ChangeRow.sequence).is_not(None))
            .order_by(col(ChangeRow.sequence))
        )
        return tuple(Past(entry_from(row), name) for row, name in self._session.exec(of_record))

    def job_past(self, job_id: str, after: int, limit: int) -> tuple[JobPast, ...]:
        """The applied changes of all records of a job after a number, at most `limit`, oldest first."""
        of_job = (
            select(ChangeRow, DeviceRow.name)
            .join(DeviceRow)
            .join(RecordRow, and_(col(RecordRow.kind) == ChangeRow.kind, col(RecordRow.id) == ChangeRow.record_id))
            .where(RecordRow.job_id == job_id, col(ChangeRow.sequence) > after)
            .order_by(col(ChangeRow.sequence))
            .limit(limit)
        )
        past = [(entry_from(row), name) for row, name in self._session.exec(of_job)]
        stories = stories_of(self._session.connection(), {(entry.kind, entry.record_id) for entry, _ in past})
        return tuple(
            JobPast(entry, name, _last_known(entry, stories[entry.kind, entry.record_id])) for entry, name in past
        )

    def jobs(self) -> tuple[tuple[str, str | None], ...]:
        """Id and name of every job."""
        rows = self._session.exec(select(RecordRow.id, RecordRow.fields).where(RecordRow.kind == "job"))
        return tuple((job_id, fields.get("name")) for job_id, fields in rows)

    def of_job(self, job_id: str) -> tuple[tuple[str, str, FieldValues], ...]:
        """Kind, id and fields of every record of a job, deleted ones too, by the number of their newest change."""
        columns = select(RecordRow.kind, RecordRow.id, RecordRow.fields).where(RecordRow.job_id == job_id)
        rows = self._session.exec(columns.order_by(col(RecordRow.sequence)))
        return tuple((kind, record_id, dict(fields)) for kind, record_id, fields in rows)

    def log(self) -> Iterator[Entry]:
        """Every applied change, in order."""
        applied = select(ChangeRow).where(col(ChangeRow.sequence).is_not(None))
        rows = self._session.exec(applied.order_by(col(ChangeRow.sequence)).execution_options(yield_per=1000))
        return (entry_from(row) for row in rows)

    def records(self) -> Iterator[Record]:
        """Every record as it stands."""
        rows = self._session.exec(select(RecordRow).execution_options(yield_per=1000))
        return (record_from(row) for row in rows)

    def assignments(self) -> dict[str, frozenset[str]]:
        """Who sees each job without being a foreman: ids by the job's id."""
        seeing: dict[str, set[str]] = {}
        for job_id, person_id in self._session.exec(select(AssignmentRow.job_id, AssignmentRow.person_id)):
            seeing.setdefault(job_id, set()).add(person_id)
        return {job_id: frozenset(people) for job_id, people in seeing.items()}


def _last_known(entry: Entry, story: list[Told]) -> tuple[str, ...]:
    if entry.origin is not None:
        return entry.origin.knew
    sequence = entry.sequence or 0
    before = (one for one in story if one.sequence < sequence)
    return last_known(before, entry.seen if entry.seen < sequence else 0, entry.author.device_id)


def seen_by(person: Person) -> ColumnElement[bool]:
    """The condition on records that leaves what the person sees."""
    if person.role == "foreman":
        return true()
    assigned = select(AssignmentRow.job_id).where(AssignmentRow.person_id == person.id)
    return or_(col(RecordRow.job_id).in_(assigned), col(RecordRow.kind).in_(sorted(SEEN_BY_ALL)))
