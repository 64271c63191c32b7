"""The floor of a room as it lies, whatever bed comes on it: its figure, its heights and the surface through them.

While a thumb moves the top of bed the same floor is asked about again and again: the last ones are kept, and answers
are the same with and without that.
"""

from dataclasses import dataclass, fields
from functools import cached_property, lru_cache

from evenbed.engine.contours import Contour, contours_of
from evenbed.engine.document.levelling import LevelsDocument
from evenbed.engine.document.places import Point3
from evenbed.engine.document.room import Document, Outline
from evenbed.engine.ground import Ground
from evenbed.engine.heights import Levels
from evenbed.engine.levels import levels_from
from evenbed.engine.outline import Figure, figure_from
from evenbed.engine.region import Region
from evenbed.engine.slips import Suspect
from evenbed.engine.surface import Surface, surface_from
from evenbed.engine.suspects import suspects_from
from evenbed.engine.touching import regions_of_room

FLOORS_KEPT = 2  # the one being worked on, and one looked at between


@dataclass(frozen=True)
class WorkedFloor:
    """One floor, each step worked out once. Any step raises BadDocumentError where the document allows none."""

    outline: Outline
    levelling: LevelsDocument

    @cached_property
    def figure(self) -> Figure:
        """The room's figure."""
        return figure_from(self.outline)

    @cached_property
    def regions(self) -> tuple[Region, ...]:
        """The areas that a bed fills, cutouts taken out."""
        return regions_of_room(self.figure.outer, self.figure.holes)

    @cached_property
    def levels(self) -> Levels:
        """Heights of everything read."""
        return levels_from(self.levelling, self.figure)

    @cached_property
    def suspects(self) -> tuple[Suspect, ...]:
        """Readings that look mis-read, the worst first."""
        return suspects_from(self.levelling, self.levels)

    @property
    def spots(self) -> dict[Point3, str]:
        """Read places of the subfloor, each once with its adjusted height: point → the id of a reading made there."""
        return self.levels.spots

    @cached_property
    def surface(self) -> Surface:
        """The subfloor through the readings."""
        return surface_from(list(self.spots), self.figure.outer)

    @cached_property
    def contours(self) -> tuple[Contour, ...]:
        """Lines of equal height."""
        return contours_of(self.surface)

    @cached_property
    def ground(self) -> Ground:
        """The subfloor within the walls."""
        return Ground(self.surface, self.figure)


def floor_of(document: Document) -> WorkedFloor:
    """The floor of a room document: the one kept where an equal one was asked for lately."""
    parts = {one.name: getattr(document, one.name) for one in fields(LevelsDocument)}
    return _kept(document.outline, LevelsDocument(**parts))


@lru_cache(maxsize=FLOORS_KEPT)
def _kept(outline: Outline, levelling: LevelsDocument) -> WorkedFloor:
    return WorkedFloor(outline, levelling)
