"""What every kind of top comes to, and the limits that all of them keep."""

from dataclasses import dataclass

from evenbed.engine.bed import Mortar
from evenbed.engine.cautions import Caution
from evenbed.engine.document.room import BedDesign
from evenbed.engine.sources import Explanation
from evenbed.engine.top.facets import BedTop
from evenbed.engine.top.requirements import Requirement

STEEPEST = 0.5  # rise over run: more is no floor
MINIMUM_THICKNESS = {"unbonded": 31.75, "bonded": 25.4}
"""mm. Unbonded: a nominal 1 1/4 in mortar bed (tile handbooks). Bonded: 1 in, common practice, no source."""


@dataclass(frozen=True)
class DesignedTop:
    """The mortar under the top, what governs the top, how it explains itself, and what must be said beside it.

    Without an explanation of its own the top is a plane, and says which.
    """

    mortar: Mortar
    requirements: tuple[Requirement, ...] = ()
    explanation: Explanation | None = None
    cautions: tuple[Caution, ...] = ()

    @property
    def top(self) -> BedTop:
        """The top itself."""
        return self.mortar.top


def minimum_thickness_of(design: BedDesign) -> float:
    """The least thickness in force: the room's own, or the default of its build."""
    own = design.minimum_thickness
    return MINIMUM_THICKNESS[design.build] if own is None else own
