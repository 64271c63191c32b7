"""A section through the floor: exact along any line, against dense sampling and independent polygons."""

import math
import random
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
import shapely
from scipy.interpolate import LinearNDInterpolator
from scipy.spatial import Delaunay
from tests.documents import SQUARE, Json, room_over
from tests.questions import answer_to, refusal_of
from tests.rooms import Room, polygon_of, random_room

from evenbed.engine.document.check import check_document
from evenbed.engine.worked import WorkedRoom

SEEDS = range(40)
Spot = tuple[float, float]


def profile_of(room: Json, start: Spot, end: Spot) -> Json:
    return answer_to("profile", document=room, **{"from": start, "to": end})


def worked(room: Room) -> WorkedRoom:
    return WorkedRoom(check_document(room)[0])


def line_through(room: Room, seed: int) -> tuple[Spot, Spot]:
    """A line from anywhere round the room to anywhere else round it."""
    dice, (left, low, right, high) = random.Random(seed), polygon_of(room).bounds
    x, y, reach = (left + right) / 2, (low + high) / 2, math.hypot(right - left, high - low) * dice.uniform(0.2, 0.8)
    ways = dice.uniform(0, math.tau), dice.uniform(0, math.tau)
    start, end = ((x + reach * math.cos(way), y + reach * math.sin(way)) for way in ways)
    return start, end


def heights_in(run: list[Json], key: str, along: Any) -> Any:
    return np.interp(along, [point["along"] for point in run], [point[key] for point in run])


@pytest.mark.parametrize("seed", SEEDS)
def test_between_its_points_the_section_is_the_surface_everywhere(seed: int) -> None:
    room = random_room(seed)
    start, end = line_through(room, seed)
    surface, answer = worked(room).surface, profile_of(room, start, end)
    for run in answer["runs"]:
        along = np.linspace(run[0]["along"], run[-1]["along"], 400)
        at = [(start[k] + along * (end[k] - start[k]) / answer["length"]) for k in (0, 1)]
        true = [surface.height_at(x, y) for x, y in zip(*at, strict=True)]
        assert np.abs(heights_in(run, "subfloor", along) - true).max() < 1e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_it_runs_in_the_room_alone_and_over_no_cutout(seed: int) -> None:
    room = random_room(seed)
    start, end = line_through(room, seed)
    inside = polygon_of(room).intersection(shapely.LineString([start, end]))
    runs = profile_of(room, start, end)["runs"]
    assert sum(run[-1]["along"] - run[0]["along"] for run in runs) == pytest.approx(inside.length, abs=1e-5)
    assert len(runs) == (0 if inside.is_empty else len(getattr(inside, "geoms", [inside])))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_other_way_along_the_line_gives_the_same_section(seed: int) -> None:
    room = random_room(seed)
    start, end = line_through(room, seed)
    there, back = profile_of(room, start, end), profile_of(room, end, start)
    turned = [
        [(there["length"] - p["along"], p["subfloor"], p["estimated"]) for p in run[::-1]] for run in back["runs"]
    ]
    for run, other in zip(there["runs"], turned[::-1], strict=True):
        for point, (along, subfloor, estimated) in zip(run, other, strict=True):
            assert point["along"] == pytest.approx(along, abs=1e-5)
            assert point["subfloor"] == pytest.approx(subfloor, abs=1e-6)
            assert point["estimated"] == estimated


@pytest.mark.parametrize("seed", range(8))
def test_over_scattered_readings_it_is_what_scipy_interpolates(seed: int) -> None:
    dice = np.random.default_rng(seed)
    inner = dice.uniform((0, 0), (4000, 3000), (40, 2))
    places = np.array([*SQUARE, *inner])
    heights = dice.normal(0, 5, len(places))
    room = room_over(SQUARE, [(x, y, z) for (x, y), z in zip(places, heights, strict=True)])
    (run,) = profile_of(room, (0.0, 0.0), (4000.0, 3000.0))["runs"]
    judge = LinearNDInterpolator(Delaunay(places), heights)
    along = np.linspace(0, 5000, 1000)[1:-1]
    judged = judge(along * 0.8, along * 0.6)
    assert np.abs(heights_in(run, "subfloor", along) - judged).max() < 1e-6


def test_the_top_and_the_thickness_are_those_of_the_bed() -> None:
    room = room_over(SQUARE, [(x, y, x / 100) for x, y in SQUARE])
    room["bed"] = {"top": {"kind": "plane", "through": [[0, 0, 80], [4000, 0, 100], [0, 3000, 80]]}}
    (run,) = profile_of(room, (0.0, 1500.0), (4000.0, 1500.0))["runs"]
    assert [run[0]["top"], run[-1]["top"]] == pytest.approx([80, 100])
    assert [run[0]["thickness"], run[-1]["thickness"]] == pytest.approx([80, 60])
    assert all(p["thickness"] == pytest.approx(p["top"] - p["subfloor"]) for p in run)


def test_a_corner_that_was_not_read_shows_where_the_section_leans_on_it() -> None:
    read = [(0, 0, 0), (4000, 0, 1), (0, 3000, 2), (2000, 1500, 3)]
    (run,) = profile_of(room_over(SQUARE, read), (0.0, 0.0), (4000.0, 3000.0))["runs"]
    assert [(round(p["along"]), p["estimated"]) for p in run] == [(0, False), (2500, True), (5000, True)]


def test_a_line_along_a_wall_is_in_the_room_from_either_end() -> None:
    room = room_over(SQUARE, [(x, y, x / 100) for x, y in SQUARE])
    for start, end in (((0.0, 0.0), (4000.0, 0.0)), ((4000.0, 0.0), (0.0, 0.0))):
        (run,) = profile_of(room, start, end)["runs"]
        assert run[-1]["along"] - run[0]["along"] == pytest.approx(4000)


def test_a_line_that_misses_the_room_has_no_run() -> None:
    room = room_over(SQUARE, [(x, y, 0) for x, y in SQUARE])
    assert profile_of(room, (-100.0, -100.0), (5000.0, -100.0)) == {"length": 5100.0, "runs": []}


def test_points_of_a_run_rise_along_the_line_and_lie_on_it() -> None:
    room = random_room(0)
    start, end = line_through(room, 0)
    for run in profile_of(room, start, end)["runs"]:
        assert all(p["along"] < q["along"] for p, q in pairwise(run))
        assert all(math.dist(start, p["at"]) == pytest.approx(p["along"]) for p in run)


def test_a_tap_is_no_line_and_what_is_wrong_with_the_room_is_told_by_its_place() -> None:
    room = room_over(SQUARE, [(x, y, 0) for x, y in SQUARE])
    assert refusal_of("profile", {"document": room, "from": [1, 1], "to": [1, 1]}) == [("to", "profile_no_length")]
    room["readings"][2]["at"] = [9000, 9000]
    assert refusal_of("profile", {"document": room, "from": [0, 0], "to": [9, 9]}) == [
        ("document.readings[2].at", "reading_outside")
    ]
    room["readings"][2]["at"] = "here"
    assert refusal_of("profile", {"document": room, "from": [0, 0], "to": [9, 9]}) == [
        ("document.readings[2].at", "not_a_list")
    ]
