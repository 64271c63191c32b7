"""Corrected times: a phone with a wrong clock neither wins nor loses for it.

The phone says when an edit was made and, at the push, what its clock says now. The difference is the age of the edit
by one and the same clock, whatever that clock shows; subtracted from the service's time it gives the moment of the
edit. A clock that was set in between misleads about the edits made before that, and about no others: each edit is
dated by itself, for a device also brings what others made earlier, read from a file. What cannot be counts for what
is certain: an edit from the future was made before it arrived, and one by a clock that had lost its time (a phone
that starts in 1970) right after the one before it.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta

OLDEST = timedelta(days=3650)
NO_AGE = timedelta(0)


def corrected_times(
    edits: Sequence[str], push: str, received_at: datetime, previous: datetime | None
) -> list[datetime]:
    """When the edits of one push were made, by the service's clock.

    `edits` and `push` are the device's clock at those moments, ISO 8601 with offset; `previous` is the corrected time
    of the device's edit before them, None for its first. An age beyond ten years is no age.
    """
    times: list[datetime] = []
    for edit in edits:
        age = max(NO_AGE, datetime.fromisoformat(push) - datetime.fromisoformat(edit))
        previous = received_at - age if age <= OLDEST else previous or received_at - OLDEST
        times.append(previous)
    return times
