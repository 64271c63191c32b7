"""Sparse normal equations of height differences: elimination, solution, and the inverse where it is needed.

A network of height differences is a graph with weights: its normal matrix has the weights' sums on the diagonal and
their negatives beside it. Eliminating a node spreads its weights over its neighbours (the star becomes a mesh, in the
words of electricity), which only adds positive numbers: nothing cancels, however unlike the weights are. Nodes with
the fewest neighbours go first (Tinney and Walker, Proc. IEEE 55, 1967), so places read once cost next to nothing. The
inverse on the pattern of the factor is Takahashi's (Takahashi, Fagan and Chin, 8th PICA Conference, 1973).
"""

import heapq
import math
from dataclasses import dataclass

MOST_WORK = 3_000_000  # neighbour pairs: a second or two; no floor's network comes near it
Weights = list[dict[int, float]]


class TooTangledError(Exception):
    """A network in which so much hangs together that its elimination would take too long."""


@dataclass(frozen=True)
class Step:
    """One node eliminated: its whole weight, and its neighbours at that time with their share of it."""

    node: int
    weight: float
    shares: tuple[tuple[int, float], ...]


def steps_of(beside: Weights, held: list[float]) -> list[Step]:
    """The elimination of every node: `beside[i][j]` is the weight between two nodes, `held[i]` to what is held fixed.

    Both are used up. Every connected group needs a weight to what is held. Raises TooTangledError beyond MOST_WORK.
    """
    queue = [(len(near), n) for n, near in enumerate(beside)]
    heapq.heapify(queue)
    steps: list[Step] = []
    work, done = 0, [False] * len(beside)
    while queue:
        degree, node = heapq.heappop(queue)
        if done[node] or degree != len(beside[node]):
            continue
        work += degree * degree
        if work > MOST_WORK:
            raise TooTangledError
        done[node] = True
        steps.append(_eliminated(node, beside, held))
        for other, _ in steps[-1].shares:
            heapq.heappush(queue, (len(beside[other]), other))
    return steps


def _eliminated(node: int, beside: Weights, held: list[float]) -> Step:
    near = sorted(beside[node].items())
    weight = math.fsum([held[node], *(w for _, w in near)])
    shares = tuple((other, w / weight) for other, w in near)
    for n, (one, w) in enumerate(near):
        row = beside[one]
        del row[node]
        held[one] += held[node] * shares[n][1]
        for other, share in shares[n + 1 :]:
            both = row.get(other, 0.0) + w * share
            row[other] = both
            beside[other][one] = both
    return Step(node, weight, shares)


def solution_of(steps: list[Step], right: list[float]) -> list[float]:
    """The heights that the eliminated equations give for a right-hand side."""
    x = list(right)
    for step in steps:
        for other, share in step.shares:
            x[other] += share * x[step.node]
    for step in reversed(steps):
        x[step.node] = math.fsum([x[step.node] / step.weight, *(share * x[o] for o, share in step.shares)])
    return x


def inverse_of(steps: list[Step]) -> list[dict[int, float]]:
    """The inverse of the normal matrix: its diagonal, and every place where the factor has an entry."""
    inverse: list[dict[int, float]] = [{} for _ in steps]
    for step in reversed(steps):
        own = inverse[step.node]
        for one, _ in step.shares:
            row = inverse[one]
            own[one] = row[step.node] = math.fsum([share * row[other] for other, share in step.shares])
        own[step.node] = math.fsum([1.0 / step.weight, *(share * own[o] for o, share in step.shares)])
    return inverse
