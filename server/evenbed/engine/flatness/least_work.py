"""By how much each read place of the bed is to be raised or lowered, so that every straightedge is within its limit.

Every gap and hump is a sum of the bed's heights (`open_lines`), so the least mortar that has to be moved is a linear
programme (`least_moved`). Not all lines can be told beforehand: what is beyond its limit is demanded, the moves are
found, and the straightedge is laid anew near what moved, until nothing is beyond.
"""

import math
from collections.abc import Iterable, Sequence

from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.least_moved import LeastMoved
from evenbed.engine.flatness.open_lines import Moves, Open, OpenLines
from evenbed.engine.flatness.standards import Limit

AIM = 0.8  # of the limit: what is worked over shall not lie right at it (common practice, no source)
REACHED = 1e-3  # mm beyond the limit that rounding may leave
AT_ONCE = 12  # places demanded in one go
MOST_ROUNDS = 60


class LeastWork:
    """The moves (mm, by spot), and every gap and hump that was beyond its limit at any time while they were found."""

    def __init__(
        self, surface: BedSurface, limits: Sequence[Limit], costs: Sequence[float], lowest: Sequence[float]
    ) -> None:
        """`costs` of a mm at each spot (mm³), `lowest` move of each (mm, 0 or less)."""
        self._everything = [OpenLines(surface, limit) for limit in limits]
        self._moved = LeastMoved(costs, lowest)
        self.seen = [one for lines in self._everything for one in lines.everywhere()]
        self.moves: Moves = {}
        self._find()

    def worst(self, moves: Moves) -> float:
        """By how much the worst of what was seen is beyond its limit when spots are moved so; negative within."""
        return max((one.excess(moves) for one in self.seen), default=-math.inf)

    def holds(self, moves: Moves) -> bool:
        """True where the whole search finds nothing beyond its limit when spots are moved so.

        Else what it found is demanded too, and there are other moves.
        """
        found = _beyond((one for lines in self._everything for one in lines.worst(moves)), moves)
        self.seen += found
        if found:
            self._find()
        return not found

    def _find(self) -> None:
        for _ in range(MOST_ROUNDS):
            settled = self._settled()
            changed = [n for n in settled.keys() | self.moves.keys() if settled.get(n) != self.moves.get(n)]
            self.moves = settled
            found = _beyond((one for lines in self._everything for one in lines.near(settled, changed)), settled)
            if not found:
                break
            self.seen += found

    def _settled(self) -> Moves:
        """Moves that bring all that was seen within its limits: the worst is demanded first, a few at a time."""
        moves = self.moves
        while beyond := _beyond(self.seen, moves):
            for one in _apart(sorted(beyond, key=lambda one: -one.excess(moves))):
                self._moved.demand(one.factors, AIM * one.limit.gap - one.value)
            moves = self._moved.moves()
        return moves


def _beyond(found: Iterable[Open], moves: Moves) -> list[Open]:
    return [one for one in found if one.excess(moves) > REACHED]


def _apart(ordered: Iterable[Open]) -> list[Open]:
    """The first few that are each at a place of its own."""
    chosen: dict[tuple[object, ...], Open] = {}
    for one in ordered:
        chosen.setdefault((one.limit, round(one.at[0]), round(one.at[1])), one)
        if len(chosen) == AT_ONCE:
            break
    return list(chosen.values())
