"""A first look at a scan: is every number a number, and a sample of points that depends on no order.

A point is in the sample or not by its own values, so that the same points give the same sample however they are
sorted. What is judged by the sample is coarse: the unit, the placing, about where the floor lies.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from evenbed.scans.cloud import Block, Cloud, Numbers, Tell, Truth
from evenbed.scans.faults import ScanError

ENOUGH = 32_768
_MIXERS = tuple(np.uint64(odd) for odd in (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9))


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
        _check_finite(block, seen)
        seen += len(block[0])
        chosen = _is_chosen(block, share) if share < 1.0 else slice(None)
        parts.append((block[0][chosen], block[1][chosen], block[2][chosen]))
        tell(seen / cloud.count)
    x, y, z = (np.concatenate(axis) for axis in zip(*parts, strict=True))
    return Sample(x, y, z, cloud.count)


def _check_finite(block: Block, before: int) -> None:
    if all(np.isfinite(axis.min()) and np.isfinite(axis.max()) for axis in block):
        return
    wrong = ~np.isfinite(block).all(axis=0)
    first = int(np.argmax(wrong))
    got = ", ".join(f"{axis[first]:g}" for axis in block)
    raise ScanError("scan_not_a_number", f"point {before + first + 1}", got=got)


def _is_chosen(block: Block, share: float) -> Truth:
    mixed: NDArray[np.uint64] = block[0].view(np.uint64) * _MIXERS[0]
    mixed += block[1].view(np.uint64) * _MIXERS[1]
    mixed += block[2].view(np.uint64) * _MIXERS[2]
    mixed *= _MIXERS[0]
    chosen: Truth = mixed < np.uint64(int(share * 2**64))
    return chosen
