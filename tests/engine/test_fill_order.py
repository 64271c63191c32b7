"""The order of filling: nobody, nothing unfilled and no mixer is left behind fresh bed. shapely and scipy judge."""

import random
import statistics
from dataclasses import replace
from functools import cache

import pytest
from shapely import Point, Polygon
from tests.engine.rail_cases import Case, plain_case, random_case, random_rails, rectangle
from tests.engine.section_judge import Doors, doors_between, fewest_steps, reached, shortest_walk
from tests.engine.test_sections import BATCH, WASTE, shapes_of, volume_over
from tests.rooms import random_room
from tests.share import share_of

from evenbed.engine.document.room import Opening
from evenbed.engine.filling.sections import SectionPlan, sections_from
from evenbed.engine.filling.ways import WALKABLE
from evenbed.engine.geometry import between
from evenbed.engine.region import Region
from evenbed.engine.touching import regions_of_room

ROOMS = share_of(2000)
AT_A_TIME = 50
Place = tuple[float, float]
CHUNKS = [range(n, min(n + AT_A_TIME, ROOMS)) for n in range(0, ROOMS, AT_A_TIME)]
UNSURE = 2.0  # mm: a side this near to the walkable width is nobody's to judge
ROUNDING = 0.1  # mm in a walk
DETOUR = 1.25  # how much longer walks through the middles of sides are than the shortest ones, at the median


def planned(case: Case, mixer: Place | None = None) -> SectionPlan:
    rails = case.rails
    return sections_from(
        rails.layouts,
        case.design,
        replace(case.way_out, mixer=mixer),
        volume_over=volume_over,
        batch_yield=BATCH,
        waste=WASTE,
        rails=rails.rails,
    )


@cache
def walked_room(seed: int) -> tuple[SectionPlan, tuple[Polygon, ...], Doors]:
    """A random room's sections, two rooms in three with a mixer in them, one in four with a second exit."""
    dice, case = random.Random(seed), random_case(seed)
    mixer = None if seed % 3 == 0 else point_in(case.shapes[0], dice)
    way_out = replace(case.way_out, mixer=mixer)
    if seed % 4 == 1:
        n = dice.randrange(len(case.vertices))
        middle = between(case.vertices[n - 1], case.vertices[n], 0.5)
        way_out = replace(way_out, exits=(*way_out.exits, middle))
    rails = random_rails(seed)
    plan = sections_from(
        rails.layouts,
        case.design,
        way_out,
        volume_over=volume_over,
        batch_yield=BATCH,
        waste=WASTE,
        rails=rails.rails,
    )
    parts = tuple(shapes_of(plan))
    return plan, parts, doors_between(parts)


def point_in(shape: Polygon, dice: random.Random) -> Place:
    low_x, low_y, high_x, high_y = shape.bounds
    while True:
        at = (dice.uniform(low_x, high_x), dice.uniform(low_y, high_y))
        if shape.contains(Point(at)):
            return at


def passable(plan: SectionPlan, doors: Doors) -> Doors:
    """Doors that count: wide ones, all where the plan itself says that the way out is narrow."""
    is_narrow = "narrow_way_out" in {caution.code for caution in plan.cautions}
    return {pair: size for pair, size in doors.items() if is_narrow or size >= WALKABLE - 1.0}


def exits_of(plan: SectionPlan) -> set[int]:
    return {i for i, _ in plan.ways.exits}


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_whatever_is_still_open_has_a_way_out_and_a_way_to_the_mixer(seeds: range) -> None:
    for seed in seeds:
        plan, parts, all_doors = walked_room(seed)
        doors, count, mixer = passable(plan, all_doors), len(parts), plan.ways.mixer
        for n in range(count):
            still_open = range(n, count)
            assert reached(doors, exits_of(plan), still_open, count) == set(still_open), seed
            if mixer is not None and mixer >= n:
                assert n in reached(doors, [mixer], still_open, count), seed
                assert reached(doors, [mixer], still_open, count) & exits_of(plan), seed


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_the_mixers_section_comes_as_late_as_any_order_allows(seeds: range) -> None:
    for seed in seeds:
        plan, parts, doors = walked_room(seed)
        is_narrow = "narrow_way_out" in {caution.code for caution in plan.cautions}
        is_unsure = any(abs(size - WALKABLE) <= UNSURE for size in doors.values())
        if plan.ways.mixer is not None and not is_narrow and not is_unsure:
            after = len(parts) - 1 - plan.ways.mixer
            wide = passable(plan, doors)
            assert after == fewest_steps(wide, plan.ways.mixer, sorted(exits_of(plan)), len(parts)), seed


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_the_mixer_stands_in_the_section_that_is_said_to_hold_it(seeds: range) -> None:
    for seed in seeds:
        dice, case = random.Random(seed), random_case(seed)
        plan, parts, _ = walked_room(seed)
        if seed % 3 == 0:
            assert plan.ways.mixer is None
        else:
            assert plan.ways.mixer is not None
            assert parts[plan.ways.mixer].distance(Point(point_in(case.shapes[0], dice))) < 1e-6


def test_exits_lie_in_the_walls_of_their_sections() -> None:
    for seed in range(100):
        plan, parts, _ = walked_room(seed)
        assert all(parts[i].exterior.distance(Point(at)) < 1e-6 for i, at in plan.ways.exits)


def test_walks_are_never_shorter_than_the_shortest_and_hardly_longer() -> None:
    ratios = []
    for seed in range(0, 3 * share_of(30), 3):
        plan, parts, _ = walked_room(seed)
        for n, section in enumerate(plan.sections):
            ends = [Point(at) for _, at in plan.ways.exits]
            start = Point(plan.ways.insides[n].middle)
            assert parts[n].distance(start) < 1e-6
            shortest = min(shortest_walk(parts[n:], start, end) for end in ends)
            assert section.walk >= shortest - ROUNDING
            ratios.append(section.walk / shortest)
    assert statistics.median(ratios) < DETOUR


def test_in_a_long_room_walks_are_those_of_a_tape() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
    door = (Opening(wall=3, start=500.0, end=1300.0, exit=True),)
    plan = planned(Case(case.vertices, case.regions, case.design, (), door))
    assert [section.walk for section in plan.sections] == pytest.approx([9000.0, 7000.0, 5000.0, 3000.0, 1000.0])


def test_a_mixer_at_the_far_end_is_walked_out_from() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
    door = (Opening(wall=3, start=500.0, end=1300.0, exit=True),)
    room = Case(case.vertices, case.regions, case.design, (), door)
    for mixer, middles in (((9500.0, 900.0), [9, 7, 5, 3, 1]), ((5000.0, 900.0), [9, 7, 5, 3, 1])):
        plan = planned(room, mixer)
        assert [round(part.centroid.x / 1000.0) for part in shapes_of(plan)] == middles
        assert plan.ways.mixer is not None
        assert shapes_of(plan)[plan.ways.mixer].covers(Point(mixer))


def test_a_mixer_off_the_way_waits_until_the_rest_of_the_room_is_filled() -> None:
    """A wide room, the door at the lower left, the mixer at the upper right: without it that corner came first."""
    case = plain_case(rectangle(6000.0, 6000.0))
    door = (Opening(wall=0, start=200.0, end=1000.0, exit=True),)
    room = Case(case.vertices, case.regions, case.design, (), door)
    usual = planned(room)
    mixer = (5800.0, 5800.0)
    with_mixer = planned(room, mixer)
    assert shapes_of(usual)[0].contains(Point(mixer))
    parts, number = shapes_of(with_mixer), with_mixer.ways.mixer
    assert number is not None
    assert parts[number].contains(Point(mixer))
    assert number == len(parts) - 1 - fewest_steps(doors_between(parts), number, [len(parts) - 1], len(parts)) > 0
    assert with_mixer.cautions == ()


@pytest.mark.parametrize("mixer", [(-500.0, 900.0), (3100.0, 1000.0), (20_000.0, 0.0)])
def test_a_mixer_on_no_floor_counts_as_outside_and_is_told_of(mixer: Place) -> None:
    hole = ((3000.0, 500.0), (3000.0, 1500.0), (3300.0, 1500.0), (3300.0, 500.0))
    case = plain_case(rectangle(6000.0, 3000.0), hole)
    door = (Opening(wall=3, start=500.0, end=1300.0, exit=True),)
    room = Case(case.vertices, case.regions, case.design, (), door)
    plan = planned(room, mixer)
    assert plan.ways.mixer is None
    assert [(c.code, c.where) for c in plan.cautions] == [("mixer_outside", "filling.mixer")]
    assert plan.sections == planned(room).sections


def test_a_region_with_the_mixer_is_filled_after_one_that_is_left_by_another_door() -> None:
    bar = ((3000.0, 0.0), (3200.0, 0.0), (3200.0, 2500.0), (3000.0, 2500.0))
    outline = rectangle(8000.0, 2500.0)
    doors = tuple(Opening(wall=wall, start=500.0, end=1300.0, exit=True) for wall in (1, 3))
    room = Case(outline, regions_of_room(outline, (bar,)), plain_case(outline).design, (), doors)
    for mixer, last_is_left in (((500.0, 500.0), True), ((7000.0, 500.0), False)):
        plan = planned(room, mixer)
        behind = [part.centroid.x < 3000.0 for part in shapes_of(plan)]
        assert behind == sorted(behind, reverse=not last_is_left)
        assert plan.cautions == ()


def test_the_judge_sees_who_is_cut_off() -> None:
    row = [Polygon(rectangle(1000.0, 1000.0)), Polygon([(x + 1000.0, y) for x, y in rectangle(1000.0, 1000.0)])]
    row.append(Polygon([(x + 2000.0, y) for x, y in rectangle(1000.0, 1000.0)]))
    doors = doors_between(row)
    assert doors == pytest.approx({(0, 1): 1000.0, (1, 2): 1000.0}, rel=1e-3)
    assert reached(doors, [0], [0, 2], 3) == {0}
    assert fewest_steps(doors, 0, [2], 3) == 2
    assert shortest_walk(row, Point(500.0, 500.0), Point(2500.0, 500.0)) == pytest.approx(2000.0)
    assert Region(rectangle(1.0, 1.0)).area == 1.0
    assert random_room(3) == random_room(3)
