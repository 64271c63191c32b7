"""A place by two tapes: where the circles round two known places meet inside the room."""

from dataclasses import dataclass

from evenbed.engine.document.fields import FARTHEST, described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Outline


@dataclass(frozen=True)
class TapedPlaceQuestion:
    """Two known places, such as corners, and how far the sought place lies from each."""

    outline: Outline = described(about="The room's figure")
    start: tuple[Point, Point] = described(
        about="The two places that were taped from", unit="mm", key="from", low=-FARTHEST, high=FARTHEST
    )
    distances: tuple[float, float] = length(about="Taped from the first and from the second")


@dataclass(frozen=True)
class TapedPlaceAnswer:
    """Where the place can be."""

    places: tuple[Point, ...] = height(
        about="One or two places in the room, the first at the left of the line taped from"
    )
    misses: float = length(about="By how much the tapes fail to meet, 0 where they do")
