"""Moves: the lies of the strip along a rail, from its far end to the way out."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.rails.lines import ROUNDING
from evenbed.engine.rails.shapes import Setting
from evenbed.engine.region import Interval

LEAST_MOVE = 100.0  # mm that a strip moves on: less is a slip of the finger


@dataclass(frozen=True)
class Run:
    """A stretch of a rail without a break that ends strips, from mm to mm, and the strip that it is made of."""

    start: float
    end: float
    strip: float
    on_hand: int | None

    @property
    def size(self) -> float:
        """Its length, mm."""
        return self.end - self.start


def move_of(strip: float, overlap: float) -> float:
    """How far a strip moves on where `overlap` of it stays in finished bed, all mm; a little, however short it is."""
    return max(LEAST_MOVE, strip - overlap)


def moves_along(size: float, strip: float, overlap: float) -> int:
    """How often a strip is moved on a stretch of `size` mm, each time keeping `overlap` mm of it in finished bed.

    0 where the stretch is no longer than the strip; the overlap must be less than the strip.
    """
    return max(0, math.ceil((size - strip) / (strip - overlap) - 1e-9)) if size > strip else 0


def settings_along(
    runs: Sequence[Run], alongs: Sequence[float], overlap: float, *, is_start_far: bool
) -> tuple[Setting, ...]:
    """The lies of a rail's strips, first to last, from the far end of the rail to the other.

    `runs` are in order from the rail's beginning, `alongs` its stations. Within a run each lie keeps at least
    `overlap` of the one before, the moves being even; the first lie of a run, at the rail's end or after a break,
    keeps none. A run no longer than its strip has one lie, a strip cut to length.
    """
    ordered = runs if is_start_far else runs[::-1]
    lies = [each for run in ordered for each in _lies(run, overlap, is_start_far)]
    return tuple(
        Setting(n + 1, *lie, _under(alongs, lie, is_start_far), kept, strip=run.on_hand)
        for n, (lie, kept, run) in enumerate(lies)
    )


def _lies(run: Run, overlap: float, is_start_far: bool) -> Iterator[tuple[Interval, float, Run]]:
    """From where to where the strip lies each time, and how much of the lie before it keeps."""
    moves = moves_along(run.size, run.strip, overlap)
    starts = [run.start + (run.size - run.strip) * n / moves for n in range(moves + 1)] if moves else [run.start]
    lies = [(start, min(run.end, start + run.strip)) for start in starts]
    ordered = lies if is_start_far else lies[::-1]
    yield ordered[0], 0.0, run
    for a, b in pairwise(ordered):
        yield b, min(a[1], b[1]) - max(a[0], b[0]), run


def _under(alongs: Sequence[float], lie: Interval, is_start_far: bool) -> tuple[int, ...]:
    """Stations under the strip, from the far end on; they stand in order, and in a long rail there are many."""
    under = range(bisect_left(alongs, lie[0] - ROUNDING), bisect_right(alongs, lie[1] + ROUNDING))
    return tuple(under if is_start_far else reversed(under))
