"""What every answer of the engine must be, whatever it was asked."""

import json
import math
from collections.abc import Iterator
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from evenbed.engine.contract import plan_schema, refusal_schema
from evenbed.engine.problems import PROBLEMS

PLAN = Draft202012Validator(plan_schema())
REFUSAL = Draft202012Validator(refusal_schema())


def check_answer(text: str) -> None:
    """A whole plan with finite numbers, or a list of known problems; either can travel."""
    text.encode("utf-8")
    answer = json.loads(text, parse_constant=lambda name: pytest.fail(f"the answer holds {name}"))
    if "problems" in answer:
        REFUSAL.validate(answer)
        assert answer["problems"]
        assert all(problem["code"] in PROBLEMS for problem in answer["problems"])
    else:
        PLAN.validate(answer)
        assert all(math.isfinite(number) for number in numbers_in(answer))


def numbers_in(value: Any) -> Iterator[float]:
    if isinstance(value, dict | list):
        for inner in value.values() if isinstance(value, dict) else value:
            yield from numbers_in(inner)
    elif isinstance(value, int | float):
        yield float(value)
