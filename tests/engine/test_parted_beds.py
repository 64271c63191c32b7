"""Readings on both sides of a wall: the bed there is not joined, so that neither side leans on the other."""

import math
import random

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checked_bed import checked_room
from tests.documents import Json, Spot, plan_of
from tests.share import share_of

from evenbed.engine.flatness.bed_surface import BedSurface, bed_surface_from
from evenbed.engine.flatness.search import Found, worst_lying
from evenbed.engine.touching import regions_of_room

LEG = 1500.0
WALL = 100.0  # thick, and 2600 long; the legs hang together beyond its end
OUTLINE = [
    (0.0, 0.0), (LEG, 0.0), (LEG, 2600.0), (LEG + WALL, 2600.0), (LEG + WALL, 0.0),
    (2 * LEG + WALL, 0.0), (2 * LEG + WALL, 3600.0), (0.0, 3600.0),
]  # fmt: skip
LEFT = [(x, y) for x in (100.0, 550.0, 1000.0, 1450.0) for y in (100.0, 600.0, 1100.0, 1600.0, 2100.0)]
RIGHT = [(2 * LEG + WALL - x, y) for x, y in LEFT]
ROOM = shapely.Polygon(OUTLINE)
EXACT = 1e-6  # mm


def bed(*spots: Spot) -> BedSurface:
    return bed_surface_from(list(spots), regions_of_room(OUTLINE))


def at_heights(left: list[float], right: list[float]) -> list[Spot]:
    return [(x, y, z) for (x, y), z in zip([*LEFT, *RIGHT], [*left, *right], strict=True)]


def both(surface: BedSurface, length: float) -> list[Found]:
    worst = worst_lying(surface, length)
    return [one for one in (worst.gap, worst.hump) if one is not None]


@pytest.mark.parametrize("length", [609.6, 2000.0, 3048.0])
def test_two_flat_legs_at_heights_of_their_own_have_no_gap(length: float) -> None:
    surface = bed(*at_heights([0.0] * len(LEFT), [40.0] * len(RIGHT)))
    assert all(one.gap < EXACT for one in both(surface, length))


@settings(max_examples=share_of(24), deadline=None)
@given(st.integers(0, 10_000), st.floats(-30.0, 30.0), st.sampled_from([609.6, 2000.0, 3048.0]))
def test_each_leg_is_as_flat_as_it_is_alone(seed: int, step: float, length: float) -> None:
    """Nothing is lost, nothing added: what is found in the room is the worse of what is found in its legs."""
    dice = random.Random(seed)
    left, right = ([dice.gauss(0, 2) for _ in places] for places in (LEFT, RIGHT))
    spots = at_heights(left, [z + step for z in right])
    alone = [worst_lying(bed(*some), length) for some in (spots[: len(LEFT)], spots[len(LEFT) :])]
    found = worst_lying(bed(*spots), length)
    for side in ("gap", "hump"):
        most = max(one.gap if one else 0.0 for one in (getattr(worst, side) for worst in alone))
        one = getattr(found, side)
        assert (one.gap if one else 0.0) == pytest.approx(most, abs=0.01)


def test_what_no_reading_on_its_own_side_tells_of_is_not_judged() -> None:
    """By hand: of the right leg nothing was read, though readings stand beside the wall."""
    room = checked_room(OUTLINE, [(x, y, 0.0) for x, y in LEFT], flatness=OWN)
    (check,) = plan_of(room, "plan")["flatness"]["checks"]
    assert (check["verdict"], check["length"]) == ("too_sparse", 2000.0)
    reached = ROOM.intersection(shapely.union_all([shapely.Point(at).buffer(500.0) for at in LEFT]))
    seen = [part for part in getattr(reached, "geoms", [reached]) if part.intersects(shapely.Point(LEFT[0]))]
    assert check["judged_share"] == pytest.approx(sum(one.area for one in seen) / ROOM.area, abs=0.02)


OWN: Json = {"standard": "own", "own": [{"length": 2000.0, "gap": 3.0}]}


def test_a_room_read_in_both_legs_and_round_the_wall_is_within() -> None:
    beyond = [(x, y) for x in (100.0, 800.0, 1550.0, 2300.0, 3000.0) for y in (2900.0, 3500.0)]
    room = checked_room(OUTLINE, [(x, y, 0.0) for x, y in [*LEFT, *RIGHT, *beyond]], flatness=OWN)
    found = plan_of(room, "plan")["flatness"]
    assert (found["verdict"], found["checks"][0]["judged_share"]) == ("within", 1.0)
    walls = shapely.LineString([(LEG + WALL / 2, 0.0), (LEG + WALL / 2, 2500.0)])
    corners = [[tuple(found["points"][n][:2]) for n in triangle] for triangle in found["triangles"]]
    assert not any(shapely.Polygon(one).intersection(walls).length > 500.0 for one in corners)


def test_a_post_between_readings_leaves_the_bed_round_it_whole() -> None:
    """By hand: a dip of 4 mm beside a post 60 mm square, in readings 500 mm apart."""
    places = [(500.0 * i, 500.0 * j) for i in range(5) for j in range(5)]
    post = [(1200.0, 1220.0), (1260.0, 1220.0), (1260.0, 1280.0), (1200.0, 1280.0)]
    square = ((0.0, 0.0), (2000.0, 0.0), (2000.0, 2000.0), (0.0, 2000.0))
    spots = [(x, y, -4.0 * ((x, y) == (1000.0, 1000.0))) for x, y in places]
    with_post = worst_lying(bed_surface_from(spots, regions_of_room(square, [post])), 2000.0)
    without = worst_lying(bed_surface_from(spots, regions_of_room(square)), 2000.0)
    assert with_post.gap is not None
    assert without.gap is not None
    assert with_post.gap.gap == pytest.approx(without.gap.gap, abs=0.01)
    assert math.dist(with_post.gap.at, (1000.0, 1000.0)) < 1.0
