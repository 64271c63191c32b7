"""The engine's two shapes as JSON Schema (2020-12): what it reads and what it answers."""

from dataclasses import dataclass
from typing import Any

from evenbed.engine.answer import Plan
from evenbed.engine.document.fields import described
from evenbed.engine.document.room import Document
from evenbed.engine.document.schema import schema_from
from evenbed.engine.problems import Problem


@dataclass(frozen=True)
class Refusal:
    """What the engine answers to a document that gives no plan."""

    problems: tuple[Problem, ...] = described(about="Everything wrong with it")


def document_schema() -> dict[str, Any]:
    """Schema of the room document."""
    return schema_from(Document, written=False)


def plan_schema() -> dict[str, Any]:
    """Schema of the plan."""
    return schema_from(Plan, written=True)


def refusal_schema() -> dict[str, Any]:
    """Schema of the list of problems that a bad document gets."""
    return schema_from(Refusal, written=True)
