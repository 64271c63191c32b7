"""Any change of a good document gives a whole plan or a list of problems, and never takes long."""

import copy
import json
import time
from collections.abc import Callable
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.answers import check_answer
from tests.bad_documents import good
from tests.documents import places_of, value_at
from tests.rooms import random_room
from tests.share import share_of

from evenbed.engine.bridge import answer_text

PATIENCE = 5.0  # s for any one document here, on a slow shared machine; most take milliseconds


scalars = (
    st.none()
    | st.booleans()
    | st.integers(-10, 5000)
    | st.integers(-(10**400), 10**400)
    | st.floats(allow_nan=True, allow_infinity=True)
    | st.floats(-5000, 5000)
    | st.sampled_from(
        [0, 1, -1, 1e-320, 1e6, -1e6, 1e308, "", "auto", "level", "plane", "to_drain", "s", "bm", "bed"]
    )
    | st.text(max_size=8)
    | st.text(st.characters(categories=["Cs"]), min_size=1, max_size=2)
)
junk = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=12,
)
LINES = [
    {"id": "A", "from": [150.0, 150.0], "to": [4850.0, 150.0]},
    {"from": [4850.0, 1250.0], "to": [50.0, 1250.0]},
    {"id": "top", "from": [150.0, 2350.0], "to": [4850.0, 2350.5]},
]


def with_lines() -> Any:
    """The good document with rails as a person placed them."""
    document = good()
    document["rails"]["lines"] = copy.deepcopy(LINES)
    return document


PLACES = sorted(places_of(with_lines()))


def mutate(document: Any, path: str, how: str, value: Any) -> None:
    *way, last = path.split(".")
    inner = value_at(document, ".".join(way)) if way else document
    key: Any = int(last) if isinstance(inner, list) else last
    if how == "replace" and (isinstance(inner, dict) or key < len(inner)):
        inner[key] = value
    elif how == "delete" and (key in inner if isinstance(inner, dict) else key < len(inner)):
        del inner[key]
    elif isinstance(inner, list):
        inner.insert(key, value)
    else:
        inner[f"{last}?"] = value


extremes = st.sampled_from([1e6, -1e6, 5e-324, -0.0, 0.1, 1e-9])
ways = st.sampled_from(["replace", "delete", "insert"])
questions = st.sampled_from(["quick_plan", "quick_plan", "plan"])  # the statistics take ten times as long
changes = st.lists(st.tuples(st.sampled_from(PLACES), ways, junk), min_size=1, max_size=3)


documents = st.sampled_from([good, with_lines])


@given(documents, changes, questions)
@settings(max_examples=share_of(200), deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_any_change_of_a_good_document_gives_a_plan_or_problems(
    begin: Callable[[], Any], made: list[tuple[str, str, Any]], question: str
) -> None:
    document = begin()
    for path, how, value in made:
        try:
            mutate(document, path, how, copy.deepcopy(value))
        except (KeyError, IndexError, TypeError, ValueError):
            continue  # an earlier change took this place away, or it has none
    started = time.process_time()
    check_answer(answer_text(question, json.dumps(document)))
    assert time.process_time() - started < PATIENCE


@given(
    st.sampled_from([p for p in PLACES if isinstance(value_at(with_lines(), p), int | float)]),
    st.floats(-1e4, 1e4) | extremes,
    questions,
)
@settings(max_examples=share_of(100), deadline=None)
def test_any_number_in_any_place_gives_a_plan_or_problems(path: str, number: float, question: str) -> None:
    document = with_lines()
    mutate(document, path, "replace", number)
    check_answer(answer_text(question, json.dumps(document)))


@given(st.integers(0, 300), st.integers(0, 5000), st.text(max_size=3))
@settings(max_examples=share_of(40), deadline=None)
def test_a_text_torn_anywhere_gives_a_plan_or_problems(seed: int, at: int, put: str) -> None:
    text = json.dumps(random_room(seed))
    check_answer(answer_text("plan", text[:at] + put + text[at + len(put) :]))
    check_answer(answer_text("plan", text[: at % len(text)]))


@given(st.text(max_size=50) | junk.map(json.dumps))
@settings(max_examples=share_of(100), deadline=None)
def test_any_text_at_all_gives_problems(text: str) -> None:
    answer = json.loads(answer_text("plan", text))
    assert answer["problems"]
