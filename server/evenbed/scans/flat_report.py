"""How flat a scanned bed is: every straightedge of its standard laid over all that was read."""

from evenbed.engine.document.flatness import FlatnessDesign
from evenbed.engine.document.room import Covering
from evenbed.engine.flatness.standards import limits_of
from evenbed.engine.geometry import Plane
from evenbed.scans.flat_grid import FlatGrid
from evenbed.scans.flat_numbers import numbers_from
from evenbed.scans.flat_straightedge import checked
from evenbed.scans.wishes import BedWish
from evenbed.wire.scans import FlatVerdict, ScanFlatness

WORST_FIRST: tuple[FlatVerdict, ...] = ("beyond", "too_noisy", "too_sparse", "within")


def flatness_of(grid: FlatGrid, floor: Plane, wish: BedWish, longest: float) -> ScanFlatness:
    """The report on a scanned bed against the limits that were wished for. `floor` is what its heights stand on.

    `longest` is the longest straightedge that fits the room, mm.
    """
    usual = FlatnessDesign()
    design = FlatnessDesign(wish.standard or usual.standard, wish.own)
    limits = limits_of(design, wish.longest_edge or Covering().longest_edge).fitting(longest)
    checks = [checked(grid, row) for row in limits.rows]
    verdicts = {check.verdict for check in checks if check.decides}
    verdict = next((one for one in WORST_FIRST if one in verdicts), None)
    numbers = numbers_from(grid, floor)
    return ScanFlatness(standard=design.standard, verdict=verdict, checks=checks, f_numbers=numbers)
