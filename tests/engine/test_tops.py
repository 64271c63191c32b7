"""Tops of many planes over random rooms: what must hold of every one, and volumes against another reckoning."""

import math
import random
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.documents import Json, turned
from tests.engine.top_rooms import drained_room, is_served, judged_volume, lined_room, stepped_room, worked
from tests.rooms import polygon_of
from tests.share import share_of

from evenbed.engine.worked import WorkedRoom

SEEDS = st.integers(0, 100_000)
EXAMPLES = settings(max_examples=share_of(40), deadline=None)
ROUNDING = 1e-12


def served(document: Json) -> WorkedRoom:
    """The room, where its drain can serve it."""
    room = worked(document)
    assume(is_served(room))
    return room


def fall_of(document: Json) -> float:
    fall: float = document["bed"]["top"]["fall"]
    return fall


def ring_of(room: WorkedRoom) -> Any:
    """The level facet round the drain, or the drain's middle where it has no ring."""
    level = [f.polygon for f in room.top.facets if f.b == f.c == 0.0]
    return shapely.Polygon(*level) if level else shapely.Point(room.document.fixtures[0].at)


@pytest.mark.parametrize("make", [drained_room, lined_room, stepped_room])
@EXAMPLES
@given(seed=SEEDS)
def test_the_facets_cover_the_room_once_and_lie_on_one_another_along_their_edges(make: Any, seed: int) -> None:
    document = make(seed)
    room = served(document) if make is not stepped_room else worked(document)
    outer = shapely.Polygon(room.figure.outer)
    shapes = [shapely.Polygon(f.polygon) for f in room.top.facets]
    assert math.fsum(s.area for s in shapes) == pytest.approx(outer.area, rel=1e-9)
    assert all(s.difference(outer.buffer(1e-3)).area < 1e-3 for s in shapes)
    if document["bed"]["top"].get("ramp") == 0.0:
        return
    for one in room.top.facets:
        for p in one.polygon:
            touching = [
                f for f, s in zip(room.top.facets, shapes, strict=True) if s.distance(shapely.Point(p)) < 1e-6
            ]
            assert [f.at(*p) for f in touching] == pytest.approx([one.at(*p)] * len(touching), abs=1e-5)


@EXAMPLES
@given(SEEDS)
def test_nothing_falls_less_than_asked_and_walls_before_the_drain_are_level(seed: int) -> None:
    document = drained_room(seed)
    room, fall = served(document), fall_of(document)
    ring = ring_of(room)
    slopes = [math.hypot(f.b, f.c) for f in room.top.facets]
    assert all(slope >= fall - ROUNDING for slope in slopes if slope > 0)
    assert sum(slope == 0 for slope in slopes) == (room.document.fixtures[0].radius > 0)
    why = room.designed_top.explanation
    assert why is not None
    wall, x, y = (float(why.inputs[name]) for name in ("wall", "x", "y"))
    assert room.top.at(x, y) == pytest.approx(wall, abs=1e-6)
    fallen = wall - room.top.at(*ring.centroid.coords[0])
    assert fallen / ring_distance(room, (x, y)) == pytest.approx(fall, rel=1e-9)


def ring_distance(room: WorkedRoom, at: tuple[float, float]) -> float:
    drain = room.document.fixtures[0]
    return math.dist(at, drain.at) - drain.radius


@EXAMPLES
@given(SEEDS, st.floats(0, 1))
def test_every_straight_way_from_a_wall_the_drain_sees_falls_enough_all_the_way(seed: int, share: float) -> None:
    document = drained_room(seed)
    room, fall = served(document), fall_of(document)
    outer, drain = shapely.Polygon(room.figure.outer), room.document.fixtures[0]
    at = outer.exterior.interpolate(share, normalized=True)
    way = shapely.LineString([at, drain.at])
    assume(outer.buffer(1e-6).contains(way))
    ring = ring_of(room)
    assume(not is_beyond_a_cut(room, way))
    length = way.length - (ring.intersection(way).length if drain.radius else 0.0)
    steps = [way.interpolate(length * n / 40).coords[0] for n in range(41)]
    heights = [room.top.at(*p) for p in steps]
    assert heights[0] == pytest.approx(float(room.designed_top.explanation.inputs["wall"]))  # type: ignore[union-attr]
    assert all(high - low >= fall * length / 40 - 1e-6 for high, low in pairwise(heights))


def is_beyond_a_cut(room: WorkedRoom, way: Any) -> bool:
    """True where the way crosses a part that falls square to a cut: those planes are no triangles to the drain."""
    wall = float(room.designed_top.explanation.inputs["wall"])  # type: ignore[union-attr]
    high = [f for f in room.top.facets if max(f.at(*p) for p in f.polygon) > wall + 1e-6]
    return any(shapely.Polygon(f.polygon).intersection(way).length > 1e-3 for f in high)


@EXAMPLES
@given(SEEDS)
def test_beyond_a_cut_the_floor_falls_as_asked_square_to_it_down_to_level(seed: int) -> None:
    document = drained_room(seed)
    room, fall = served(document), fall_of(document)
    wall = float(room.designed_top.explanation.inputs["wall"])  # type: ignore[union-attr]
    for facet in room.top.facets:
        if max(facet.at(*p) for p in facet.polygon) > wall + 1e-6:
            assert math.hypot(facet.b, facet.c) == pytest.approx(fall, rel=1e-12)
            assert min(facet.at(*p) for p in facet.polygon) > wall - 1e-6


@EXAMPLES
@given(SEEDS)
def test_a_linear_drain_falls_exactly_as_asked_square_to_its_line(seed: int) -> None:
    document = lined_room(seed)
    room, fall = served(document), fall_of(document)
    drain = room.document.fixtures[0]
    assert drain.to is not None
    way = drain.to[0] - drain.at[0], drain.to[1] - drain.at[1]
    for facet in room.top.facets:
        assert facet.b * way[0] + facet.c * way[1] == pytest.approx(0.0, abs=1e-9)
        assert math.hypot(facet.b, facet.c) in (0.0, pytest.approx(fall, rel=1e-12))


@pytest.mark.parametrize("make", [drained_room, lined_room])
@EXAMPLES
@given(seed=SEEDS)
def test_a_drain_without_a_height_keeps_the_least_thickness_and_somewhere_no_more(make: Any, seed: int) -> None:
    room = served(make(seed))
    assert room.thickness.min == pytest.approx(31.75, abs=1e-6)
    assert room.quantities.too_thin_area == pytest.approx(0.0, abs=1e-9)
    polygon, dice = polygon_of(make(seed)), random.Random(seed)
    x0, y0, x1, y1 = polygon.bounds
    places = [(dice.uniform(x0, x1), dice.uniform(y0, y1)) for _ in range(50)]
    inside = [p for p in places if polygon.contains(shapely.Point(p))]
    assert all(room.top.at(*p) - room.surface.height_at(*p) >= 31.75 - 1e-6 for p in inside)


@pytest.mark.parametrize("make", [drained_room, lined_room, stepped_room])
@pytest.mark.parametrize("seed", range(share_of(20)))
def test_the_volume_is_what_scipy_and_shapely_find_facet_by_facet(make: Any, seed: int) -> None:
    """Drains at given heights too, with the top partly below the subfloor."""
    for number in range(seed * 40, seed * 40 + 40):
        document = make(number)
        if make is drained_room and number % 2:
            document["fixtures"][0]["height"] = 15.0
        room = worked(document)
        if make is stepped_room or is_served(room):
            assert room.quantities.volume == pytest.approx(judged_volume(room, document), rel=1e-9, abs=1e-12)
            return
    pytest.fail("no drain served any of these rooms")


@settings(max_examples=share_of(30), deadline=None)
@given(SEEDS, st.floats(0.0, 6.28), st.floats(-9e3, 9e3), st.randoms(use_true_random=False))
def test_the_order_of_readings_and_the_place_of_the_room_change_nothing(
    seed: int, angle: float, by: float, dice: random.Random
) -> None:
    document = drained_room(seed)
    room = served(document)
    moved = moved_by(document, angle, (by, -by))
    dice.shuffle(moved["readings"])
    other = worked(moved)
    assert other.quantities.volume == pytest.approx(room.quantities.volume, rel=1e-7)
    mine, theirs = ([(r.kind, r.saves) for r in one.designed_top.requirements] for one in (room, other))
    assert [k for k, _ in mine] == [k for k, _ in theirs]
    assert [s for _, s in mine] == pytest.approx([s for _, s in theirs], rel=1e-5)


def moved_by(document: Json, angle: float, by: tuple[float, float]) -> Json:
    def placed(points: Any) -> Any:
        return [list(turned(p, angle, by)) for p in points]

    outline = {"vertices": placed(document["outline"]["vertices"])}
    outline["cutouts"] = [placed(ring) for ring in document["outline"]["cutouts"]]
    readings = [r | {"at": list(turned(r["at"], angle, by))} for r in document["readings"]]
    fixtures = [f | {"at": list(turned(f["at"], angle, by))} for f in document["fixtures"]]
    return document | {"outline": outline, "readings": readings, "fixtures": fixtures}


@pytest.mark.parametrize("make", [drained_room, lined_room])
@settings(max_examples=share_of(20), deadline=None)
@given(seed=SEEDS)
def test_what_relief_saves_is_what_the_volume_loses_by_it(make: Any, seed: int) -> None:
    """By differences: a thousandth of a mm, a millionth of fall, either way."""
    document = make(seed)
    document["fixtures"][0]["height"] = 90.0
    room = served(document)
    for found in room.designed_top.requirements:
        step = 1e-6 if found.kind == "least_fall" else 1e-3
        low, high = (worked(relieved(document, found.kind, change)).quantities.volume for change in (step, -step))
        per = 1000 if found.kind == "least_fall" else 1
        assert found.saves * per == pytest.approx((high - low) / (2 * step), rel=1e-4)


def relieved(document: Json, kind: str, by: float) -> Json:
    bed, (drain,) = document["bed"]["top"], document["fixtures"]
    if kind == "least_fall":
        return document | {"bed": {"top": bed | {"fall": bed["fall"] - by}}}
    return document | {"fixtures": [drain | {"height": drain["height"] - by}]}


@EXAMPLES
@given(SEEDS, st.floats(0, 1), st.floats(0.01, 0.99))
def test_a_drain_without_a_ring_is_the_tip_of_a_cone_over_the_walls_it_sees(
    seed: int, share: float, part: float
) -> None:
    """Part of the way from the drain to a wall the floor has that part of the wall's height, in every direction."""
    document = drained_room(seed, height=60.0, radius=0.0)
    room = served(document)
    outer, drain = shapely.Polygon(room.figure.outer), room.document.fixtures[0].at
    wall = outer.exterior.interpolate(share, normalized=True)
    way = shapely.LineString([drain, wall])
    assume(outer.buffer(1e-6).contains(way) and not is_beyond_a_cut(room, way))
    low, high = room.top.at(*drain), float(room.designed_top.explanation.inputs["wall"])  # type: ignore[union-attr]
    at = way.interpolate(part, normalized=True).coords[0]
    assert low == pytest.approx(60.0 - 4.7625 - 9.525)
    assert room.top.at(*at) == pytest.approx(low + part * (high - low), abs=1e-6)
