"""Stations with their shims: where they stand, under tops of one plane and of many, and what the ramps take."""

import math
from collections.abc import Iterable
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import fixed_quad
from shapely import LineString, Polygon
from tests.documents import room_over, turned
from tests.engine.rail_cases import plain_case, random_case, random_rails, rectangle
from tests.engine.top_rooms import drained_room, is_served, lined_room, stepped_room, worked
from tests.share import share_of

from evenbed.engine.document.rails import Strip
from evenbed.engine.rails.breaks import MOST_BEND, TRULY, Break, runs_of
from evenbed.engine.rails.laid import rails_from
from evenbed.engine.rails.ramps import ramp_volume
from evenbed.engine.rails.shapes import Rail, Setting
from evenbed.engine.worked import WorkedRoom

ALONG_ROUNDING = 1e-6  # mm
FALLING = [(make, seed) for make in ("drain", "line", "levels") for seed in range(share_of(60))]
CREASE = 0.3  # mm over 100 mm to both sides of a crease: bends that nobody would call straight


@pytest.mark.parametrize("seed", range(0, 300, 4))
def test_stations_stand_at_both_ends_and_evenly_between(seed: int) -> None:
    spacing = random_case(seed).design.station_spacing
    for rail in random_rails(seed).rails:
        size = math.dist(rail.start, rail.end)
        alongs = [station.along for station in rail.stations]
        steps = [b - a for a, b in pairwise(alongs)]
        assert (alongs[0], rail.stations[0].at, rail.stations[-1].at) == (0.0, rail.start, rail.end)
        assert alongs[-1] == pytest.approx(size, abs=ALONG_ROUNDING)
        assert max(steps) <= spacing + ALONG_ROUNDING
        assert max(steps) - min(steps) <= ALONG_ROUNDING
        assert len(steps) == max(1, math.ceil(size / spacing - 1e-9))
        for station in rail.stations:
            assert math.dist(station.at, rail.start) == pytest.approx(station.along, abs=ALONG_ROUNDING)


def test_a_shim_is_top_less_strip_less_subfloor_to_the_last_bit() -> None:
    def floor(x: float, y: float) -> float:
        return 3.3 * math.sin(x / 777.0) + y / 901.0

    def top(x: float, y: float) -> float:
        return 41.7 + x / 333.3 - y / 1234.5

    case = random_case(4)
    plan = rails_from(case.regions, (), case.design, (), subfloor=floor, top=top)
    stations = [station for rail in plan.rails for station in rail.stations]
    assert len(stations) > 10
    for station in stations:
        assert (station.subfloor, station.top) == (floor(*station.at), top(*station.at))
        assert station.shim == top(*station.at) - case.design.strip.thickness - floor(*station.at)


def test_a_strip_thicker_than_the_bed_is_told_once_a_rail_with_its_worst_place_and_its_cures() -> None:
    case = plain_case(rectangle(3000.0, 2000.0), strip=Strip(thickness=30.0))
    plan = rails_from(case.regions, (), case.design, (), subfloor=lambda x, _y: x / 100.0, top=lambda _x, _y: 40.0)
    told = {caution.where: caution for caution in plan.cautions if caution.code == "strip_too_thick"}
    for n, rail in enumerate(plan.rails):
        caution, shims = told.pop(f"rails[{n}]", None), [station.shim for station in rail.stations]
        assert (caution is not None) == (min(shims) < 0.0)
        if caution is not None:
            worst = rail.stations[int(caution.values["station"]) - 1]
            assert caution.values["over"] == -min(shims) == -worst.shim
            assert (caution.values["x"], caution.values["y"]) == worst.at
            assert caution.values["count"] == sum(shim < 0.0 for shim in shims)
            check_cures(rail, float(caution.values["thickest_fitting"]), float(caution.values["raise"]))
    assert told == {}
    assert min(station.shim for rail in plan.rails for station in rail.stations) < 0.0


def check_cures(rail: Rail, thickest: float, rise: float) -> None:
    """A strip so thin just fits, and so does the strip chosen under a top raised by so much."""
    beds = [station.top - station.subfloor for station in rail.stations]
    assert min(bed - thickest for bed in beds) == 0.0
    assert min(bed + rise - rail.strip.thickness for bed in beds) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("highest", [36.0, 60.0])
def test_where_there_is_hardly_any_bed_no_strip_is_named_as_a_cure(highest: float) -> None:
    def floor(x: float, _y: float) -> float:
        return highest * x / 2847.6  # the rails end there

    case = plain_case(rectangle(3000.0, 2000.0), direction=0.0)
    plan = rails_from(case.regions, (), case.design, (), subfloor=floor, top=lambda _x, _y: 40.0)
    told = [caution for caution in plan.cautions if caution.code == "no_bed_for_strip"]
    assert {caution.where for caution in told} == {f"rails[{n}]" for n in range(len(plan.rails))}
    assert "silica" in {caution.code for caution in plan.cautions}
    assert all("at most" not in caution.text for caution in told)


@cache
def rails_under(make: str, seed: int) -> list[tuple[WorkedRoom, Rail]]:
    """The rails of a random room under a top of several planes; none where the drain cannot be served."""
    rooms = {"drain": drained_room, "line": lined_room, "levels": stepped_room}
    room = worked(rooms[make](seed))
    return [(room, rail) for rail in room.rails.rails] if is_served(room) else []


def tops_along(room: WorkedRoom, rail: Rail, shares: Iterable[float]) -> Any:
    (x0, y0), (x1, y1) = rail.start, rail.end
    return np.array([room.top.at(x0 + share * (x1 - x0), y0 + share * (y1 - y0)) for share in shares])


@pytest.mark.parametrize(("make", "seed"), FALLING)
def test_under_a_falling_top_too_a_shim_is_to_the_last_bit_what_it_should_be(make: str, seed: int) -> None:
    for room, rail in rails_under(make, seed):
        for station in rail.stations:
            subfloor, top = room.surface.height_at(*station.at), room.top.at(*station.at)
            assert (station.subfloor, station.top, station.shim) == (
                subfloor,
                top,
                top - rail.strip.thickness - subfloor,
            )


@pytest.mark.parametrize(("make", "seed"), FALLING)
def test_between_neighbouring_stations_a_falling_top_is_straight(make: str, seed: int) -> None:
    """But between the two stations of a step, which stand a millimetre apart."""
    for room, rail in rails_under(make, seed):
        size = math.dist(rail.start, rail.end)
        alongs, tops = [s.along for s in rail.stations], [s.top for s in rail.stations]
        shares = np.linspace(0.0, 1.0, 101)[1:-1]
        away = np.array([not any(b - a < 2.0 and a <= s * size <= b for a, b in pairwise(alongs)) for s in shares])
        off = np.abs(np.interp(shares * size, alongs, tops) - tops_along(room, rail, shares))
        assert off[away].max() <= TRULY + 1e-9


@pytest.mark.parametrize(("make", "seed"), FALLING)
def test_a_break_stands_at_every_crease_of_the_top_and_nowhere_else(make: str, seed: int) -> None:
    """Creases are where shapely has a rail cross the edge of a facet and the top bends there by what a hand feels."""
    for room, rail in rails_under(make, seed):
        size, breaks = math.dist(rail.start, rail.end), [s.along for s in rail.stations if s.is_break]
        edges = edge_crossings(room, rail)
        for along in breaks:
            assert min(abs(along - edge) for edge in edges) <= 0.5 + 1e-3
        for along in edges:
            a, b, c = tops_along(room, rail, [(along + by) / size for by in (-100.0, 0.0, 100.0)])
            alone = (
                min((abs(along - other) for other in edges if abs(along - other) > 1e-3), default=math.inf) > 100.0
            )
            if alone and 100.0 < along < size - 100.0 and abs(a - 2 * b + c) / 2 > CREASE:
                assert min((abs(along - each) for each in breaks), default=math.inf) <= 0.5 + 1e-3


def edge_crossings(room: WorkedRoom, rail: Rail) -> list[float]:
    """Where a rail crosses edges of facets, mm along it, by shapely."""
    line, found = LineString([rail.start, rail.end]), list[float]()
    for facet in room.top.facets:
        met = Polygon(facet.polygon).exterior.buffer(1e-5).intersection(line)
        parts = [part for part in getattr(met, "geoms", [met]) if 0.0 < part.length < 1.0]
        found += [line.project(part.centroid) for part in parts]
    return found


@pytest.mark.parametrize(("make", "seed"), FALLING)
def test_no_strip_lies_where_the_top_bends_under_it(make: str, seed: int) -> None:
    """Simplified breaks may be `TRULY` off the top at a strip's ends and as much between."""
    for n, (room, rail) in enumerate(rails_under(make, seed)):
        for lie in rail.settings:
            assert bend_under(room, rail, lie) <= MOST_BEND + 2.0 * TRULY + 1e-9
        ends = {lie.start for lie in rail.settings if lie.overlap == 0.0}
        told = [c for c in room.rails.cautions if (c.where, c.code) == (f"rails[{n}]", "strip_ends_at_break")]
        assert [c.values["count"] for c in told] == ([len(ends) - 1] if len(ends) > 1 else [])
        assert {n for lie in rail.settings for n in lie.stations} == set(range(len(rail.stations)))


def bend_under(room: WorkedRoom, rail: Rail, lie: Setting) -> float:
    """How far the top is off the straight line between a strip's ends."""
    size = math.dist(rail.start, rail.end)
    shares = np.linspace(lie.start / size, min(1.0, lie.end / size), 60)
    tops = tops_along(room, rail, shares)
    return float(np.abs(tops - np.interp(shares, shares[[0, -1]], tops[[0, -1]])).max())


@pytest.mark.parametrize(
    ("along", "bend", "is_ended"),
    [
        (3000.0, 0.001, True),  # a strip of 2400 mm with the bend in its middle: 0.001 × 1200 × 1200 / 2400 = 0.6 mm
        (3000.0, -0.0008, False),  # 0.48 mm
        (5980.0, 0.02, False),  # 20 mm from the end: 0.02 × 20 × 2380 / 2400 = 0.4 mm
        (5970.0, 0.02, True),  # 0.59 mm
    ],
)
def test_a_strip_ends_at_a_bend_that_takes_it_off_straight(along: float, bend: float, is_ended: bool) -> None:
    runs = runs_of(6000.0, [Break(along, bend, 0.0)], 2400.0)
    assert runs == (((0.0, along), (along, 6000.0)) if is_ended else ((0.0, 6000.0),))


def test_strips_end_as_seldom_as_bends_allow() -> None:
    """Bends of 1/4000 each 100 mm from 1000 to 1900 mm, together p q / (p + q) / 4000 each under a strip from 0.

    A strip to 1700 lies (1000·700 + 1100·600 + ... + 1600·100) / 1700 / 4000 = 0.494 mm off, one to 1800 0.62 mm.
    """
    breaks = [Break(1000.0 + 100.0 * n, 1 / 4000, 0.0) for n in range(10)]
    assert runs_of(6000.0, breaks, 2400.0) == ((0.0, 1700.0), (1700.0, 6000.0))


def test_a_step_has_a_station_on_either_side_and_no_strip_across() -> None:
    spots = [(0.0, 0.0, 0.0), (6000.0, 0.0, 0.0), (6000.0, 3000.0, 0.0), (0.0, 3000.0, 0.0)]
    top = {"kind": "two_levels", "line": [[3000.0, 0.0], [3000.0, 9.0]], "left": 50.0, "right": 40.0, "ramp": 0.0}
    rails = {"direction": 0.0, "straightedge": 3000.0}
    room = worked(room_over([s[:2] for s in spots], spots, bed={"top": top}, rails=rails))
    for rail in room.rails.rails:
        before, behind = (s for s in rail.stations if s.is_break)
        assert (before.at[0], behind.at[0]) == pytest.approx((2999.5, 3000.5))
        assert (before.top, behind.top) == (50.0, 40.0)
        for lie in rail.settings:
            start, end = rail.start[0] + lie.start, rail.start[0] + lie.end
            assert end < 3000.0 or start > 3000.0
    assert "rail_on_step" not in {caution.code for caution in room.rails.cautions}


@pytest.mark.parametrize("angle", [0.0, 0.3, 1.1])
@pytest.mark.parametrize(("x", "is_told"), [(3000.0, True), (2990.0, False)])
def test_a_rail_along_a_step_is_told_however_the_room_is_turned(angle: float, x: float, is_told: bool) -> None:
    spots = [(*turned(at, angle), 0.0) for at in rectangle(6000.0, 3000.0)]
    line = [turned((3000.0, 0.0), angle), turned((3000.0, 900.0), angle)]
    top = {"kind": "two_levels", "line": line, "left": 50.0, "right": 40.0, "ramp": 0.0}
    lines = [{"from": turned((at, 200.0), angle), "to": turned((at, 2800.0), angle)} for at in (1700.0, x, 4400.0)]
    room = worked(room_over([s[:2] for s in spots], spots, bed={"top": top}, rails={"lines": lines}))
    told = {c.values["rail"]: c.values["by"] for c in room.rails.cautions if c.code == "rail_on_step"}
    assert told == ({"B": pytest.approx(10.0)} if is_told else {})


def test_such_rooms_have_rails_that_break_and_rails_that_strips_end_on() -> None:
    rails = [rail for make, seed in FALLING for _, rail in rails_under(make, seed)]
    broken = [rail for rail in rails if any(station.is_break for station in rail.stations)]
    ended = [rail for rail in broken if sum(lie.overlap == 0.0 for lie in rail.settings) > 1]
    assert len(rails) > len(FALLING)
    assert len(broken) > len(FALLING) / 3
    assert len(ended) > len(FALLING) / 6


def valley_room(rise: float) -> WorkedRoom:
    """A valley along the middle of a room, between its two rails: the planes to a linear drain meet there."""
    spots = [(0.0, 0.0, 0.0), (4000.0, 0.0, 0.0), (4000.0, 1800.0, 0.0), (0.0, 1800.0, 0.0)]
    drain = {"id": "d", "kind": "drain", "at": [0.0, 900.0], "to": [4000.0, 900.0], "radius": 0.0}
    top = {"kind": "to_drain", "drain": "d", "fall": rise}
    return worked(
        room_over([s[:2] for s in spots], spots, bed={"top": top}, fixtures=[drain], rails={"direction": 0})
    )


@pytest.mark.parametrize(("fall", "is_told"), [(0.001, False), (0.02, True)])
def test_a_valley_between_two_rails_is_told_with_how_much_a_straightedge_would_leave(
    fall: float, is_told: bool
) -> None:
    """Rails at 152.4 mm from walls at 0 and 1800 fall by fall × 747.6 mm to the drain at 900."""
    room = valley_room(fall)
    assert [rail.start[1] for rail in room.rails.rails] == [pytest.approx(152.4), pytest.approx(1647.6)]
    told = [c.values for c in room.rails.cautions if c.code == "valley_between_rails"]
    assert bool(told) == is_told
    for values in told:
        assert values["by"] == pytest.approx(fall * 747.6)
        assert (values["rail"], values["other"]) == ("A", "B")


def test_the_first_station_has_the_least_shim_of_all() -> None:
    for seed in range(0, 60, 3):
        plan = random_rails(seed)
        shims = {(rail.id, n): s.shim for rail in plan.rails for n, s in enumerate(rail.stations)}
        first = plan.first_station
        assert (first is None) == (not shims)
        if first is not None:
            assert shims[first.rail, first.station] == min(shims.values())


@settings(max_examples=share_of(100), deadline=None)
@given(st.lists(st.tuples(st.floats(1.0, 900.0), st.floats(-20.0, 60.0)), min_size=2, max_size=8), st.floats(5, 90))
def test_ramps_take_what_quadrature_says(steps: list[tuple[float, float]], width: float) -> None:
    """Across a ramp of height h under a strip so wide: width × h, and two sides of 45°, h² together."""
    alongs, shims = list(np.cumsum([run for run, _ in steps])), [shim for _, shim in steps]

    def across(along: Any) -> Any:
        h = np.maximum(0.0, np.interp(along, alongs, shims))
        return width * h + h * h

    bends = [a - s * (b - a) / (t - s) for (a, s), (b, t) in pairwise(zip(alongs, shims, strict=True)) if s * t < 0]
    cuts = sorted([*alongs, *bends])
    judged = math.fsum(fixed_quad(across, a, b, n=3)[0] for a, b in pairwise(cuts)) / 1e9  # exact up to degree 5
    assert ramp_volume(alongs, shims, width) == pytest.approx(judged, rel=1e-9, abs=1e-15)


def test_a_ramp_by_hand() -> None:
    """10 mm high under 40 mm over 1 m: 400 + 100 mm² across."""
    assert ramp_volume([0.0, 1000.0], [10.0, 10.0], 40.0) == pytest.approx(500.0 * 1000.0 / 1e9)
    assert ramp_volume([0.0, 1000.0], [-10.0, -1.0], 40.0) == 0.0
