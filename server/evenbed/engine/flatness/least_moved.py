"""The least mortar moved so that demands hold: how much to put on or take off at each of many places.

A linear programme: least Σ cost |move| with Σ factor × move ≤ most for every demand, and no move below its lowest.
Before any demand nothing moves, which is the cheapest; demands come a few at a time, and the dual simplex method goes
on from where it was, in a tableau of the columns that are not in use (C. E. Lemke, 1954, from memory). Demands that
hold with something left over are put aside, so that the tableau stays small, and come back where they are missed.
"""

from collections.abc import Mapping, Sequence

LEAST_MISSED = 1e-9  # mm
MISSED_AGAIN = 1e-7  # mm, by a demand that was put aside
SAME = 1e-10  # a factor this small is rounding of zero
APART = 1e-6  # of a cost: places that cost the same are told apart by their order, so that no step repeats itself
MOST_STEPS = 5_000
MOST_CELLS = 3_000_000  # of the tableau gone through in all steps together
MOST_LEFT_OVER = 30  # demands with something left over that stay in the tableau

Part = tuple[int, bool]  # of a move: its place, and True for what is taken off
Row = list[float]


class NoEndError(ArithmeticError):
    """The demands keep each other from holding, rounding keeps the steps from ending, or they would be too many."""


class LeastMoved:
    """Moves of places numbered from 0, mm, + where mortar is put on.

    In the tableau each part in use, or what a demand leaves over (a number), is its slack less Σ row × parts not in
    use; prices are what those would cost.
    """

    def __init__(self, costs: Sequence[float], lowest: Sequence[float]) -> None:
        """`costs` of a mm, over 0; `lowest` moves, 0 or less, -inf where any amount may be taken off."""
        self._costs, self._lowest = costs, lowest
        self._outside: list[Part | int] = []
        self._prices: Row = []
        self._inside: list[Part | int] = []
        self._slacks: Row = []
        self._rows: list[Row] = []
        self._known: set[int] = set()
        self._bounded: set[int] = set()
        self._demands: list[tuple[dict[Part, float], float]] = []
        self._aside: list[int] = []
        self.cells = 0

    def demand(self, factors: Mapping[int, float], most: float) -> None:
        """One more demand: Σ factor × move ≤ most."""
        for n in sorted(factors.keys() - self._known):
            self._know(n)
        self._add({(n, off): -by if off else by for n, by in factors.items() for off in (False, True)}, most)

    def moves(self) -> dict[int, float]:
        """The cheapest moves that keep every demand; places that stay are left out. Raises NoEndError."""
        while True:
            self._settle()
            self._put_aside()
            found = self._found()
            low = [n for n, by in found.items() if by < self._lowest[n] - LEAST_MISSED and n not in self._bounded]
            missed = [n for n in self._aside if self._over(n, found) > MISSED_AGAIN]
            if not low and not missed:
                return found
            for n in low:
                self._bounded.add(n)
                self._add({(n, True): 1.0}, -self._lowest[n])
            for n in missed:
                self._aside.remove(n)
                self._insert(n)

    def _put_aside(self) -> None:
        """Leave demands that hold with something left over out of the tableau, where they are many."""
        held = [part for part in self._inside if isinstance(part, int)]
        if len(held) <= MOST_LEFT_OVER:
            return
        in_use = [n for n, part in enumerate(self._inside) if not isinstance(part, int)]
        self._aside += held
        self._inside = [self._inside[n] for n in in_use]
        self._slacks = [self._slacks[n] for n in in_use]
        self._rows = [self._rows[n] for n in in_use]

    def _over(self, demand: int, moves: Mapping[int, float]) -> float:
        """By how much a demand is missed; negative where it holds."""
        factors, most = self._demands[demand]
        return (
            sum(by * max(0.0, -moves.get(n, 0.0) if off else moves.get(n, 0.0)) for (n, off), by in factors.items())
            - most
        )

    def _know(self, place: int) -> None:
        self._known.add(place)
        price = self._costs[place] * (1.0 + APART * place / len(self._costs))
        for off in (False, True):
            self._outside.append((place, off))
            self._prices.append(price)
            for row in self._rows:
                row.append(0.0)

    def _add(self, factors: dict[Part, float], most: float) -> None:
        self._demands.append((factors, most))
        self._insert(len(self._demands) - 1)

    def _insert(self, demand: int) -> None:
        factors, most = self._demands[demand]
        row, slack = [factors.get(part, 0.0) if isinstance(part, tuple) else 0.0 for part in self._outside], most
        for part, part_slack, part_row in zip(self._inside, self._slacks, self._rows, strict=True):
            by = factors.get(part, 0.0) if isinstance(part, tuple) else 0.0
            if by:
                slack -= by * part_slack
                row = [a - by * b for a, b in zip(row, part_row, strict=True)]
        self._inside.append(demand)
        self._slacks.append(slack)
        self._rows.append(row)

    def _settle(self) -> None:
        """Take in what the worst missed demand asks for, the cheapest first, until none is missed."""
        for _ in range(MOST_STEPS):
            worst = min(range(len(self._slacks)), key=lambda n: self._slacks[n], default=None)
            if worst is None or self._slacks[worst] >= -LEAST_MISSED:
                return
            self._exchange(worst, self._cheapest(self._rows[worst]))
            self.cells += len(self._rows) * len(self._outside)
            if self.cells > MOST_CELLS:
                raise NoEndError(f"more than {MOST_CELLS} cells gone through")
        raise NoEndError(f"no end after {MOST_STEPS} steps")

    def _cheapest(self, row: Row) -> int:
        helping = [n for n, by in enumerate(row) if by < -SAME]
        if not helping:
            raise NoEndError("no move keeps every demand")
        return min(helping, key=lambda n: (-self._prices[n] / row[n], row[n]))

    def _exchange(self, used: int, column: int) -> None:
        lead, pivot = self._rows[used], self._rows[used][column]
        lead = [by / pivot for by in lead]
        slack, lead[column] = self._slacks[used] / pivot, 1.0 / pivot
        for n, row in enumerate(self._rows):
            by = row[column]
            if n != used and by:
                row[column] = 0.0
                self._rows[n] = [a - by * b for a, b in zip(row, lead, strict=True)]
                self._slacks[n] -= by * slack
        price, self._prices[column] = self._prices[column], 0.0
        self._prices = [a - price * b for a, b in zip(self._prices, lead, strict=True)]
        self._rows[used], self._slacks[used] = lead, slack
        self._inside[used], self._outside[column] = self._outside[column], self._inside[used]

    def _found(self) -> dict[int, float]:
        moved: dict[int, float] = {}
        for part, slack in zip(self._inside, self._slacks, strict=True):
            if isinstance(part, tuple) and slack > LEAST_MISSED:
                moved[part[0]] = moved.get(part[0], 0.0) + (-slack if part[1] else slack)
        return {n: by for n, by in moved.items() if by}
