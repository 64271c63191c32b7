"""From parsed JSON to a room document that makes sense in itself: ids given and unique, limits in order."""

from collections.abc import Sequence
from dataclasses import fields, replace
from typing import Any, Protocol, TypeVar

from evenbed.engine.document.levelling import LevelsDocument
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import Document
from evenbed.engine.problems import BadDocumentError, Problem, problem_at


class HasId(Protocol):
    """Anything with an id."""

    @property
    def id(self) -> str:
        """Its name in the document."""
        ...


Named = TypeVar("Named", bound=HasId)
AnyDocument = TypeVar("AnyDocument", Document, LevelsDocument)
PREFIXES = {
    "readings": "r",
    "openings": "o",
    "fixtures": "f",
    "checks": "c",
    "batches": "b",
    "differences": "d",
    "instrument_checks": "i",
    "gaps": "g",
    "height_lines": "h",
    "logs": "l",
    "forecast": "w",
}
"""How entries without an id are called, by the list that they stand in."""
NAMED = ("setups", "marks")


def check_document(given: object) -> tuple[Document, tuple[str, ...]]:
    """The document, and the paths of keys nobody knows. Raises BadDocumentError with every problem of form."""
    document, unknown = read_json(Document, given)
    return checked_document(document), unknown


def check_levels_document(given: object) -> tuple[LevelsDocument, tuple[str, ...]]:
    """The levels of a document, and the paths of keys nobody knows; the other parts of a room are passed over."""
    rooms = {one.name for one in fields(Document)} - {one.name for one in fields(LevelsDocument)}
    kept = {key: part for key, part in given.items() if key not in rooms} if isinstance(given, dict) else given
    document, unknown = read_json(LevelsDocument, kept)
    return checked_document(document), unknown


def checked_document(document: AnyDocument) -> AnyDocument:
    """The document with an id for every entry. Raises BadDocumentError where one is given twice."""
    lists = {one.name for one in fields(document)}
    named: dict[str, Any] = {
        key: _with_ids(prefix, getattr(document, key)) for key, prefix in PREFIXES.items() if key in lists
    }
    document = replace(document, **named)
    found = [
        problem for key in (*PREFIXES, *NAMED) if key in lists for problem in _doubled(key, getattr(document, key))
    ]
    if found:
        raise BadDocumentError(found)
    return document


def _with_ids(prefix: str, entries: tuple[Named, ...]) -> tuple[Named, ...]:
    """Entries without an id get one from their place in the list, clear of the ids given."""
    taken = {e.id for e in entries}
    named = []
    for n, entry in enumerate(entries, start=1):
        own = f"{prefix}{n}"
        while not entry.id and own in taken:
            own += "'"
        named.append(entry if entry.id else replace(entry, id=own))  # type: ignore[type-var]
    return tuple(named)


def _doubled(path: str, entries: Sequence[HasId]) -> list[Problem]:
    found, seen = [], set[str]()
    for n, entry in enumerate(entries):
        if entry.id in seen:
            found.append(problem_at(f"{path}[{n}].id", "duplicate_id", id=entry.id[:40]))
        seen.add(entry.id)
    return found
