"""How a person wants a scan to be read."""

from dataclasses import dataclass

from evenbed.engine.document.flatness import GapLimit, Standard
from evenbed.wire.scans import Placing, ReadingStage, UnitWish, Up

Two = tuple[float, float, float, float]
MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}


@dataclass(frozen=True)
class BedWish:
    """Against which limits a finished bed is held: a standard's, or the company's `own`. Some go by the tile.

    `longest_edge` is the tile's, mm. None: as the room has it, or else the usual.
    """

    standard: Standard | None = None
    longest_edge: float | None = None
    own: tuple[GapLimit, ...] = ()


@dataclass(frozen=True)
class Wishes:
    """`cell` is the side of a cell in mm, None for one that suits the room. The two places as x, y, x, y.

    `bed` where the finished bed was scanned, None for a subfloor.
    """

    unit: UnitWish = "auto"
    placing: Placing = "as_it_is"
    up: Up = "z"
    cell: float | None = None
    minimum_points: int = 8
    in_scan: Two | None = None
    in_room: Two | None = None
    bed: BedWish | None = None

    @property
    def stage(self) -> ReadingStage:
        """What was scanned."""
        return "subfloor" if self.bed is None else "bed"
