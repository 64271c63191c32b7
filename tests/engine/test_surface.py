"""The subfloor's surface: every reading kept, no trace of the order of reading, none of how the room lies."""

import copy
import json
import math
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import MultiPoint, Point
from tests.documents import SQUARE, Json, Spot, plan_of, room_over, turned
from tests.rooms import contains, outline_of, random_room
from tests.share import share_of

from evenbed.engine.surface import BEYOND, Surface, surface_from

RELATIVE = 1e-9  # the contract's tolerance for volumes
MM = 1e-6  # mm: rounding of heights on a floor some metres away from the origin
GRID = [(500.0 * x, 500.0 * y) for x in range(9) for y in range(7)]


def random_spots(seed: int, count: int) -> list[Spot]:
    dice = random.Random(seed)
    return [(dice.uniform(0, 4000), dice.uniform(0, 3000), dice.uniform(-8, 8)) for _ in range(count)]


def lumpy(places: list[tuple[float, float]]) -> list[Spot]:
    dice = random.Random(len(places))
    return [(x, y, dice.uniform(-5.0, 5.0)) for x, y in places]


def brute_height(surface: Surface, x: float, y: float) -> float:
    """Height by looking at every triangle: that whose least barycentric share at (x, y) is greatest."""
    shares = [_shares([surface.points[i] for i in t], x, y) for t in surface.triangles]
    best = max(range(len(shares)), key=lambda n: min(shares[n]))
    heights = [surface.points[i][2] for i in surface.triangles[best]]
    return math.fsum(s * z for s, z in zip(shares[best], heights, strict=True))


def _shares(corners: list[Spot], x: float, y: float) -> tuple[float, float, float]:
    (ax, ay, _), (bx, by, _), (cx, cy, _) = corners
    det = (by - cy) * (ax - cx) + (cx - bx) * (ay - cy)
    first = ((by - cy) * (x - cx) + (cx - bx) * (y - cy)) / det
    second = ((cy - ay) * (x - cx) + (ax - cx) * (y - cy)) / det
    return first, second, 1.0 - first - second


@pytest.mark.parametrize("seed", range(12))
@pytest.mark.parametrize("angle", [0.0, 0.7])
def test_every_reading_keeps_its_height(seed: int, angle: float) -> None:
    spots = random_spots(seed, 5 + 9 * seed) if seed % 2 else lumpy([turned(p, angle) for p in GRID])
    surface = surface_from(spots, [])
    for x, y, z in spots:
        assert surface.height_at(x, y) == pytest.approx(z, abs=MM)


@pytest.mark.parametrize("seed", range(6))
def test_walking_finds_what_looking_at_every_triangle_finds(seed: int) -> None:
    dice = random.Random(seed)
    surface = surface_from([*random_spots(seed, 60), *((x, y, 0.0) for x, y in SQUARE)], [])
    for _ in range(150):
        x, y = dice.uniform(0, 4000), dice.uniform(0, 3000)
        start = dice.randrange(len(surface.triangles))
        assert surface.height_at(x, y, start) == pytest.approx(brute_height(surface, x, y), abs=MM)


@pytest.mark.parametrize("angle", [0.0, 0.3, 1.1, 2.5])
def test_walking_ends_on_edges_and_corners_from_wherever_it_starts(angle: float) -> None:
    surface = surface_from(lumpy([turned(p, angle, (700.0, -90.0)) for p in GRID[:30]]), [])
    places = [_between(surface, t, k) for t in surface.triangles for k in range(3)] + list(surface.points)
    for x, y, z in places:
        for start in range(0, len(surface.triangles), 7):
            assert surface.height_at(x, y, start) == pytest.approx(z, abs=MM)


def _between(surface: Surface, triangle: tuple[int, int, int], k: int) -> Spot:
    """A place a third of the way along an edge."""
    p, q = surface.points[triangle[k]], surface.points[triangle[(k + 1) % 3]]
    return (2 * p[0] + q[0]) / 3, (2 * p[1] + q[1]) / 3, (2 * p[2] + q[2]) / 3


@given(st.floats(-1e5, 1e5), st.floats(-1e5, 1e5), st.integers(0, 20))
def test_beyond_the_rim_no_height_leaves_the_readings_range(x: float, y: float, start: int) -> None:
    surface = surface_from(random_spots(3, 30), [])
    heights = [p[2] for p in surface.points]
    assert min(heights) - MM <= surface.height_at(x, y, start) <= max(heights) + MM


def test_a_place_a_hair_outside_a_nearly_straight_rim_stays_between_its_readings() -> None:
    """A rim reading 10 nm inside the wall makes a triangle with no height to speak of and an endless slope."""
    surface = surface_from([(0, 0, 0.0), (2000, 1e-5, 8.0), (4000, 0, 0.0), (2000, 3000, 1.0)], [])
    assert 0.0 <= surface.height_at(2000.0, -0.009) <= 8.0


@pytest.mark.parametrize("hair", [-0.009, -1e-4, -1e-6, 0.0, 1e-6])
def test_a_corner_a_hair_beyond_the_readings_takes_the_rims_height_and_its_share_of_the_floor(hair: float) -> None:
    outline = [(0.0, 0.0), (2000.0, hair), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]
    spots = [(0.0, 0.0, 0.0), (4000.0, 0.0, 4.0), (4000.0, 3000.0, 4.0), (0.0, 3000.0, 0.0)]
    plan = plan_of(room_over(outline, spots, bed={"top": {"kind": "level", "height": 40.0}}))
    assert plan["surface"]["estimated"] == []
    assert plan["bed"]["volume"] == pytest.approx(plan["outline"]["area"] * 0.038, rel=1e-9)
    assert plan["bed"]["thickness"]["min"] == pytest.approx(36.0, abs=MM)


@pytest.mark.parametrize("seed", range(18))
def test_the_order_of_reading_leaves_no_trace(seed: int) -> None:
    room = random_room(seed)
    assert text_in_order(shuffled(room, seed)) == text_in_order(room)


@pytest.mark.parametrize("angle", [0.0, 0.3, 0.7, 1.1])
def test_the_order_of_reading_a_grid_leaves_no_trace(angle: float) -> None:
    room = room_over([turned(p, angle) for p in SQUARE], lumpy([turned(p, angle) for p in GRID]))
    for seed in range(4):
        assert text_in_order(shuffled(room, seed)) == text_in_order(room)


def test_the_order_of_reading_leaves_no_trace_where_corners_are_estimated() -> None:
    room = room_over(SQUARE, [s for s in lumpy(GRID) if 400 < s[0] < 3600])
    for seed in range(4):
        assert text_in_order(shuffled(room, seed)) == text_in_order(room)


def shuffled(room: Json, seed: int) -> Json:
    mixed = copy.deepcopy(room)
    random.Random(seed).shuffle(mixed["readings"])
    return mixed


def text_in_order(room: Json) -> str:
    """The whole plan as text, its list of heights sorted by id."""
    plan = plan_of(room)
    plan["levels"]["heights"].sort(key=lambda height: height["reading"])
    return json.dumps(plan)


@pytest.mark.parametrize("seed", range(40))
def test_the_high_spot_is_a_reading_or_a_corner_marked_as_estimated(seed: int) -> None:
    room = random_room(seed)
    kept = [r for n, r in enumerate(room["readings"]) if n % 3 or n > 12]
    plan = plan_of(room | {"readings": kept})
    highest = plan["surface"]["highest"]
    assert highest["estimated"] == (highest["reading"] is None)
    read = max(h["z"] for h in plan["levels"]["heights"])
    assert highest["z"] >= read
    if not highest["estimated"]:
        assert highest["z"] == read


@pytest.mark.parametrize("seed", range(30))
def test_estimated_points_are_the_corners_beyond_the_readings(seed: int) -> None:
    dice = random.Random(seed)
    room = random_room(seed)
    kept = [r for r in room["readings"] if dice.random() < 0.7]
    plan = plan_of(room | {"readings": kept})
    points, estimated = plan["surface"]["points"], plan["surface"]["estimated"]
    corners = outline_of(room)
    assert {tuple(points[i][:2]) for i in estimated} == {c for c in corners if is_beyond(c, kept)}


def is_beyond(corner: tuple[float, float], readings: list[Json]) -> bool:
    """Whether shapely sees a corner outside the readings' hull by more than the engine lets pass."""
    return bool(MultiPoint([r["at"] for r in readings]).convex_hull.distance(Point(corner)) > BEYOND)


@pytest.mark.parametrize("seed", range(24))
def test_a_plane_added_to_the_floor_and_the_top_changes_no_thickness(seed: int) -> None:
    dice = random.Random(seed)
    a, b, c = dice.uniform(-200, 200), dice.uniform(-0.05, 0.05), dice.uniform(-0.05, 0.05)
    base = absolute(random_room(seed), keep=0.8, dice=dice)
    tilted = copy.deepcopy(base)
    for reading in tilted["readings"]:
        if "at" in reading:
            reading["down"] -= a + b * reading["at"][0] + c * reading["at"][1]
    flat, tilt = (plan_of(d | {"bed": {"top": _top(p)}}) for d, p in ((base, (40.0, 0, 0)), (tilted, (40 + a, b, c))))
    assert tilt["bed"]["volume"] == pytest.approx(flat["bed"]["volume"], rel=RELATIVE)
    assert tilt["bed"]["too_thin_area"] == pytest.approx(flat["bed"]["too_thin_area"], abs=1e-7)
    for key in ("min", "max", "mean"):
        assert tilt["bed"]["thickness"][key] == pytest.approx(flat["bed"]["thickness"][key], abs=MM)


def absolute(room: Json, keep: float, dice: random.Random) -> Json:
    """The room on a benchmark, some readings left out so that corners have to be estimated."""
    line = {"id": "on the benchmark", "mark": "benchmark", "down": 1200.0}
    kept = [copy.deepcopy(r) for n, r in enumerate(room["readings"]) if n < 3 or dice.random() < keep]
    marks = [{"id": "benchmark", "height": 0.0}]
    return {k: v for k, v in room.items() if k != "rails"} | {"readings": [*kept, line], "marks": marks}


def _top(plane: tuple[float, float, float]) -> Json:
    a, b, c = plane
    return {"kind": "plane", "through": [[0, 0, a], [3000, 0, a + 3000 * b], [0, 3000, a + 3000 * c]]}


def turned_room(room: Json, angle: float, by: tuple[float, float]) -> Json:
    moved: Json = copy.deepcopy(room)
    outline: dict[str, Any] = moved["outline"]
    outline["vertices"] = [turned(p, angle, by) for p in outline["vertices"]]
    outline["cutouts"] = [[turned(p, angle, by) for p in ring] for ring in outline.get("cutouts", [])]
    for reading in moved["readings"]:
        if "at" in reading:
            reading["at"] = turned(reading["at"], angle, by)
    return moved


@given(st.integers(0, 10_000), st.floats(-3.1, 3.1), st.floats(-2e4, 2e4), st.floats(-2e4, 2e4))
@settings(max_examples=share_of(25), deadline=None)
def test_a_room_turned_or_moved_keeps_its_volume(seed: int, angle: float, dx: float, dy: float) -> None:
    room = {k: v for k, v in random_room(seed).items() if k != "rails"}
    here, there = plan_of(room), plan_of(turned_room(room, angle, (dx, dy)))
    assert same_bed(here, there)


@given(st.floats(-3.1, 3.1), st.floats(-2e4, 2e4), st.floats(-2e4, 2e4))
@settings(max_examples=share_of(15), deadline=None)
def test_a_room_read_on_a_grid_keeps_its_volume_turned_or_moved(angle: float, dx: float, dy: float) -> None:
    room = room_over(SQUARE, [s for s in lumpy(GRID) if s[0] < 3900])
    here, there = plan_of(room), plan_of(turned_room(room, angle, (dx, dy)))
    assert same_bed(here, there)


def same_bed(one: Json, other: Json) -> bool:
    keys = ("volume", "too_thin_area", "too_thick_area")
    assert [one["bed"][k] for k in keys] == pytest.approx([other["bed"][k] for k in keys], rel=RELATIVE, abs=1e-7)
    sizes = ("min", "max", "mean")
    mine, others = one["bed"]["thickness"], other["bed"]["thickness"]
    return [mine[k] for k in sizes] == pytest.approx([others[k] for k in sizes], abs=MM)


def test_corners_of_a_room_read_in_its_middle_are_all_estimated_and_asked_for() -> None:
    inner = [(1000.0, 1000.0, 0.0), (3000.0, 1000.0, -4.0), (3000.0, 2000.0, -4.0), (1000.0, 2000.0, 0.0)]
    plan = plan_of(room_over(SQUARE, inner))
    assert len(plan["surface"]["estimated"]) == 4
    asked = [tuple(entry["at"]) for entry in plan["levels"]["next_readings"]]
    assert tuple(plan["surface"]["highest"]["at"]) in asked
    assert all(contains([(-1, -1), (4001, -1), (4001, 3001), (-1, 3001)], at) for at in asked)  # type: ignore[arg-type]


def test_a_plane_floor_read_in_its_middle_is_carried_to_the_corners() -> None:
    inner = [(x, y, 0.004 * x - 0.002 * y) for x, y in ((1000, 900), (3000, 1000), (2900, 2100), (1200, 2000))]
    plan = plan_of(room_over(SQUARE, inner))
    for x, y, z in plan["surface"]["points"]:
        assert z == pytest.approx(0.004 * x - 0.002 * y, abs=MM)


def test_on_a_floor_all_of_one_height_a_reading_decides_and_no_corner_is_asked_for() -> None:
    plan = plan_of(room_over(SQUARE, [(x, y, -2.0) for x, y in [(100, 100), (3900, 200), (3800, 2900), (200, 2800)]]))
    surface = plan["surface"]
    assert (surface["highest"]["reading"], surface["lowest"]["reading"]) == ("r0", "r0")
    assert plan["bed"]["thickness"]["max_at"] == [100.0, 100.0]
    assert plan["levels"]["next_readings"] == []
