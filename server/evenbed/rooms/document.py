"""The room document composed of a room's records: dotted choices nested, what was never chosen left out.

The phone does the same from the same records (`web/src/state/document.ts`), so that the service plans a room, says
when it can be tiled and signs what the phone would. `tests/test_rooms_agree.py` holds one against the other.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from evenbed.rooms.checked import CheckedRows, checked_parts
from evenbed.rooms.telling import Fields, Json, Row, chosen, given, living, moment_ms
from evenbed.rooms.worked import WorkedRows, whole_rails, worked_parts

GROUPS = frozenset(
    {"bed", "rails", "mix", "curing", "adjustment", "joints", "supplies", "prices", "filling", "flatness"}
)
LISTS = ("openings", "fixtures", "instrument_checks")
CLIMATE_FIELDS = ("at", "bed", "air", "humidity", "wind", "forecast")
FIRST_SETUP = ""
"""The set-up that nobody had to begin: its readings name none."""
FIRST_IN_DOCUMENT = "first"
BROUGHT = frozenset({"table", "scan"})
"""What stands as the instrument of a set-up that nobody stood at."""


def document_from_records(
    room: Row, records: Iterable[Row], supplies: Fields | None = None, prices: Fields | None = None
) -> Json | None:
    """The document of a room, from the records of its job and the company's supplies and prices.

    `records` may hold other rooms' too, in any order. None for a room without an outline: there is nothing to plan.
    """
    if room.fields.get("outline") is None:
        return None
    own = _Own(list(records), room)
    readings, entries = _standing(own.of("reading")), own.of("entry")
    setups = _setups(room.fields, readings)
    document: Json = {"document": 1, "outline": room.fields["outline"]}
    document["readings"] = [_reading(row, setups is not None) for row in readings]
    document |= chosen(room.fields, LISTS) | given({"setups": setups, "marks": _marks(room.fields)})
    document |= nested_choices(given(supplies or {}) | dict(prices or {}) | given(whole_rails(room.fields)))
    document |= worked_parts(WorkedRows(own.of("placement"), own.of("batch"), own.of("rail_check"), entries))
    measured = own.of("gap"), own.of("height_line"), own.of("temperature_log")
    document |= checked_parts(CheckedRows(entries, *measured, own.forecast()))
    climate = sorted(own.of("climate"), key=_climate_order)
    return document | {"climate": [chosen(row.fields, CLIMATE_FIELDS) for row in climate]}


@dataclass(frozen=True)
class _Own:
    """What belongs to one room among the records of its job."""

    records: Sequence[Row]
    room: Row

    def of(self, kind: str) -> list[Row]:
        return living(self.records, kind, "room_id", self.room.id)

    def forecast(self) -> list[Row]:
        return living(self.records, "forecast_day", "job_id", self.room.fields.get("job_id") or "")


def _climate_order(row: Row) -> tuple[bool, int, str]:
    """Measured first, then forecast; each in order of time."""
    return row.fields.get("forecast") is True, moment_ms(row.fields.get("at")), row.id


def _standing(readings: Sequence[Row]) -> list[Row]:
    """The readings that count: not corrected by a later one."""
    superseded = {row.fields.get("supersedes") for row in readings}
    return [row for row in readings if row.id not in superseded]


def _reading(row: Row, has_setups: bool) -> Json:
    told = row.fields
    where = "mark" if told.get("mark") else "at"
    setup = {"setup": _document_setup(told.get("setup") or FIRST_SETUP)} if has_setups else {}
    typed = {"as_typed": told["typed"]} if isinstance(told.get("typed"), str) else {}
    return {"id": row.id} | chosen(told, ["down", where, "stage", "taken_at", "sight"]) | setup | typed


def _document_setup(setup_id: str | None) -> str | None:
    return FIRST_IN_DOCUMENT if setup_id == FIRST_SETUP else setup_id


def _setups(room: Fields, readings: Sequence[Row]) -> list[Json] | None:
    """Set-ups without the names that people gave them; None where all readings hang from one that nobody began."""
    kept: list[Json] = room.get("setups") or []
    if not kept and not any(row.fields.get("setup") for row in readings):
        return None
    known = {one.get("id") for one in kept}
    named = [row.fields.get("setup") or FIRST_SETUP for row in readings]
    is_all_brought = all(one.get("instrument") in BROUGHT for one in kept)
    found = dict.fromkeys([FIRST_SETUP] * is_all_brought + [one for one in named if one not in known])
    return [_without_name(one) for one in [*({"id": one} for one in found), *kept]]


def _without_name(setup: Mapping[str, Any]) -> Json:
    bare = {name: value for name, value in setup.items() if name != "name"}
    return bare | {"id": _document_setup(setup["id"])} if "id" in setup else bare


def _marks(room: Fields) -> list[Json] | None:
    marks = room.get("marks")
    return marks and [{name: value for name, value in mark.items() if name != "name"} for mark in marks]


def nested_choices(fields: Fields) -> Json:
    """`{"bed.covering.bond_thickness": 5}` becomes `{"bed": {"covering": {"bond_thickness": 5}}}`."""
    nested: Json = {}
    for name, value in fields.items():
        *way, last = name.split(".")
        if value is not None and way and way[0] in GROUPS:
            inner = nested
            for step in way:
                inner = inner.setdefault(step, {})
            inner[last] = value
    return nested
