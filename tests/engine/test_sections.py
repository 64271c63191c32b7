"""Sections: they are the bed, no more and no less, and nobody is stranded behind fresh bed. shapely judges."""

import math
from functools import cache
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon
from tests.engine.rail_cases import Case, flat, plain_case, random_case, random_rails, rectangle
from tests.rooms import random_room

from evenbed.engine.document.rails import RailDesign, Strip
from evenbed.engine.document.room import Opening
from evenbed.engine.filling.sections import SectionPlan, sections_from, way_out_from
from evenbed.engine.filling.ways import WALKABLE
from evenbed.engine.geometry import Plane, Ring, integral_over
from evenbed.engine.rails.laid import rails_from
from evenbed.engine.touching import regions_of_room

SEEDS = range(300)
VOLUME_RELATIVE = 1e-9  # the contract's tolerance for volumes
OUTSIDE = 1e-3  # mm²: what rounding on a wall may put outside the room
SHARED_SIDE = 1e-4  # mm from a shared side: nearer than this, whose it is is nobody's to judge
THICKNESS = Plane(45.0, 0.003, -0.002)  # mm, anywhere in the rooms well above 0
BATCH, WASTE = 0.06, 0.1  # m³, fraction
PROBE = 0.05  # mm: how far a side is grown to feel what it touches


def volume_over(ring: Ring) -> float:
    return integral_over(ring, THICKNESS) / 1e9


def sections_of(case: Case) -> SectionPlan:
    return sections_from(
        case.rails.layouts, case.design, case.way_out, volume_over=volume_over, batch_yield=BATCH, waste=WASTE
    )


@cache
def random_sections(seed: int) -> SectionPlan:
    case = random_case(seed)
    layouts = random_rails(seed).layouts
    return sections_from(layouts, case.design, case.way_out, volume_over=volume_over, batch_yield=BATCH, waste=WASTE)


def shapes_of(plan: SectionPlan) -> list[Polygon]:
    return [Polygon(section.polygon) for section in plan.sections]


@pytest.mark.parametrize("seed", SEEDS)
def test_sections_are_simple_lie_in_the_room_and_fill_it_without_overlap(seed: int) -> None:
    (room,), parts = random_case(seed).shapes, shapes_of(random_sections(seed))
    assert all(part.is_valid and part.exterior.is_ccw for part in parts)
    assert math.fsum(part.area for part in parts) == pytest.approx(room.area, rel=VOLUME_RELATIVE)
    assert all(part.difference(room.buffer(1e-6)).area < OUTSIDE for part in parts)
    shrunk = [part.buffer(-SHARED_SIDE, join_style="mitre") for part in parts]
    assert not any(a.intersects(b) for a, b in combinations(shrunk, 2))


@pytest.mark.parametrize("seed", SEEDS)
def test_volumes_add_up_to_the_bed_by_an_independent_integral(seed: int) -> None:
    (room,), plan = random_case(seed).shapes, random_sections(seed)
    bed = room.area * THICKNESS.at(room.centroid.x, room.centroid.y) / 1e9
    assert math.fsum(section.volume for section in plan.sections) == pytest.approx(bed, rel=VOLUME_RELATIVE)
    for section in plan.sections:
        assert section.batches == pytest.approx(section.volume * (1 + WASTE) / BATCH)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_crew_can_always_walk_out_over_what_is_still_open(seed: int) -> None:
    plan, way_out = random_sections(seed), random_case(seed).way_out
    parts = shapes_of(plan)
    is_narrow = "narrow_way_out" in {caution.code for caution in plan.cautions}
    doors = joined_pairs(parts, 0.0 if is_narrow else WALKABLE)
    assert parts[-1].distance(Point(way_out.exits[0])) < 1e-6
    for n in range(len(parts)):
        assert reachable(doors, len(parts) - 1, n) == set(range(n, len(parts)))


def joined_pairs(parts: list[Polygon], least: float) -> set[tuple[int, int]]:
    """Pairs of parts that share a side of this length at least, felt by growing one of them."""
    pairs = list(combinations(range(len(parts)), 2))
    shared = {(a, b): parts[a].buffer(PROBE).intersection(parts[b]).area / PROBE for a, b in pairs}
    return {pair for pair, size in shared.items() if size > max(least - 1.0, 1.0)}


def reachable(doors: set[tuple[int, int]], start: int, still_open: int) -> set[int]:
    """Parts that can be walked to from `start` over parts not yet filled (numbered `still_open` and later)."""
    found, edge = {start}, [start]
    while edge:
        at = edge.pop()
        beside = {a + b - at for a, b in doors if at in (a, b) and min(a, b) >= still_open}
        edge += beside - found
        found |= beside
    return found


def test_narrow_ways_are_rare_enough_for_the_walkable_rule_to_be_tried() -> None:
    narrow = [seed for seed in SEEDS if any(c.code == "narrow_way_out" for c in random_sections(seed).cautions)]
    assert len(narrow) < len(SEEDS) / 20


@settings(max_examples=80, deadline=None)
@given(st.floats(1500, 9000), st.floats(1500, 14_000), st.floats(1200, 4000))
def test_a_rectangle_has_a_section_for_each_lie_of_the_strip_in_each_bay(
    width: float, depth: float, strip: float
) -> None:
    case = plain_case(rectangle(width, depth), strip=Strip(length=strip))
    rails = case.rails.rails
    bays, lies = max(1, len(rails) - 1), len(rails[0].settings)
    plan = sections_of(case)
    areas = [part.area for part in shapes_of(plan)]
    assert len(areas) == bays * lies
    assert [section.id for section in plan.sections] == [f"S{n + 1}" for n in range(len(areas))]
    assert [section.order for section in plan.sections] == list(range(1, len(areas) + 1))


def test_sections_run_from_the_far_end_to_the_doorway() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0))
    for wall, far_x in ((3, 10_000.0), (1, 0.0)):
        door = (Opening(wall=wall, start=500.0, end=1300.0, exit=True),)
        parts = shapes_of(sections_of(Case(case.vertices, case.regions, case.design, (), door)))
        away = [abs(part.centroid.x - far_x) for part in parts]
        assert len(parts) == 5
        assert away == sorted(away)


def test_a_room_with_two_exits_is_left_by_the_nearer_one() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0))
    doors = tuple(Opening(wall=wall, start=500.0, end=1300.0, exit=True) for wall in (1, 3))
    parts = shapes_of(sections_of(Case(case.vertices, case.regions, case.design, (), doors)))
    assert parts[0].centroid.x == pytest.approx(5000.0)
    assert {round(part.centroid.x) for part in parts[-2:]} == {1000, 9000}


def test_the_way_out_is_the_marked_doorway_else_the_first_else_the_longest_wall() -> None:
    room = rectangle(4000.0, 3000.0)
    plain, marked = Opening(wall=1, start=1000.0, end=2000.0), Opening(wall=2, start=0.0, end=800.0, exit=True)
    assert way_out_from((plain, marked), room).exits == ((3600.0, 3000.0),)
    assert way_out_from((plain,), room).exits == ((4000.0, 1500.0),)
    assumed = way_out_from((), room)
    assert assumed.exits in (((2000.0, 0.0),), ((2000.0, 3000.0),))
    assert [caution.code for caution in assumed.cautions] == ["exit_assumed"]
    assert way_out_from((), room[1:] + room[:1]).exits == assumed.exits


def test_a_room_cut_in_two_says_which_sections_have_no_way_out_and_fills_them_first() -> None:
    bar = ((3000.0, 0.0), (3200.0, 0.0), (3200.0, 2500.0), (3000.0, 2500.0))
    outline = rectangle(8000.0, 2500.0)
    door = (Opening(wall=1, start=500.0, end=1300.0, exit=True),)
    plan = sections_of(Case(outline, regions_of_room(outline, (bar,)), RailDesign(), (), door))
    caution = next(c for c in plan.cautions if c.code == "section_cut_off")
    first, last = (int(str(caution.values[key])[1:]) for key in ("first", "last"))
    assert first == 1
    behind = [part.centroid.x < 3000.0 for part in shapes_of(plan)]
    assert behind == [True] * last + [False] * (len(behind) - last)


@settings(max_examples=80, deadline=None)
@given(st.floats(150, 900), st.floats(150, 900))
def test_a_room_too_small_for_rails_is_still_one_bed(width: float, depth: float) -> None:
    case = plain_case(rectangle(width, depth), inset=400.0)
    volumes = [section.volume for section in sections_of(case).sections]
    middle = THICKNESS.at(width / 2.0, depth / 2.0)
    assert math.fsum(volumes) == pytest.approx(width * depth * middle / 1e9, rel=VOLUME_RELATIVE)


def test_small_scraps_are_rare() -> None:
    areas = [part.area / 1e6 for seed in SEEDS for part in shapes_of(random_sections(seed))]
    assert sum(area < 0.1 for area in areas) <= len(areas) / 500
    assert len(areas) > 2000


def test_the_same_room_gives_the_same_sections() -> None:
    case = random_case(17)
    plan = rails_from(case.regions, (), case.design, case.way_out.exits, subfloor=flat, top=flat)
    again = sections_from(
        plan.layouts, case.design, case.way_out, volume_over=volume_over, batch_yield=BATCH, waste=WASTE
    )
    assert again == random_sections(17)
    assert random_room(17) == random_room(17)
