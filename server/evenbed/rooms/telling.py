"""What a field of a record tells: whether it is a number, a moment or a place that the engine takes.

The same judgements as the phone's (`web/src/state/worked.ts`): two hands that differ here would plan two rooms.
"""

import math
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any, TypeGuard

Json = dict[str, Any]
Fields = Mapping[str, Any]
FARTHEST = 1_000_000
"""mm from the corner that places count from."""
_MOMENT = re.compile(
    r"([0-9]{4})-([0-9]{2})-([0-9]{2})T([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9](\.[0-9]+)?)?"
    r"(Z|[+-]([01][0-9]|2[0-3]):[0-5][0-9])"
)
_BEGINNING = datetime(1970, 1, 1, tzinfo=UTC)
_MILLISECOND = timedelta(milliseconds=1)


@dataclass(frozen=True)
class Row:
    """A record as far as a document needs it."""

    kind: str
    id: str
    fields: Fields

    @property
    def is_deleted(self) -> bool:
        """Whether somebody took it away."""
        return self.fields.get("deleted") is True


def living(rows: Iterable[Row], kind: str, field: str, owner_id: str) -> list[Row]:
    """The records of a kind that an owner has and nobody deleted, in the order of their making."""
    kept = (row for row in rows if row.kind == kind and not row.is_deleted and row.fields.get(field) == owner_id)
    return sorted(kept, key=lambda row: row.id)


def is_number(value: object) -> TypeGuard[float]:
    """True for a finite number."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def is_between(value: object, low: float, high: float) -> bool:
    """True for a number in a range, ends included."""
    return is_number(value) and low <= value <= high


def is_place(value: object) -> bool:
    """True for two finite numbers."""
    return isinstance(value, list) and len(value) == 2 and all(map(is_number, value))


def place_told(value: object) -> list[float] | None:
    """A place as the engine takes it, within a kilometre; None for none."""
    if isinstance(value, list) and is_place(value) and all(abs(part) <= FARTHEST for part in value):
        return value
    return None


def is_moment(text: object) -> TypeGuard[str]:
    """True for ISO 8601 with its offset from UTC, on a day that there is."""
    found = _MOMENT.fullmatch(text) if isinstance(text, str) else None
    if found is None:
        return False
    try:
        date(*(int(part) for part in found.groups()[:3]))
    except ValueError:
        return False
    return True


def moment_ms(text: object) -> int:
    """ms since 1970; 0 for no moment."""
    return (datetime.fromisoformat(text) - _BEGINNING) // _MILLISECOND if is_moment(text) else 0


def moments_in(fields: Fields, names: Iterable[str]) -> Json:
    """Those of the named fields that hold a moment."""
    return {name: fields[name] for name in names if is_moment(fields.get(name))}


def given(fields: Fields) -> Json:
    """What holds a value."""
    return {name: value for name, value in fields.items() if value is not None}


def chosen(fields: Fields, names: Iterable[str]) -> Json:
    """Those of the named fields that hold a value: an emptied field falls back to the engine's default."""
    return {name: fields[name] for name in names if fields.get(name) is not None}


def in_order(rows: Iterable[Row], field: str) -> list[Row]:
    """By the moment in a field, the oldest first; those without one stand before. Of one moment, by their making."""
    return sorted(rows, key=lambda row: (moment_ms(row.fields.get(field)), row.id))


def parts_from(rows: Iterable[Row], part: Callable[[Row], Json | None]) -> list[Json]:
    """What is whole of these records: half-made ones are left out."""
    return [made for made in map(part, rows) if made is not None]
