"""Any records of a room that the service would take, half-made and odd ones too."""

from functools import cache
from typing import Any

from hypothesis import strategies as st
from pydantic import ValidationError

from evenbed.rooms.telling import Row
from evenbed.wire.records import SHAPES
from evenbed.wire.supplies import COMPANYS
from tests.documents import Json

JOBS = ["0197a1c0-0000-7000-8000-00000000000a", "0197a1c0-0000-7000-8000-00000000000b"]
ROOMS = ["0197a1c0-0000-7000-8000-00000000000c", "0197a1c0-0000-7000-8000-00000000000d"]
IDS = [f"0197a1c0-1111-7000-8000-{n:012x}" for n in range(14)]
MOMENTS = [
    "2026-05-04T08:30:00-05:00",
    "2026-05-04T13:30:00Z",
    "2026-05-04T13:30Z",
    "2026-05-04T13:30:00.1239+00:00",
    "2026-05-04T13:30:00.124+00:00",
    "2026-05-05T00:10:00+14:00",
    "2026-05-04 13:30:00+00:00",
    "20260504T133000Z",
    "2026-W19-1T09:00:00+00:00",
    "2026-05-04T13:30:00,5+00:00",
    "2026-05-04T13+00:00",
    "2026-05-04T13:30:00+00:00:30",
    "2026-02-28T23:59:59-23:59",
    "2024-02-29T00:00:00Z",
    "0001-01-01T00:00:00+14:00",
    "9999-12-31T23:59:59-14:00",
    "1969-12-31T23:59:59.9999Z",
]
NUMBERS: list[float] = [0, 1, -1, 0.005, 0.5, 10, 20.5, -60, 60.5, 100, 400, 400.5, 500, 5_000, 1e6, -1e6, 1e9, 1e12]
PLACES: list[Any] = [[0, 0], [0.5, 0.5], [900, -900.25], [901, -900.25], [1e6, 1e6], [1_000_001, 0], [-1e12, 1e12]]
TEXTS = ["", "a", "r1", "s1", "s2", "table", "first", "5 1/2 in", "ñandú 👷🏽", "by", "2026-05-04"]
ENTRIES: list[Any] = [
    *("trued", "stopped", "milestone", "rubbed", "filled_up"),
    *("walk", "tile", "scratch", "foot", "bed", "air", "subfloor", "same_day", "overnight", "auto", "ansi_a108_02"),
]
LISTS: list[Any] = [
    [],
    [0],
    [1, 2, 3],
    [3, 2, 1],
    [0, 1e9, 2e9],
    [20, 20.5, 101],
    [{}],
    [{"id": "s1", "name": "Laser", "sigma": 1.5}, {"id": "s2"}],
    [{"id": "s1", "instrument": "table"}, {"id": "", "instrument": "scan", "name": None}],
    [{"name": "without an id", "instrument": None}, {"id": None}],
    [{"id": "a", "from": [0, 0], "to": [9, 9]}, {"id": "b", "from": [0, 0]}, {"from": None, "to": [1, 1]}],
    [{"thickness": 25, "length": 1800, "count": 4}, {"thickness": 25}, {"length": None}],
    [{"milestone": "tile", "needs": 30}],
    [{"length": 2000, "gap": 3}],
    [{"id": "d", "wall": 0, "from": 100, "to": 900, "exit": True}],
    [[[0, 0], [1, 1]]],
]
OBJECTS: list[Any] = [
    {},
    {"vertices": [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]},
    {"walls": [{"length": 4000, "turn": 90}], "later": {"deep": [1]}},
    {"kind": "level", "height": None},
    {"down": "3 5/16 in"},
]
POOL: list[Any] = [None, True, False, *MOMENTS, *NUMBERS, *PLACES, *TEXTS, *ENTRIES, *LISTS, *OBJECTS]
OWNERS = {"room_id": ROOMS, "job_id": JOBS, "supersedes": IDS, "reading_id": IDS, "entry_id": IDS}


@cache
def taken(kind: str) -> dict[str, tuple[Any, ...]]:
    """For each field of a kind by its name, what the service takes in it of the pool."""
    fields = [field.alias or name for name, field in SHAPES[kind].model_fields.items()]
    return {name: tuple(value for value in OWNERS.get(name, POOL) if _is_taken(kind, name, value)) for name in fields}


def _is_taken(kind: str, name: str, value: object) -> bool:
    try:
        SHAPES[kind].model_validate({name: value})
    except ValidationError as bad:
        return all(error["loc"][0] != name for error in bad.errors())
    return True


def needed(kind: str) -> list[str]:
    """The fields that a record of a kind cannot be without."""
    return [field.alias or name for name, field in SHAPES[kind].model_fields.items() if field.is_required()]


@st.composite
def any_record(draw: st.DrawFn, kind: str) -> Row:
    """A record with the fields that it needs and some of the others."""
    values = taken(kind)
    names = draw(st.sets(st.sampled_from(sorted(values)))) | set(needed(kind))
    names -= {"deleted"} if draw(st.integers(0, 3)) else set()
    fields: Json = {name: draw(st.sampled_from(values[name])) for name in sorted(names) if values[name]}
    return Row(kind, draw(st.sampled_from(IDS)), fields)


KINDS = [
    *("reading", "placement", "batch", "rail_check", "entry", "climate", "gap", "height_line"),
    *("temperature_log", "forecast_day", "station", "alternative"),
]


@st.composite
def any_rooms(draw: st.DrawFn) -> list[Row]:
    """Two rooms of two jobs, what belongs to them in any order, and what the company buys and pays."""
    rooms = [draw(any_record("room")) for _ in ROOMS]
    named = [Row("room", room_id, room.fields) for room_id, room in zip(ROOMS, rooms, strict=True)]
    records = st.lists(
        st.sampled_from(KINDS).flatmap(any_record), max_size=12, unique_by=lambda row: (row.kind, row.id)
    )
    companys = [Row(kind, record_id, draw(any_record(kind)).fields) for kind, record_id in COMPANYS.items()]
    return draw(st.permutations([*named, *draw(records), *companys]))
