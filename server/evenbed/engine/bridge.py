"""The one door into the engine: JSON text in, JSON text out, whatever the text.

The service, the command line and the phone's worker all come through here, so that they cannot differ.
"""

import json
import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from evenbed.engine.calendar.ics import calendar_from
from evenbed.engine.cost.order import order_from
from evenbed.engine.designing import bed_design_from
from evenbed.engine.document.writing import json_from
from evenbed.engine.filling.clock import fill_clock_from
from evenbed.engine.flatness.straightedge import straightedge_from
from evenbed.engine.levels_report import levels_report_from
from evenbed.engine.plan import plan_from
from evenbed.engine.problems import SHOWN_CHARACTERS, BadDocumentError, Problem, problem_at, shown, whole_characters
from evenbed.engine.profile import profile_from
from evenbed.engine.tables.reading_in import table_in_from
from evenbed.engine.tables.writing_out import table_out_from
from evenbed.engine.taped import taped_place_from
from evenbed.engine.waiting.answer import waiting_from
from evenbed.engine.waiting.logs.reading_in import log_in_from
from evenbed.engine.walk.walk import walk_from

MOST_CHARACTERS = 8_000_000


QUESTIONS: dict[str, Callable[[object], object]] = {
    "plan": plan_from,
    "quick_plan": partial(plan_from, with_statistics=False),
    "bed_design": bed_design_from,
    "fill_clock": fill_clock_from,
    "order": order_from,
    "levels": levels_report_from,
    "walk": walk_from,
    "taped_place": taped_place_from,
    "profile": profile_from,
    "table_in": table_in_from,
    "table_out": table_out_from,
    "calendar": calendar_from,
    "straightedge": straightedge_from,
    "waiting": waiting_from,
    "log_in": log_in_from,
}
"""What the engine can be asked: from parsed JSON to a frozen answer, or BadDocumentError."""


def answer_text(question: str, text: str) -> str:
    """The answer to one of QUESTIONS, both as JSON text; for bad input `{"problems": [...]}`.

    Never raises for any text. Raises KeyError for a question outside the closed set.
    """
    answer_from = QUESTIONS[question]
    try:
        answer = json_from(answer_from(document_from_text(text)))
    except BadDocumentError as bad:
        answer = {"problems": json_from(bad.problems)}
    return json.dumps(answer, allow_nan=False, ensure_ascii=False, separators=(",", ":"))


def document_from_text(text: str) -> Any:
    """Parsed JSON. Raises BadDocumentError for text that is no JSON; NaN and infinities are named by their place."""
    if len(text) > MOST_CHARACTERS:
        raise BadDocumentError([problem_at("", "too_long", length=len(text), most=MOST_CHARACTERS)])
    try:
        return _parsed(text)
    except RecursionError:
        raise _not_json("it is nested too deeply") from None
    except ValueError as bad:
        raise _not_json(_why(bad)) from None


def _parsed(text: str) -> Any:
    constants: list[str] = []

    def noted(name: str) -> float:
        constants.append(name)
        return float(name)

    given = json.loads(text, parse_constant=noted)
    if constants:
        raise BadDocumentError(_not_finite("", given))
    return given


def _not_finite(path: str, given: Any) -> Iterator[Problem]:
    """Every NaN and infinity in parsed JSON, by its path."""
    if isinstance(given, float) and not math.isfinite(given):
        yield problem_at(path, "not_finite", got=shown(given))
    elif isinstance(given, dict):
        for key, value in given.items():
            yield from _not_finite(f"{path}.{whole_characters(key[:SHOWN_CHARACTERS])}".lstrip("."), value)
    elif isinstance(given, list):
        for n, value in enumerate(given):
            yield from _not_finite(f"{path}[{n}]", value)


def _why(bad: ValueError) -> str:
    if isinstance(bad, json.JSONDecodeError):
        return f"{bad.msg} at line {bad.lineno}, column {bad.colno}"
    return "it holds a number with too many digits"


def _not_json(why: str) -> BadDocumentError:
    return BadDocumentError([problem_at("", "not_json", why=why)])
