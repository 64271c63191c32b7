"""The engine's shapes as JSON Schema (2020-12): what it reads and what it answers."""

from dataclasses import dataclass
from typing import Any

from evenbed.engine.answer import BedDesignAnswer, LevelsReport, Plan
from evenbed.engine.calendar.shapes import CalendarAnswer, CalendarQuestion
from evenbed.engine.cost.order import OrderAnswer, OrderQuestion
from evenbed.engine.document.fields import described
from evenbed.engine.document.levelling import LevelsDocument
from evenbed.engine.document.room import Document
from evenbed.engine.document.schema import schema_from
from evenbed.engine.filling.shapes import FillClockAnswer, FillClockQuestion
from evenbed.engine.flatness.shapes import StraightedgeAnswer, StraightedgeQuestion
from evenbed.engine.problems import Problem
from evenbed.engine.profile import ProfileAnswer, ProfileQuestion
from evenbed.engine.tables.shapes import TableInAnswer, TableInQuestion, TableOutAnswer, TableOutQuestion
from evenbed.engine.taped import TapedPlaceAnswer, TapedPlaceQuestion
from evenbed.engine.waiting.shapes import LogInAnswer, LogInQuestion, WaitingAnswer, WaitingQuestion
from evenbed.engine.walk.shapes import WalkAnswer, WalkQuestion

QUESTION_SHAPES: dict[str, tuple[type[Any], type[Any]]] = {
    "plan": (Document, Plan),
    "quick_plan": (Document, Plan),
    "bed_design": (Document, BedDesignAnswer),
    "fill_clock": (FillClockQuestion, FillClockAnswer),
    "order": (OrderQuestion, OrderAnswer),
    "levels": (LevelsDocument, LevelsReport),
    "walk": (WalkQuestion, WalkAnswer),
    "taped_place": (TapedPlaceQuestion, TapedPlaceAnswer),
    "profile": (ProfileQuestion, ProfileAnswer),
    "table_in": (TableInQuestion, TableInAnswer),
    "table_out": (TableOutQuestion, TableOutAnswer),
    "calendar": (CalendarQuestion, CalendarAnswer),
    "straightedge": (StraightedgeQuestion, StraightedgeAnswer),
    "waiting": (WaitingQuestion, WaitingAnswer),
    "log_in": (LogInQuestion, LogInAnswer),
}
"""What each of the bridge's questions reads and what it answers."""


@dataclass(frozen=True)
class Refusal:
    """What the engine answers to a document that gives no plan."""

    problems: tuple[Problem, ...] = described(about="Everything wrong with it")


def asked_schema(question: str) -> dict[str, Any]:
    """Schema of what is asked. Raises KeyError for a question outside the closed set."""
    return schema_from(QUESTION_SHAPES[question][0], written=False)


def answer_schema(question: str) -> dict[str, Any]:
    """Schema of what is answered. Raises KeyError for a question outside the closed set."""
    return schema_from(QUESTION_SHAPES[question][1], written=True)


def document_schema() -> dict[str, Any]:
    """Schema of the room document."""
    return schema_from(Document, written=False)


def plan_schema() -> dict[str, Any]:
    """Schema of the plan."""
    return schema_from(Plan, written=True)


def refusal_schema() -> dict[str, Any]:
    """Schema of the list of problems that a bad document gets."""
    return schema_from(Refusal, written=True)
