"""Why a single change may be refused: a closed set.

A refused change is acknowledged, so that the queue moves on, and kept by the phone so that a person can see it.
The English sentence is made here; a screen in another language makes its own from the reason.
"""

from enum import StrEnum


class Reason(StrEnum):
    """The closed set of reasons."""

    UNKNOWN_KIND = "unknown_kind"
    UNKNOWN_FIELD = "unknown_field"
    BAD_ID = "bad_id"
    BAD_VALUE = "bad_value"
    MISSING_FIELD = "missing_field"
    UNKNOWN_PARENT = "unknown_parent"
    READING_IS_FINAL = "reading_is_final"
    SIGN_OFF_IS_FINAL = "sign_off_is_final"
    CHANGE_ID_TAKEN = "change_id_taken"
    CAME_WITHOUT = "came_without"
    NOTHING_CHANGED = "nothing_changed"
    PARENT_IS_FINAL = "parent_is_final"
    NOT_ASSIGNED = "not_assigned"
    FOREMAN_ONLY = "foreman_only"


SENTENCES: dict[Reason, str] = {
    Reason.UNKNOWN_KIND: "This service does not know records of the kind {got}.",
    Reason.UNKNOWN_FIELD: "A {kind} has no field named {field}.",
    Reason.BAD_ID: "{field} must be a UUID in lower-case letters; got {got}.",
    Reason.BAD_VALUE: "The value of {field} cannot be kept: {why}.",
    Reason.MISSING_FIELD: "A new {kind} needs {field}.",
    Reason.UNKNOWN_PARENT: "The {parent} this {kind} belongs to is not here: {got}.",
    Reason.READING_IS_FINAL: "A reading is never edited ({field}); take it again and let the new one supersede it.",
    Reason.SIGN_OFF_IS_FINAL: "What was signed stays as it was signed ({field}); sign the room again.",
    Reason.CHANGE_ID_TAKEN: "Another change with this id, but with other contents, is already here.",
    Reason.CAME_WITHOUT: "This change came in a file before, brought by no foreman and so without {field}; the rest "
    "of it stands. Choose {field} again.",
    Reason.NOTHING_CHANGED: "A change needs at least one field.",
    Reason.PARENT_IS_FINAL: "A {kind} stays where it was made; {field} cannot change.",
    Reason.NOT_ASSIGNED: "This person is not assigned to the job that this {kind} belongs to.",
    Reason.FOREMAN_ONLY: "Only a foreman may change {field}.",
}
