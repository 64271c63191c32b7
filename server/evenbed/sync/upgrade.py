"""Old changes brought up to date.

The log keeps every change for ever as it was sent, in the meaning that its fields had then (its `schema`). Whenever a
change is read, to be checked and merged or to make the records again, it is brought up to today's meaning step by
step. A step is never edited and never removed once a phone may have sent what it is for.
"""

from collections.abc import Callable

from evenbed.wire.exchange import Change, FieldValues

Step = Callable[[str, FieldValues], FieldValues]
"""From a kind and its fields to the fields one schema later. It must take whatever a phone may have sent."""

STEPS: tuple[Step, ...] = ()
"""The first leads from schema 1 to 2. There are as many as SCHEMA is above 1."""


def fields_today(kind: str, fields: FieldValues, schema: int, steps: tuple[Step, ...] = STEPS) -> FieldValues:
    """The fields of a change made under `schema` (from 1 to one more than there are steps), in today's meaning."""
    for step in steps[schema - 1 :]:
        fields = step(kind, fields)
    return fields


def change_today(change: Change, steps: tuple[Step, ...] = STEPS) -> Change:
    """The change with its fields in today's meaning; the same one where it is of today."""
    if change.schema_ > len(steps):
        return change
    return change.model_copy(update={"fields": fields_today(change.kind, change.fields, change.schema_, steps)})
