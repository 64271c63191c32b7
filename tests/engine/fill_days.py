"""A room to fill and days in it, for the tests of the fill clock."""

from datetime import datetime, timedelta
from typing import Any

from tests.documents import Json, room_over
from tests.questions import answer_to

LONG_ROOM = [(0.0, 0.0), (10_000.0, 0.0), (10_000.0, 1800.0), (0.0, 1800.0)]
DOOR = {"id": "door", "wall": 3, "from": 500.0, "to": 1300.0, "exit": True}
DAY = "2026-05-04"
A_DAY: Json = {
    "filling": {"mixer": [0, 0], "day_ends": "2026-05-04T17:00:00-05:00"},
    "placements": [
        {"section": "S1", "mixed_at": "2026-05-04T08:00:00-05:00", "placed_at": "2026-05-04T08:40:00-05:00"},
        {"section": "S1", "screeded_at": "2026-05-04T15:50:00+02:00"},
        {"section": "S9", "channels_at": "2026-05-04T09:00:00-05:00"},
    ],
    "batches": [
        {"mixed_at": "2026-05-04T08:05:00-05:00", "placed_at": "2026-05-04T08:20:00-05:00", "section": "S1"},
        {"mixed_at": "2026-05-04T09:05:00-05:00", "size": 0.5},
    ],
    "stoppages": [{"start": "2026-05-04T08:10:00-05:00", "end": "2026-05-04T08:15:00-05:00"}],
    "climate": [{"at": "2026-05-04T08:00:00-05:00", "air": 12.5}, {"at": "2026-05-04T16:00:00-05:00", "bed": 24}],
}
STATES = ("waiting", "filling", "placed", "screeded", "packed")


def at(clock: str, day: str = DAY, offset: str = "-05:00") -> str:
    """The moment of a clock's time on the day."""
    return f"{day}T{clock}:00{offset}"


def long_room(**more: Any) -> Json:
    """Five sections of 2 m in a row and as thick, S1 at the far end, S5 at the door; its rails run along it."""
    room = {"openings": [DOOR], "rails": {"direction": 0.0}} | more
    return room_over(LONG_ROOM, [(x, y, 0.0) for x, y in LONG_ROOM], **room)


def finished(section: str, mixed: str, done: str, **more: str) -> Json:
    """A section whose mortar was mixed, in place and cut off."""
    return {"section": section, "mixed_at": at(mixed), "placed_at": at(done), "screeded_at": at(done), **more}


def clock_of(room: Json, now: str) -> Json:
    """The fill clock's answer."""
    return answer_to("fill_clock", document=room, now=now)


def clock_at(clock: str, **more: Any) -> Json:
    """The fill clock of the long room at a time of the day."""
    return clock_of(long_room(**more), at(clock))


def section_of(answer: Json, name: str) -> Json:
    """One section's clock."""
    return next(section for section in answer["sections"] if section["id"] == name)


def states_of(answer: Json) -> list[str]:
    """The sections' states in their order."""
    return [section["state"] for section in answer["sections"]]


def codes_of(answer: Json) -> list[str]:
    """The codes of its cautions."""
    return [caution["code"] for caution in answer["cautions"]]


def moved(value: Any, by: timedelta) -> Any:
    """The same with every moment moved."""
    if isinstance(value, dict):
        return {key: moved(inner, by) for key, inner in value.items()}
    if isinstance(value, list):
        return [moved(inner, by) for inner in value]
    try:
        return (datetime.fromisoformat(value) + by).isoformat() if isinstance(value, str) and "T" in value else value
    except ValueError:
        return value
