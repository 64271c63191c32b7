"""What must be said where the bed is worked over: while it is green, once it is hard, where the list is not all."""

from collections.abc import Iterator

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.flatness.green import green_of
from evenbed.engine.flatness.wedge_work import wedge_work_of
from evenbed.engine.flatness.work import MOST_PLACES
from evenbed.engine.worked import WorkedRoom

WHERE = "flatness.work"


def work_cautions_of(room: WorkedRoom) -> Iterator[Caution]:
    """The cautions of one bed's work list; none where there is nothing to do."""
    found, wedges = room.flatness.work, list(wedge_work_of(room.flatness))
    if not found.work and not wedges:
        return
    green = green_of(room.document, room.readiness)
    if green.is_green is None:
        yield caution_at(WHERE, "work_any")
    elif green.is_green:
        code = "work_green" if green.is_fillable else "work_green_set"
        yield caution_at(WHERE, code, fill_until=str(green.fill_until))
    else:
        yield caution_at(WHERE, "work_hardened")
    for one in wedges:
        (x, y), told = one.at, {"gap": one.gap, "limit": one.limit, "by": one.by}
        yield caution_at(WHERE, "work_wedge", x=x, y=y, length=one.length, **told)
    if found.is_reduced:
        yield caution_at(WHERE, "work_reduced", readings=room.flatness.surface.spots)
    if found.is_cut:
        yield caution_at(WHERE, "work_cut", most=MOST_PLACES)
