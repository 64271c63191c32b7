"""A bed that waits: placed, logged, foretold, one milestone ticked, for the tests of the waiting."""

from datetime import datetime, timedelta
from typing import Any

from tests.documents import SQUARE, Json, room_over
from tests.questions import answer_to

PLACED = "2026-05-04T08:00:00-05:00"
A_WAIT: Json = {
    "placements": [
        {"section": "S1", "mixed_at": "2026-05-04T06:30:00-05:00", "placed_at": "2026-05-04T07:00:00-05:00"},
        {"section": "S2", "mixed_at": "2026-05-04T07:30:00-05:00", "placed_at": PLACED},
    ],
    "climate": [
        {"at": "2026-05-04T08:00:00-05:00", "air": 16, "humidity": 40, "wind": 12},
        {"at": "2026-05-04T14:00:00-05:00", "bed": 22, "air": 31, "humidity": 20, "wind": 30},
    ],
    "logs": [
        {"start": "2026-05-04T09:00:00-05:00", "seconds": [0, 3600, 7200], "celsius": [17, 18.5, 19], "where": "bed"}
    ],
    "forecast": [
        {
            "low": 4,
            "high": 19,
            "low_at": "2026-05-05T05:30:00-05:00",
            "high_at": "2026-05-05T15:00:00-05:00",
            "humidity": 35,
            "wind": 25,
        },
        {"low": -2, "high": 12, "low_at": "2026-05-06T05:30:00-05:00", "high_at": "2026-05-06T15:00:00-05:00"},
    ],
    "ticks": [{"milestone": "walk", "at": "2026-05-05T09:00:00-05:00", "by": "Ana", "how": "thumb"}],
    "curing": {"moisture_sensitive": True, "tile_when": "same_day"},
}
A_LOG = "Fecha,Hora,Temp (°C)\n14/05/2026,08:00:00,21.5\n14/05/2026,08:10:00,--\n14/05/2026,08:20:00,21.7\n"
ROOM = room_over(SQUARE, [(0.0, 0.0, 0.0), (4000.0, 0.0, 0.0), (4000.0, 3000.0, 0.0), (0.0, 3000.0, 0.0)])
PLACEMENTS = [{"section": "S1", "placed_at": PLACED}]


def at(hours: float) -> str:
    return (datetime.fromisoformat(PLACED) + timedelta(hours=hours)).isoformat()


def held(celsius: float, hours: float = 400.0) -> list[Json]:
    """One temperature of the bed, measured every ten hours."""
    return [{"at": at(h), "bed": celsius} for h in (-2.0, *range(8, int(hours), 10), hours)]


def waiting(now: float, **more: Any) -> Json:
    return answer_to("waiting", document=ROOM | {"placements": PLACEMENTS} | more, now=at(now))


def tile_in(answer: Json) -> Json:
    found: Json = next(one for one in answer["countdown"] if one["milestone"] == "tile")
    return found


def codes_in(answer: Json) -> set[str]:
    return {caution["code"] for caution in answer["cautions"]}
