"""Which unit a scan is in, and where it comes to lie. The judge of turning is scipy."""

import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial.transform import Rotation
from tests.rooms import cutouts_of, outline_of, random_room
from tests.scans.clouds import ROOM, Array, Scan, errors, furnished, read, save_ply, save_xyz, wavy

from evenbed.scans.faults import ScanError
from evenbed.scans.placing import Seat, seat_of, unit_of
from evenbed.scans.room import Room
from evenbed.scans.sample import Sample
from evenbed.scans.wishes import MM, Wishes

FURNISHED = furnished(7, points=100_000).points
AWAY = np.array([5e5, -2e5, 0.0])
CLOSE = 1.5  # mm, for fewer points than a real scan has


def sample_from(points: Array) -> Sample:
    """All points as a sample."""
    x, y, z = points.T
    return Sample(x, y, z, len(points))


@pytest.mark.parametrize("unit", ["m", "mm", "ft", "cm", "in"])
def test_the_unit_is_told_by_the_size_of_the_room(tmp_path: Path, unit: str) -> None:
    reply = read(save_ply(tmp_path / "scan.ply", FURNISHED, MM[unit]), ROOM)
    assert (reply.report.unit, reply.report.unit_from) == (unit, "size")
    assert np.abs(errors(reply, wavy)).max() < CLOSE
    assert reply.report.room_size == [6000.0, 5000.0]
    assert np.allclose(reply.report.scan_size, [6000.0, 5000.0], rtol=0.1)


def test_a_chosen_unit_stands_whatever_the_size(tmp_path: Path) -> None:
    tiny = read(save_ply(tmp_path / "scan.ply", FURNISHED, MM["m"]), ROOM, unit="mm").report
    assert (tiny.unit, tiny.unit_from) == ("mm", "chosen")
    assert tiny.empty_area > 0.95 * 23.66
    report = read(save_ply(tmp_path / "scan.ply", FURNISHED, MM["m"]), ROOM, unit="m").report
    assert (report.unit_from, report.unit_doubtful) == ("chosen", False)


def test_metres_of_a_flat_twice_the_room_are_metres_and_doubtful() -> None:
    wide = FURNISHED * [2.2, 2.2, 1.0]
    unit = unit_of(sample_from(wide / 1000), Wishes(), ROOM)
    assert (unit.name, unit.is_doubtful) == ("m", True)


@pytest.mark.parametrize("strays", [0, 500])
def test_corners_are_made_to_meet_whatever_strays_lie_beyond(tmp_path: Path, strays: int) -> None:
    dice = np.random.default_rng(1)
    far = np.column_stack((dice.uniform(-9e3, 9e3, (strays, 2)), dice.uniform(-500, 500, strays)))
    points = np.vstack((FURNISHED, far)) + np.array([12_345.0, -7_000.0, 0.0])
    reply = read(save_ply(tmp_path / "scan.ply", points, 1000.0), ROOM, placing="corner", unit="m")
    assert reply.report.shift == pytest.approx([-12_345.0, 7_000.0], abs=15.0)
    assert np.abs(errors(reply, wavy)).max() < CLOSE


@pytest.mark.parametrize("degrees", [0.0, 30.0, 90.0, -135.0, 180.0])
def test_two_places_turn_the_scan_into_the_room(tmp_path: Path, degrees: float) -> None:
    there = Rotation.from_euler("z", degrees, degrees=True)
    points = there.apply(FURNISHED) + AWAY
    here = np.array([[0.0, 0.0, 0.0], [6000.0, 0.0, 0.0]])
    seen = (there.apply(here) + AWAY)[:, :2].ravel() / 1000
    wishes: dict[str, Any] = {"placing": "two_points", "in_scan": tuple(seen), "in_room": (0.0, 0.0, 6000.0, 0.0)}
    reply = read(save_xyz(tmp_path / "scan.xyz", points, 1000.0), ROOM, **wishes)
    assert reply.report.unit_from == "two_points"
    assert math.remainder(reply.report.turn + degrees, 360.0) == pytest.approx(0.0, abs=1e-6)
    assert reply.report.two_points_off == pytest.approx(0.0, abs=1e-6)
    assert np.abs(errors(reply, wavy)).max() < CLOSE


@given(st.tuples(*[st.floats(-50.0, 50.0)] * 4), st.tuples(*[st.floats(-9000.0, 9000.0)] * 4))
@settings(max_examples=200, deadline=None)
def test_two_places_meet_in_their_middle_and_are_never_stretched(scan: Any, room: Any) -> None:
    wishes = Wishes("m", "two_points", in_scan=scan, in_room=room)
    sample = sample_from(FURNISHED[:100] / 1000)
    if math.dist(scan[:2], scan[2:]) < 0.1 or math.dist(room[:2], room[2:]) < 1.0:
        return
    seat = seat_of(sample, wishes, unit_of(sample, wishes, ROOM), ROOM)
    x, y, _ = seat.placed((np.array(scan[::2]), np.array(scan[1::2]), np.zeros(2)))
    assert [x.mean(), y.mean()] == pytest.approx([(room[0] + room[2]) / 2, (room[1] + room[3]) / 2], abs=1e-6)
    assert math.hypot(x[1] - x[0], y[1] - y[0]) == pytest.approx(1000 * math.dist(scan[:2], scan[2:]), rel=1e-9)
    along = (x[1] - x[0]) * (room[2] - room[0]) + (y[1] - y[0]) * (room[3] - room[1])
    assert along == pytest.approx(1000 * math.dist(scan[:2], scan[2:]) * math.dist(room[:2], room[2:]), rel=1e-9)


@pytest.mark.parametrize("where", ["scan", "room"])
def test_two_places_that_are_one_are_refused(tmp_path: Path, where: str) -> None:
    apart, one = (0.0, 0.0, 6000.0, 0.0), (5.0, 5.0, 5.0, 5.0)
    wishes = {"in_scan": one if where == "scan" else apart, "in_room": one if where == "room" else apart}
    with pytest.raises(ScanError, match=f"one in the {where}"):
        read(save_ply(tmp_path / "scan.ply", FURNISHED), ROOM, placing="two_points", **wishes)


def test_a_scan_that_lies_on_its_back_is_stood_up(tmp_path: Path) -> None:
    lying = Rotation.from_euler("x", -90, degrees=True).apply(FURNISHED)
    reply = read(save_ply(tmp_path / "scan.ply", lying), ROOM, unit="mm", up="y")
    assert np.abs(errors(reply, wavy)).max() < CLOSE


def test_placing_is_what_scipy_makes_of_it() -> None:
    seat = Seat(1000.0, "y", math.radians(25.0), (300.0, -40.0))
    points = np.random.default_rng(3).normal(0, 5, (50, 3))
    turn = Rotation.from_euler("xz", [90, 25], degrees=True)
    x, y, z = points.T.copy()
    assert np.allclose(
        np.column_stack(seat.placed((x, y, z))), turn.apply(points * 1000.0) + np.array([300.0, -40.0, 0.0])
    )


@pytest.mark.parametrize("seed", range(12))
def test_any_room_with_a_plane_floor_is_read_right_and_only_inside(tmp_path: Path, seed: int) -> None:
    document = random_room(seed)
    room = Room((tuple(outline_of(document)), *(tuple(ring) for ring in cutouts_of(document))))

    def floor(x: Array, y: Array) -> Array:
        return 0.01 * x - 0.02 * y

    scan = Scan(room, floor, seed=seed).add_floor(120_000).add_walls(1500)
    reply = read(save_ply(tmp_path / "scan.ply", scan.points), room, unit="mm")
    x, y = np.array([one.at for one in reply.readings]).T
    assert room.holds(x, y).all()
    assert np.abs(errors(reply, floor)).max() < CLOSE
    assert reply.report.empty_area < 0.02 * room.area_in(*room.box[:2], *room.size) / 1e6
