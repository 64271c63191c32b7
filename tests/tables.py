"""Tables of points for tests, and what the engine makes of them."""

from typing import Any

from tests.documents import SQUARE, Json
from tests.questions import answer_to

ROOM = {"vertices": SQUARE}  # 4 m by 3 m
LINES = ("1,2500,100,12.5,nail", "2,2500,3100,13,wall", "3,500,3100,9.25,")


def table_in(text: str, **more: Any) -> Json:
    """What a table holds, in a room of 4 m by 3 m."""
    return answer_to("table_in", text=text, **{"outline": ROOM, **more})


def rows_of(text: str, **more: Any) -> list[Json]:
    """The rows of a table without a fault."""
    answer = table_in(text, **more)
    assert answer["problems"] == []
    assert len(answer["rows"]) == answer["row_count"]
    rows: list[Json] = answer["rows"]
    return rows


def faults_of(text: str, **more: Any) -> list[tuple[str, Json]]:
    """Code and values of everything wrong with a table, of which nothing is taken."""
    answer = table_in(text, **more)
    assert answer["rows"] == []
    assert answer["problem_count"] >= len(answer["problems"]) > 0
    return [(problem["code"], problem["values"]) for problem in answer["problems"]]


def points_of(rows: list[Json]) -> list[tuple[Any, ...]]:
    """Name, x, y, z and note of each row."""
    return [(row["point"], *row["at"], row["z"], row["note"]) for row in rows]
