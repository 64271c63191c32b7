"""A room with everything in it, from its first reading to a checked bed, that the office has and hands over."""

import json
from math import cos, isclose, pi, sin
from typing import Any

from evenbed.engine.bridge import answer_text

Json = dict[str, Any]
ROOM = "Boiler room"
WIDE, DEEP = 4200.0, 3000.0
TOP: Json = {"kind": "level", "height": 42.0}
HIGHER: Json = {"kind": "level", "height": 48.0}
PLACED = "2026-05-04T15:00:00Z"
PLACES = [(300.0 + 600.0 * i, 300.0 + 600.0 * j) for i in range(7) for j in range(5)]
"""Of readings of the subfloor, and again of the bed."""
KEPT = 1e-9
NOTHING = 1e-6
"""mm, m³, h: what is nought in one Python may be a last bit in the other."""
FORMULA = '=HYPERLINK("http://evenbed.test")'
"""A note that a spreadsheet would take for a formula."""


def unlike(mine: Any, theirs: Any, path: str = "") -> list[str]:
    """Where two answers differ by more than the ten digits that a signed copy keeps of a number."""
    if isinstance(mine, dict) and isinstance(theirs, dict) and mine.keys() == theirs.keys():
        return [found for key in mine for found in unlike(mine[key], theirs[key], f"{path}.{key}")]
    if isinstance(mine, list) and isinstance(theirs, list) and len(mine) == len(theirs):
        pairs = zip(mine, theirs, strict=True)
        return [found for n, pair in enumerate(pairs) for found in unlike(*pair, f"{path}[{n}]")]
    if isinstance(mine, float) and isinstance(theirs, int | float):
        return [] if isclose(mine, theirs, rel_tol=KEPT, abs_tol=NOTHING) else [f"{path}: {mine} {theirs}"]
    return [] if mine == theirs else [f"{path}: {mine!r} {theirs!r}"]


def subfloor(x: float, y: float) -> float:
    """Its height, mm."""
    return 6.0 * sin(x / 900.0) + 4.0 * cos(y / 700.0) - x / 700.0


def bed(x: float, y: float) -> float:
    """Its finished height, mm: nearly the designed top, with one hollow."""
    hollow = 5.0 if abs(x - 2100.0) < 400 and abs(y - 1500.0) < 400 else 0.0
    return 42.0 + 0.6 * sin(x / 500.0) - hollow


def readings() -> list[Json]:
    """Of the subfloor, then of the bed from the same level line."""
    below = [{"at": [x, y], "down": round(1000.0 - subfloor(x, y), 1)} for x, y in PLACES]
    above = [{"at": [x, y], "down": round(1000.0 - highest() - bed(x, y), 1), "stage": "bed"} for x, y in PLACES]
    for minute, reading in enumerate([*below, *above]):
        day, hour = ("04-28", 8) if minute < len(below) else ("05-05", 16)
        reading["taken_at"] = f"2026-{day}T{hour + minute % 70 // 60:02d}:{minute % 60:02d}:00Z"
    return [*below, *above]


def highest() -> float:
    """What the engine calls zero: the highest reading of the subfloor, mm."""
    return max(round(subfloor(x, y), 1) for x, y in PLACES)


def room() -> Json:
    """As `push_job` takes it."""
    corners = [[0, 0], [WIDE, 0], [WIDE, DEEP], [0, DEEP]]
    door = {"id": "hall", "wall": 0, "from": 600.0, "to": 1500.0, "adjoining_height": 55.0, "exit": True}
    fields: Json = {"name": ROOM, "outline": {"vertices": corners}, "openings": [door], "readings": readings()}
    fields |= {"bed.top": TOP, "bed.minimum_thickness": 32.0, "flatness.standard": "din_18202_3"}
    fields["fixtures"] = [{"id": "drain", "kind": "flange", "at": [3600.0, 2400.0], "radius": 60.0, "height": None}]
    return fields | {"records": [*_decided(), *_set(fields), *_filled(), *_waited(), *_checked()]}


def document(fields: Json) -> Json:
    """The least document of the room: enough to know its rails."""
    parts = {name: fields[name] for name in ("outline", "openings", "fixtures")}
    below = [{"id": f"r{n}", **one} for n, one in enumerate(fields["readings"]) if one.get("stage") != "bed"]
    return {"document": 1, **parts, "readings": below, "bed": {"top": TOP, "minimum_thickness": 32.0}}


def _decided() -> list[tuple[str, Json]]:
    return [
        (
            "alternative",
            {"name": "Level at 42", "top": TOP, "chosen_at": "2026-04-29T09:00:00Z", "chosen_by": "Rosa"},
        ),
        ("alternative", {"name": "Higher", "top": HIGHER, "note": "flush with the hall"}),
    ]


def _set(fields: Json) -> list[tuple[str, Json]]:
    plan = json.loads(answer_text("quick_plan", json.dumps(document(fields))))
    rail = plan["rails"][0]
    stations = [
        (
            "station",
            {"rail": rail["id"], "at": one["at"], "shim": one["shim"]} | {"set_at": f"2026-05-03T09:{n:02d}:00Z"},
        )
        for n, one in enumerate(rail["stations"])
    ]
    check = {"rail": rail["id"], "from": 100.0, "to": 1900.0, "off": 0.8, "length": 1800.0, "level": "long level"}
    trued = {"what": "trued", "rail": rail["id"], "lie": 1, "from_raise": 0.0, "to_raise": -0.8}
    return [
        *stations,
        ("rail_check", check | {"taken_at": "2026-05-03T10:00:00Z"}),
        ("entry", trued | {"at": "2026-05-03T10:10:00Z"}),
    ]


def _filled() -> list[tuple[str, Json]]:
    placed = {"section": "S1", "mixed_at": "2026-05-04T13:30:00Z", "placed_at": PLACED}
    stopped = {"what": "stopped", "at": "2026-05-04T14:10:00Z", "until": "2026-05-04T14:20:00Z", "text": "lunch"}
    batches = [("batch", {"section": "S1", "mixed_at": f"2026-05-04T13:{m}:00Z", "size": 1.0}) for m in (30, 45, 58)]
    return [
        ("placement", placed | {"screeded_at": "2026-05-04T15:10:00Z", "channels_at": "2026-05-04T15:20:00Z"}),
        *batches,
        ("entry", {"what": "note", "at": "2026-05-04T14:00:00Z", "text": FORMULA}),
        ("entry", stopped),
    ]


def _waited() -> list[tuple[str, Json]]:
    seconds = [1800.0 * n for n in range(96)]
    celsius = [round(18.0 + 4.0 * sin(2 * pi * s / 86_400), 1) for s in seconds]
    log = {"start": PLACED, "seconds": seconds, "celsius": celsius, "where": "bed", "name": "logger 7"}
    ticked = {"what": "milestone", "code": "walk", "how": "scratch", "by": "Rosa", "at": "2026-05-05T08:00:00Z"}
    return [
        ("climate", {"at": "2026-05-04T15:00:00Z", "bed": 19.5, "air": 21.0, "humidity": 55.0, "wind": 3.0}),
        ("climate", {"at": "2026-05-06T06:00:00Z", "air": -2.5, "forecast": True}),
        ("temperature_log", log),
        ("entry", ticked),
    ]


def _checked() -> list[tuple[str, Json]]:
    gap = {"from": [1100.0, 1500.0], "to": [3100.0, 1500.0], "at": [2100.0, 1500.0], "gap": 4.5}
    line = {"from": [300.0, 900.0], "to": [3900.0, 900.0], "spacing": 300.0}
    heights = [round(0.4 * sin(n), 2) for n in range(13)]
    return [
        ("gap", gap | {"taken_at": "2026-05-05T15:00:00Z"}),
        ("gap", {"from": [200.0, 400.0], "to": [2200.0, 400.0], "gap": 1.0, "taken_at": "2026-05-05T15:05:00Z"}),
        ("height_line", line | {"heights": heights, "taken_at": "2026-05-05T15:30:00Z"}),
        ("entry", {"what": "rubbed", "at": "2026-05-05T17:30:00Z", "place": [3900.0, 300.0]}),
    ]
