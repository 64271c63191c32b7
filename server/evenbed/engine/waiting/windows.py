"""How wide the window of a milestone is: the shares of its need at which it begins and ends.

A window runs from `early` to `late`, shares of what is needed. A bed thicker than the nominal 1 1/4 in hardens less
evenly, so the late end moves out in proportion to its thickness, at most to twice as far; nobody tries it any earlier
for that. A bonded bed gives water to the subfloor, an unbonded one on its membrane keeps it: bonded, the late end
moves out by a quarter more. Common practice, no source, both of them; `early` and `late` are the room's to change.
"""

from dataclasses import dataclass
from typing import Literal

NOMINAL = 31.75  # mm: 1 1/4 in, the nominal mortar bed (as read)
WIDEST = 2.0  # times as far as over a nominal bed, at most; no source
BONDED = 1.25  # times as far the late end of a bonded bed; no source


@dataclass(frozen=True)
class BedKind:
    """What of the bed the waiting depends on: its thickest mortar in mm, and whether it is bonded."""

    thickness: float = NOMINAL
    build: Literal["unbonded", "bonded"] = "unbonded"

    @property
    def widening(self) -> float:
        """How many times as far as over a nominal bed the late end lies: 1 to WIDEST."""
        return min(WIDEST, max(1.0, self.thickness / NOMINAL))

    def late_share(self, late: float) -> float:
        """The share of the need at which a window ends, `late` (≥ 1) over a nominal bed that is not bonded."""
        return 1.0 + (late - 1.0) * self.widening * (BONDED if self.build == "bonded" else 1.0)
