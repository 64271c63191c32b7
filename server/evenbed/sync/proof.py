"""The proof that the log holds everything: what is kept beside it, compared with what is made again from it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields
from typing import Any

from evenbed.sync.jobs import crew_of
from evenbed.sync.model import Entry, Record
from evenbed.sync.replay import records_from

BY_FIELD = ("fields", "stamps", "conflicts")
SPOKEN = {
    "job_id": "the job it belongs to",
    "owner_id": "the person who made it",
    "sequence": "the number of its newest change",
    "created_by": "the name of whoever made it",
    "changed_by": "the name of whoever changed it last",
    "changed_at": "the time of its newest change",
    "fields": "{}",
    "stamps": "where {} comes from",
    "conflicts": "what waits for a decision about {}",
}
QUOTED = 60
NONE: frozenset[str] = frozenset()


def differences(
    log: Iterable[Entry], kept: Iterable[Record], assigned: Mapping[str, frozenset[str]] | None = None
) -> tuple[int, list[str]]:
    """How many records the log makes, and in plain words whatever is not kept just so.

    `assigned` are the ids of those who see a job without being foremen, by job; None leaves them out of it.
    """
    made = records_from(log)
    standing = {(record.kind, record.id): record for record in kept}
    wrong = [
        line for key in sorted(made.keys() | standing.keys()) for line in _lines(made.get(key), standing.get(key))
    ]
    crews = {record.id: crew_of(record) for record in made.values() if record.kind == "job"}
    return len(made), wrong + ([] if assigned is None else list(_crew_lines(crews, assigned)))


def _lines(made: Record | None, kept: Record | None) -> Iterator[str]:
    if made is None or kept is None:
        one, what = (kept, "is kept, but not in the log") if made is None else (made, "is in the log, but not kept")
        if one is not None:
            yield f"{one.kind} {one.id} {what}"
        return
    for name in (field.name for field in fields(Record)):
        for spoken, by_log, is_kept in _parts(name, getattr(made, name), getattr(kept, name)):
            yield f"{made.kind} {made.id}: {spoken} is {_short(is_kept)}, by the log {_short(by_log)}"


def _parts(name: str, made: Any, kept: Any) -> Iterator[tuple[str, Any, Any]]:
    """What differs of one attribute of a record, told apart by field where it has some."""
    if made == kept:
        return
    if name not in BY_FIELD:
        yield SPOKEN[name], made, kept
        return
    for field in sorted(made.keys() | kept.keys()):
        if made.get(field) != kept.get(field):
            yield SPOKEN[name].format(field), made.get(field), kept.get(field)


def _crew_lines(crews: Mapping[str, frozenset[str]], assigned: Mapping[str, frozenset[str]]) -> Iterator[str]:
    for job_id in sorted(crews.keys() | assigned.keys()):
        crew, seeing = crews.get(job_id, NONE), assigned.get(job_id, NONE)
        yield from (f"job {job_id}: person {one} sees it, but not by the log" for one in sorted(seeing - crew))
        yield from (f"job {job_id}: person {one} does not see it, but should" for one in sorted(crew - seeing))


def _short(value: Any) -> str:
    text = repr(value)
    return text if len(text) <= QUOTED else f"{text[:QUOTED]}..."
