"""The top of bed as it is asked for, whatever its kind."""

from evenbed.engine.document.room import Document
from evenbed.engine.document.tops import DrainTop, LeastTop, LevelTop, PlaneTop
from evenbed.engine.ground import Ground
from evenbed.engine.top.designed import DesignedTop
from evenbed.engine.top.flat import level_top, plane_top
from evenbed.engine.top.least_mortar import least_mortar
from evenbed.engine.top.to_drain import to_drain
from evenbed.engine.top.two_levels import two_levels


def top_from(document: Document, ground: Ground) -> DesignedTop:
    """The top of bed over the whole room.

    Raises BadDocumentError for a top that its figures do not fix, that is steeper than STEEPEST, or that cannot be.
    """
    top = document.bed.top
    if isinstance(top, LevelTop):
        return level_top(document.bed, top, ground)
    if isinstance(top, PlaneTop):
        return plane_top(top, ground)
    if isinstance(top, LeastTop):
        return least_mortar(document, ground, top)
    if isinstance(top, DrainTop):
        return to_drain(document, top, ground)
    return two_levels(top, ground)
