"""The least-squares network of levels: every measured difference of height adjusted at once.

Each reading is a difference between a set-up's level line and the mark or place read, each levelled difference one
between two marks: a graph whose nodes have heights. First heights come along a spanning tree; what the loops miss is
spread over it with weights of one over variance (Ghilani, Adjustment Computations, chapters 11 and 12). Everything is
taken in the order of names and places, never in the order given, so that no order leaves a trace.
"""

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from evenbed.engine.datum import GROUND, Part, grounded, shared_by, shift_of, tied_parts
from evenbed.engine.elimination import Step, inverse_of, solution_of, steps_of
from evenbed.engine.rigid import Bodies, Observation, bodies_of
from evenbed.engine.stood import Node
from evenbed.engine.tree import Tree, tree_of

UNCHECKED = 1e-9  # of an observation's variance: what others tell of it beside this is rounding
MOST_LOOPS = 500  # a longer list helps nobody; `redundancy` says how many there are


@dataclass(frozen=True)
class Fit:
    """Residual (measured less adjusted) and the same over its own standard error; None where unchecked."""

    residual: float | None = None
    standardised: float | None = None


@dataclass(frozen=True)
class Loop:
    """By how much the height of `end` differs by way of the first set-up or difference and by way of the others."""

    end: Node
    by: float
    along: tuple[str, ...]


@dataclass(frozen=True)
class Adjusted:
    """The adjusted network: nodes without a height are tied to nothing.

    `sigmas` are scaled by sigma0 where there is redundancy; `is_known` is True where heights hang on known ones.
    """

    heights: dict[Node, float]
    sigmas: dict[Node, float]
    fits: dict[Observation, Fit]
    sigma0: float | None
    redundancy: int
    loops: tuple[Loop, ...]
    is_known: bool


class ContradictionError(Exception):
    """Measurements said to have no error that contradict each other: which, and by how much."""

    def __init__(self, found: Sequence[tuple[Observation, float]]) -> None:
        self.found = tuple(found)
        super().__init__("; ".join(f"{one.path} by {by}" for one, by in found))


@dataclass(frozen=True)
class _Solved:
    """The tied network worked out: bodies, misses against the tree, corrections, and the factor."""

    observations: list[Observation]
    edges: list[tuple[int, int]]
    tree: Tree
    misses: list[float]
    rises: list[float]
    corrections: list[float]
    steps: list[Step]
    place: dict[int, int]

    def residual(self, n: int) -> float:
        """Measured less adjusted."""
        start, end = self.edges[n]
        return self.misses[n] - (self.corrections[end] - self.corrections[start])

    def to_bodies(self, solved: Sequence[float]) -> list[float]:
        """Per body what is per unknown; nothing for what is held."""
        return [solved[self.place[b]] if b in self.place else 0.0 for b in range(len(self.rises))]


def adjusted(
    given: Sequence[Observation],
    known: Mapping[Node, float],
    paths: Mapping[Node, str],
    floor: Collection[Node],
    *,
    free: bool = False,
) -> Adjusted:
    """The adjustment of all observations.

    `known` heights hold, or give way where the datum is `free`: then their corrections come to nothing in sum, and
    standard errors are those of inner constraints over the marks. Without any known height the set-up read most is
    without error, and z = 0 where the highest of `floor` lies. Parts that hang on nothing have no heights.

    Raises ContradictionError, and TooTangledError (see `elimination`).
    """
    touched = {n for one in given for n in (one.start, one.end)}
    anchors = {n: z for n, z in known.items() if n in touched}
    observations = sorted(given, key=lambda one: (one.start, one.end, one.value, one.sigma, one.by))
    if not free:
        observations = grounded(anchors, paths) + observations
    parts = tied_parts(observations, anchors, floor)
    tied = sorted(n for part in parts for n in part.nodes)
    kept = set(tied)
    observations = [one for one in observations if one.start in kept]
    bodies = bodies_of(tied, observations)
    _check(bodies, observations)
    solved = _solved([one for one in observations if not one.is_exact], bodies, parts)
    return _answer(solved, bodies, parts, anchors, floor, free=free, given=given)


def _check(bodies: Bodies, observations: Sequence[Observation]) -> None:
    found = [(one, by) for one in observations if (by := bodies.contradiction(one))]
    if found:
        raise ContradictionError(found)


def _solved(observations: list[Observation], bodies: Bodies, parts: Sequence[Part]) -> _Solved:
    edges = [(bodies.body[one.start], bodies.body[one.end]) for one in observations]
    roots = [bodies.body[part.held] for part in parts]
    tree = tree_of(bodies.count, edges, roots)
    measured = [one.value - bodies.rise(one) for one in observations]
    rises = _rises(tree, measured)
    misses = [
        0.0 if tree.is_in_tree(n) else measured[n] - (rises[end] - rises[start])
        for n, (start, end) in enumerate(edges)
    ]
    place = {b: n for n, b in enumerate(b for b in range(bodies.count) if b not in set(roots))}
    weights = [1.0 / one.sigma**2 for one in observations]
    steps = _factored(edges, weights, place)
    solved = _Solved(observations, edges, tree, misses, rises, [0.0] * bodies.count, steps, place)
    for _ in range(2):  # the second time takes off what rounding left
        _correct(solved, weights)
    return solved


def _rises(tree: Tree, measured: Sequence[float]) -> list[float]:
    """Heights of the bodies along the tree, its roots at 0."""
    rises = [0.0] * len(tree.depth)
    for body in tree.order:
        reached = tree.reached_by[body]
        if reached is not None:
            sign = 1.0 if tree.edges[reached][1] == body else -1.0
            rises[body] = rises[tree.parent(body)] + sign * measured[reached]
    return rises


def _factored(edges: Sequence[tuple[int, int]], weights: Sequence[float], place: Mapping[int, int]) -> list[Step]:
    between: dict[tuple[int, int], list[float]] = {}
    for (start, end), weight in zip(edges, weights, strict=True):
        if start != end:
            one, other = sorted((place.get(start, -1), place.get(end, -1)))
            between.setdefault((one, other), []).append(weight)
    beside: list[dict[int, float]] = [{} for _ in place]
    held = [0.0] * len(place)
    for (one, other), found in sorted(between.items()):
        weight = math.fsum(found)
        if one < 0:
            held[other] = weight
        else:
            beside[one][other] = beside[other][one] = weight
    return steps_of(beside, held)


def _correct(solved: _Solved, weights: Sequence[float]) -> None:
    """Better corrections by what they leave."""
    pulls: list[list[float]] = [[] for _ in solved.place]
    for n, (start, end) in enumerate(solved.edges):
        pull = weights[n] * solved.residual(n)
        for body, sign in ((end, 1.0), (start, -1.0)):
            if start != end and body in solved.place:
                pulls[solved.place[body]].append(sign * pull)
    more = solved.to_bodies(solution_of(solved.steps, [math.fsum(p) for p in pulls]))
    for body, by in enumerate(more):
        solved.corrections[body] += by


def _answer(
    solved: _Solved,
    bodies: Bodies,
    parts: Sequence[Part],
    known: Mapping[Node, float],
    floor: Collection[Node],
    *,
    free: bool,
    given: Sequence[Observation],
) -> Adjusted:
    heights = _heights(solved, bodies, parts, known, floor)
    fits = dict.fromkeys(given, Fit())
    residuals = [solved.residual(n) for n in range(len(solved.edges))]
    square = math.fsum((v / one.sigma) ** 2 for v, one in zip(residuals, solved.observations, strict=True))
    redundancy = len(solved.edges) - len(solved.place)
    sigma0 = math.sqrt(square / redundancy) if redundancy else None
    inverse = inverse_of(solved.steps)
    scale = 1.0 if sigma0 is None else sigma0
    fits |= _fits(solved, residuals, inverse)
    sigmas = _sigmas(solved, bodies, parts, inverse, free=free)
    return Adjusted(
        heights,
        {node: scale * sigma for node, sigma in sigmas.items()},
        fits,
        sigma0,
        redundancy,
        tuple(_loops(solved)),
        any(part.held == GROUND for part in parts) or bool(known),
    )


def _heights(
    solved: _Solved, bodies: Bodies, parts: Sequence[Part], known: Mapping[Node, float], floor: Collection[Node]
) -> dict[Node, float]:
    found: dict[Node, float] = {}
    for part in parts:
        own = {}
        for node in part.nodes:
            body = bodies.body[node]
            own[node] = solved.rises[body] + solved.corrections[body] + bodies.offset[node]
        shift = shift_of(part, own, known, floor)
        found |= {node: z + shift for node, z in own.items() if node != GROUND}
    return found


def _fits(
    solved: _Solved, residuals: Sequence[float], inverse: Sequence[Mapping[int, float]]
) -> dict[Observation, Fit]:
    found = {}
    for n in sorted(solved.tree.checked()):
        one, (start, end) = solved.observations[n], solved.edges[n]
        own = 1.0 - _spread(start, end, solved.place, inverse) / one.sigma**2
        score = residuals[n] / (one.sigma * math.sqrt(own)) if own > UNCHECKED else None
        found[one] = Fit(residuals[n], score)
    return found


def _spread(start: int, end: int, place: Mapping[int, int], inverse: Sequence[Mapping[int, float]]) -> float:
    """Variance of the adjusted difference between two bodies that were observed together."""
    one, other = place.get(start), place.get(end)
    if start == end:
        return 0.0
    first = 0.0 if one is None else inverse[one][one]
    second = 0.0 if other is None else inverse[other][other]
    both = 0.0 if one is None or other is None else inverse[one][other]
    return first + second - 2.0 * both


def _sigmas(
    solved: _Solved, bodies: Bodies, parts: Sequence[Part], inverse: Sequence[Mapping[int, float]], *, free: bool
) -> dict[Node, float]:
    """Standard errors of the heights before they are scaled."""
    diagonal = solved.to_bodies([row[n] for n, row in enumerate(inverse)])
    if not free:
        return {node: math.sqrt(diagonal[bodies.body[node]]) for part in parts for node in part.nodes}
    return _freed(solved, bodies, parts, diagonal)


def _freed(solved: _Solved, bodies: Bodies, parts: Sequence[Part], diagonal: Sequence[float]) -> dict[Node, float]:
    """The same against the mean of the heights that share the datum (Baarda's S-transformation)."""
    right = [0.0] * len(solved.place)
    for part in parts:
        shared = shared_by(part)
        for node in shared:
            body = bodies.body[node]
            if body in solved.place:
                right[solved.place[body]] += 1.0 / len(shared)
    lean = solved.to_bodies(solution_of(solved.steps, right))
    found = {}
    for part in parts:
        shared = shared_by(part)
        middle = math.fsum(lean[bodies.body[node]] for node in shared) / len(shared)
        for node in part.nodes:
            body = bodies.body[node]
            found[node] = math.sqrt(max(0.0, diagonal[body] - 2.0 * lean[body] + middle))
    return found


def _loops(solved: _Solved) -> list[Loop]:
    """The loops that the observations off the tree close, the worst first, up to MOST_LOOPS."""
    off = [n for n in range(len(solved.edges)) if not solved.tree.is_in_tree(n)]
    worst = sorted(off, key=lambda n: (-abs(solved.misses[n]), n))[:MOST_LOOPS]
    return [_loop(solved, n) for n in worst]


def _loop(solved: _Solved, n: int) -> Loop:
    along: list[str] = []
    for m in (n, *solved.tree.way(*solved.edges[n])):
        by = solved.observations[m].by
        if not along or along[-1] != by:
            along.append(by)
    if len(along) > 1 and along[-1] == along[0]:
        along.pop()
    return Loop(solved.observations[n].end, solved.misses[n], tuple(along))
