"""The order in which sections are filled: from the far end back to the way out, nobody stranded behind fresh bed."""

import heapq
from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from evenbed.engine.filling.ways import A_SECTION, Gate, Ways


@dataclass(frozen=True)
class Order:
    """`first_to_last` names pieces by their number; `walks` is how far it is from the middle of each to an exit."""

    first_to_last: tuple[int, ...]
    walks: dict[int, float]


def order_of(ways: Ways, open_floor: Collection[int]) -> Order:
    """The order of filling for the open pieces that have a way out over open ones; the others are left out.

    Of the pieces that no way out leads over, the one with the longest walk comes first. So what is still open always
    has a way out. Where the mixer stands in a section, mortar comes from there over open floor: the way out from it
    that passes the fewest sections is kept open, its own section comes next, and the way is filled walking out. That
    is as late as the mixer's section can come. What is filled before it is left by the same exit.
    """
    last = _way_from_mixer(ways, open_floor)
    gates = _gates(ways, open_floor, last)
    walks = {i: ways.walk_from(i, gate) for i, gate in gates.items()}
    first = _leaves_first(gates, walks, {*last})
    return Order((*first, *last), walks)


def _gates(ways: Ways, open_floor: Collection[int], last: tuple[int, ...]) -> dict[int, Gate]:
    """The way out from every piece; from those joined with the mixer by the exit that its own way leads to."""
    if not last:
        return ways.gates(open_floor, ways.exits)
    joined = ways.reached(open_floor, last)
    exits = [(i, at) for i, at in ways.exits if i == last[-1] or i not in joined]
    return ways.gates(open_floor, exits)


def _way_from_mixer(ways: Ways, open_floor: Collection[int]) -> tuple[int, ...]:
    """From the mixer's section to the exit by the fewest sections, of such ways the shortest; empty for none."""
    if ways.mixer is None or ways.mixer not in open_floor:
        return ()
    gates = ways.gates(open_floor, ways.exits, A_SECTION)
    way, at = [], ways.mixer if ways.mixer in gates else None
    while at is not None:
        way.append(at)
        at = gates[at].onward
    return tuple(way)


def _leaves_first(gates: dict[int, Gate], walks: dict[int, float], kept: set[int]) -> Iterator[int]:
    """All but the kept pieces, each before the one that its way out leads on to; of several the farthest first."""
    waiting = Counter(gate.onward for i, gate in gates.items() if i not in kept)
    free = [(-walks[i], i) for i in gates if i not in kept and not waiting[i]]
    heapq.heapify(free)
    while free:
        _, i = heapq.heappop(free)
        yield i
        onward = gates[i].onward
        waiting[onward] -= 1
        if onward is not None and onward not in kept and not waiting[onward]:
            heapq.heappush(free, (-walks[onward], onward))
