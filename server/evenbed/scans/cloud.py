"""A cloud of points that can be gone through in blocks as often as it takes, and never is in memory as a whole."""

import tempfile
from collections.abc import Callable, Iterator
from types import TracebackType
from typing import Protocol, Self

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Whole = NDArray[np.int64]
Short = NDArray[np.int32]
Truth = NDArray[np.bool_]
Block = tuple[Numbers, Numbers, Numbers]
"""The x, y and z of some points, in the file's own numbers."""
Tell = Callable[[float], None]
"""Told how far something has come, from 0 to 1."""
BLOCK = 65_536  # points
MOST_POINTS = 20_000_000


class Cloud(Protocol):
    """What every format becomes."""

    @property
    def count(self) -> int:
        """How many points there are."""

    def blocks(self) -> Iterator[Block]:
        """All points from the first, some at a time."""


class Spool:
    """Points read from text, kept as numbers in a file without a name that is gone when it is closed."""

    def __init__(self) -> None:
        self._file = tempfile.TemporaryFile()  # noqa: SIM115 - closed by __exit__
        self._sizes: list[int] = []

    @property
    def count(self) -> int:
        """How many points are in it."""
        return sum(self._sizes)

    def add(self, rows: Numbers) -> None:
        """Put points in: one a row, x, y and z."""
        for start in range(0, len(rows), BLOCK):
            part = np.ascontiguousarray(rows[start : start + BLOCK].T)
            self._file.write(part.tobytes())
            self._sizes.append(part.shape[1])

    def blocks(self) -> Iterator[Block]:
        """All points from the first."""
        self._file.seek(0)
        for size in self._sizes:
            x, y, z = np.frombuffer(self._file.read(24 * size)).reshape(3, size)
            yield x, y, z

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_why: type[BaseException] | BaseException | TracebackType | None) -> None:
        self._file.close()
