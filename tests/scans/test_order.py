"""The readings depend on the points alone: in whatever order they come, not a digit changes."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.scans.clouds import ROOM, SQUARE, Scan, furnished, read, save_ply, save_xyz, wavy


@pytest.mark.parametrize("wishes", [{"unit": "mm"}, {"placing": "corner"}, {"unit": "mm", "cell": 130.0}])
def test_any_order_of_a_large_scan_gives_the_same_answer(tmp_path: Path, wishes: dict[str, Any]) -> None:
    points = furnished(3, points=200_000).points
    dice = np.random.default_rng(5)
    orders = [points, points[::-1], points[np.argsort(points[:, 2])], dice.permutation(points)]
    answers = [read(save_ply(tmp_path / f"{n}.ply", one), ROOM, **wishes) for n, one in enumerate(orders)]
    assert all(answer == answers[0] for answer in answers[1:])
    assert len(answers[0].readings) > 100


@pytest.mark.parametrize("seed", range(10))
def test_any_order_of_a_small_scan_gives_the_same_answer(tmp_path: Path, seed: int) -> None:
    dice = np.random.default_rng(seed)
    points = Scan(SQUARE, wavy, seed=seed).add_floor(2000).add_strays(200).points
    answers = [
        read(save_xyz(tmp_path / "scan.xyz", dice.permutation(points), 1000.0), SQUARE, cell=400.0) for _ in "abc"
    ]
    assert answers[0] == answers[1] == answers[2]


def test_two_looks_at_one_scan_are_one(tmp_path: Path) -> None:
    file = save_ply(tmp_path / "scan.ply", furnished(4, points=100_000).points)
    assert read(file, ROOM, unit="mm") == read(file, ROOM, unit="mm")


def test_every_point_twice_moves_next_to_nothing_and_counts_double(tmp_path: Path) -> None:
    points = Scan(SQUARE, wavy).add_floor(60_000).points
    once = read(save_ply(tmp_path / "1.ply", points), SQUARE, unit="mm", cell=300.0)
    twice = read(save_ply(tmp_path / "2.ply", np.repeat(points, 2, axis=0)), SQUARE, unit="mm", cell=300.0)
    counts = [one.points for one in twice.readings]
    assert counts == pytest.approx([2 * one.points for one in once.readings], rel=0.005)
    assert np.allclose([one.z for one in once.readings], [one.z for one in twice.readings], atol=0.2)
