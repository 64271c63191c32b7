"""The tables. They do not validate: what enters them has passed the wire's shapes and the rules of sync.

Times are texts, ISO 8601 in UTC with microseconds, so that they sort and read the same in every database.
"""

from typing import Any

from sqlalchemy import JSON, BigInteger, Column, Index, MetaData, Text, text
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


class ServiceRow(Table, table=True):
    """One row: who this database is, the last number given, and the hash of the join code."""

    __tablename__ = "service"

    id: int = Field(default=1, primary_key=True)
    identity: str
    latest: int = Field(default=0, sa_type=BigInteger)
    join_code_hash: str
    join_code_made_at: str


class DeviceRow(Table, table=True):
    """A phone or browser that has joined."""

    __tablename__ = "device"

    id: str = Field(primary_key=True)
    name: str
    person: str
    token_hash: str = Field(unique=True)
    joined_at: str


class ChangeRow(Table, table=True):
    """One change, applied or not, kept for ever. `sequence` is empty unless it was applied."""

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
    )

    device_id: str = Field(primary_key=True, foreign_key="device.id")
    number: int = Field(primary_key=True, sa_type=BigInteger)
    change_id: str
    sequence: int | None = Field(default=None, unique=True, sa_type=BigInteger)
    outcome: str
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


class RecordRow(Table, table=True):
    """A record as it stands; it can be made again from the log."""

    __tablename__ = "record"

    kind: str = Field(primary_key=True)
    id: str = Field(primary_key=True)
    sequence: int = Field(unique=True, sa_type=BigInteger)
    fields: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    stamps: dict[str, Any] = Field(sa_column=Column(JSON, nullable=False))
    created_by: str
    changed_by: str
    changed_at: str
