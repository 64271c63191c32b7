"""Filling in the room document: what was mixed, placed and packed when, and how the day goes."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height, ratio, time
from evenbed.engine.document.places import Point

PLACE = (
    "A place in the section, best the one that the plan gives: it tells which section is meant, whatever the numbers "
    "are now; null: the id does"
)


@dataclass(frozen=True)
class Placement:
    """One section's mortar: when it was mixed, in place, cut off, and its channels packed."""

    section: str = described("", about="The section's id")
    mixed_at: str | None = time(None, "When it was mixed")
    placed_at: str | None = time(None, "When it was in place")
    screeded_at: str | None = time(None, "When it was cut off with the straightedge")
    channels_at: str | None = time(None, "When the channels its rails left were filled and packed")
    at: Point | None = height(None, PLACE)


@dataclass(frozen=True)
class MixedBatch:
    """One batch from the mixer."""

    mixed_at: str = time(about="When water went in")
    id: str = described("", about="Its name in this document")
    section: str | None = described(None, about="The section it is for")
    placed_at: str | None = time(None, "When the last of it was in place")
    thrown_at: str | None = time(None, "When what was left of it was thrown away")
    size: float = ratio(1.0, "How much of a full batch it is", low=0.01, high=10.0)
    at: Point | None = height(None, PLACE)


@dataclass(frozen=True)
class Stoppage:
    """A time in which nobody filled."""

    start: str = time(about="When work stopped")
    end: str | None = time(None, "When it went on, null while it has not")


@dataclass(frozen=True)
class FillDesign:
    """How the filling goes: where the mixer stands, when the day ends."""

    mixer: Point | None = height(None, "Where the mixer stands in the room; null where it stands outside")
    day_ends: str | None = time(None, "When work ends today")
