"""Rails trued: an independent judge over the same readings, and what must change nothing."""

import random
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import turned
from tests.read_rails import codes_of, everything, figures_of, random_check, room_of_rails, side_by_side, trued
from tests.share import share_of

from evenbed.engine.document.rails import Check
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.truing.equations import system_from
from evenbed.engine.truing.places import Rails
from evenbed.engine.truing.solved import solution_of

CLOSE = 1e-9  # mm: two ways to solve the same equations
READING, SET, LEVEL = 0.5, 3.0, 2.0  # the standard errors believed in: mm, mm, mm/m
SEEDS = st.integers(0, 10**6)


def judged(rails: Sequence[Rail], checks: Sequence[Check]) -> tuple[np.ndarray, np.ndarray, list[str]]:
    """numpy's least squares over equations written anew: ends, rail by rail, then levels; their covariance; names."""
    names = sorted({check.level for check in checks})
    number = {rail.id: n for n, rail in enumerate(rails)}
    rows, values = [], []
    for check in checks:
        first, last = (check.rail, check.rail) if check.rail else check.rails or ("", "")
        places = []
        for name, along in ((first, check.start), (last, check.end)):
            rail = rails[number[name]]
            share = along / np.linalg.norm(np.subtract(rail.end, rail.start))
            at = np.add(rail.start, np.multiply(share, np.subtract(rail.end, rail.start)))
            top = np.interp(along, [s.along for s in rail.stations], [s.top for s in rail.stations])
            places.append((number[name], share, at, top))
        (a, s, p, top_a), (b, t, q, top_b) = places
        run = np.linalg.norm(q - p)
        size = check.length or run
        for way, shown in ((1.0, check.off), (-1.0, check.reversed_off)):
            if shown is not None:
                row = np.zeros(2 * len(rails) + len(names))
                row[2 * b] += 1 - t
                row[2 * b + 1] += t
                row[2 * a] -= 1 - s
                row[2 * a + 1] -= s
                row[2 * len(rails) + names.index(check.level)] += way * run / 1000
                rows.append(row * size / run / READING)
                values.append((shown - (top_b - top_a) * size / run) / READING)
    beliefs = np.diag([1 / SET] * (2 * len(rails)) + [1 / LEVEL] * len(names))
    matrix = np.vstack([*rows, beliefs])
    found, *_ = np.linalg.lstsq(matrix, np.concatenate([values, np.zeros(len(beliefs))]), rcond=None)
    return found, np.linalg.inv(matrix.T @ matrix), names


@given(SEEDS)
@settings(max_examples=share_of(200), deadline=None)
def test_numpys_least_squares_finds_the_same_rails_levels_and_doubts(seed: int) -> None:
    rng = random.Random(seed)
    rails = room_of_rails(rng)
    checks = [random_check(rng, f"c{n}", rails) for n in range(rng.randint(1, 25))]
    system = system_from(checks, (), Rails(rails))
    solution = solution_of(system)
    values, covariance, names = judged(rails, checks)
    order = [2 * n + end for n in range(len(rails)) for end in (0, 1)] + [system.level[name] for name in names]
    np.testing.assert_allclose([solution.values[n] for n in order], values, rtol=0, atol=CLOSE)
    ours = [[solution.covariances[i][j] for j in order] for i in order]
    np.testing.assert_allclose(ours, covariance, rtol=0, atol=CLOSE)


@given(SEEDS)
@settings(max_examples=share_of(60), deadline=None)
def test_neither_order_nor_naming_the_other_end_first_nor_turning_the_room_changes_anything(seed: int) -> None:
    rng = random.Random(seed)
    rails = room_of_rails(rng)
    checks = [random_check(rng, f"c{n}", rails) for n in range(rng.randint(1, 20))]
    before = figures_of(trued(checks, rails))
    shuffled = rng.sample(checks, len(checks))
    swapped = [_other_end_first(c) if c.reversed_off is not None else c for c in checks]
    angle, by = rng.uniform(0, 7), (rng.uniform(-1e4, 1e4), rng.uniform(-1e4, 1e4))
    moved = [replace(r, start=turned(r.start, angle, by), end=turned(r.end, angle, by)) for r in rails]
    for other in (trued(shuffled, rails), trued(swapped, rails), trued(checks, moved)):
        np.testing.assert_allclose(figures_of(other), before, rtol=0, atol=1e-6)


def _other_end_first(check: Check) -> Check:
    """The same two readings told from the other end: high is low, and the level lay the other way round."""
    rails = None if check.rails is None else check.rails[::-1]
    assert check.reversed_off is not None
    off, back = -check.reversed_off, -check.off
    return replace(check, rails=rails, start=check.end, end=check.start, off=off, reversed_off=back)


def test_all_rails_higher_together_shows_on_no_level() -> None:
    rails = side_by_side(3)
    heights = {"A": (2.0, -1.0), "B": (0.5, 3.0), "C": (-4.0, 1.0)}
    higher = {name: (start + 7.0, end + 7.0) for name, (start, end) in heights.items()}
    same = figures_of(trued(everything(rails, heights), rails)), figures_of(trued(everything(rails, higher), rails))
    np.testing.assert_allclose(*same, rtol=0, atol=1e-9)
    cautions = codes_of(trued(everything(rails, heights), rails))
    assert "common_height_unknown" in cautions
