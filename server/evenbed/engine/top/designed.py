"""What every kind of top comes to, and the limits that all of them keep."""

from dataclasses import dataclass

from evenbed.engine.document.room import BedDesign
from evenbed.engine.top.facets import BedTop
from evenbed.engine.top.requirements import Requirement

STEEPEST = 0.5  # rise over run: more is no floor
MINIMUM_THICKNESS = {"unbonded": 31.75, "bonded": 25.4}
"""mm. Unbonded: a nominal 1 1/4 in mortar bed (tile handbooks). Bonded: 1 in, common practice, no source."""


@dataclass(frozen=True)
class DesignedTop:
    """The top, and the requirements that govern it."""

    top: BedTop
    requirements: tuple[Requirement, ...] = ()


def minimum_thickness_of(design: BedDesign) -> float:
    """The least thickness in force: the room's own, or the default of its build."""
    own = design.minimum_thickness
    return MINIMUM_THICKNESS[design.build] if own is None else own
