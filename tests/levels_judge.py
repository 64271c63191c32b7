"""An independent reckoning of a levels document: the whole design matrix, numpy's least squares and its inverses.

Nothing of the engine is used, and nothing is eliminated: every set-up, mark and place is an unknown of its own.
"""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from tests.documents import Json

Array = npt.NDArray[np.float64]
CHECKED = 1e-7  # of its variance: less redundancy is rounding
Node = tuple[Any, ...]


@dataclass(frozen=True)
class Judged:
    """Heights and standard errors by node, None where nothing ties it; residual and score by observation's id."""

    heights: dict[Node, float | None]
    sigmas: dict[Node, float | None]
    fits: dict[str, tuple[float, float] | None]
    sigma0: float | None
    redundancy: int


@dataclass(frozen=True)
class _Row:
    name: str
    start: Node
    end: Node
    value: float
    sigma: float


def judge_levels(document: Json) -> Judged:
    """The adjustment of a document whose readings and differences all have ids and standard errors above nothing."""
    known = _known(document)
    everything = _rows(document)
    part = _parts(everything)
    tied = {part[node] for node in known if node in part}
    rows = [row for row in everything if part[row.start] in tied]
    nodes = sorted({n for row in rows for n in (row.start, row.end)}, key=repr)
    held = {n: z for n, z in known.items() if n in nodes}
    free = document.get("adjustment", {}).get("datum") == "free"
    design, weights, values = _design(rows, nodes)
    heights, cofactors, unknowns = (_freely if free else _fixed)(design, weights, values, nodes, held, part)
    spread = 1.0 / weights - np.einsum("ij,jk,ik->i", design, cofactors, design)
    residuals = values - design @ heights
    redundancy = len(rows) - unknowns
    sigma0 = math.sqrt(float(residuals @ (weights * residuals)) / redundancy) if redundancy else None
    fits: dict[str, tuple[float, float] | None] = {row.name: None for row in everything}
    for n, row in enumerate(rows):
        if spread[n] * weights[n] > CHECKED:
            fits[row.name] = float(residuals[n]), float(residuals[n] / math.sqrt(spread[n]))
    sigmas = (1.0 if sigma0 is None else sigma0) * np.sqrt(np.maximum(np.diag(cofactors), 0.0))
    return Judged(_by_node(part, nodes, heights), _by_node(part, nodes, sigmas), fits, sigma0, redundancy)


def _known(document: Json) -> dict[Node, float]:
    marks = {("mark", m["id"]): m["height"] for m in document["marks"] if m.get("height") is not None}
    lines = {("setup", s["id"]): s["line_height"] for s in document["setups"] if s.get("line_height") is not None}
    return marks | lines


def _rows(document: Json) -> list[_Row]:
    setups = {s["id"]: s for s in document["setups"]}
    rows = []
    for r in document["readings"]:
        setup = setups[r["setup"]]
        end = ("mark", r["mark"]) if r.get("mark") else ("place", r.get("stage", "subfloor"), *r["at"])
        sight = math.dist(setup["at"], r["at"]) if setup.get("at") and r.get("at") else r.get("sight") or 0.0
        sigma = math.sqrt(setup["sigma"] ** 2 + (setup.get("sigma_per_metre", 0.0) * sight / 1000.0) ** 2)
        rows.append(_Row(r["id"], ("setup", r["setup"]), end, -r["down"], sigma))
    sigma_km = document.get("adjustment", {}).get("sigma_km", 1.0)
    for d in document["differences"]:
        sigma = d["sigma"] if d.get("sigma") is not None else sigma_km * math.sqrt(d["distance"] / 1e6)
        rows.append(_Row(d["id"], ("mark", d["from"]), ("mark", d["to"]), d["rise"], sigma))
    return rows


def _parts(rows: list[_Row]) -> dict[Node, int]:
    nodes = sorted({n for row in rows for n in (row.start, row.end)}, key=repr)
    number = {node: n for n, node in enumerate(nodes)}
    ends = [(number[row.start], number[row.end]) for row in rows]
    graph = coo_array((np.ones(len(ends)), tuple(zip(*ends, strict=True))), shape=(len(nodes), len(nodes)))
    labels = connected_components(graph, directed=False)[1]
    return {node: int(labels[n]) for node, n in number.items()}


def _design(rows: list[_Row], nodes: list[Node]) -> tuple[Array, Array, Array]:
    number = {node: n for n, node in enumerate(nodes)}
    design = np.zeros((len(rows), len(nodes)))
    for n, row in enumerate(rows):
        design[n, number[row.end]] += 1.0
        design[n, number[row.start]] -= 1.0
    return design, np.array([1.0 / row.sigma**2 for row in rows]), np.array([row.value for row in rows])


def _fixed(
    design: Array,
    weights: Array,
    values: Array,
    nodes: list[Node],
    held: dict[Node, float],
    _part: dict[Node, int],
) -> tuple[Array, Array, int]:
    """Known heights are no unknowns."""
    heights = np.array([held.get(n, 0.0) for n in nodes])
    open_ = [n for n, node in enumerate(nodes) if node not in held]
    root = np.sqrt(weights)
    cofactors = np.zeros((len(nodes), len(nodes)))
    if open_:
        scaled = design[:, open_] * root[:, None]
        heights[open_] = np.linalg.lstsq(scaled, root * (values - design @ heights), rcond=None)[0]
        cofactors[np.ix_(open_, open_)] = np.linalg.inv(scaled.T @ scaled)
    return heights, cofactors, len(open_)


def _freely(
    design: Array,
    weights: Array,
    values: Array,
    nodes: list[Node],
    held: dict[Node, float],
    part: dict[Node, int],
) -> tuple[Array, Array, int]:
    """Each part's known heights give way with corrections of no sum; cofactors are those of inner constraints."""
    root = np.sqrt(weights)
    heights = np.asarray(np.linalg.lstsq(design * root[:, None], root * values, rcond=None)[0], dtype=np.float64)
    normal = design.T @ (weights[:, None] * design)
    cofactors = np.zeros_like(normal)
    labels = np.array([part[n] for n in nodes])
    for label in set(labels):
        own = np.flatnonzero(labels == label)
        given = [n for n in own if nodes[n] in held]
        heights[own] += np.mean([held[nodes[n]] - heights[n] for n in given])
        cofactors[np.ix_(own, own)] = _inner(normal[np.ix_(own, own)], [nodes[n] for n in own])
    return heights, cofactors, len(nodes) - len(set(labels))


def _inner(normal: Array, nodes: list[Node]) -> Array:
    """The inverse bordered by the constraint that what shares the datum moves by nothing in sum."""
    marks = np.array([node[0] == "mark" for node in nodes])
    shared = marks if marks.any() else np.array([node[0] == "place" for node in nodes])
    border = shared.astype(float)[:, None] * np.trace(normal) / len(nodes)
    whole = np.linalg.inv(np.block([[normal, border], [border.T, np.zeros((1, 1))]]))
    return np.asarray(whole[:-1, :-1], dtype=np.float64)


def _by_node(part: dict[Node, int], nodes: list[Node], values: Array) -> dict[Node, float | None]:
    """Values of the nodes that are tied, None for all others."""
    found = {node: float(value) for node, value in zip(nodes, values, strict=True)}
    return {node: found.get(node) for node in part}
