"""Nodes that measurements without any error join rigidly: they rise and fall as one body."""

from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.stood import Node

EXACT = 1e-6  # mm: a standard error no larger than this is none
AGREE = 1e-4  # mm: measurements without error may differ by their rounding, no more


@dataclass(frozen=True)
class Observation:
    """A measured difference of height, end less start, with its standard error.

    `by` is the set-up or difference that measured it, `path` where the document says so.
    """

    start: Node
    end: Node
    value: float
    sigma: float
    by: str
    path: str

    @property
    def is_exact(self) -> bool:
        """True where it has no error."""
        return self.sigma <= EXACT


@dataclass(frozen=True)
class Bodies:
    """Each node's body, numbered from 0 in the order of the nodes, and how much higher than it the node lies."""

    body: dict[Node, int]
    offset: dict[Node, float]
    count: int

    def rise(self, one: Observation) -> float:
        """How much higher the observation's end lies than its start, as far as offsets tell."""
        return self.offset[one.end] - self.offset[one.start]

    def contradiction(self, one: Observation) -> float:
        """By how much an exact observation contradicts other exact ones; 0 where it agrees."""
        by = one.value - self.rise(one) if one.is_exact else 0.0
        return by if abs(by) > AGREE else 0.0


def bodies_of(nodes: Sequence[Node], observations: Sequence[Observation]) -> Bodies:
    """What hangs together rigidly. Where exact observations contradict each other the first ones stand."""
    beside: dict[Node, list[tuple[Node, float]]] = {node: [] for node in nodes}
    for one in observations:
        if one.is_exact:
            beside[one.start].append((one.end, one.value))
            beside[one.end].append((one.start, -one.value))
    body: dict[Node, int] = {}
    offset: dict[Node, float] = {}
    count = 0
    for node in nodes:
        if node in body:
            continue
        body[node], offset[node] = count, 0.0
        queue = [node]
        for here in queue:
            for there, rise in beside[here]:
                if there not in body:
                    body[there], offset[there] = count, offset[here] + rise
                    queue.append(there)
        count += 1
    return Bodies(body, offset, count)
