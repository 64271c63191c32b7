"""What is asked for a walk over the floor, and what is answered."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Fixture, Opening, Outline

Kind = Literal["corner", "wall", "doorway", "floor", "fixture"]


@dataclass(frozen=True)
class WalkQuestion:
    """The parts of a room document that a walk needs; a whole document may be given, the rest is not looked at."""

    outline: Outline = described(about="The room's figure")
    openings: tuple[Opening, ...] = described((), about="Doorways")
    fixtures: tuple[Fixture, ...] = described((), about="Drains, flanges, posts")
    rails: RailDesign = described(RailDesign(), about="How rails are laid: the straightedge")


@dataclass(frozen=True)
class WalkPlace:
    """One place to read."""

    id: str = described(about="Its name, the same as long as its own wall, corner, doorway or grid stays")
    at: Point = height(about="Where the rod's foot goes")
    kind: Kind = described(about="What it is there for")


@dataclass(frozen=True)
class WalkAnswer:
    """The places to read, in walking order, from the way in to the far end."""

    places: tuple[WalkPlace, ...] = described(about="In the order they are walked")
    spacing: float | None = length(
        about="No place of the floor is farther than this from a place to read; null without any place"
    )
    length: float = length(about="Way from the first place to the last")
