"""The tables. They do not validate: what enters them has passed the wire's shapes and the rules of sync.

Times are texts, ISO 8601 in UTC with microseconds, so that they sort and read the same in every database.
"""

from typing import Any

import sqlalchemy
from sqlalchemy import JSON, BigInteger, Column, ForeignKeyConstraint, Index, LargeBinary, MetaData, Text, text
from sqlmodel import Field, SQLModel

NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Table(SQLModel):
    """The base of every table, with names for every constraint so that a migration can find it."""

    metadata = MetaData(naming_convention=NAMING)


def table_of(row: type[Table]) -> sqlalchemy.Table:
    """The bare table behind a class of rows."""
    return Table.metadata.tables[str(row.__tablename__)]


class ServiceRow(Table, table=True):
    """One row: who this database is, and the last number given."""

    __tablename__ = "service"

    id: int = Field(default=1, primary_key=True)
    identity: str
    latest: int = Field(default=0, sa_type=BigInteger)


class PersonRow(Table, table=True):
    """Somebody who was let in, or is expected. `view` grows whenever the jobs they see change."""

    __tablename__ = "person"

    id: str = Field(primary_key=True)
    name: str
    role: str
    view: int = Field(default=1, sa_type=BigInteger)


class DeviceRow(Table, table=True):
    """A phone or browser that has joined. Once `removed_at` is set its token opens nothing."""

    __tablename__ = "device"

    id: str = Field(primary_key=True)
    name: str
    person_id: str = Field(foreign_key="person.id", index=True)
    token_hash: str = Field(unique=True)
    joined_at: str
    last_seen_at: str | None = None
    removed_at: str | None = None


class InviteRow(Table, table=True):
    """A join code: for one device, for a while. Without a person, whoever brings it says who they are."""

    __tablename__ = "invite"

    code_hash: str = Field(primary_key=True)
    role: str
    person_id: str | None = Field(default=None, foreign_key="person.id")
    made_by: str | None = Field(default=None, foreign_key="device.id")
    made_at: str
    expires_at: str
    used_at: str | None = None
    used_by: str | None = Field(default=None, foreign_key="device.id")


class CalendarRow(Table, table=True):
    """A person's secret address of dates. It holds while the device that it was made on has not left since."""

    __tablename__ = "calendar"

    person_id: str = Field(primary_key=True, foreign_key="person.id")
    secret_hash: str = Field(unique=True)
    made_by: str = Field(foreign_key="device.id")
    made_at: str


class AssignmentRow(Table, table=True):
    """Who sees a job without being a foreman. Made from the job's record, and can be made again from it."""

    __tablename__ = "assignment"

    job_id: str = Field(primary_key=True)
    person_id: str = Field(primary_key=True, index=True)


class ChangeRow(Table, table=True):
    """One change, applied or not, kept for ever.

    `sequence` is empty unless it was applied, `origin` unless it came out of a file.
    """

    __tablename__ = "change"
    __table_args__ = (
        Index(None, "kind", "record_id", "sequence"),
        Index(
            "uq_change_applied_change_id",
            "change_id",
            unique=True,
            sqlite_where=text("sequence IS NOT NULL"),
            postgresql_where=text("sequence IS NOT NULL"),
        ),
        Index(
            "ix_change_out_of_a_file",
            "device_id",
            sqlite_where=text("origin IS NOT NULL"),
            postgresql_where=text("origin IS NOT NULL"),
        ),
    )

    device_id: str = Field(primary_key=True, foreign_key="device.id")
    number: int = Field(primary_key=True, sa_type=BigInteger)
    change_id: str
    sequence: int | None = Field(default=None, unique=True, sa_type=BigInteger)
    outcome: str
    person_id: str
    person: str
    kind: str
    record_id: str
    fields: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    seen: int = Field(sa_type=BigInteger)
    schema_version: int
    device_time: str
    at: str
    received_at: str
    replaced: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    concurrent: list[str] = Field(sa_column=Column(JSON, nullable=False))
    overruled: list[str] = Field(sa_column=Column(JSON, nullable=False))
    reason: str | None = None
    message: str | None = Field(default=None, sa_column=Column(Text, nullable=True))
    origin: dict[str, Any] | None = Field(default=None, sa_column=Column(JSON(none_as_null=True), nullable=True))


class RecordRow(Table, table=True):
    """A record as it stands; it can be made again from the log. `photo_hash` is what a photo's record names."""

    __tablename__ = "record"
    __table_args__ = (Index(None, "job_id", "sequence"),)

    kind: str = Field(primary_key=True)
    id: str = Field(primary_key=True)
    job_id: str
    owner_id: str
    sequence: int = Field(unique=True, sa_type=BigInteger)
    fields: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    stamps: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    conflicts: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    created_by: str
    changed_by: str
    changed_at: str
    photo_hash: str | None = Field(default=None, index=True)


class PhotoRow(Table, table=True):
    """A picture by its job and the hash of its bytes. Until all of them are here it has parts, and no thumbnail.

    The same picture in two jobs is kept twice: who sees one of them has not shown that they may see the other. The
    bytes stand last, so that a look at the rest does not read through them.
    """

    __tablename__ = "photo"

    job_id: str = Field(primary_key=True)
    hash: str = Field(primary_key=True)
    size: int = Field(sa_type=BigInteger)
    received: int = Field(sa_type=BigInteger)
    begun_at: str
    media_type: str | None = None
    thumbnail: bytes | None = Field(default=None, sa_column=Column(LargeBinary, nullable=True))
    content: bytes | None = Field(default=None, sa_column=Column(LargeBinary, nullable=True))


class PhotoPartRow(Table, table=True):
    """Some bytes of a picture that is still on its way, from an offset on."""

    __tablename__ = "photo_part"
    __table_args__ = (ForeignKeyConstraint(["job_id", "hash"], ["photo.job_id", "photo.hash"]),)

    job_id: str = Field(primary_key=True)
    hash: str = Field(primary_key=True)
    offset: int = Field(primary_key=True, sa_type=BigInteger)
    content: bytes = Field(sa_column=Column(LargeBinary, nullable=False))
