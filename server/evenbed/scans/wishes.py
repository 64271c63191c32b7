"""How a person wants a scan to be read."""

from dataclasses import dataclass

from evenbed.wire.scans import Placing, UnitWish, Up

Two = tuple[float, float, float, float]
MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}


@dataclass(frozen=True)
class Wishes:
    """`cell` is the side of a cell in mm, None for one that suits the room. The two places as x, y, x, y."""

    unit: UnitWish = "auto"
    placing: Placing = "as_it_is"
    up: Up = "z"
    cell: float | None = None
    minimum_points: int = 8
    in_scan: Two | None = None
    in_room: Two | None = None
