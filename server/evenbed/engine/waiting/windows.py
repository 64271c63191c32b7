"""How wide the window of a milestone is: the shares of its need at which it begins and ends.

A window runs from `early` to `late`, shares of what is needed. A bed thicker than the nominal 1 1/4 in hardens less
evenly, so both ends move out in proportion to its thickness, at most to twice as far. A bonded bed gives water to the
subfloor, an unbonded one on its membrane keeps it: bonded, the late end moves out by a quarter more. Common practice,
no source, both of them; `early` and `late` are the room's to change.
"""

from dataclasses import dataclass
from typing import Literal

NOMINAL = 31.75  # mm: 1 1/4 in, the nominal mortar bed (as read)
WIDEST = 2.0  # times as wide as over a nominal bed, at most; no source
BONDED = 1.25  # times as far the late end of a bonded bed; no source
LEAST_OF_EARLY = 0.5  # of the early share: nearer to nothing no early end comes


@dataclass(frozen=True)
class BedKind:
    """What of the bed the waiting depends on: its thickest mortar in mm, and whether it is bonded."""

    thickness: float = NOMINAL
    build: Literal["unbonded", "bonded"] = "unbonded"

    @property
    def widening(self) -> float:
        """How many times as wide as over a nominal bed a window is: 1 to WIDEST."""
        return min(WIDEST, max(1.0, self.thickness / NOMINAL))

    def shares(self, early: float, late: float) -> tuple[float, float]:
        """The shares of the need at which a window begins (≤ 1) and ends (≥ 1)."""
        bonded = BONDED if self.build == "bonded" else 1.0
        begins = max(LEAST_OF_EARLY * early, 1.0 - (1.0 - early) * self.widening)
        return begins, 1.0 + (late - 1.0) * self.widening * bonded
