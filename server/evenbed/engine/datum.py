"""What heights are counted from: the parts of a network that are tied to it, and how they are shifted to it."""

import math
from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from evenbed.engine.rigid import Observation
from evenbed.engine.stood import Node
from evenbed.engine.tree import parts_of

GROUND = Node("", "")  # where z = 0: every known height is an exact difference from it


@dataclass(frozen=True)
class Part:
    """Nodes that hang together, in order, and the one that is held while the others are worked out."""

    nodes: tuple[Node, ...]
    held: Node


def grounded(known: Mapping[Node, float], paths: Mapping[Node, str]) -> list[Observation]:
    """Known heights as exact differences from the ground."""
    return [Observation(GROUND, node, z, 0.0, "", paths[node]) for node, z in sorted(known.items())]


def tied_parts(observations: Sequence[Observation], known: Collection[Node], floor: Collection[Node]) -> list[Part]:
    """The parts that hang on a known height; where none is known the largest part alone.

    The largest has most places of the floor, then most observations. Without the ground, the set-up with most
    observations is held (a mark or place where there is no set-up).
    """
    nodes = sorted({n for one in observations for n in (one.start, one.end)})
    number = {node: n for n, node in enumerate(nodes)}
    part = parts_of(len(nodes), [(number[one.start], number[one.end]) for one in observations])
    members: dict[int, list[Node]] = {}
    for node in nodes:
        members.setdefault(part[number[node]], []).append(node)
    counts = Counter(n for one in observations for n in (one.start, one.end))
    tied = [m for m in members.values() if any(n in known or n == GROUND for n in m)]
    if not tied and members:
        tied = [min(members.values(), key=lambda m: _smallness(m, counts, floor))]
    return [Part(tuple(m), min(m, key=lambda n: _lightness(n, counts))) for m in tied]


def _smallness(nodes: list[Node], counts: Counter[Node], floor: Collection[Node]) -> tuple[int, int, Node]:
    return -sum(n in floor for n in nodes), -sum(counts[n] for n in nodes), nodes[0]


def _lightness(node: Node, counts: Counter[Node]) -> tuple[bool, bool, int, Node]:
    return node != GROUND, node.kind != "setup", -counts[node], node


def shift_of(
    part: Part, heights: Mapping[Node, float], known: Mapping[Node, float], floor: Collection[Node]
) -> float:
    """What is to be added to all heights of a part.

    Nothing on the ground; else so much that the known heights' corrections come to nothing in sum; without any, that
    z = 0 is the highest place of the floor, or the highest mark where no floor was read.
    """
    if part.held == GROUND:
        return 0.0
    given = [known[n] - heights[n] for n in part.nodes if n in known]
    if given:
        return math.fsum(given) / len(given)
    return -max(_from_which(heights, part.nodes, floor))


def _from_which(heights: Mapping[Node, float], nodes: Iterable[Node], floor: Collection[Node]) -> list[float]:
    on_floor = [heights[n] for n in nodes if n in floor]
    return on_floor or [heights[n] for n in nodes if n.kind != "setup"]


def shared_by(part: Part) -> list[Node]:
    """The heights among which a free datum spreads: the part's marks, or its places where it has no marks."""
    return [n for n in part.nodes if n.kind == "mark"] or [n for n in part.nodes if n.kind == "place"]
