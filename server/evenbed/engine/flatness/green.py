"""Whether a bed is still green: whether it can be rubbed with a wood float and filled with fresh mortar.

It is rubbed until the early end of the window in which it can be walked on, and filled with the mortar that it is
made of within the working time of what was placed last (common practice, no source: only a thumb on the bed tells).
The document knows no clock, so that it is told for the last moment at which anything was measured or done on the bed,
or, with nothing told, for the moment of placing; `until` is for whoever has a clock.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.room import Document
from evenbed.engine.readiness import Readiness, working_hours


@dataclass(frozen=True)
class Green:
    """None where nothing is placed. `until` None: never hard enough to be walked on, as far as is known.

    `is_fillable` where fresh mortar still bonded to it; never once it is hard.
    """

    is_green: bool | None
    until: str | None = None
    fill_until: str | None = None
    is_fillable: bool = False


def green_of(document: Document, readiness: Readiness) -> Green:
    """The state of a room's bed. Somebody who walked on it says that it is hardened, whatever is foretold."""
    if readiness.placed_at is None:
        return Green(None)
    walk = next(row for row in readiness.rows if row.milestone == "walk")
    hardening = readiness.hardening
    fill_until = hardening.time_at(working_hours(document.curing, hardening.temperatures.at(0.0)))
    last = max((moment_from_time(at) for at in _told(document)), default=moment_from_time(readiness.placed_at))
    is_over = walk.ticked is not None or (walk.early is not None and last >= moment_from_time(walk.early))
    is_fillable = not is_over and (fill_until is None or last < moment_from_time(fill_until))
    return Green(not is_over, walk.early, fill_until, is_fillable)


def _told(document: Document) -> Iterator[str]:
    """Every moment at which something was measured or done on the bed."""
    read = (one.taken_at for one in document.readings if one.stage == "bed")
    gaps, lines = (one.taken_at for one in document.gaps), (one.taken_at for one in document.height_lines)
    yield from (at for at in (*read, *gaps, *lines) if at is not None)
    yield from (one.done_at for one in document.touches)
