"""So many at once, and no more: whoever comes beyond that is told to come again."""

import threading
from collections.abc import Iterator
from contextlib import contextmanager


class Places:
    """For work that takes much memory or disk."""

    def __init__(self, most: int) -> None:
        self._free = threading.BoundedSemaphore(most)

    @contextmanager
    def place(self) -> Iterator[bool]:
        """False where all are taken."""
        has_place = self._free.acquire(blocking=False)
        try:
            yield has_place
        finally:
            if has_place:
                self._free.release()
