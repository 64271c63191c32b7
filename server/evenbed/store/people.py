"""The people of a company, and who of them sees which job."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

from sqlalchemy import insert, update
from sqlmodel import Session, col, delete, select

from evenbed.store.tables import AssignmentRow, PersonRow, table_of
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

    def assign(self, crews: Mapping[str, frozenset[str]], made: frozenset[str]) -> None:
        """Bring the assignments of jobs, by id, in line with their crews; the view of whom it concerns grows.

        It does not grow for the jobs just `made`: whatever belongs to them is newer than all that anybody has pulled,
        and comes with the next pull in any view.
        """
        of_jobs = select(AssignmentRow.job_id, AssignmentRow.person_id).where(col(AssignmentRow.job_id).in_(crews))
        before = set(self._session.exec(of_jobs)) if crews.keys() - made else set()
        after = {(job_id, person_id) for job_id, crew in crews.items() for person_id in crew}
        for job_id, person_id in sorted(before - after):
            of_job = col(AssignmentRow.job_id) == job_id
            self._session.exec(delete(AssignmentRow).where(of_job, col(AssignmentRow.person_id) == person_id))
        if come := [{"job_id": job_id, "person_id": person_id} for job_id, person_id in sorted(after - before)]:
            self._session.connection().execute(insert(table_of(AssignmentRow)), come)
        self._grow_views({person_id for job_id, person_id in before ^ after if job_id not in made})

    def _grow_views(self, person_ids: set[str]) -> None:
        if not person_ids:
            return
        concerned = col(PersonRow.id).in_(sorted(person_ids)), col(PersonRow.role) != "foreman"
        self._session.exec(update(PersonRow).where(*concerned).values(view=col(PersonRow.view) + 1))
