"""The invented rooms keep the promises other tests rest on; shapely judges."""

import json
from itertools import combinations

import pytest
from shapely import Polygon
from tests.rooms import CLEARANCE, area_of, cutouts_of, outline_of, random_room

SEEDS = range(300)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_room_is_a_valid_figure_of_ordinary_size(seed: int) -> None:
    room = random_room(seed)
    figure = Polygon(outline_of(room), cutouts_of(room))
    assert figure.is_valid
    assert Polygon(outline_of(room)).exterior.is_simple
    rings = [Polygon(outline_of(room)).exterior, *(Polygon(ring).exterior for ring in cutouts_of(room))]
    assert all(a.distance(b) >= CLEARANCE - 1e-6 for a, b in combinations(rings, 2))
    assert 3e6 <= abs(area_of(outline_of(room))) <= 60e6


def test_a_seed_always_gives_the_same_room_and_json_carries_it_whole() -> None:
    assert all(random_room(seed) == json.loads(json.dumps(random_room(seed))) for seed in SEEDS)


def test_the_rooms_are_as_various_as_promised() -> None:
    rooms = [random_room(seed) for seed in SEEDS]
    assert {len(cutouts_of(room)) for room in rooms} == {0, 1, 2, 3}
    figures = [Polygon(outline_of(room)) for room in rooms]
    concave = sum(figure.convex_hull.area > figure.area * 1.001 for figure in figures)
    assert concave > len(rooms) * 0.6
    assert 0.5 < sum(room["openings"][0]["exit"] for room in rooms) / len(rooms) < 0.8


def test_every_corner_is_read_and_the_doorway_lies_in_its_wall() -> None:
    for room in map(random_room, SEEDS):
        corners = outline_of(room)
        assert [tuple(entry["at"]) for entry in room["readings"][: len(corners)]] == list(corners)
        door = room["openings"][0]
        a, b = corners[door["wall"]], corners[(door["wall"] + 1) % len(corners)]
        wall = ((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5
        assert 0.0 <= door["from"] < door["to"] <= wall + 0.1
