"""How far apart joints may be and how wide they must be, as published and by the movement itself.

Published: tile handbook, detail EJ171, as quoted in trade journals. Editions differ.
"""

import math
from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.joints import JointDesign

FOOT, INCH = 304.8, 25.4  # mm
EDITION = "Tile handbook, detail EJ171, as quoted in trade journals"
PERIMETER = 0.25 * INCH  # from memory
INDOORS = 0.25 * INCH
OUTDOORS = ((8.0 * FOOT, 0.375 * INCH), (12.0 * FOOT, 0.5 * INCH))
ORDINARY_RANGE = 100.0 / 1.8  # K; 100 °F
RANGE_STEP, WIDER = 15.0 / 1.8, INCH / 16.0  # each 15 °F more asks for so much more width
ROUNDING = 1e-9  # of a step

Exposure = Literal["indoors", "sun_or_wet", "outdoors"]
SPACINGS: dict[Exposure, tuple[float, float]] = {
    "indoors": (20.0 * FOOT, 25.0 * FOOT),
    "sun_or_wet": (8.0 * FOOT, 12.0 * FOOT),
    "outdoors": (8.0 * FOOT, 12.0 * FOOT),
}


@dataclass(frozen=True)
class JointWidth:
    """Width of a joint, mm: as published, by the movement (None where no range is known), and that movement."""

    published: float
    by_movement: float | None
    movement: float | None

    @property
    def governing(self) -> float:
        """The greater of the two."""
        return max(self.published, self.by_movement or 0.0)

    @property
    def governs(self) -> str:
        """Which of the two is greater."""
        return "movement" if self.governing > self.published else "published"


def width_from(design: JointDesign, spacing: float, longest_panel: float) -> JointWidth:
    """The width for joints `spacing` mm apart and a longest panel of so many mm."""
    published = published_width(design.exposure, spacing, design.temperature_range)
    if design.temperature_range is None:
        return JointWidth(published, None, None)
    movement = movement_of(longest_panel, design.temperature_range, design.expansion)
    return JointWidth(published, movement / design.sealant_movement, movement)


def published_width(exposure: Exposure, spacing: float, temperature_range: float | None) -> float:
    """The handbook's width, mm.

    Outdoors 3/8 in for joints up to 8 ft apart, 1/2 in at 12 ft, in proportion between and beyond, and 1/16 in more
    for each 15 °F, begun ones counted, by which the range (K) passes 100 °F; indoors 1/4 in. An unknown range counts
    as one of no more than 100 °F.
    """
    if exposure != "outdoors":
        return INDOORS
    (near, narrow), (far, wide) = OUTDOORS
    ordinary = narrow + max(0.0, spacing - near) / (far - near) * (wide - narrow)
    over = max(0.0, (temperature_range or 0.0) - ORDINARY_RANGE)
    return ordinary + WIDER * math.ceil(over / RANGE_STEP - ROUNDING)


def movement_of(panel: float, temperature_range: float, expansion: float) -> float:
    """How much a panel of so many mm grows over a range in K: ΔL = α L ΔT, α in 1/K."""
    return expansion * panel * temperature_range
