"""Questions to the engine beside the plan, and its answers as they come through its one door."""

import json
import math
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from evenbed.engine.bridge import answer_text
from evenbed.engine.contract import QUESTION_SHAPES, answer_schema
from evenbed.engine.problems import PROBLEMS
from tests.answers import REFUSAL, numbers_in
from tests.documents import Json

ANSWERS = {question: Draft202012Validator(answer_schema(question)) for question in QUESTION_SHAPES}


def reply_to(question: str, asked: object) -> Json:
    """The answer, or the list of problems under its one key; either is what the schema says, with finite numbers."""
    text = answer_text(question, json.dumps(asked))
    text.encode("utf-8")
    answer: Json = json.loads(text, parse_constant=lambda name: pytest.fail(f"the answer holds {name}"))
    validator = REFUSAL if answer.keys() == {"problems"} else ANSWERS[question]
    validator.validate(answer)
    assert {problem["code"] for problem in answer.get("problems", ())} <= PROBLEMS.keys()
    assert all(math.isfinite(number) for number in numbers_in(answer))
    return answer


def answer_to(question: str, **asked: Any) -> Json:
    """The answer to a good question."""
    answer = reply_to(question, asked)
    assert answer.keys() != {"problems"}, answer["problems"]
    return answer


def refusal_of(question: str, asked: object) -> list[tuple[str, str]]:
    """Path and code of every problem of a question that gets no answer."""
    answer = reply_to(question, asked)
    assert answer.keys() == {"problems"}, "this question gets an answer"
    return [(problem["path"], problem["code"]) for problem in answer["problems"]]
