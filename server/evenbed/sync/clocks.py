"""Corrected times: a phone with a wrong clock neither wins nor loses for it.

The phone says when an edit was made and, at the push, what its clock says now. The difference is the age of the edit
by one and the same clock, whatever that clock shows; subtracted from the service's time it gives the moment of the
edit. A clock that was set between edit and push still misleads, so a moment counts only between two certain bounds:
not after the push arrived, and not before the device's last edit of an earlier push. Inside them an edit is never
later than those that the device made after it, whose ages are the more trustworthy the nearer they are to the push.
An age that leads before the bounds says nothing: that edit counts as made right after the one before it.
"""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

OLDEST = timedelta(days=3650)


def corrected_times(
    edits: Sequence[str], push: str, received_at: datetime, previous: datetime | None
) -> list[datetime]:
    """When the edits of one push were made, by the service's clock; never falling from one to the next.

    `edits`, in the order in which they were made, and `push` are the device's clock at those moments, ISO 8601 with
    offset; `previous` is the corrected time of the device's edit before them, None for its first: then nothing counts
    as older than ten years.
    """
    earliest = received_at - OLDEST if previous is None else previous
    ages = [_age(edit, push) for edit in edits]
    latest, backwards = received_at, []
    for age in reversed(ages):
        is_told = age <= received_at - earliest
        latest = min(latest, received_at - age) if is_told else latest
        backwards.append(latest if is_told else None)
    return _filled(reversed(backwards), earliest)


def _age(edit: str, push: str) -> timedelta:
    return max(datetime.fromisoformat(push) - datetime.fromisoformat(edit), timedelta(0))


def _filled(times: Iterable[datetime | None], earliest: datetime) -> list[datetime]:
    filled: list[datetime] = []
    for time in times:
        before = filled[-1] if filled else earliest
        filled.append(max(time or before, before))
    return filled
