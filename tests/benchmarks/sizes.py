"""How much the benchmarks measure: enough to compare in `make test`, and as much as a company may come to."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Sizes:
    """Readings of the rooms planned (`long`: of the longest whose unknown is told), rows of a table read in, points
    of a floor in a scan, phones back at once with so many changes, rooms pulled.

    `runs` is how often each is measured for the best of them; browsers take 200 readings a room.
    """

    readings: tuple[int, ...]
    long: int
    rows: int
    points: int
    runs: int
    phones: int
    changes: int
    rooms: int


FEW = Sizes(readings=(50, 200, 400), long=400, rows=2_000, points=150_000, runs=2, phones=12, changes=50, rooms=5)
MANY = Sizes(
    readings=(50, 100, 200, 400, 800, 1600, 3200),
    long=1000,
    rows=20_000,
    points=680_000,
    runs=5,
    phones=200,
    changes=200,
    rooms=50,
)
