"""The order in which sections are filled: from the far end back to the way out, nobody stranded behind fresh bed."""

import heapq
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Ring, distance_to_ring, edges_of, signed_area

WALKABLE = 300.0  # mm of shared side that a person with a bucket passes; common practice, no source
SAME_LINE = 1e-5  # mm across which two sides count as one


@dataclass(frozen=True)
class Order:
    """`first_to_last` names pieces by their place in the list given; `is_narrow` where a way between them is."""

    first_to_last: tuple[int, ...]
    is_narrow: bool


def order_of(pieces: Sequence[Ring], exits: Sequence[Point]) -> Order:
    """The order of filling for pieces in the rails' frame (shared sides run along or across the rails).

    The longer the walk to the nearest exit, the earlier; a piece's walk leads over pieces that are nearer, so those
    still open always join up with an exit. Where sides of `WALKABLE` do not join the pieces up, narrower ones are
    taken, and the order says that it is narrow.
    """
    doors = _shared_sides(pieces)
    starts = {min(range(len(pieces)), key=lambda i: (distance_to_ring(pieces[i], at), i)) for at in exits}
    wide = _walks(pieces, [door for door in doors if door[3] >= WALKABLE], starts)
    walks = wide if len(wide) == len(pieces) else _walks(pieces, doors, starts)
    first_to_last = sorted(range(len(pieces)), key=lambda i: (-walks.get(i, math.inf), i))
    return Order(tuple(first_to_last), len(wide) < len(walks))


_Door = tuple[int, int, Point, float]  # two pieces, the middle of what they share, its length
_Side = tuple[int, float, float, float, int]  # 0 along or 1 across, where, from, to, piece


def _shared_sides(pieces: Sequence[Ring]) -> list[_Door]:
    sides = sorted(side for i, piece in enumerate(pieces) for side in _square_sides(i, piece))
    doors: list[_Door] = []
    for n, one in enumerate(sides):
        for other in _on_same_line(sides, n):
            low, high = max(one[2], other[2]), min(one[3], other[3])
            if other[4] != one[4] and high - low > SAME_LINE:
                middle = ((low + high) / 2.0, one[1]) if one[0] == 0 else (one[1], (low + high) / 2.0)
                doors.append((one[4], other[4], middle, high - low))
    return doors


def _on_same_line(sides: list[_Side], n: int) -> Iterable[_Side]:
    for m in range(n + 1, len(sides)):
        if sides[m][0] != sides[n][0] or sides[m][1] - sides[n][1] > SAME_LINE:
            return
        yield sides[m]


def _square_sides(i: int, piece: Ring) -> Iterable[_Side]:
    for (ua, va), (ub, vb) in edges_of(piece):
        if abs(va - vb) <= SAME_LINE:
            yield (0, (va + vb) / 2.0, min(ua, ub), max(ua, ub), i)
        elif abs(ua - ub) <= SAME_LINE:
            yield (1, (ua + ub) / 2.0, min(va, vb), max(va, vb), i)


def _walks(pieces: Sequence[Ring], doors: Iterable[_Door], starts: Iterable[int]) -> dict[int, float]:
    """The shortest walk from an exit to each piece that can be reached, from middle to middle through the doors."""
    middles = [_middle(piece) for piece in pieces]
    ways: dict[int, list[tuple[int, float]]] = {}
    for a, b, at, _ in doors:
        step = math.dist(middles[a], at) + math.dist(at, middles[b])
        ways.setdefault(a, []).append((b, step))
        ways.setdefault(b, []).append((a, step))
    queue, walks = [(0.0, i) for i in sorted(starts)], dict[int, float]()
    while queue:
        walk, i = heapq.heappop(queue)
        if i not in walks:
            walks[i] = walk
            for j, step in ways.get(i, []):
                heapq.heappush(queue, (walk + max(step, 1.0), j))
    return walks


def _middle(ring: Ring) -> Point:
    """The centroid of a simple ring."""
    (x0, y0), area = ring[0], signed_area(ring)
    terms = [(ax - x0, ay - y0, bx - x0, by - y0) for (ax, ay), (bx, by) in edges_of(ring)]
    mx = math.fsum((a + c) * (a * d - c * b) for a, b, c, d in terms)
    my = math.fsum((b + d) * (a * d - c * b) for a, b, c, d in terms)
    return (x0 + mx / (6.0 * area), y0 + my / (6.0 * area))
