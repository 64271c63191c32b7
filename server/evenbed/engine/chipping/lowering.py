"""Whether a top comes down where high spots are chipped, and how far it may."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.bed import Mortar
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document
from evenbed.engine.document.tops import DrainTop, LeastTop, LevelTop
from evenbed.engine.ground import ON_THE_EDGE
from evenbed.engine.top.held import holds_from


@dataclass(frozen=True)
class Unread:
    """A corner where nobody read, and how much thicker than it must be the bed is there, mm."""

    at: Point
    spare: float


def comes_down(document: Document) -> bool:
    """True for a top that stands as low as the subfloor lets it: chipping a high spot brings it down, parallel."""
    top = document.bed.top
    if isinstance(top, LevelTop):
        return top.height is None
    if isinstance(top, DrainTop):
        drain = next((f for f in document.fixtures if f.id == top.drain), None)
        return top.perimeter is None and (drain is None or drain.height is None)
    return isinstance(top, LeastTop)


def room_under(document: Document, mortar: Mortar) -> float:
    """How far the top may come down before a held height is missed, mm; infinite where none holds it up."""
    top, covering = document.bed.top, document.bed.covering
    if not isinstance(top, LeastTop):
        return math.inf
    cover = covering.bond_thickness + covering.tile_thickness
    holds = holds_from(document, mortar.ground.figure, top.holds)
    rooms = (mortar.top.at(*at) + cover - h.low for h in holds if h.low is not None for at in h.places)
    return max(0.0, min(rooms, default=math.inf))


def unread_corners(mortar: Mortar, minimum: float) -> Iterator[Unread]:
    """Estimated corners of the room: nothing is chipped where nobody read."""
    surface, figure = mortar.ground.surface, mortar.ground.figure
    for n in surface.estimated:
        point = surface.points[n]
        if figure.holds(point[:2], ON_THE_EDGE):
            yield Unread(point[:2], mortar.thickness_at(point) - minimum)
