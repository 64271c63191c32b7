"""A brake on guessing: wrong codes are counted per address, and too many close the door for a while."""

from collections import deque
from collections.abc import Callable
from threading import Lock
from time import monotonic

MOST_TRIES = 10
WINDOW_S = 600.0
MOST_ADDRESSES = 10_000


class TooManyTriesError(Exception):
    """Too many wrong codes from one address; `wait_s` says for how long the door stays closed."""

    def __init__(self, wait_s: int) -> None:
        self.wait_s = wait_s
        super().__init__(f"Too many wrong codes. Try again in {wait_s} s.")


class Tries:
    """Wrong codes of the last ten minutes, by address. One for each service process."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._lock = Lock()
        self._wrong: dict[str, deque[float]] = {}

    def check(self, address: str) -> None:
        """Raises TooManyTriesError while the door is closed for this address, whatever code it brings."""
        with self._lock:
            times = self._recent(address)
            if len(times) >= MOST_TRIES:
                raise TooManyTriesError(int(times[0] + WINDOW_S - self._clock()) + 1)

    def count(self, address: str) -> None:
        """One more wrong code."""
        with self._lock:
            times = self._recent(address)
            times.append(self._clock())
            self._wrong[address] = times
            if len(self._wrong) > MOST_ADDRESSES:
                self._forget_old()

    def _recent(self, address: str) -> deque[float]:
        times = self._wrong.get(address, deque())
        while times and times[0] <= self._clock() - WINDOW_S:
            times.popleft()
        return times

    def _forget_old(self) -> None:
        """Keep memory bounded: drop what has run out, or where nothing has, the address that was wrong first."""
        kept = {address: times for address, times in self._wrong.items() if self._recent(address)}
        if len(kept) > MOST_ADDRESSES:
            del kept[next(iter(kept))]
        self._wrong = kept
