"""Places that no straightedge on rails serves: their kinds and their ways, by hand in rooms that one can draw."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tests.engine.rail_cases import END, Case, flat, plain_case, rectangle
from tests.share import share_of

from evenbed.engine.document.rails import RailLine
from evenbed.engine.document.room import Fixture, Opening
from evenbed.engine.geometry import Ring
from evenbed.engine.rails.cover import Cell, Side
from evenbed.engine.rails.hand import Place
from evenbed.engine.rails.joining import groups_of, joined_ring
from evenbed.engine.rails.laid import rails_from
from evenbed.engine.rails.shapes import HandArea
from evenbed.engine.touching import regions_of_room

INSET, EDGE, BEARING = 152.4, 1828.8, 50.8
CLEAR = 25.0 + 38.1 / 2.0  # mm between a fixture and a rail's middle


def across(width: float, *ys: float) -> tuple[RailLine, ...]:
    return tuple(RailLine((END, y), (width - END, y)) for y in ys)


def areas_of(outline: Ring, *lines: RailLine, **design: object) -> dict[str, list[HandArea]]:
    found: dict[str, list[HandArea]] = {}
    for area in plain_case(outline, lines=lines, **design).hand.areas:
        found.setdefault(area.kind, []).append(area)
    return found


def total(areas: list[HandArea]) -> float:
    return sum(area.area for area in areas) * 1e6


def test_a_plain_room_has_strips_at_its_walls_alone_and_no_caution_of_them() -> None:
    out = EDGE - BEARING - 1600.0
    case = plain_case(rectangle(5000.0, 1600.0 + 2.0 * INSET), lines=across(5000.0, INSET, INSET + 1600.0))
    assert case.hand.cautions == ()
    ends = [area for area in case.hand.areas if area.kind == "rail_end"]
    assert [area.area * 1e6 for area in ends] == pytest.approx([END * (1600.0 + 2.0 * INSET)] * 2)
    assert {area.kind for area in case.hand.areas} == {"rail_end"}, (
        f"the straightedge sticks out {out} mm, to the wall"
    )


def test_a_strip_beside_a_wall_begins_where_the_straightedge_ends() -> None:
    found = areas_of(rectangle(5000.0, 1700.0 + 2.0 * INSET), *across(5000.0, INSET, INSET + 1700.0))
    depth = INSET - (EDGE - BEARING - 1700.0)
    assert [area.area * 1e6 for area in found["beside_wall"]] == pytest.approx([(5000.0 - 2.0 * END) * depth] * 2)
    assert {(area.way, area.straightedge) for area in found["beside_wall"]} == {("float", None)}


def test_a_straightedge_sticks_out_no_further_than_its_rails_are_apart() -> None:
    found = areas_of(rectangle(5000.0, 3000.0), *across(5000.0, 1000.0, 1400.0))
    (below,) = [area for area in found["beside_wall"] if area.at[1] < 1000.0]
    assert max(y for _, y in below.polygon) == pytest.approx(1000.0 - 400.0)


def test_between_rails_too_far_apart_lies_what_sticks_out_over_neither_of_them() -> None:
    found = areas_of(rectangle(5000.0, 5000.0), *across(5000.0, 200.0, 1200.0, 3800.0, 4800.0))
    (area,) = found["between"]
    out = EDGE - BEARING - 1000.0
    assert area.area * 1e6 == pytest.approx((5000.0 - 2.0 * END) * (2600.0 - 2.0 * out))
    assert (area.way, area.straightedge) == ("overhanging_straightedge", EDGE)


def test_an_alcove_is_named_and_a_door_recess_is_a_doorway() -> None:
    recess = ((3000.0, 1800.0), (3000.0, 2800.0), (2000.0, 2800.0), (2000.0, 1800.0))
    outline = ((0.0, 0.0), (5000.0, 0.0), (5000.0, 1800.0), *recess, (0.0, 1800.0))
    lines = across(5000.0, INSET, 1800.0 - INSET)
    found = areas_of(outline, *lines)
    (alcove,) = found["alcove"]
    out = EDGE - BEARING - (1800.0 - 2.0 * INSET)
    assert alcove.area * 1e6 == pytest.approx(1000.0 * (1000.0 + INSET - out))
    assert (alcove.way, alcove.straightedge) == ("overhanging_straightedge", EDGE)
    plain = plain_case(outline, lines=lines)
    door = (Opening(wall=4, start=100.0, end=900.0),)
    doored = Case(plain.vertices, plain.regions, plain.design, (), door)
    assert [area.kind for area in doored.hand.areas if area.area == pytest.approx(alcove.area)] == ["doorway"]


def test_a_passage_too_narrow_for_rails_is_named() -> None:
    outline = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 700.0), (6000.0, 700.0), (6000.0, 1000.0), (4000.0, 1000.0))
    found = areas_of((*outline, (4000.0, 1800.0), (0.0, 1800.0)), *across(4000.0, INSET, 1800.0 - INSET))
    assert total(found["narrow"]) == pytest.approx(2000.0 * 300.0)


def test_a_wide_room_without_two_rails_is_out_of_reach_of_them_and_not_narrow() -> None:
    for lines in ((), across(5000.0, 2000.0)):
        assert set(areas_of(rectangle(5000.0, 4000.0), *lines)) == {"between"}


def test_behind_a_post_nothing_is_served_that_the_straightedge_does_not_reach_from_this_side() -> None:
    case = plain_case(rectangle(5000.0, 3000.0), lines=across(5000.0, 150.0, 1500.0, 2850.0))
    post = Fixture((2500.0, 800.0), "post", "p", 100.0)
    posted = Case(case.vertices, case.regions, case.design, (post,))
    (area,) = [area for area in posted.hand.areas if area.kind == "behind_fixture"]
    out = EDGE - BEARING - 1350.0
    assert area.area * 1e6 == pytest.approx(200.0 * (1500.0 - out))
    drained = Case(case.vertices, case.regions, case.design, (Fixture((2500.0, 800.0), "drain", "p", 100.0),))
    assert "behind_fixture" not in {area.kind for area in drained.hand.areas}


def test_the_shortest_straightedge_that_fits_is_named_for_a_place_by_hand() -> None:
    found = areas_of(
        rectangle(5000.0, 2590.0), *across(5000.0, 600.0, 1990.0), straightedge=1500.0, straightedges=(400.0, 1200.0)
    )
    # 600 mm to the wall less 1500 - 50.8 - 1390 of overhang leave 540.8: twice that takes the 1200.
    ways = {(area.way, area.straightedge) for area in found["beside_wall"]}
    assert ways == {("short_straightedge", 1200.0)}


def test_a_deep_place_at_a_wall_or_at_rail_ends_is_told() -> None:
    for lines in (
        across(5000.0, 800.0, 2200.0),
        tuple(RailLine((900.0, y), (4900.0, y)) for y in (150.0, 1500.0, 2850.0)),
    ):
        (told,) = plain_case(rectangle(5000.0, 3000.0), lines=lines).hand.cautions
        assert told.code == "by_hand"
        assert float(told.values["area"]) > 2.0


@settings(max_examples=share_of(100), deadline=None)
@given(st.floats(500, 3500), st.floats(500, 2500), st.floats(0, math.pi), st.floats(0, 1500), st.floats(0, 120))
def test_rails_keep_clear_of_a_long_drain(x: float, y: float, turn: float, size: float, radius: float) -> None:
    to = (x + size * math.cos(turn), y + size * math.sin(turn))
    regions = regions_of_room(rectangle(5000.0, 4000.0))
    drain = Fixture((x, y), "drain", "d", radius, to)
    plan = rails_from(regions, (drain,), plain_case(rectangle(1.0, 1.0)).design, (), subfloor=flat, top=flat)
    channel = LineString([(x, y), to])
    assert plan.rails
    assert all(LineString([rail.start, rail.end]).distance(channel) >= radius + CLEAR - 1e-4 for rail in plan.rails)


def test_every_polygon_of_a_room_with_posts_and_cutouts_is_one_simple_ring() -> None:
    hole = ((2000.0, 1200.0), (2600.0, 1200.0), (2600.0, 1700.0), (2000.0, 1700.0))
    case = plain_case(rectangle(6000.0, 4000.0), hole)
    posts = (Fixture((4000.0, 1000.0), "post", "p", 150.0), Fixture((4000.0, 2600.0), "flange", "f", 80.0))
    areas = Case(case.vertices, case.regions, case.design, posts).hand.areas
    shapes = [Polygon(area.polygon) for area in areas]
    assert all(shape.is_valid and shape.exterior.is_ccw for shape in shapes)
    assert [area.id for area in areas] == [f"H{n + 1}" for n in range(len(areas))]
    assert {"behind_fixture"} < {area.kind for area in areas}


def test_places_that_meet_at_a_cutout_corner_again_are_not_made_one_ring_round_the_cutout() -> None:
    below = Place((Cell(0.0, 100.0, Side(0.0, 0.0, 0), Side(50.0, 30.0, 5), 0, None, None, False),))
    above = Place(
        (
            Cell(0.0, 100.0, Side(50.0, 70.0, 4), Side(100.0, 100.0, 2), 1, None, None, False),
            Cell(100.0, 200.0, Side(0.0, 0.0, 0), Side(100.0, 100.0, 2), 2, None, None, False),
        )
    )
    groups = [[(below, above)[n] for n in group] for group in groups_of((below, above), lambda _: "narrow")]
    areas = sorted(Polygon(joined_ring(group)).area for group in groups)
    assert areas == pytest.approx([4000.0, 14_000.0])  # trapezoids and a square; the cutout's 2000 is in neither
