"""Sections: they are the bed, no more and no less, and nobody is stranded behind fresh bed. shapely judges."""

import math
import random
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, union_all
from tests.engine.rail_cases import Case, flat, plain_case, random_case, random_rails, rectangle
from tests.engine.section_cases import (
    BATCH,
    CHUNKS,
    ROOMS,
    THICKNESS,
    WASTE,
    divided,
    random_sections,
    sections_of,
    shapes_of,
)
from tests.engine.section_judge import doors_between, reached
from tests.rooms import random_room

from evenbed.engine.document.rails import RailDesign, RailLine, Strip
from evenbed.engine.document.room import Opening
from evenbed.engine.filling.sections import SectionPlan, way_out_from
from evenbed.engine.rails.laid import RailPlan, rails_from
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.touching import regions_of_room

VOLUME_RELATIVE = 1e-9  # the contract's tolerance for volumes
OUTSIDE = 1e-3  # mm²: what rounding on a wall may put outside the room
SHARED_SIDE = 1e-4  # mm from a shared side: nearer than this, whose it is is nobody's to judge
CHANNEL = 0.01  # mm in the length of a rail's channels, m³ in their volume is less


def dragged(seed: int) -> tuple[Case, RailPlan]:
    """A random room whose rails somebody dragged aside, shortened, took away or doubled, one in three of them."""
    dice, case, lines = random.Random(seed), random_case(seed), list[RailLine]()
    for rail in random_rails(seed).rails:
        (ax, ay), (bx, by) = rail.start, rail.end
        size = math.dist(rail.start, rail.end)
        aside = dice.uniform(-400.0, 400.0) if dice.random() < 1 / 3 else 0.0
        dx, dy = -(by - ay) / size * aside, (bx - ax) / size * aside
        line = RailLine((ax + dx, ay + dy), (bx + dx, by + dy), rail.id)
        lines += [line] if dice.random() < 0.9 else []
        lines += [RailLine((ax - dx, ay - dy), (bx - dx, by - dy), rail.id + "'")] if dice.random() < 0.1 else []
    design = replace(case.design, lines=tuple(lines))
    moved = replace(case, design=design)
    return moved, moved.rails


def is_exact_cover(room: Polygon, parts: Sequence[Polygon]) -> bool:
    """Whether the parts are simple, lie in the room, do not overlap and are as large as it is."""
    is_simple = all(part.is_valid and part.exterior.is_ccw for part in parts)
    is_whole = math.isclose(math.fsum(part.area for part in parts), room.area, rel_tol=VOLUME_RELATIVE)
    is_inside = all(part.difference(room.buffer(1e-6)).area < OUTSIDE for part in parts)
    shrunk = [part.buffer(-SHARED_SIDE, join_style="mitre") for part in parts]
    return is_simple and is_whole and is_inside and not any(a.intersects(b) for a, b in combinations(shrunk, 2))


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_sections_are_simple_lie_in_the_room_and_fill_it_without_overlap(seeds: range) -> None:
    for seed in seeds:
        (room,) = random_case(seed).shapes
        assert is_exact_cover(room, shapes_of(random_sections(seed))), seed


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_volumes_add_up_to_the_bed_by_an_independent_integral(seeds: range) -> None:
    for seed in seeds:
        (room,), plan = random_case(seed).shapes, random_sections(seed)
        bed = room.area * THICKNESS.at(room.centroid.x, room.centroid.y) / 1e9
        assert math.fsum(section.volume for section in plan.sections) == pytest.approx(bed, rel=VOLUME_RELATIVE)
        for section in plan.sections:
            assert section.mixed_volume == pytest.approx(section.volume * (1 + WASTE))
            assert section.batches == pytest.approx(section.mixed_volume / BATCH)


@pytest.mark.parametrize("seeds", CHUNKS, ids=str)
def test_channels_are_as_long_as_the_rails_and_lie_in_the_section_filled_last_beside_them(seeds: range) -> None:
    for seed in seeds:
        rails = random_rails(seed).rails
        assert_channels_are_the_rails(random_sections(seed), rails)


def assert_channels_are_the_rails(plan: SectionPlan, rails: Sequence[Rail]) -> None:
    """Each rail in channels once from end to end, each channel in the last section that shapely finds beside it."""
    parts = shapes_of(plan)
    for section, part in zip(plan.sections, parts, strict=True):
        assert section.channel_volume == pytest.approx(math.fsum(channel.volume for channel in section.channels))
        for channel in section.channels:
            middle = LineString([channel.start, channel.end]).interpolate(0.5, normalized=True)
            beside = [n for n, other in enumerate(parts, start=1) if other.distance(middle) < 1e-3]
            assert part.distance(middle) < 1e-3
            assert section.order == max(beside)
    for rail in rails:
        channels = [channel for section in plan.sections for channel in section.channels if channel.rail == rail.id]
        length = math.dist(rail.start, rail.end)
        assert math.fsum(channel.length for channel in channels) == pytest.approx(length, abs=CHANNEL)
        volume = length * rail.strip.width * rail.strip.thickness / 1e9
        assert math.fsum(channel.volume for channel in channels) == pytest.approx(volume, abs=CHANNEL)
        lines = union_all([LineString([channel.start, channel.end]) for channel in channels])
        assert lines.length == pytest.approx(length, abs=CHANNEL)


@pytest.mark.parametrize("seeds", CHUNKS[: max(1, len(CHUNKS) // 4)], ids=str)
def test_sections_follow_the_rails_that_a_person_dragged(seeds: range) -> None:
    for seed in seeds:
        case, rails = dragged(seed)
        (room,), plan = case.shapes, divided(case, rails)
        assert is_exact_cover(room, shapes_of(plan)), seed
        assert_channels_are_the_rails(plan, rails.rails)
        doors, count = doors_between(shapes_of(plan)), len(plan.sections)
        for n in range(count):
            assert reached(doors, {i for i, _ in plan.ways.exits}, range(n, count), count) == {*range(n, count)}, seed


def test_rails_dragged_close_together_make_sections_that_are_told_of() -> None:
    case = plain_case(rectangle(4000.0, 3000.0))
    wide = divided(case, case.rails)
    assert "thin_sections" not in {caution.code for caution in wide.cautions}
    nook = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 100.0), (90.0, 100.0), (90.0, 4000.0), (0.0, 4000.0))
    thin = sections_of(plain_case(nook))
    (caution,) = [caution for caution in thin.cautions if caution.code == "thin_sections"]
    assert caution.values["count"] == sum(2 * part.area / part.length < 150.0 for part in shapes_of(thin)) > 0


def test_narrow_ways_are_rare_enough_for_the_walkable_rule_to_be_tried() -> None:
    seeds = range(ROOMS)
    narrow = [seed for seed in seeds if any(c.code == "narrow_way_out" for c in random_sections(seed).cautions)]
    assert len(narrow) < ROOMS / 20


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
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
    for wall, far_x in ((3, 10_000.0), (1, 0.0)):
        door = (Opening(wall=wall, start=500.0, end=1300.0, exit=True),)
        parts = shapes_of(sections_of(Case(case.vertices, case.regions, case.design, (), door)))
        away = [abs(part.centroid.x - far_x) for part in parts]
        assert len(parts) == 5
        assert away == sorted(away)


def test_a_room_with_two_exits_is_left_by_the_nearer_one() -> None:
    case = plain_case(rectangle(10_000.0, 1800.0), direction=0.0)
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
    first, last = (int(name[1:]) for name in str(caution.values["names"]).split("\u2013"))
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
    areas = [part.area / 1e6 for seed in range(ROOMS) for part in shapes_of(random_sections(seed))]
    assert sum(area < 0.1 for area in areas) <= len(areas) / 500
    assert len(areas) > 2000


def test_the_same_room_gives_the_same_sections() -> None:
    case = random_case(17)
    plan = rails_from(case.regions, (), case.design, case.way_out.exits, subfloor=flat, top=flat)
    again = divided(case, plan)
    assert again == random_sections(17)
    assert random_room(17) == random_room(17)
