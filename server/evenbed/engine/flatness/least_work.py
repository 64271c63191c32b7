"""By how much each read place of the bed is to be raised or lowered, so that every straightedge is within its limit.

Every gap and hump is a sum of the bed's heights (`open_lines`), so the least mortar that has to be moved is a linear
programme (`least_moved`). Not all lines can be told beforehand: what is beyond its limit is demanded, the moves are
found, and the straightedge is laid anew near what moved, until nothing is beyond.
"""

from collections.abc import Iterable, Sequence

from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.least_moved import LeastMoved, NoEndError
from evenbed.engine.flatness.open_lines import Moves, Open, OpenLines
from evenbed.engine.flatness.standards import Limit

AIM = 0.8  # of the limit: what is worked over shall not lie right at it (common practice, no source)
REACHED = 1e-3  # mm beyond the limit that rounding may leave
SAME = 1e-4  # mm: what moved so little is not looked at again
AT_ONCE = 12  # places demanded in one go
MOST_ROUNDS = 60
MOST_LOOKED = 14_000  # lines laid in all: a bed that needs more is beyond its limits nearly everywhere


class LeastWork:
    """The moves (mm, by spot), and the gaps and humps that were beyond their limit while they were found.

    `is_partly`: there was so much that the moves are of the worst alone, or not all of the bed was looked at again.
    """

    def __init__(
        self, surface: BedSurface, limits: Sequence[Limit], costs: Sequence[float], lowest: Sequence[float]
    ) -> None:
        """`costs` of a mm at each spot (mm³), `lowest` move of each (mm, 0 or less)."""
        self._everything = [OpenLines(surface, limit) for limit in limits]
        self._moved = LeastMoved(costs, lowest)
        self.is_partly = False
        self.seen = [one for lines in self._everything for one in lines.everywhere()]
        self.moves: Moves = {}
        self._find()

    @property
    def looked(self) -> int:
        """Lines laid so far."""
        return sum(lines.looked for lines in self._everything)

    @property
    def cells(self) -> int:
        """Cells of the programme's tableau gone through so far."""
        return self._moved.cells

    def see(self, moves: Moves) -> None:
        """Take note of the worst that is left when some spots are moved, though nothing else is done."""
        self.seen += [one for lines in self._everything for one in lines.worst(moves)]

    def holds(self, moves: Moves) -> bool:
        """True where the whole search finds nothing beyond its limit when spots are moved so.

        Else what it found is demanded too, and there are other moves.
        """
        found = _beyond((one for lines in self._everything for one in lines.anywhere(moves)), moves)
        self.seen += found
        if found:
            self._find()
        return not found

    def _find(self) -> None:
        for _ in range(MOST_ROUNDS):
            settled = self._settled()
            changed = [
                n
                for n in settled.keys() | self.moves.keys()
                if abs(settled.get(n, 0.0) - self.moves.get(n, 0.0)) > SAME
            ]
            self.moves = settled
            if self.is_partly or self.looked > MOST_LOOKED:
                break
            found = _beyond((one for lines in self._everything for one in lines.near(settled, changed)), settled)
            if not found:
                return
            self.seen += found
        self.is_partly = True

    def _settled(self) -> Moves:
        """Moves that bring all that was seen within its limits: the worst is demanded first, a few at a time.

        Where that is too much, those that bring within what was demanded until then.
        """
        moves = self.moves
        while beyond := _beyond(self.seen, moves):
            for one in _apart(sorted(beyond, key=lambda one: -one.excess(moves))):
                self._moved.demand(one.factors, AIM * one.limit.gap - one.value)
            try:
                moves = self._moved.moves()
            except NoEndError:
                self.is_partly = True
                return moves
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
