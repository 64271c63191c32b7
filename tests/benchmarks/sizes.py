"""How much the benchmarks measure: enough to compare in `make test`, and as much as a company may come to."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Sizes:
    """Readings of the rooms planned, rows of a table read in, phones back at once with so many changes, rooms pulled.

    `runs` is how often each is measured for the best of them; browsers take 200 readings a room.
    """

    readings: tuple[int, ...]
    rows: int
    runs: int
    phones: int
    changes: int
    rooms: int


FEW = Sizes(readings=(50, 200, 800), rows=5_000, runs=2, phones=20, changes=100, rooms=10)
MANY = Sizes(readings=(50, 100, 200, 400, 800, 1600, 3200), rows=20_000, runs=5, phones=200, changes=200, rooms=50)
