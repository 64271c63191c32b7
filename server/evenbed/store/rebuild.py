"""The records made again from the log, when a step has emptied them or has changed what they hold.

The numbers stay what they were, and so do the cursors of phones; but a record may have come out otherwise than it was
pulled. So everybody's view grows, and each phone takes a snapshot at its next pull.
"""

from collections.abc import Iterable

from sqlalchemy import Connection, delete, func, insert, select, update
from sqlmodel import Session

from evenbed.store.archive import Archive
from evenbed.store.rows import record_values_from
from evenbed.store.tables import AssignmentRow, ChangeRow, PersonRow, RecordRow, table_of
from evenbed.sync.jobs import crew_of
from evenbed.sync.model import Record
from evenbed.sync.replay import records_from

CHANGES, RECORDS, ASSIGNMENTS, PEOPLE = (table_of(row) for row in (ChangeRow, RecordRow, AssignmentRow, PersonRow))


def is_covered(connection: Connection) -> bool:
    """True where the newest change of the log is the newest of the records: it is as long as nothing emptied them."""
    of_log, of_records = (connection.scalar(select(func.max(table.c.sequence))) for table in (CHANGES, RECORDS))
    return bool(of_log == of_records)


def make_again(connection: Connection) -> None:
    """Records and assignments anew, in the transaction that the connection is in."""
    with Session(connection) as session:
        records = records_from(Archive(session).log()).values()
    for table in (RECORDS, ASSIGNMENTS):
        connection.execute(delete(table))
    _insert(connection, records)
    connection.execute(update(PEOPLE).values(view=PEOPLE.c.view + 1))


def _insert(connection: Connection, records: Iterable[Record]) -> None:
    rows = [record_values_from(record) for record in records]
    jobs = [record for record in records if record.kind == "job"]
    crews = [{"job_id": job.id, "person_id": one} for job in jobs for one in sorted(crew_of(job))]
    for table, values in ((RECORDS, rows), (ASSIGNMENTS, crews)):
        if values:
            connection.execute(insert(table), values)
