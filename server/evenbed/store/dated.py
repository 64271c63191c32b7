"""What the dates of rooms rest on: the records that matter to them, and how new they are."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import func
from sqlalchemy import select as select_columns
from sqlmodel import Session, col

from evenbed.store.archive import seen_by
from evenbed.store.people import Person
from evenbed.store.tables import RecordRow
from evenbed.sync.jobs import COMPANY
from evenbed.wire.supplies import SUPPLIES_ID

KINDS = (
    *("job", "room", "reading", "placement", "batch", "rail_check", "entry", "climate"),
    *("gap", "height_line", "temperature_log", "forecast_day"),
)
"""Of a job. Photos, stations, alternatives and signed copies change no date."""


@dataclass(frozen=True)
class DatedRecord:
    """A record as far as dates need it."""

    kind: str
    id: str
    fields: Mapping[str, Any]
    sequence: int
    changed_at: str


class Dated:
    """Reads inside one session."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def newest(self, person: Person) -> dict[str, int]:
        """The newest number of each job that the person sees, among the records that matter."""
        condition = col(RecordRow.kind).in_(KINDS), col(RecordRow.job_id) != COMPANY, seen_by(person)
        numbers = select_columns(col(RecordRow.job_id), func.max(RecordRow.sequence)).where(*condition)
        rows = self._session.connection().execute(numbers.group_by(col(RecordRow.job_id)))
        return {row[0]: row[1] for row in rows}

    def of_job(self, job_id: str) -> list[DatedRecord]:
        """The records of a job that matter, deleted ones too."""
        return self._read(col(RecordRow.job_id) == job_id, col(RecordRow.kind).in_(KINDS))

    def supplies(self) -> DatedRecord | None:
        """What the company buys, if anybody said."""
        return next(iter(self._read(col(RecordRow.kind) == "supplies", col(RecordRow.id) == SUPPLIES_ID)), None)

    def _read(self, *conditions: Any) -> list[DatedRecord]:
        row = RecordRow
        columns = col(row.kind), col(row.id), col(row.fields), col(row.sequence), col(row.changed_at)
        rows = self._session.connection().execute(select_columns(*columns).where(*conditions))
        return [DatedRecord(*found) for found in rows]
