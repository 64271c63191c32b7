"""Walking the floor: places that a rod can stand on, near every place of the floor, in a short order."""

import math
import random
from collections.abc import Sequence
from functools import cache
from itertools import combinations, pairwise, permutations
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse.csgraph import minimum_spanning_tree
from scipy.spatial.distance import cdist
from tests.documents import SQUARE, Json, turned
from tests.questions import answer_to, refusal_of
from tests.rooms import polygon_of, random_room
from tests.share import share_of

from evenbed.engine.document.room import Outline
from evenbed.engine.outline import figure_from
from evenbed.engine.walk.order import walked, way_length
from evenbed.engine.walk.pattern import APART, MOST_PLACES
from evenbed.engine.walk.room import FOOT

ROUNDED = 0.71  # mm: places are told to the whole millimetre
ROOMS = range(60)


def walk_over(room: Json) -> Json:
    return answer_to("walk", **room)


@cache
def walk_of_seed(seed: int) -> Json:
    """The walk over that random room, worked out once for all who only look at it."""
    return walk_over(random_room(seed))


def oblong(width: float, depth: float, **more: Any) -> Json:
    return {"outline": {"vertices": [[0, 0], [width, 0], [width, depth], [0, depth]]}, **more}


def spots_of(walk: Json) -> list[tuple[float, float]]:
    return [(x, y) for x, y in (place["at"] for place in walk["places"])]


def kinds_of(walk: Json) -> dict[str, list[str]]:
    kinds: dict[str, list[str]] = {}
    for place in walk["places"]:
        kinds.setdefault(place["kind"], []).append(place["id"])
    return kinds


def random_places(floor: Any, count: int, seed: int) -> Any:
    """Places all over a floor, its boundary among them, by a generator of its own."""
    dice = np.random.default_rng(seed)
    left, low, right, high = floor.bounds
    inside = [p for p in dice.uniform((left, low), (right, high), (count, 2)) if floor.contains(shapely.Point(p))]
    walls = [floor.boundary.interpolate(share, normalized=True) for share in dice.uniform(0, 1, count)]
    return np.array([*inside, *((p.x, p.y) for p in walls)])


@pytest.mark.parametrize("seed", ROOMS)
def test_a_rods_foot_can_stand_on_every_place_and_none_is_in_a_cutout(seed: int) -> None:
    room = random_room(seed)
    clear = polygon_of(room).buffer(-(FOOT - ROUNDED))
    assert all(clear.contains(shapely.Point(spot)) for spot in spots_of(walk_of_seed(seed)))


@pytest.mark.parametrize("seed", ROOMS)
def test_every_place_of_the_floor_has_a_place_to_read_within_the_spacing(seed: int) -> None:
    room, walk = random_room(seed), walk_of_seed(seed)
    nearest = cdist(random_places(polygon_of(room), 2000, seed), spots_of(walk)).min(axis=1)
    assert nearest.max() <= walk["spacing"]


@given(st.floats(1000, 60_000), st.floats(1000, 60_000), st.floats(0, 360), st.floats(300, 6000))
@settings(max_examples=share_of(40), deadline=None)
def test_any_oblong_room_is_covered_with_no_more_places_than_anybody_reads(
    width: float, depth: float, way: float, straightedge: float
) -> None:
    corners = [turned(c, math.radians(way)) for c in ((0, 0), (width, 0), (width, depth), (0, depth))]
    walk = walk_over({"outline": {"vertices": corners}, "rails": {"straightedge": straightedge}})
    assert 4 <= len(walk["places"]) <= MOST_PLACES
    nearest = cdist(random_places(shapely.Polygon(corners), 300, 1), spots_of(walk)).min(axis=1)
    assert nearest.max() <= walk["spacing"]


@pytest.mark.parametrize("seed", ROOMS)
def test_no_two_places_are_so_near_that_one_foot_covers_both(seed: int) -> None:
    spots = spots_of(walk_of_seed(seed))
    assert min(math.dist(p, q) for p, q in combinations(spots, 2)) >= APART


@pytest.mark.parametrize("seed", ROOMS)
def test_every_place_has_a_name_of_its_own(seed: int) -> None:
    names = [place["id"] for place in walk_of_seed(seed)["places"]]
    assert len(names) == len(set(names))


def test_a_straightedge_laid_anywhere_bridges_no_ground_without_a_reading() -> None:
    walk = walk_over(oblong(6000, 5000, rails={"straightedge": 2400}))
    assert walk["spacing"] == 1200
    spots, dice = shapely.MultiPoint(spots_of(walk)), random.Random(4)
    for _ in range(500):
        x, y, way = dice.uniform(1200, 4800), dice.uniform(1200, 3800), dice.uniform(0, math.pi)
        half = 1200 * math.cos(way), 1200 * math.sin(way)
        laid = shapely.LineString([(x - half[0], y - half[1]), (x + half[0], y + half[1])])
        assert laid.distance(spots) <= 1200 / 2


@pytest.mark.parametrize("seed", range(0, 60, 4))
def test_the_way_is_not_much_longer_than_the_shortest_tree_that_joins_the_places(seed: int) -> None:
    """No way over all places is shorter than that tree; in a room of one straight piece a short way is near it."""
    dice = random.Random(seed)
    spots = spots_of(walk_over(oblong(dice.uniform(2000, 20_000), dice.uniform(2000, 20_000))))
    tree = minimum_spanning_tree(cdist(spots, spots)).sum()
    assert tree <= way_length(spots) <= 1.2 * tree


def shortest_by_trying(spots: Sequence[tuple[float, float]], first: int) -> float:
    others = [n for n in range(len(spots)) if n != first]
    ways = ((first, *rest) for rest in permutations(others))
    return min(math.fsum(math.dist(spots[a], spots[b]) for a, b in pairwise(way)) for way in ways)


@given(st.lists(st.tuples(st.integers(1, 3999), st.integers(1, 2999)), min_size=2, max_size=7, unique=True))
@settings(max_examples=150, deadline=None)
def test_few_places_are_walked_nearly_the_shortest_way_there_is(spots: list[tuple[int, int]]) -> None:
    figure = figure_from(Outline(vertices=tuple((x, y) for x, y in SQUARE)))
    order = walked(figure, spots, (0.0, 0.0))
    assert sorted(order) == list(range(len(spots)))
    assert way_length([spots[n] for n in order]) <= 1.15 * shortest_by_trying(spots, order[0]) + 1e-6


def test_the_walk_begins_at_the_way_out_and_its_length_is_that_of_its_steps() -> None:
    doors = [{"wall": 0, "from": 3000, "to": 3800, "id": "a"}, {"wall": 2, "from": 200, "to": 1000, "exit": True}]
    walk = walk_over(oblong(4000, 3000, openings=doors))
    spots = spots_of(walk)
    assert math.dist(spots[0], (3400, 3000)) < 500
    assert walk["length"] == pytest.approx(math.fsum(math.dist(p, q) for p, q in pairwise(spots)))


def test_the_walk_goes_round_a_wall_that_stands_between_two_arms_of_a_room() -> None:
    """Two arms, a thin wall between them: who walked by distance alone would go through it again and again."""
    vertices = [[0, 0], [4000, 0], [4000, 6000], [2050, 6000], [2050, 1000], [1950, 1000], [1950, 6000], [0, 6000]]
    walk = walk_over({"outline": {"vertices": vertices}})
    floor = shapely.Polygon(vertices)
    through = [pair for pair in pairwise(spots_of(walk)) if not floor.covers(shapely.LineString(pair))]
    assert len(through) <= 1


def test_doorways_are_read_at_both_jambs_and_wide_ones_in_the_middle_too() -> None:
    doors = [
        {"wall": 0, "from": 1000, "to": 1800, "id": "in"},
        {"wall": 1, "from": 500, "to": 2300, "id": "wide"},
        {"wall": 2, "from": 1000, "to": 1300},
    ]
    walk = walk_over(oblong(4000, 3000, openings=doors))
    assert set(kinds_of(walk)["doorway"]) == {
        "door-in-a",
        "door-in-b",
        "door-wide-a",
        "door-wide-b",
        "door-wide-m",
        "door-o3-m",
    }
    at = {place["id"]: place["at"] for place in walk["places"]}
    assert at["door-in-a"] == [1075, 75]
    assert at["door-in-b"] == [1725, 75]
    assert at["door-wide-m"] == [3925, 1400]


def test_every_corner_of_a_square_room_is_read_just_off_both_walls() -> None:
    at = {place["id"]: place["at"] for place in walk_over(oblong(4000, 3000))["places"]}
    corners = [at[f"corner-{n}"] for n in range(4)]
    assert corners == [[75, 75], [3925, 75], [3925, 2925], [75, 2925]]


def test_a_clockwise_outline_is_walked_over_the_same_places() -> None:
    def spots(vertices: list[list[float]]) -> set[tuple[float, float]]:
        return set(spots_of(walk_over({"outline": {"vertices": vertices}})))

    assert spots(SQUARE) == spots([SQUARE[0], *SQUARE[:0:-1]])


def test_a_drain_is_read_on_two_sides_and_nothing_stands_on_it() -> None:
    drain = {"kind": "drain", "at": [2000, 1500], "radius": 60, "id": "d"}
    walk = walk_over(oblong(4000, 3000, fixtures=[drain]))
    assert len(kinds_of(walk)["fixture"]) == 2
    assert min(math.dist(spot, (2000, 1500)) for spot in spots_of(walk)) >= 60 + FOOT - ROUNDED


@pytest.mark.parametrize("seed", range(10))
def test_readings_and_whatever_else_a_document_holds_move_no_place(seed: int) -> None:
    room = random_room(seed)
    bare: Json = {key: room[key] for key in ("outline", "openings", "rails") if key in room}
    assert walk_over(room) == walk_over(bare) == walk_over({**room, "readings": "none", "mix": 7})


def test_a_new_doorway_or_drain_leaves_the_names_and_places_of_far_ones() -> None:
    before = {p["id"]: p["at"] for p in walk_over(oblong(6000, 5000))["places"]}
    more = {"openings": [{"wall": 0, "from": 200, "to": 1000}], "fixtures": [{"kind": "post", "at": [1500, 1500]}]}
    after = {p["id"]: p["at"] for p in walk_over(oblong(6000, 5000, **more))["places"]}
    far = {name: at for name, at in before.items() if at[0] > 3000 or at[1] > 3000}
    assert far.items() <= after.items()
    assert len(far) > 20


def test_a_room_too_narrow_for_a_rods_foot_gets_no_place_and_no_spacing() -> None:
    assert walk_over(oblong(2000, 45)) == {"places": [], "spacing": None, "length": 0.0}


def test_a_passage_narrower_than_the_usual_distance_from_walls_is_read_along_its_middle() -> None:
    spots = spots_of(walk_over(oblong(3000, 70)))
    assert len(spots) >= 3
    assert {y for _, y in spots} <= set(range(25, 46))


def test_a_sharp_corner_that_no_foot_reaches_is_told_in_the_spacing() -> None:
    walk = walk_over({"outline": {"vertices": [[0, 0], [20_000, 0], [20_000, 400]]}})
    nearest = min(math.dist(spot, (0, 0)) for spot in spots_of(walk))
    assert nearest <= walk["spacing"]


def test_a_doorway_or_an_outline_that_is_none_is_refused() -> None:
    assert refusal_of("walk", oblong(4000, 3000, openings=[{"wall": 9, "from": 0, "to": 1}])) == [
        ("openings[0].wall", "no_such_wall")
    ]
    assert refusal_of("walk", {}) == [("outline", "missing")]
