"""Room documents for tests, and the engine's answers to them."""

import json
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import pytest

from evenbed.engine.bridge import answer_text
from evenbed.engine.document.room import Outline
from evenbed.engine.outline import figure_from
from evenbed.engine.problems import BadDocumentError

Json = dict[str, Any]
Spot = tuple[float, float, float]  # x, y and the subfloor's height there

SQUARE = [[0.0, 0.0], [4000.0, 0.0], [4000.0, 3000.0], [0.0, 3000.0]]


def answer_to(document: object, question: str = "quick_plan") -> Json:
    """The engine's answer, a plan or a list of problems, as it comes through its one door.

    Without what is unknown, unless `plan` is asked: that has tests of its own, one of them that nothing else differs.
    """
    answer: Json = json.loads(answer_text(question, json.dumps(document)))
    return answer


def plan_of(document: object, question: str = "quick_plan") -> Json:
    """The plan of a good document."""
    answer = answer_to(document, question)
    assert "problems" not in answer, answer["problems"]
    return answer


def problems_of(document: object) -> list[tuple[str, str]]:
    """Path and code of every problem of a bad document."""
    answer = answer_to(document)
    assert answer.keys() == {"problems"}, "this document gives a plan"
    return [(problem["path"], problem["code"]) for problem in answer["problems"]]


def refusals_of(outline: Outline) -> list[tuple[str, str]]:
    """Path and code of every problem of an outline that gives no figure."""
    with pytest.raises(BadDocumentError) as caught:
        figure_from(outline)
    return [(problem.path, problem.code) for problem in caught.value.problems]


def room_over(outline: Iterable[Sequence[float]], spots: Iterable[Spot], **more: Any) -> Json:
    """A room read on a benchmark, so that each spot's height comes back as it was given."""
    readings = [{"id": f"r{n}", "at": [x, y], "down": -z} for n, (x, y, z) in enumerate(spots)]
    return {
        "document": 1,
        "outline": {"vertices": [list(corner) for corner in outline]},
        "marks": [{"id": "benchmark", "height": 0.0}],
        "readings": [*readings, {"id": "on the benchmark", "mark": "benchmark", "down": 0.0}],
        **more,
    }


def turned(point: Sequence[float], angle: float, by: Sequence[float] = (0.0, 0.0)) -> tuple[float, float]:
    """A place turned about the origin by an angle in radians, then moved."""
    c, s = math.cos(angle), math.sin(angle)
    return point[0] * c - point[1] * s + by[0], point[0] * s + point[1] * c + by[1]


def spots_of(plan: Json) -> list[Spot]:
    """The subfloor readings of a plan as points."""
    return [(*height["at"], height["z"]) for height in plan["levels"]["heights"] if height["at"] is not None]


def places_of(value: Any, path: str = "") -> Iterator[str]:
    """Every place in a JSON value, as dotted paths."""
    pairs = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in pairs:
        here = f"{path}.{key}".lstrip(".")
        yield here
        yield from places_of(inner, here)


def value_at(document: Any, path: str) -> Any:
    """What stands at a dotted path."""
    for step in path.split("."):
        document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def dotted(path: str) -> str:
    """`readings.2.down` as the engine writes it: `readings[2].down`."""
    return "".join(f"[{s}]" if s.isdigit() else f".{s}" for s in path.split(".")).lstrip(".")
