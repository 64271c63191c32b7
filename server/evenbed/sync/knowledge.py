"""What the maker of an edit knew of its record beyond the service's number that the edit names.

A change that comes out of a file was made elsewhere: no number of this service says what its maker had seen. The file
says it by ids: of every device that had edited the record, the last change the maker knew. A device's changes reach
everybody in the device's own order, so the ones before it were known too.

Whoever brings a file into a phone has it all before them: what that phone's own later edits replace of it, they
replace knowingly.
"""

from collections.abc import Collection, Iterable
from typing import NamedTuple

NOTHING: frozenset[int] = frozenset()


class Told(NamedTuple):
    """One applied change of a record: its number, its id, the device it was made on, and the one that brought it in a
    file, None where it was sent by its maker."""

    sequence: int
    change_id: str
    maker: str
    bringer: str | None


def known_from_file(story: Iterable[Told], last_known: Collection[str]) -> frozenset[int]:
    """The numbers of the changes that a maker elsewhere knew, by the ids of the last known of each device."""
    told = list(story)
    ids = frozenset(last_known)
    last: dict[str, int] = {}
    for one in told:
        if one.change_id in ids:
            last[one.maker] = max(one.sequence, last.get(one.maker, 0))
    return frozenset(one.sequence for one in told if one.sequence <= last.get(one.maker, 0))


def brought_by(story: Iterable[Told], device_id: str) -> frozenset[int]:
    """The numbers of the changes that this device brought in a file."""
    return frozenset(one.sequence for one in story if one.bringer == device_id)


def last_known(story: Iterable[Told], seen: int, device_id: str) -> tuple[str, ...]:
    """The ids by which a file says what an edit of this device knew that had seen a number of this service."""
    last: dict[str, Told] = {}
    for one in story:
        if (one.sequence <= seen or one.bringer == device_id) and (
            one.maker not in last or last[one.maker].sequence < one.sequence
        ):
            last[one.maker] = one
    return tuple(one.change_id for one in sorted(last.values()))
