"""What is still unknown of the subfloor, and where a reading would tell most."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height, length, ratio
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class NextReading:
    """A place where a reading is worth most."""

    at: Point = height(about="Where")
    sigma: float | None = length(about="Standard error of the surface there, null where it is not known")
    why: str = described(
        about="`estimated_governs`: an estimated corner decides the height or a limit; `volume`: the volume is least "
        "certain for want of it; `high_spot`: the floor may be higher there than anything read"
    )
    gain: float | None = ratio(about="Share by which it narrows the volume's range, null where that is not known")


@dataclass(frozen=True)
class Doubt:
    """How well the floor is known at one place."""

    at: Point = height(about="Where")
    sigma: float = length(about="Standard error of the subfloor there")


@dataclass(frozen=True)
class Higher:
    """How likely the true high spot stands above the highest reading by more than an amount."""

    by: float = length(about="The amount")
    probability: float = ratio(about="How likely")


@dataclass(frozen=True)
class SurfaceModel:
    """The statistical surface fitted to the readings: a plane and what wanders off it, of the variogram told here."""

    kind: str = described(about="The variogram's name")
    sill: float = length(about="Standard deviation of what wanders off the plane")
    range: float = length(about="Distance at which two places hardly tell of each other")
    nugget: float = length(about="Standard error of one reading, small unevenness with it")


@dataclass(frozen=True)
class Statistics:
    """What is still unknown of the subfloor."""

    model: SurfaceModel = described(about="The model fitted")
    doubts: tuple[Doubt, ...] = described(about="Standard errors over the floor")
    higher: tuple[Higher, ...] = described(about="The chance of a higher high spot")
    volume_range: tuple[float, float] = described(about="The bed's volume, 90 %", unit="m3")
