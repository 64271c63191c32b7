"""Making a way over places shorter: stretches turned round, and a few places moved elsewhere in it."""

from collections.abc import Iterator

from evenbed.engine.walk.ways import Ways

SHORTER = 1e-6  # mm that a change must save
MOST_ROUNDS = 50
LONGEST_MOVED = 3  # places moved together


def shortened(ways: Ways, order: list[int]) -> list[int]:
    """The way after changes until none of them saves anything; its first place stays first."""
    way = _Way(ways, list(order))
    for _ in range(MOST_ROUNDS):
        if not (way.turn_stretches() | way.move_places()):
            break
    return way.order


class _Way:
    """A way that is being shortened."""

    def __init__(self, ways: Ways, order: list[int]) -> None:
        self.ways = ways
        self._take(order)

    def _take(self, order: list[int]) -> None:
        self.order = order
        self.position = {place: n for n, place in enumerate(order)}

    def _far(self, a: int, b: int | None) -> float:
        """How far it is to the next place, nothing where the way ends."""
        return 0.0 if b is None else self.ways.far(a, b)

    def _at(self, n: int) -> int | None:
        return self.order[n] if n < len(self.order) else None

    def turn_stretches(self) -> bool:
        """Turn round every stretch that shortens the way so; True where there was one."""
        changed = False
        for start in range(len(self.order) - 1):
            for end in self._ends(start):
                changed |= self._turn(start, end)
        return changed

    def _ends(self, start: int) -> Iterator[int]:
        """Where a stretch that begins after `start` may end so that one new step is short."""
        a, b = self.order[start], self.order[start + 1]
        yield from (self.position[c] for c in self.ways.neighbours[a])
        yield from (self.position[d] - 1 for d in self.ways.neighbours[b])
        yield len(self.order) - 1

    def _turn(self, start: int, end: int) -> bool:
        if end <= start + 1:
            return False
        a, b, c, d = self.order[start], self.order[start + 1], self.order[end], self._at(end + 1)
        if self._far(a, c) + self._far(b, d) >= self._far(a, b) + self._far(c, d) - SHORTER:
            return False
        turned = self.order[start + 1 : end + 1][::-1]
        self._take([*self.order[: start + 1], *turned, *self.order[end + 1 :]])
        return True

    def move_places(self) -> bool:
        """Move every few places that shorten the way so; True where there were any."""
        changed = False
        for count in range(1, LONGEST_MOVED + 1):
            for start in range(1, len(self.order) - count + 1):
                changed |= self._move(start, count)
        return changed

    def _move(self, start: int, count: int) -> bool:
        """Move `count` places from position `start` beside a neighbour of one of their ends, either way round."""
        moved, rest = self.order[start : start + count], [*self.order[:start], *self.order[start + count :]]
        before, after = self.order[start - 1], self._at(start + count)
        closed = self._far(before, after) if after is not None else 0.0
        saved = self._far(before, moved[0]) + self._far(moved[-1], after) - closed
        if saved <= SHORTER:
            return False
        for stretch in (moved, moved[::-1]):
            for n in self._gaps(stretch[0], stretch[-1], rest, start):
                following = rest[n] if n < len(rest) else None
                added = self._far(rest[n - 1], stretch[0]) + self._far(stretch[-1], following)
                if added - self._far(rest[n - 1], following) < saved - SHORTER:
                    self._take([*rest[:n], *stretch, *rest[n:]])
                    return True
        return False

    def _gaps(self, first: int, last: int, rest: list[int], start: int) -> Iterator[int]:
        """Where in the rest a stretch may go: after a neighbour of its first place or before one of its last."""
        count = len(self.order) - len(rest)

        def now(place: int) -> int:
            n = self.position[place]
            return n if n < start else n - count

        moved = set(self.order[start : start + count])
        yield from (now(c) + 1 for c in self.ways.neighbours[first] if c not in moved)
        yield from (now(c) for c in self.ways.neighbours[last] if c not in moved and now(c) > 0)
