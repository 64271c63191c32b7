"""Corrected times: a phone with a wrong clock neither wins nor loses for it.

The phone says when an edit was made and, at the push, what its clock says now. The difference is the age of the edit
by one and the same clock, whatever that clock shows; subtracted from the service's time it gives the moment of the
edit. A clock that was set right between edit and push can still mislead, so the result is held between two certain
bounds: not after the push arrived, and not before the device's previous edit.
"""

from datetime import datetime, timedelta

NO_AGE = timedelta(0)
OLDEST = timedelta(days=3650)


def corrected_time(edit: str, push: str, received_at: datetime, previous: datetime | None) -> datetime:
    """When an edit was made, by the service's clock.

    `edit` and `push` are the device's clock at both moments, ISO 8601 with offset; `previous` is the corrected time
    of the device's edit before this one, None for its first. An age beyond ten years counts as ten years.
    """
    age = datetime.fromisoformat(push) - datetime.fromisoformat(edit)
    at = received_at - min(max(age, NO_AGE), OLDEST)
    return at if previous is None else max(at, previous)
