"""Readings with a level on rails that stand side by side, and what is trued from them."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from evenbed.engine.document.rails import Check, RailDesign, Truing
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.truing.trued import Trued, trued_from
from tests.bedded import STRAIGHTEDGE, document_of, straight_rail


def room_of_rails(rng: random.Random) -> list[Rail]:
    """Rails askew in the room, their tops bent at every station."""
    return [
        straight_rail(
            "ABCDEF"[n],
            (rng.uniform(0, 500), 1500.0 * n + rng.uniform(0, 200)),
            (rng.uniform(2000, 5000), 1500.0 * n + rng.uniform(0, 200)),
            [rng.uniform(-40, 40) for _ in range(rng.randint(2, 6))],
        )
        for n in range(rng.randint(1, 6))
    ]


def random_check(rng: random.Random, name: str, rails: Sequence[Rail]) -> Check:
    """A reading anywhere, along a rail or across two, of any level."""
    one, other = rng.choice(rails), rng.choice(rails)
    where = {"rail": one.id} if one is other else {"rails": (one.id, other.id)}
    start = rng.uniform(0, math.dist(one.start, one.end) / 2 - 200)
    end = rng.uniform(math.dist(other.start, other.end) / 2, math.dist(other.start, other.end))
    return Check(
        name,
        **where,
        start=start,
        end=end,
        off=rng.gauss(0, 5),
        length=rng.choice([0.0, 600.0, 1200.0, 1800.0]),
        reversed_off=rng.choice([None, rng.gauss(0, 5)]),
        level=rng.choice(["", "long"]),
    )


def side_by_side(count: int = 3, length: float = 1800.0, apart: float = 1500.0) -> list[Rail]:
    return [straight_rail("ABCDEFGH"[n], (0.0, apart * n), (length, apart * n)) for n in range(count)]


def along(rail: str, off: float, turned_off: float | None = None, **more: object) -> Check:
    return replace(Check(f"along {rail}", rail=rail, start=0.0, end=1800.0, off=off, reversed_off=turned_off), **more)  # type: ignore[arg-type]


def across(one: str, other: str, at: float, off: float, turned_off: float | None = None, **more: object) -> Check:
    check = Check(f"{one}{other} {at}", rails=(one, other), start=at, end=at, off=off, reversed_off=turned_off)
    return replace(check, **more)  # type: ignore[arg-type]


def everything(rails: Sequence[Rail], heights: dict[str, tuple[float, float]]) -> list[Check]:
    """Every rail along, every pair across at both ends and in the middle, without any error, both ways round."""
    found = []
    for rail in rails:
        start, end = heights.get(rail.id, (0.0, 0.0))
        found.append(along(rail.id, end - start, end - start))
    for one, other in pairwise(rails):
        a, b = heights.get(one.id, (0.0, 0.0)), heights.get(other.id, (0.0, 0.0))
        for share in (0.0, 0.5, 1.0):
            off = b[0] + (b[1] - b[0]) * share - a[0] - (a[1] - a[0]) * share
            found.append(across(one.id, other.id, 1800.0 * share, off, off))
    return found


def trued(checks: Sequence[Check], rails: Sequence[Rail], truings: Sequence[Truing] = (), **design: float) -> Trued:
    made = RailDesign(straightedge=STRAIGHTEDGE)
    return trued_from(document_of(checks, truings, replace(made, **design)), rails)  # type: ignore[arg-type]


def figures_of(found: Trued) -> list[float]:
    """Everything the answer says in numbers, but for which reading asks most."""
    assert found.answer is not None
    ends = [v for r in found.answer.rails for v in (r.from_off, r.to_off, r.sigma, r.from_after, r.to_after)]
    return [*ends, found.answer.worst, *(one.raise_by for one in found.corrections)]


def codes_of(found: Trued) -> dict[str, str]:
    return {one.code: one.where for one in found.cautions}
