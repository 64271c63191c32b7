"""Old changes brought up to date.

The log keeps every change for ever as it was sent, in the meaning that its fields had then (its `schema`). Whenever a
change is read, to be checked and merged or to make the records again, it is brought up to today's meaning step by
step. A step is never edited and never removed once a phone may have sent what it is for. A change of which a step
leaves nothing is taken all the same, so that no phone is told of a fault that is not its own.
"""

from collections.abc import Callable

from evenbed.wire.exchange import Change, FieldValues

Step = Callable[[str, FieldValues], FieldValues]
"""From a kind and its fields to the fields one schema later. It must take whatever a phone may have sent."""


def _let_ticks_go(kind: str, fields: FieldValues) -> FieldValues:
    """From 1 to 2: a station that was set is a record of its own, with the place where it was set.

    Schema 1 ticked stations in the room, by rail and place in its row. Once rails have moved nobody can tell which
    places such ticks meant, so they are let go of: better a ramp set twice than one taken for set that is not.
    """
    return {name: value for name, value in fields.items() if (kind, name) != ("room", "rails.set_stations")}


def _know_more_kinds(_kind: str, fields: FieldValues) -> FieldValues:
    """From 2 to 3: nothing changed its meaning, but there are more kinds.

    A service of before would refuse a gap, a height line, a temperature log, a forecast day or a sign-off one by one,
    instead of asking for its own update.
    """
    return fields


STEPS: tuple[Step, ...] = (_let_ticks_go, _know_more_kinds)
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
