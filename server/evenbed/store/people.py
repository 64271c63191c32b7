"""The people of a company, and who of them sees which job."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import cast

from sqlalchemy import update
from sqlmodel import Session, col, delete, select

from evenbed.store.tables import AssignmentRow, PersonRow
from evenbed.sync.jobs import crew_of
from evenbed.sync.model import Record
from evenbed.wire.exchange import Role


@dataclass(frozen=True)
class Person:
    """Somebody who was let in, or is expected. `view` grows whenever the jobs they see change."""

    id: str
    name: str
    role: Role
    view: int


def person_from(row: PersonRow) -> Person:
    """The person of a row."""
    return Person(row.id, row.name, cast("Role", row.role), row.view)


class People:
    """People inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def add(self, person_id: str, name: str, role: Role) -> Person:
        """Somebody new."""
        row = PersonRow(id=person_id, name=name, role=role)
        self._session.add(row)
        self._session.flush()
        return person_from(row)

    def with_id(self, person_id: str) -> Person | None:
        """The person with that id."""
        row = self._session.get(PersonRow, person_id)
        return person_from(row) if row else None

    def all(self) -> tuple[Person, ...]:
        """Everybody, by name."""
        rows = self._session.exec(select(PersonRow).order_by(col(PersonRow.name), col(PersonRow.id)))
        return tuple(person_from(row) for row in rows)

    def save(self, person: Person) -> None:
        """Keep a new name or role. What they see may change with the role, so their view grows with it."""
        row = self._session.get_one(PersonRow, person.id)
        if row.role != person.role:
            row.view += 1
        row.name, row.role = person.name, person.role
        self._session.flush()

    def assign(self, job: Record) -> None:
        """Bring the assignments of a job in line with its record; the view of everybody it concerns grows."""
        crew, before = crew_of(job), self.assigned_to(job.id)
        gone = col(AssignmentRow.person_id).in_(sorted(before - crew))
        self._session.exec(delete(AssignmentRow).where(col(AssignmentRow.job_id) == job.id, gone))
        self._session.add_all(AssignmentRow(job_id=job.id, person_id=one) for one in crew - before)
        self._grow_views(crew ^ before)
        self._session.flush()

    def assigned_to(self, job_id: str) -> frozenset[str]:
        """The ids of those who see the job without being foremen."""
        rows = self._session.exec(select(AssignmentRow.person_id).where(AssignmentRow.job_id == job_id))
        return frozenset(rows)

    def _grow_views(self, person_ids: Iterable[str]) -> None:
        concerned = col(PersonRow.id).in_(sorted(person_ids)), col(PersonRow.role) != "foreman"
        self._session.exec(update(PersonRow).where(*concerned).values(view=col(PersonRow.view) + 1))
