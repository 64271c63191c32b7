"""The tops of bed that can be asked for. Heights are z in mm, falls ratios."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length, ratio
from evenbed.engine.document.places import Point, Point3


@dataclass(frozen=True)
class LevelTop:
    """A level top, at a height or at the lowest that keeps the minimum thickness."""

    kind: Literal["level"] = described("level", about="A level top")
    height: float | None = height(None, "z of the top, or null for the lowest that keeps the minimum thickness")


@dataclass(frozen=True)
class PlaneTop:
    """A plane top through given points: three, or more of one plane; through two it leans along them only."""

    through: tuple[Point3, ...] = height(about="Points the top passes through")
    kind: Literal["plane"] = described("plane", about="A plane top")


@dataclass(frozen=True)
class Held:
    """One place where the finished floor is held: at a doorway, a fixture or anywhere.

    Without `low` and `high` the finished floor meets what is there: the floor beyond the doorway, the fixture's top.
    """

    opening: str | None = described(None, about="Id of the doorway; held along its whole opening")
    fixture: str | None = described(None, about="Id of the fixture")
    at: Point | None = height(None, "Or any place in the room")
    low: float | None = height(None, "Lowest finished floor allowed there, z")
    high: float | None = height(None, "Highest finished floor allowed there, z")


@dataclass(frozen=True)
class LeastTop:
    """The plane that uses the least mortar of all that keep the thickness, the held heights and the largest fall."""

    kind: Literal["least_mortar"] = described("least_mortar", about="The plane that uses the least mortar")
    holds: tuple[Held, ...] = described((), about="Heights the finished floor must meet")
    largest_fall: float | None = ratio(None, "Steepest the top may be, null for the steepest that is still a floor")


@dataclass(frozen=True)
class DrainTop:
    """A top that falls to a drain: round (level along the walls) or linear (level along the drain)."""

    drain: str = described(about="Id of the drain")
    fall: float = ratio(about="Least fall towards it", low=0.001, high=0.5)
    kind: Literal["to_drain"] = described("to_drain", about="Falls to a drain")
    perimeter: float | None = height(
        None, "z of the top of bed along the walls, null for the lowest that keeps the fall everywhere"
    )


@dataclass(frozen=True)
class TwoLevelTop:
    """Two levels with a ramp between; the line is the ramp's lower or upper edge on the left-hand side."""

    line: tuple[Point, Point] = height(about="Where the left level ends; left as seen along it")
    left: float = height(about="z of the top to the left of the line")
    right: float = height(about="z of the top beyond the ramp")
    ramp: float = length(about="How wide the ramp is, across the line; it lies to the right of it")
    kind: Literal["two_levels"] = described("two_levels", about="Two levels with a ramp between")


Top = LevelTop | PlaneTop | LeastTop | DrainTop | TwoLevelTop
