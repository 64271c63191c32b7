"""Movement joints: where the floor lies, and what is known of the joints it must have."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, length, ratio
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class JointDesign:
    """What the movement joints follow from."""

    exposure: Literal["indoors", "sun_or_wet", "outdoors"] = described(
        "indoors", about="Indoors; indoors in direct sun or wet; outdoors"
    )
    spacing: float | None = length(None, "Most between joints, null for the handbook's", low=300.0, high=30_000.0)
    temperature_range: float | None = described(
        None, about="Range of temperature the floor goes through, null where unknown", unit="K", low=0.0, high=150.0
    )
    expansion: float = described(
        10.8e-6, about="Coefficient of thermal expansion of the tile", unit="1/K", low=0.0, high=1e-3
    )
    sealant_movement: float = ratio(0.25, "How far the sealant may stretch and shrink, of its width", low=0.01)
    slab_joints: tuple[tuple[Point, Point], ...] = described(
        (), about="Joints of the slab below, each from one end to the other", unit="mm", low=-1e6, high=1e6, most=200
    )
