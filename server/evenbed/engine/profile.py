"""A section through the floor along a straight line: subfloor, top of bed and thickness, exact."""

from dataclasses import dataclass

from evenbed.engine.document.fields import FARTHEST, described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document


@dataclass(frozen=True)
class ProfileQuestion:
    """A room and the line to cut it along."""

    document: Document = described(about="The room document")
    start: Point = described(about="Where the line begins", unit="mm", key="from", low=-FARTHEST, high=FARTHEST)
    end: Point = described(about="Where it ends", unit="mm", key="to", low=-FARTHEST, high=FARTHEST)


@dataclass(frozen=True)
class ProfilePoint:
    """A place where the section bends, begins or ends; between two of them everything is straight."""

    along: float = length(about="From the beginning of the line")
    at: Point = height(about="Where")
    subfloor: float = height(about="Height of the subfloor, z")
    top: float = height(about="Height of the top of bed, z")
    thickness: float = height(about="Top less subfloor; negative where there is no bed")
    estimated: bool = described(about="True where the subfloor beside it leans on a corner that was not read")


@dataclass(frozen=True)
class ProfileAnswer:
    """The section: unbroken runs inside the room, with gaps outside it and over cutouts."""

    length: float = length(about="Length of the whole line")
    runs: tuple[tuple[ProfilePoint, ...], ...] = described(about="Each at least two points, in the line's order")
