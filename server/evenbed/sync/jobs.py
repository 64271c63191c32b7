"""Every record belongs to one job for good, and a job is seen by its crew; or it is the company's.

A foreman sees every job. Setters and viewers see those whose `crew` names them; a job whose crew was never set is
seen by the person who made it. Of the company's records everybody sees what is bought in which packages, and foremen
alone what it costs; foremen alone write either.
"""

from collections.abc import Callable, Mapping

from evenbed.sync.model import Record
from evenbed.wire.exchange import FieldValues, Role
from evenbed.wire.supplies import COMPANYS

PARENTS: Mapping[str, tuple[str, str]] = {
    "room": ("job", "job_id"),
    "reading": ("room", "room_id"),
    "placement": ("room", "room_id"),
    "batch": ("room", "room_id"),
    "station": ("room", "room_id"),
    "rail_check": ("room", "room_id"),
    "entry": ("room", "room_id"),
    "climate": ("room", "room_id"),
    "photo": ("room", "room_id"),
    "alternative": ("room", "room_id"),
    "gap": ("room", "room_id"),
    "height_line": ("room", "room_id"),
    "temperature_log": ("room", "room_id"),
    "forecast_day": ("job", "job_id"),
    "sign_off": ("room", "room_id"),
}
"""For a kind of record: the kind of its parent, and the field that names it."""
COMPANY = "company"
"""In the place of a job for what belongs to none. No job can have this id: it is no UUID."""
SEEN_BY_ALL = frozenset({"supplies"})
"""The company's kinds that are not for foremen alone."""

Find = Callable[[str, str], Record | None]


def parent_of(kind: str, fields: FieldValues, find: Find) -> Record | None:
    """The record that a new one of this kind would belong to; None where there is none, or for a job."""
    if kind not in PARENTS:
        return None
    parent, field = PARENTS[kind]
    return find(parent, str(fields.get(field)))


def job_id_of(kind: str, record_id: str, fields: FieldValues, find: Find) -> str:
    """The job of a record by its first change. Its parent must be there; a job is its own, the company's has none."""
    if kind in COMPANYS:
        return COMPANY
    parent = parent_of(kind, fields, find)
    return record_id if parent is None else parent.job_id


def named_by(kind: str, record_id: str, fields: FieldValues) -> tuple[tuple[str, str], ...]:
    """Kind and id of the records that a change is about: its own, and the parent it names."""
    if kind not in PARENTS:
        return ((kind, record_id),)
    parent, field = PARENTS[kind]
    return (kind, record_id), (parent, str(fields.get(field)))


def crew_of(job: Record) -> frozenset[str]:
    """The ids of those who see the job without being foremen."""
    crew = job.fields.get("crew")
    return frozenset(map(str, crew)) if isinstance(crew, list) else frozenset({job.owner_id})


def may_see(person_id: str, role: Role, job: Record) -> bool:
    """True where the person sees the job and all that belongs to it."""
    return role == "foreman" or person_id in crew_of(job)
