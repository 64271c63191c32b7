"""A spanning tree of the network: first heights along it, what it leaves unchecked, and the loops that close it."""

from collections.abc import Sequence
from dataclasses import dataclass

Edge = tuple[int, int]  # the bodies at an observation's start and end


@dataclass(frozen=True)
class Tree:
    """For each body the observation it was reached by (None at a root) and how many steps it is from its root."""

    edges: Sequence[Edge]
    reached_by: list[int | None]
    depth: list[int]
    order: list[int]

    def parent(self, body: int) -> int:
        """The body this one was reached from; itself at a root."""
        reached = self.reached_by[body]
        if reached is None:
            return body
        start, end = self.edges[reached]
        return start if end == body else end

    def is_in_tree(self, n: int) -> bool:
        """True where the observation is one of the tree's own."""
        start, end = self.edges[n]
        return start != end and n in (self.reached_by[start], self.reached_by[end])

    def way(self, start: int, end: int) -> list[int]:
        """The tree's observations from one body to another of the same root."""
        up: list[int] = []
        down: list[int] = []
        while start != end:
            climbs_start = self.depth[start] >= self.depth[end]
            here, side = (start, up) if climbs_start else (end, down)
            reached = self.reached_by[here]
            side += [] if reached is None else [reached]
            start, end = (self.parent(here), end) if climbs_start else (start, self.parent(here))
        return up + down[::-1]

    def checked(self) -> set[int]:
        """The observations that some loop checks; on the others everything beyond them hangs alone."""
        found: set[int] = set()
        above = list(range(len(self.depth)))  # for each body the highest one reached by covered observations alone
        for n, (start, end) in enumerate(self.edges):
            if self.is_in_tree(n):
                continue
            found.add(n)
            found |= self._covered(above, _top(above, start), _top(above, end))
        return found

    def _covered(self, above: list[int], one: int, other: int) -> set[int]:
        """The observations on the way between two bodies that no loop covered before."""
        found = set()
        while one != other:
            low, high = (one, other) if self.depth[one] >= self.depth[other] else (other, one)
            reached = self.reached_by[low]
            found |= set() if reached is None else {reached}
            above[low] = self.parent(low)
            one, other = _top(above, low), high
        return found


def _top(above: list[int], body: int) -> int:
    while above[body] != body:
        above[body] = above[above[body]]
        body = above[body]
    return body


def tree_of(count: int, edges: Sequence[Edge], roots: Sequence[int]) -> Tree:
    """The tree reached breadth first from the roots in their order, each taking its observations in their order.

    Every body must hang together with one of the roots.
    """
    beside: list[list[tuple[int, int]]] = [[] for _ in range(count)]
    for n, (start, end) in enumerate(edges):
        beside[start].append((end, n))
        beside[end].append((start, n))
    tree = Tree(edges, [None] * count, [0] * count, list(roots))
    seen = set(roots)
    for here in tree.order:
        for there, n in beside[here]:
            if there not in seen:
                seen.add(there)
                tree.reached_by[there] = n
                tree.depth[there] = tree.depth[here] + 1
                tree.order.append(there)
    return tree


def parts_of(count: int, edges: Sequence[Edge]) -> list[int]:
    """For each body the least body that it hangs together with."""
    above = list(range(count))
    for start, end in edges:
        one, other = sorted((_top(above, start), _top(above, end)))
        above[other] = one
    return [_top(above, body) for body in range(count)]
