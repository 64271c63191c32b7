"""A scan of the finished bed: its readings, and the report on its flatness, from file to answer."""

import math
from pathlib import Path

import numpy as np
import pytest
from tests.scans.clouds import SQUARE, Array, Floor, Scan, read, save_ply

from evenbed.engine.document.flatness import GapLimit
from evenbed.engine.geometry import Plane
from evenbed.scans.flat_grid import FlatGrid
from evenbed.scans.flat_numbers import numbers_from
from evenbed.scans.wishes import BedWish
from evenbed.wire.scans import ScanReply

POINTS = 150_000
FOOT = 304.8


def bed_with(height: float) -> Floor:
    """A level bed with one round hump of 600 mm across its foot, so high in its middle."""

    def floor(x: Array, y: Array) -> Array:
        off = np.hypot(x - 1500.0, y - 1200.0) / 300.0
        return np.where(off < 1.0, height * (1 + np.cos(math.pi * np.minimum(off, 1.0))) / 2, 0.0)

    return floor


def scanned(folder: Path, floor: Floor, noise: float = 0.5, points: int = POINTS, **wish: object) -> ScanReply:
    """The bed as a scanner of that noise sees it."""
    scan = Scan(SQUARE, floor, noise=noise).add_floor(points)
    path = save_ply(folder / "bed.ply", scan.points)
    return read(path, SQUARE, unit="mm", bed=BedWish(**wish))  # type: ignore[arg-type]


def test_a_flat_bed_is_within_both_lengths_of_the_rule_for_its_tile(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(0.0), longest_edge=600.0)
    flatness = reply.flatness
    assert flatness is not None
    assert [(round(one.length), one.code) for one in flatness.checks] == [
        (3048, "ansi_large_long"),
        (610, "ansi_large_short"),
    ]
    assert flatness.verdict == "within"
    assert all(one.noise_gap < one.limit / 2 for one in flatness.checks)


def test_a_hump_is_found_where_it_is_and_as_high_as_it_is(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(6.0), longest_edge=600.0)
    assert reply.flatness is not None
    long, short = reply.flatness.checks
    assert (reply.flatness.verdict, long.sure) == ("beyond", True)
    assert long.hump is not None
    assert long.hump.gap == pytest.approx(6.0, abs=0.4)
    assert math.dist(long.hump.at, (1500.0, 1200.0)) < 1.5 * long.spacing
    assert short.verdict == "beyond"
    assert 0.01 < long.beyond_share < 0.3


def test_a_scan_that_scatters_more_than_the_limit_is_not_judged(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(0.0), noise=8.0, points=30_000, longest_edge=600.0)
    assert reply.flatness is not None
    assert reply.flatness.checks[1].verdict == "too_noisy"
    assert reply.flatness.verdict == "too_noisy"


def test_a_scan_of_few_points_is_too_sparse_for_a_short_straightedge(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(0.0), points=2_000)
    assert reply.flatness is not None
    assert reply.flatness.checks[1].verdict == "too_sparse"


def test_readings_of_a_bed_stand_closer_than_those_of_a_subfloor(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(0.0))
    assert reply.report.stage == "bed"
    assert reply.report.cell == pytest.approx(150.0, rel=0.1)
    usual = read(tmp_path / "bed.ply", SQUARE, unit="mm")
    assert (usual.report.stage, usual.flatness) == ("subfloor", None)


def test_own_limits_hold_where_they_are_asked_for_and_none_judge_nothing(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(6.0), standard="own", own=(GapLimit(3.0, 2000.0), GapLimit(1.0, 500.0)))
    assert reply.flatness is not None
    assert [(one.length, one.limit) for one in reply.flatness.checks] == [(2000.0, 3.0), (500.0, 1.0)]
    none = scanned(tmp_path, bed_with(0.0), standard="own")
    assert none.flatness is not None
    assert (none.flatness.verdict, none.flatness.checks) == (None, [])


def test_din_spans_that_fit_the_room_are_laid_and_the_longest_of_all(tmp_path: Path) -> None:
    """By hand: 3000 mm by 2400 mm are 3841.9 mm from corner to corner."""
    reply = scanned(tmp_path, bed_with(0.0), points=40_000, standard="din_18202_3")
    assert reply.flatness is not None
    told = [(one.length, one.limit) for one in reply.flatness.checks]
    assert told == [(3841.0, 10.0), (2000.0, 6.0), (1000.0, 4.0), (100.0, 2.0)]


def test_the_gap_beside_f_numbers_decides_nothing(tmp_path: Path) -> None:
    reply = scanned(tmp_path, bed_with(30.0), standard="aci_117_35_25")
    assert reply.flatness is not None
    assert reply.flatness.verdict is None
    assert reply.flatness.f_numbers is not None
    assert reply.flatness.f_numbers.ff < 30.0


def test_f_numbers_of_lines_all_alike_are_those_of_one() -> None:
    """ASTM E1155M: FF = 115.8 / (3 s + |m|) of second differences, here by numpy for one line read 300 mm apart."""
    x = np.arange(0.0, 6001.0, 50.0)
    heights = np.tile(3.0 * np.sin(x / 370.0), (3, 1))
    grid = FlatGrid(0.0, 0.0, 50.0, 300.0, heights, np.full(heights.shape, 0.1), np.ones(heights.shape, bool))
    found = numbers_from(grid, Plane(0.0, 0.0, 0.0))
    bends = np.diff(heights[0, ::6], 2)
    rises = heights[0, 60::6] - heights[0, :-60:6]
    assert found is not None
    assert (found.lines, found.heights) == (1, 21)
    assert found.ff == pytest.approx(115.8 / (3 * bends.std(ddof=1) + abs(bends.mean())), abs=0.06)
    assert found.fl == pytest.approx(317.5 / (3 * rises.std(ddof=1) + abs(rises.mean())), abs=0.06)


def test_a_bed_out_of_level_has_a_lower_fl_and_the_same_ff() -> None:
    x = np.arange(0.0, 6001.0, 50.0)
    heights = np.tile(3.0 * np.sin(x / 370.0), (3, 1))
    grid = FlatGrid(0.0, 0.0, 50.0, 300.0, heights, np.full(heights.shape, 0.1), np.ones(heights.shape, bool))
    level, leaning = (numbers_from(grid, Plane(0.0, slope, 0.0)) for slope in (0.0, 0.01))
    assert level is not None
    assert leaning is not None
    assert level.ff == leaning.ff
    assert leaning.fl is not None
    assert level.fl is not None
    assert leaning.fl < level.fl / 2
