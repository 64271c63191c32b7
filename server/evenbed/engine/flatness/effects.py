"""What places of work do to every gap and hump that was seen, so that they can be put in order."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.flatness.least_work import REACHED
from evenbed.engine.flatness.open_lines import Open
from evenbed.engine.flatness.places import Place

Changes = dict[int, float]
"""By how much each gap or hump changes, mm, by its number; what stays is left out."""


class Effects:
    """The gaps and humps of a bed, and by how much each of some places changes them."""

    def __init__(self, seen: Sequence[Open], places: Sequence[Place]) -> None:
        self.places = tuple(places)
        self._untouched = [one.excess({}) for one in seen]
        by_spot: dict[int, list[tuple[int, float]]] = defaultdict(list)
        for number, one in enumerate(seen):
            for spot, factor in one.factors.items():
                by_spot[spot].append((number, factor))
        self._changes = [_changes_by(place, by_spot) for place in places]

    def needed(self, is_whole: bool) -> list[Place]:
        """The places in order of effect, without those that nothing needs any more when the others are done.

        Where they are not `is_whole`, the order ends before a place that would make the worst worse.
        """
        ordered = list(self._in_order(is_whole))
        excess = self._after(ordered)
        for n in reversed(tuple(ordered)):
            without = list(excess)
            for number, by in self._changes[n].items():
                without[number] -= by
            if max(without, default=-math.inf) <= REACHED:
                ordered.remove(n)
                excess = without
        return [self.places[n] for n in ordered]

    def _after(self, done: Iterable[int]) -> list[float]:
        excess = list(self._untouched)
        for n in done:
            for number, by in self._changes[n].items():
                excess[number] += by
        return excess

    def _in_order(self, is_whole: bool) -> Iterator[int]:
        excess, left = list(self._untouched), list(range(len(self.places)))
        while left:
            worst_first = sorted(range(len(excess)), key=lambda number: -excess[number])
            worst, _, best = min(
                (round(_worst(excess, worst_first, self._changes[n]), 6), -self.places[n].depth, n) for n in left
            )
            if not is_whole and worst > excess[worst_first[0]] + REACHED:
                return
            left.remove(best)
            for number, by in self._changes[best].items():
                excess[number] += by
            yield best


def _changes_by(place: Place, by_spot: dict[int, list[tuple[int, float]]]) -> Changes:
    changes: Changes = defaultdict(float)
    for spot, move in place.moves.items():
        for number, factor in by_spot.get(spot, ()):
            changes[number] += factor * move
    return dict(changes)


def _worst(excess: Sequence[float], worst_first: Sequence[int], changes: Changes) -> float:
    """The worst of all when some changed."""
    stays = next((excess[number] for number in worst_first if number not in changes), -math.inf)
    return max([stays, *(excess[number] + by for number, by in changes.items())], default=-math.inf)
