"""A brake on guessing: tries with a code are counted by address, and too many wrong ones close the door for a while.

A code is one of 30^8 (39 bits), holds for a day at most and costs the service a slow hash to look up. Ten tries in
ten minutes from each of ten thousand addresses would find a given code within its day with a chance of 1 in 45 000.
So the count is kept in memory, by each process of the service for itself: two processes let twice as many through, a
new start begins anew, and neither matters against these odds.

The address is that of the connection, or what a proxy on this machine says it is; what others write into a header is
not believed. Whoever has one IPv6 address has a whole /64 of them: they count as one.
"""

from collections import deque
from collections.abc import Callable
from ipaddress import IPv6Address, ip_address
from threading import Lock
from time import monotonic

MOST_TRIES = 10
WINDOW_S = 600.0
MOST_ADDRESSES = 10_000
OWN_BITS = 64


class TooManyTriesError(Exception):
    """Too many wrong codes from one address; `wait_s` says for how long the door stays closed."""

    def __init__(self, wait_s: int) -> None:
        self.wait_s = wait_s
        super().__init__(f"Too many wrong codes. Try again in {wait_s} s.")


class Tries:
    """Tries of the last ten minutes that were wrong or are not answered yet, by address. One for each process."""

    def __init__(self, clock: Callable[[], float] = monotonic) -> None:
        self._clock = clock
        self._lock = Lock()
        self._taken: dict[str, deque[float]] = {}

    def take(self, address: str) -> None:
        """One more try, counted before it is answered: a crowd of them at once gets no further than one by one.

        Raises TooManyTriesError while the door is closed for this address, whatever code it brings.
        """
        with self._lock:
            times = self._recent(whose(address))
            if len(times) >= MOST_TRIES:
                raise TooManyTriesError(int(times[0] + WINDOW_S - self._clock()) + 1)
            times.append(self._clock())
            self._taken[whose(address)] = times
            if len(self._taken) > MOST_ADDRESSES:
                self._forget_old()

    def give_back(self, address: str) -> None:
        """The try was no guess: the code was right."""
        with self._lock:
            times = self._recent(whose(address))
            if times:
                times.pop()

    def _recent(self, address: str) -> deque[float]:
        times = self._taken.get(address, deque())
        while times and times[0] <= self._clock() - WINDOW_S:
            times.popleft()
        return times

    def _forget_old(self) -> None:
        """Keep memory bounded: drop what has run out, or where nothing has, the address that was wrong first."""
        kept = {address: times for address, times in self._taken.items() if self._recent(address)}
        if len(kept) > MOST_ADDRESSES:
            del kept[next(iter(kept))]
        self._taken = kept


def whose(address: str) -> str:
    """Who is behind an address: itself, or the network of an IPv6 one; what is no address stands for itself."""
    try:
        parsed = ip_address(address)
    except ValueError:
        return address
    if not isinstance(parsed, IPv6Address) or parsed.ipv4_mapped:
        return address
    return str(IPv6Address(int(parsed) >> OWN_BITS << OWN_BITS))
