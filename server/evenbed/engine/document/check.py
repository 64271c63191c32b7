"""From parsed JSON to a room document that makes sense in itself: ids given and unique, limits in order."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol, TypeVar

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


def check_document(given: object) -> tuple[Document, tuple[str, ...]]:
    """The document, and the paths of keys nobody knows. Raises BadDocumentError with every problem of form."""
    document, unknown = read_json(Document, given)
    return checked_document(document), unknown


def checked_document(document: Document) -> Document:
    """The document with an id for every entry. Raises BadDocumentError where one is given twice."""
    document = replace(
        document,
        readings=_with_ids("r", document.readings),
        openings=_with_ids("o", document.openings),
        fixtures=_with_ids("f", document.fixtures),
        checks=_with_ids("c", document.checks),
        differences=_with_ids("d", document.differences),
        instrument_checks=_with_ids("i", document.instrument_checks),
    )
    found = [
        *_doubled("readings", document.readings),
        *_doubled("openings", document.openings),
        *_doubled("fixtures", document.fixtures),
        *_doubled("checks", document.checks),
        *_doubled("differences", document.differences),
        *_doubled("instrument_checks", document.instrument_checks),
        *_doubled("setups", document.setups),
        *_doubled("marks", document.marks),
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
