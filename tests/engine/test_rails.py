"""Rails: where they lie, what they serve, how high their ramps are. shapely judges the geometry."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box
from shapely import Point as ShapelyPoint
from shapely.affinity import rotate, translate
from tests.engine.rail_cases import END, Case, flat, plain_case, random_case, random_rails, rectangle
from tests.engine.rail_judge import judged
from tests.rooms import cutouts_of, outline_of, random_room

from evenbed.engine.document.rails import RailDesign, RailLine, StripsOnHand
from evenbed.engine.document.room import Fixture
from evenbed.engine.document.writing import json_from
from evenbed.engine.rails.laid import RailPlan, check_rail_design, rails_from
from evenbed.engine.rails.trimming import worth_laying
from evenbed.engine.touching import regions_of_room

CLEARANCE_ROUNDING = 1e-4  # mm: a rail may pass a corner nearer than its clearance by this much


def lines_of(plan: RailPlan) -> list[LineString]:
    return [LineString([rail.start, rail.end]) for rail in plan.rails]


@pytest.mark.parametrize("seed", range(0, 300, 6))
def test_where_a_corner_begins_and_which_way_round_makes_no_difference(seed: int) -> None:
    room, design = random_room(seed), random_case(seed).design
    outline, cutouts = outline_of(room), cutouts_of(room)
    for other in (outline[3:] + outline[:3], outline[::-1]):
        regions = regions_of_room(other, tuple(c[2:] + c[:2] for c in cutouts[::-1]))
        again = rails_from(regions, (), design, random_case(seed).way_out.exits, subfloor=flat, top=flat)
        assert [rail.id for rail in again.rails] == [rail.id for rail in random_rails(seed).rails]
        for one, two in zip(again.rails, random_rails(seed).rails, strict=True):
            assert (*one.start, *one.end) == pytest.approx((*two.start, *two.end), abs=1e-6)


@pytest.mark.parametrize("seed", range(0, 300, 6))
def test_a_room_turned_and_moved_has_its_rails_turned_and_moved(seed: int) -> None:
    case, (before, after) = random_case(seed), (20.0, 57.0)
    (shape,) = case.shapes
    moved = translate(rotate(shape, after - before, (0.0, 0.0)), 812.5, -77.25)
    regions = regions_of_room(moved.exterior.coords[:-1], [ring.coords[:-1] for ring in moved.interiors])
    one, two = (
        lines_of(rails_from(where, (), replace(case.design, direction=way), (), subfloor=flat, top=flat))
        for where, way in ((case.regions, before), (regions, after))
    )
    assert len(one) == len(two)
    for line, turned in zip(one, two, strict=True):
        expected = translate(rotate(line, after - before, (0.0, 0.0)), 812.5, -77.25)
        assert expected.hausdorff_distance(turned) < 1e-3


@settings(max_examples=80, deadline=None)
@given(st.floats(1000, 40_000), st.floats(1000, 40_000), st.floats(900, 3000))
def test_a_rectangle_has_the_cheaper_of_its_two_directions(width: float, depth: float, edge: float) -> None:
    case = plain_case(rectangle(width, depth), straightedge=edge)
    (layout,) = case.rails.layouts
    both = [plainly_laid(case, side, other) for side, other in ((depth, width), (width, depth))]
    assert layout.cost[0] <= min(both) + 1e-3


def plainly_laid(case: Case, across: float, along: float) -> float:
    """How often strips are laid for even rails in a rectangle, and what is left to hand work counted as lies."""
    (layout,) = case.rails.layouts
    floor, reach = layout.floor, layout.reach
    bays = math.ceil((across - 2 * floor.inset) / reach.span - 1e-9)
    rails = [
        (floor.end, along - floor.end, floor.inset + n * (across - 2 * floor.inset) / bays) for n in range(bays + 1)
    ]
    left = judged(box(0.0, 0.0, along, across), rails, reach.edge, reach.bearing).hand_share * across * along
    return (bays + 1) * reach.lies(along - 2 * floor.end) + left / worth_laying(floor)


def test_rails_are_named_from_one_side_to_the_other() -> None:
    plan = plain_case(rectangle(5000.0, 3000.0), inset=150.0, direction=0.0).rails
    assert [rail.id for rail in plan.rails] == ["A", "B", "C"]
    assert [rail.start for rail in plan.rails] == [(END, 150.0), (END, 1500.0), (END, 2850.0)]
    assert [rail.end for rail in plan.rails] == [
        (5000.0 - END, 150.0),
        (5000.0 - END, 1500.0),
        (5000.0 - END, 2850.0),
    ]


def test_long_strips_run_along_a_room_and_short_ones_across_it_where_that_takes_fewer_moves() -> None:
    for length, ways in ((5000.0, {0.0}), (2700.0, {90.0})):
        strips = (StripsOnHand(25.4, length, 8),)
        assert {plain_case(rectangle(5000.0, 2700.0), inset=150.0, strips=strips).rails.direction} == ways


COLUMN = ((2300.0, 1400.0), (2700.0, 1400.0), (2700.0, 1600.0), (2300.0, 1600.0))


def test_a_column_interrupts_a_rail_that_cannot_move_aside() -> None:
    lines = [RailLine((44.05, y), (8955.95, y)) for y in (150.0, 1500.0, 2850.0)]
    plan = plain_case(rectangle(9000.0, 3000.0), COLUMN, straightedge=1480.0, lines=tuple(lines)).rails
    assert [rail.id for rail in plan.rails] == ["A", "B1", "B2", "C"]
    assert [rail.end[0] for rail in plan.rails][1] == pytest.approx(2300.0)
    assert [rail.start[0] for rail in plan.rails][2] == pytest.approx(2700.0)


def test_a_rail_moves_aside_for_a_column_and_a_short_one_lies_on_its_other_side() -> None:
    plan = plain_case(rectangle(5000.0, 3000.0), COLUMN, inset=150.0, direction=0.0).rails
    assert [round(rail.start[1]) for rail in plan.rails] == [150, 1250, 1750, 2850]
    one, other = sorted(plan.rails[1:3], key=lambda rail: rail.end[0] - rail.start[0])
    assert (one.start[0], one.end[0]) == pytest.approx((2300.0, 2700.0))
    assert (other.start[0], other.end[0]) == pytest.approx((END, 5000.0 - END))


def test_both_legs_of_an_ell_have_a_rail_along_their_walls() -> None:
    ell = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 2500.0), (2500.0, 2500.0), (2500.0, 6000.0), (0.0, 6000.0))
    case = plain_case(ell, inset=150.0)
    (shape,) = case.shapes
    for wall in zip(ell, (*ell[1:], ell[0]), strict=True):
        reach = LineString(wall).buffer(case.rails.layouts[0].reach.margin + 1.0, cap_style="flat")
        assert sum(line.intersection(reach).length for line in lines_of(case.rails)) > 0.0
    assert shape.contains(ShapelyPoint(100.0, 100.0))
    assert {area.kind for area in case.hand.areas} <= {"beside_wall", "rail_end"}


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 299), st.floats(-3, 3), st.floats(0, 120))
def test_rails_keep_clear_of_fixtures(seed: int, shift: float, radius: float) -> None:
    case = random_case(seed)
    x, y = case.shapes[0].representative_point().coords[0]
    post = Fixture((x + shift, y + shift), "post", "p", radius)
    plan = rails_from(case.regions, (post,), case.design, (), subfloor=flat, top=flat)
    least = radius + 25.0 + case.design.strip.width / 2
    assert all(line.distance(ShapelyPoint(post.at)) >= least - CLEARANCE_ROUNDING for line in lines_of(plan))


@settings(max_examples=80, deadline=None)
@given(st.floats(100, 700), st.floats(150, 2500), st.floats(0, 400), st.floats(0, 90))
def test_a_very_small_room_gives_rails_or_says_why_not(
    width: float, depth: float, inset: float, direction: float
) -> None:
    plan = plain_case(rectangle(width, depth), inset=inset, direction=direction).rails
    codes = {caution.code for caution in plan.cautions}
    assert bool(plan.rails) != ("no_rails_fit" in codes)
    assert ("one_rail" in codes) == (len(plan.rails) == 1)
    used = plan.layouts[0].floor.inset
    assert ("inset_reduced" in codes) == (bool(plan.rails) and used < inset)
    assert ("inset_raised" in codes) == (bool(plan.rails) and used > inset)
    assert used >= RailDesign().strip.width / 2.0


def test_a_straightedge_that_spans_nothing_is_a_problem_with_its_path() -> None:
    assert check_rail_design(RailDesign()) == []
    (problem,) = check_rail_design(replace(RailDesign(), straightedge=240.0, bearing=100.0))
    assert (problem.path, problem.code, problem.values["least"]) == (
        "rails.straightedge",
        "straightedge_too_short",
        300.0,
    )
    (problem,) = check_rail_design(replace(RailDesign(), overlap=2400.0))
    assert (problem.path, problem.code) == ("rails.overlap", "overlap_too_long")


def test_a_hall_with_a_tiny_straightedge_is_refused_rails_in_words_and_in_good_time() -> None:
    case = Case(rectangle(1e6, 9e5), regions_of_room(rectangle(1e6, 9e5)), RailDesign(straightedge=300.0))
    assert [caution.code for caution in case.rails.cautions] == ["too_many_rails"]
    assert case.rails.rails == ()


def ell_with_leg(depth: float) -> tuple[tuple[float, float], ...]:
    return ((0.0, 0.0), (5000.0, 0.0), (5000.0, depth), (2000.0, depth), (2000.0, 5000.0), (0.0, 5000.0))


def test_a_wall_whose_bed_the_next_rail_serves_gets_none_of_its_own() -> None:
    plan = plain_case(ell_with_leg(2000.0), inset=150.0, direction=0.0).rails
    assert [rail.id for rail in plan.rails] == ["A", "B", "C", "D"]
    assert plan.rails[1].start[1] == pytest.approx(150.0 + 4700.0 / 3)


def test_a_rail_for_one_wall_lies_along_that_wall_only() -> None:
    plan = plain_case(ell_with_leg(2200.0), inset=150.0, direction=0.0).rails
    (own,) = [rail for rail in plan.rails if rail.start[1] == pytest.approx(2050.0)]
    assert 1850.0 <= own.start[0] <= 2000.0
    assert own.end[0] == pytest.approx(5000.0 - END)


def test_rails_and_what_goes_with_them_are_written_as_json_under_the_names_of_the_contract() -> None:
    plan = plain_case(rectangle(4000.0, 3000.0)).rails
    rail = json_from(plan.rails[0])
    assert set(rail) == {"id", "from", "to", "strip", "stations", "settings", "ramp_volume"}
    whole = {"at", "along", "subfloor", "top", "shim", "sixteenths", "millimetres", "is_break"}
    assert set(rail["stations"][0]) == whole
    assert set(rail["settings"][0]) == {"order", "from", "to", "stations", "overlap", "strip"}
