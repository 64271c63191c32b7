"""Stations with their shims, and the lies of the strip along a rail."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.engine.rail_cases import flat, plain_case, random_case, random_rails, rectangle

from evenbed.engine.document.rails import RailDesign, Strip
from evenbed.engine.rails.laid import rails_from, settings_along

ALONG_ROUNDING = 1e-6  # mm


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


def test_a_strip_thicker_than_the_bed_is_told_once_a_rail_with_its_worst_place_and_amount() -> None:
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
    assert told == {}
    assert min(station.shim for rail in plan.rails for station in rail.stations) < 0.0


@settings(max_examples=80, deadline=None)
@given(st.floats(300, 30_000), st.floats(400, 4000), st.floats(0, 0.7), st.booleans())
def test_settings_cover_the_rail_from_the_far_end_and_keep_the_overlap(
    size: float, strip: float, share: float, is_start_far: bool
) -> None:
    design = RailDesign(strip=Strip(length=strip), overlap=share * strip)
    alongs = [size * n / 50 for n in range(51)]
    settings = settings_along(size, alongs, design, is_start_far)
    assert [setting.order for setting in settings] == list(range(1, len(settings) + 1))
    assert (len(settings) == 1) == (size <= strip * (1 + 1e-9))
    ordered = settings if is_start_far else settings[::-1]
    assert ordered[0].start == 0.0
    assert ordered[-1].end == pytest.approx(size)
    assert all(a.end - b.start >= design.overlap - ALONG_ROUNDING for a, b in pairwise(ordered))
    assert all(setting.end - setting.start <= strip + ALONG_ROUNDING for setting in settings)
    assert {n for setting in settings for n in setting.stations} == set(range(51))


def test_the_strip_starts_at_the_end_away_from_the_way_out() -> None:
    case = plain_case(rectangle(9000.0, 3000.0))
    for exit_x, first in ((0.0, 9000.0 - 152.4), (9000.0, 152.4)):
        plan = rails_from(case.regions, (), case.design, ((exit_x, 1500.0),), subfloor=flat, top=flat)
        for rail in plan.rails:
            lie = rail.settings[0]
            assert first in (pytest.approx(rail.start[0] + lie.start), pytest.approx(rail.start[0] + lie.end))
