"""Rails cut down to where they serve something, and left out where that is less than laying them is worth."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence

from evenbed.engine.rails.cover import Cross, Reach, bands_of, crosses_of
from evenbed.engine.rails.lines import LEAST_RAIL, ROUNDING, Floor, Piece

NEGLIGIBLE = 0.001e6  # mm²: a slab's share that calls for no rail; walls a hair out of square make such slabs
WORTH_LAYING = 0.4e6  # mm²: hand work that is spared by laying a strip once more; common practice, no source
SMALL_ROOM = 0.1  # of a floor: so much of it is worth that too, where it is less
NEIGHBOURS = 3  # on each side of a rail: what rails further off serve does not hang on it


def worth_laying(floor: Floor) -> float:
    """How much hand work one more lie of a strip must spare on this floor, mm²."""
    return min(WORTH_LAYING, SMALL_ROOM * floor.region.area)


def trimmed(floor: Floor, pieces: Sequence[Piece], spare: Sequence[int], reach: Reach) -> list[Piece]:
    """The pieces cut down to where they are needed; those not worth laying are left out.

    `spare` names the order in which pieces are tried. A piece is needed where without it more of the floor would be
    left to hand work, and worth laying where all of that is worth the strips' lies.
    """
    runs = _runs_of(crosses_of(floor, pieces))
    kept = dict(enumerate(pieces))
    for i in spare:
        gains = [(cross, _spared_by(cross, pieces, i, reach)) for cross in runs[i]]
        shorter = _cut_down(pieces[i], [cross for cross, gain in gains if gain > NEGLIGIBLE])
        is_worth_it = shorter and math.fsum(g for _, g in gains) >= worth_laying(floor) * reach.lies(shorter.length)
        if shorter and is_worth_it:
            kept[i] = shorter
        else:
            del kept[i]
        for cross in runs[i]:
            if i not in kept or not _holds(kept[i], cross):
                cross.rails.remove(i)
    return [kept[i] for i in sorted(kept)]


def needless(crosses: Sequence[Cross], pieces: Sequence[Piece], reach: Reach) -> Iterator[int]:
    """Pieces without which hardly more is left to hand work; each is taken out of the stretches as it is found."""
    runs = _runs_of(crosses)
    for i in range(len(pieces)):
        if math.fsum(_spared_by(cross, pieces, i, reach) for cross in runs[i]) <= NEGLIGIBLE:
            for cross in runs[i]:
                cross.rails.remove(i)
            yield i


def _runs_of(crosses: Sequence[Cross]) -> dict[int, list[Cross]]:
    runs: dict[int, list[Cross]] = defaultdict(list)
    for cross in crosses:
        for i in cross.rails:
            runs[i].append(cross)
    return runs


def _spared_by(cross: Cross, pieces: Sequence[Piece], i: int, reach: Reach) -> float:
    """How much of a stretch, mm², is served with rail `i` and would not be without it."""
    n = cross.rails.index(i)
    near = cross.rails[max(0, n - NEIGHBOURS) : n + NEIGHBOURS + 1]
    with_it = _served(cross, [pieces[k].v for k in near], reach)
    return with_it - _served(cross, [pieces[k].v for k in near if k != i], reach)


def _served(cross: Cross, vs: Sequence[float], reach: Reach) -> float:
    low, high = (cross.low.start + cross.low.end) / 2.0, (cross.high.start + cross.high.end) / 2.0
    bands = bands_of(vs, cross.posts, reach)
    return (cross.end - cross.start) * math.fsum(max(0.0, min(high, b) - max(low, a)) for a, b in bands)


def _cut_down(piece: Piece, needed: list[Cross]) -> Piece | None:
    """The piece from first need to last, long enough for a rail; None where it is not needed."""
    if not needed:
        return None
    start, end = max(piece.start, needed[0].start), min(piece.end, needed[-1].end)
    lack = max(0.0, LEAST_RAIL - (end - start))
    end = min(piece.end, max(end + lack / 2.0, piece.start + LEAST_RAIL))
    start = max(piece.start, min(start, end - LEAST_RAIL))
    return Piece(piece.v, start, end)


def _holds(piece: Piece, cross: Cross) -> bool:
    return piece.start <= cross.start + ROUNDING and cross.end - ROUNDING <= piece.end
