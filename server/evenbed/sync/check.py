"""May this change be applied? Every no is a reason from the closed set, with the field it concerns."""

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from evenbed.sync.jobs import PARENTS, may_see, parent_of
from evenbed.sync.model import Author, Record, Refusal
from evenbed.sync.port import Ledger
from evenbed.wire.exchange import Change, FieldValues, Role
from evenbed.wire.records import SHAPES
from evenbed.wire.refusals import SENTENCES, Reason
from evenbed.wire.supplies import COMPANYS
from evenbed.wire.values import DEEPEST, is_deeper, is_uuid

PLACES = ("at", "mark")
QUOTED = 80
CHANGEABLE_IN_A_READING = {"deleted"}
CHANGEABLE_IN_A_SIGN_OFF = {"deleted", "note"}
FOREMANS_FIELDS = {("job", "crew")}


def refusal_of(change: Change, record: Record | None, ledger: Ledger, author: Author, role: Role) -> Refusal | None:
    """Why the change may not be applied to the record as it stands (None before its first change); None if it may."""
    return (
        _bad_envelope(change)
        or _companys(change, role)
        or _not_assigned(change, record, ledger, author, role)
        or _final_reading(change, record)
        or _final_sign_off(change, record)
        or _bad_fields(change, record)
        or _placeless_reading(change, record)
        or _unknown_parent(change, record, ledger)
        or _not_foreman(change, role)
    )


def refuse(reason: Reason, **values: object) -> Refusal:
    """The refusal with its English sentence; what a phone sent is quoted no longer than a line."""
    quoted = {name: _plain(str(value)) for name, value in values.items()}
    return Refusal(reason, SENTENCES[reason].format(**quoted))


def _plain(text: str) -> str:
    """A line's length of it, without what no database of text can keep."""
    return "".join(c if c.isprintable() else "?" for c in text[:QUOTED])


def _bad_envelope(change: Change) -> Refusal | None:
    if change.kind not in SHAPES:
        return refuse(Reason.UNKNOWN_KIND, got=change.kind)
    if not is_uuid(change.record_id):
        return refuse(Reason.BAD_ID, field="record_id", got=change.record_id)
    deep = next((name for name, value in change.fields.items() if is_deeper(value)), None)
    if deep is None:
        return None
    return refuse(Reason.BAD_VALUE, field=deep, why=f"it is nested more than {DEEPEST} deep")


def _companys(change: Change, role: Role) -> Refusal | None:
    """Foremen alone write what is the company's, and there is one record of it: told before anything about it."""
    if change.kind not in COMPANYS:
        return None
    if role != "foreman":
        return refuse(Reason.FOREMAN_ONLY, field=change.kind)
    if change.record_id == COMPANYS[change.kind]:
        return None
    return refuse(Reason.BAD_VALUE, field="record_id", why=f"the one record of {change.kind} has another id")


def _final_reading(change: Change, record: Record | None) -> Refusal | None:
    if change.kind != "reading" or record is None:
        return None
    touched = sorted(_edited(change, record) - CHANGEABLE_IN_A_READING)
    return refuse(Reason.READING_IS_FINAL, field=", ".join(touched)) if touched else None


def _edited(change: Change, record: Record) -> set[str]:
    """The fields it touches. A file without the record's history tells the whole record; to repeat is no edit."""
    if change.origin is None:
        return set(change.fields)
    return {name for name, value in change.fields.items() if record.fields.get(name) != value}


def _final_sign_off(change: Change, record: Record | None) -> Refusal | None:
    """What was signed stays as it was signed; who signs again makes another record."""
    if change.kind != "sign_off" or record is None:
        return None
    touched = sorted(_edited(change, record) - CHANGEABLE_IN_A_SIGN_OFF)
    return refuse(Reason.SIGN_OFF_IS_FINAL, field=", ".join(touched)) if touched else None


def _bad_fields(change: Change, record: Record | None) -> Refusal | None:
    try:
        SHAPES[change.kind].model_validate(change.fields)
    except ValidationError as error:
        relevant = (e for e in error.errors(include_url=False) if record is None or not _is_absence(e))
        return next((_refusal_from(e, change.kind) for e in relevant), None)
    return None


def _is_absence(error: ErrorDetails) -> bool:
    """A needed field that this change does not touch: only a new record must have it."""
    return error["type"] == "missing" and len(error["loc"]) == 1


def _refusal_from(error: ErrorDetails, kind: str) -> Refusal:
    field = str(error["loc"][0]) if error["loc"] else kind
    if _is_absence(error):
        return refuse(Reason.MISSING_FIELD, kind=kind, field=field)
    if error["type"] == "extra_forbidden" and len(error["loc"]) == 1:
        return refuse(Reason.UNKNOWN_FIELD, kind=kind, field=field)
    return refuse(Reason.BAD_VALUE, field=field, why=error["msg"])


def _placeless_reading(change: Change, record: Record | None) -> Refusal | None:
    """A reading stands at a place or on a mark: on one of them, and not on both."""
    if change.kind != "reading" or record is not None:
        return None
    told = [name for name in PLACES if change.fields.get(name) is not None]
    if not told:
        return refuse(Reason.MISSING_FIELD, kind="reading", field="at or mark")
    if len(told) > 1:
        return refuse(Reason.BAD_VALUE, field="mark", why="the reading has a place of its own already")
    return None


def _unknown_parent(change: Change, record: Record | None, ledger: Ledger) -> Refusal | None:
    if change.kind not in PARENTS:
        return None
    parent, field = PARENTS[change.kind]
    got = change.fields.get(field)
    if record is not None:
        is_moved = field in change.fields and got != record.fields[field]
        return refuse(Reason.PARENT_IS_FINAL, kind=change.kind, field=field) if is_moved else None
    if parent_of(change.kind, change.fields, ledger.record) is not None:
        return None
    return refuse(Reason.UNKNOWN_PARENT, parent=parent, kind=change.kind, got=got)


def _not_assigned(
    change: Change, record: Record | None, ledger: Ledger, author: Author, role: Role
) -> Refusal | None:
    """Told before anything else about the record: whoever may not see it learns no more than that."""
    kin = record or parent_of(change.kind, change.fields, ledger.record)
    job = ledger.record("job", kin.job_id) if kin else None
    if job is None or may_see(author.person_id, role, job):
        return None
    return refuse(Reason.NOT_ASSIGNED, kind=change.kind)


def without_foremans(kind: str, fields: FieldValues) -> FieldValues:
    """The fields, less those that a foreman alone may change."""
    return {name: value for name, value in fields.items() if (kind, name) not in FOREMANS_FIELDS}


def _not_foreman(change: Change, role: Role) -> Refusal | None:
    field = next((name for name in change.fields if (change.kind, name) in FOREMANS_FIELDS), None)
    return refuse(Reason.FOREMAN_ONLY, field=field) if field and role != "foreman" else None
