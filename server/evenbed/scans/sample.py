"""A first look at a scan: is every number a number, and a sample of points that depends on no order.

A point is in the sample or not by its own values, so that the same points give the same sample however they are
sorted. What is judged by the sample is coarse: the unit, the placing, about where the floor lies.
"""

from dataclasses import dataclass

import numpy as np

from evenbed.scans.cloud import Block, Cloud, Numbers, Tell, Truth
from evenbed.scans.faults import ScanError

ENOUGH = 32_768
_OF_Y, _OF_Z = 0.7548776662466927, 0.5698402909980532  # no places of a lattice have one sum
_MIXER = np.uint64(0x9E3779B97F4A7C15)


@dataclass(frozen=True)
class Sample:
    """Some points of a scan in its own numbers, and how many there are in all."""

    x: Numbers
    y: Numbers
    z: Numbers
    count: int


def sample_of(cloud: Cloud, tell: Tell) -> Sample:
    """About ENOUGH points, all where there are no more. Raises ScanError where a value is no finite number."""
    parts: list[Block] = []
    seen, share = 0, ENOUGH / cloud.count
    for block in cloud.blocks():
        sums = _sums(block)
        if not (np.isfinite(sums.max()) and np.isfinite(sums.min())):
            _check_finite(block, seen)
        seen += len(block[0])
        chosen = np.flatnonzero(_is_chosen(sums, share))
        parts.append((block[0][chosen], block[1][chosen], block[2][chosen]))
        tell(seen / cloud.count)
    x, y, z = (np.concatenate(axis) for axis in zip(*parts, strict=True))
    return Sample(x, y, z, cloud.count)


def _sums(block: Block) -> Numbers:
    """A number of each point's own, which is finite only where its three values are."""
    x, y, z = block
    with np.errstate(over="ignore", invalid="ignore"):
        sums = y * _OF_Y
        sums += x
        sums += z * _OF_Z
    return sums


def _check_finite(block: Block, before: int) -> None:
    wrong = ~np.isfinite(block).all(axis=0)
    if not wrong.any():
        return
    first = int(np.argmax(wrong))
    got = ", ".join(f"{axis[first]:g}" for axis in block)
    raise ScanError("scan_not_a_number", f"point {before + first + 1}", got=got)


def _is_chosen(sums: Numbers, share: float) -> Truth:
    if share >= 1.0:
        return np.ones(len(sums), bool)
    chosen: Truth = sums.view(np.uint64) * _MIXER < np.uint64(int(share * 2**64))
    return chosen
