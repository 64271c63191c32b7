"""Files of temperature loggers, for the tests that read them in."""

from datetime import datetime, timedelta, timezone
from typing import Any
from zoneinfo import ZoneInfo

from tests.documents import Json
from tests.questions import answer_to

CHICAGO = ZoneInfo("America/Chicago")
START = datetime(2026, 5, 14, 8, 0, tzinfo=timezone(timedelta(hours=-5)))


def read(text: str, **asked: Any) -> Json:
    answer = answer_to("log_in", text=text, **asked)
    if answer["problems"]:
        assert (answer["start"], answer["seconds"], answer["celsius"]) == (None, [], [])
    else:
        assert len(answer["seconds"]) == len(answer["celsius"]) > 0
        assert answer["seconds"] == sorted(set(answer["seconds"]))
        assert answer["row_count"] == len(answer["seconds"]) + answer["doubled"] + answer["missing"]
    return answer


def codes_of(answer: Json) -> list[tuple[str, int | None]]:
    return [(problem["code"], problem["values"].get("line")) for problem in answer["problems"]]


def moments_of(answer: Json) -> list[datetime]:
    start = datetime.fromisoformat(answer["start"])
    return [start + timedelta(seconds=second) for second in answer["seconds"]]


def rows_of(*stamps: str, celsius: float = 20.0) -> str:
    return "".join(f"{stamp},{celsius + n / 10:.1f}\n" for n, stamp in enumerate(stamps))
