"""The rings of a room's outline, from the JSON that a room or a document holds."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import Outline
from evenbed.engine.geometry import Ring
from evenbed.engine.outline import figure_from


@dataclass(frozen=True)
class _Drawn:
    """A room document's outline, whatever else it has."""

    outline: Outline = described(about="The room's figure")


def rings_from(outline: object) -> tuple[Ring, ...]:
    """The outline's ring and a ring for each cutout, mm. Raises BadDocumentError where it is no figure of a room."""
    drawn, _ = read_json(_Drawn, {"outline": outline})
    return figure_from(drawn.outline).rings
