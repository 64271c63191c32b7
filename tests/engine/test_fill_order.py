"""The order of filling: nobody, nothing unfilled and no mixer is left behind fresh bed. shapely and scipy judge."""

import math
import random
import statistics
from dataclasses import dataclass, replace
from functools import cache, cached_property

import pytest
from shapely import Point, Polygon
from tests.engine.rail_cases import Case, plain_case, random_case, random_rails, rectangle
from tests.engine.section_cases import CHUNKS, Place, divided, sections_of, shapes_of
from tests.engine.section_judge import Doors, doors_between, fewest_steps, reached, shortest_walk
from tests.rooms import area_of, outline_of, random_room
from tests.share import share_of

from evenbed.engine.document.room import Opening
from evenbed.engine.filling.inside import Inside
from evenbed.engine.filling.order import order_of
from evenbed.engine.filling.sections import SectionPlan
from evenbed.engine.filling.sides import shared_sides
from evenbed.engine.filling.ways import WALKABLE, Ways
from evenbed.engine.geometry import Ring
from evenbed.engine.region import Region
from evenbed.engine.touching import regions_of_room

UNSURE = 2.0  # mm: a side this near to the walkable width is nobody's to judge
ROUNDING = 0.1  # mm in a walk
DETOUR = 1.25  # how much longer walks through the middles of sides are than the shortest ones, at the median


@dataclass(frozen=True)
class Walked:
    """A random room's sections as shapely sees them, two rooms in three with a mixer, one in four with two exits."""

    plan: SectionPlan
    mixer: Place | None

    @cached_property
    def parts(self) -> list[Polygon]:
        return shapes_of(self.plan)

    @cached_property
    def doors(self) -> Doors:
        return doors_between(self.parts)

    @property
    def passable(self) -> Doors:
        """Doors that count: wide ones, all where the plan itself says that the way out is narrow."""
        return {pair: size for pair, size in self.doors.items() if self.is_narrow or size >= WALKABLE - 1.0}

    @property
    def is_narrow(self) -> bool:
        return "narrow_way_out" in {caution.code for caution in self.plan.cautions}

    @property
    def exits(self) -> set[int]:
        return {i for i, _ in self.plan.ways.exits}


@cache
def walked_room(seed: int) -> Walked:
    dice, case = random.Random(seed), random_case(seed)
    mixer = point_in(case.shapes[0], dice) if dice.random() < 2 / 3 else None
    if dice.random() < 1 / 4:
        n = dice.randrange(len(case.vertices))
        wall = math.dist(case.vertices[n], case.vertices[(n + 1) % len(case.vertices)])
        second = Opening(wall=n, start=0.3 * wall, end=0.7 * wall, exit=True)
        case = replace(case, openings=(*(replace(door, exit=True) for door in case.openings), second))
    return Walked(divided(case, random_rails(seed), mixer), mixer)


def point_in(shape: Polygon, dice: random.Random) -> Place:
    low_x, low_y, high_x, high_y = shape.bounds
    while True:
        at = (dice.uniform(low_x, high_x), dice.uniform(low_y, high_y))
        if shape.contains(Point(at)):
            return at


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_whatever_is_still_open_has_a_way_out_and_a_way_to_the_mixer(seeds: range) -> None:
    for seed in seeds:
        room = walked_room(seed)
        doors, count, mixer = room.passable, len(room.parts), room.plan.ways.mixer
        for n in range(count):
            still_open = range(n, count)
            assert reached(doors, room.exits, still_open, count) == set(still_open), seed
            if mixer is not None and mixer >= n:
                assert n in reached(doors, [mixer], still_open, count), seed
                assert reached(doors, [mixer], still_open, count) & room.exits, seed


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_the_mixers_section_comes_as_late_as_any_order_allows(seeds: range) -> None:
    for seed in seeds:
        room = walked_room(seed)
        mixer, count = room.plan.ways.mixer, len(room.parts)
        is_unsure = any(abs(size - WALKABLE) <= UNSURE for size in room.doors.values())
        if mixer is not None and not room.is_narrow and not is_unsure:
            assert count - 1 - mixer == fewest_steps(room.passable, mixer, sorted(room.exits), count), seed


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_the_mixer_stands_in_the_section_that_is_said_to_hold_it(seeds: range) -> None:
    for seed in seeds:
        room = walked_room(seed)
        assert (room.plan.ways.mixer is None) == (room.mixer is None)
        if room.plan.ways.mixer is not None:
            assert room.parts[room.plan.ways.mixer].distance(Point(room.mixer)) < 1e-6


def test_exits_lie_in_the_walls_of_their_sections() -> None:
    for seed in range(100):
        room = walked_room(seed)
        assert all(room.parts[i].exterior.distance(Point(at)) < 1e-6 for i, at in room.plan.ways.exits)


def test_walks_are_never_shorter_than_the_shortest_and_hardly_longer() -> None:
    ratios = []
    for room in map(walked_room, range(share_of(100))):
        ends = [Point(at) for _, at in room.plan.ways.exits]
        for n, section in enumerate(room.plan.sections if room.mixer is None else ()):
            start = Point(room.plan.ways.insides[n].middle)
            assert room.parts[n].distance(start) < 1e-6
            shortest = min(shortest_walk(room.parts[n:], start, end) for end in ends)
            assert section.walk >= shortest - ROUNDING
            ratios.append(section.walk / shortest)
    assert statistics.median(ratios) < DETOUR


@pytest.mark.parametrize("seeds", [range(n, n + 10) for n in range(0, share_of(200), 10)], ids=str)
def test_a_walk_within_one_piece_is_the_shortest_there_is(seeds: range) -> None:
    for seed in seeds:
        dice, outline = random.Random(seed), outline_of(random_room(seed))
        inside = Inside(outline if area_of(outline) > 0.0 else outline[::-1])
        shape = Polygon(outline)
        for _ in range(3):
            start, end = point_in(shape, dice), point_in(shape, dice)
            shortest = shortest_walk([shape], Point(start), Point(end))
            assert inside.walk(start, end) == pytest.approx(shortest, abs=ROUNDING), seed
            assert inside.walk(end, start) == pytest.approx(shortest, abs=ROUNDING), seed


def test_where_nothing_wider_joins_sections_up_the_widest_of_narrow_sides_is_walked_through() -> None:
    """A square, and above it another that three slim pieces tie to it, two of them beside each other."""
    slim = [(0.0, 200.0), (900.0, 1100.0), (1500.0, 1750.0)]
    rings = [box(0.0, 0.0, 2000.0, 1000.0), box(0.0, 2000.0, 2000.0, 3000.0)]
    rings += [box(low, 1000.0, high, 2000.0) for low, high in slim]
    sides = tuple(shared_sides(rings))
    assert {(s.a, s.b): s.length for s in sides} == {
        (a, b): pytest.approx(rings[b][1][0] - rings[b][0][0]) for a in (0, 1) for b in (2, 3, 4)
    }
    ways = Ways(tuple(rings), sides, ((0, (500.0, 0.0)),))
    assert ways.is_narrow
    assert {(side.a, side.b) for side in ways.doors} >= {(0, 4), (1, 4)}
    order = order_of(ways, range(5)).first_to_last
    assert order[-1] == 0
    assert order.index(1) < order.index(4)
    wide = Ways(
        (rings[0], box(0.0, 1000.0, 2000.0, 3000.0)),
        tuple(shared_sides([rings[0], box(0.0, 1000.0, 2000.0, 3000.0)])),
        (),
    )
    assert not wide.is_narrow


def box(low_x: float, low_y: float, high_x: float, high_y: float) -> Ring:
    return ((low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y))


def test_in_a_long_room_walks_are_those_of_a_tape() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
    door = (Opening(wall=3, start=500.0, end=1300.0, exit=True),)
    plan = sections_of(Case(case.vertices, case.regions, case.design, (), door))
    assert [section.walk for section in plan.sections] == pytest.approx([9000.0, 7000.0, 5000.0, 3000.0, 1000.0])


def test_a_mixer_at_the_far_end_is_walked_out_from() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
    door = (Opening(wall=3, start=500.0, end=1300.0, exit=True),)
    room = Case(case.vertices, case.regions, case.design, (), door)
    for mixer, middles in (((9500.0, 900.0), [9, 7, 5, 3, 1]), ((5000.0, 900.0), [9, 7, 5, 3, 1])):
        plan = sections_of(room, mixer)
        assert [round(part.centroid.x / 1000.0) for part in shapes_of(plan)] == middles
        assert plan.ways.mixer is not None
        assert shapes_of(plan)[plan.ways.mixer].covers(Point(mixer))


def test_a_mixer_off_the_way_waits_until_the_rest_of_the_room_is_filled() -> None:
    """A wide room, the door at the lower left, the mixer at the upper right: without it that corner came first."""
    case = plain_case(rectangle(6000.0, 6000.0))
    door = (Opening(wall=0, start=200.0, end=1000.0, exit=True),)
    room = Case(case.vertices, case.regions, case.design, (), door)
    usual = sections_of(room)
    mixer = (5800.0, 5800.0)
    with_mixer = sections_of(room, mixer)
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
    plan = sections_of(room, mixer)
    assert plan.ways.mixer is None
    assert [(c.code, c.where) for c in plan.cautions] == [("mixer_outside", "filling.mixer")]
    assert plan.sections == sections_of(room).sections


def test_a_region_with_the_mixer_is_filled_after_one_that_is_left_by_another_door() -> None:
    bar = ((3000.0, 0.0), (3200.0, 0.0), (3200.0, 2500.0), (3000.0, 2500.0))
    outline = rectangle(8000.0, 2500.0)
    doors = tuple(Opening(wall=wall, start=500.0, end=1300.0, exit=True) for wall in (1, 3))
    room = Case(outline, regions_of_room(outline, (bar,)), plain_case(outline).design, (), doors)
    for mixer, last_is_left in (((500.0, 500.0), True), ((7000.0, 500.0), False)):
        plan = sections_of(room, mixer)
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
