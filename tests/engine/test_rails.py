"""Rails: where they lie, what they serve, how high their ramps are. shapely judges the geometry."""

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint
from shapely.affinity import rotate, translate
from tests.engine.rail_cases import Case, flat, plain_case, random_case, random_rails, rectangle
from tests.rooms import cutouts_of, outline_of, random_room

from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Fixture
from evenbed.engine.document.writing import json_from
from evenbed.engine.rails.choice import Layout
from evenbed.engine.rails.cover import unserved
from evenbed.engine.rails.laid import RailPlan, check_rail_design, rails_from
from evenbed.engine.rails.lines import Piece
from evenbed.engine.touching import regions_of_room

SEEDS = range(300)
CLEARANCE_ROUNDING = 1e-4  # mm: a rail may pass a corner nearer than its clearance by this much
ON_A_SIDE = 0.01  # mm: places nearer than this to a limit are nobody's to judge


def lines_of(plan: RailPlan) -> list[LineString]:
    return [LineString([rail.start, rail.end]) for rail in plan.rails]


@pytest.mark.parametrize("seed", SEEDS)
def test_rails_stay_inside_and_keep_their_distance_from_walls_and_cutouts(seed: int) -> None:
    plan, (shape,) = random_rails(seed), random_case(seed).shapes
    inset = plan.layouts[0].floor.inset
    for line in lines_of(plan):
        assert shape.contains(line)
        assert shape.boundary.distance(line) >= inset - CLEARANCE_ROUNDING


@pytest.mark.parametrize("seed", SEEDS)
def test_every_place_lies_between_rails_the_straightedge_spans_or_is_named(seed: int) -> None:
    dice, plan, (shape,) = random.Random(seed), random_rails(seed), random_case(seed).shapes
    (layout,) = plan.layouts
    if not plan.rails:
        assert "no_rails_fit" in {caution.code for caution in plan.cautions}
        return
    turned = Polygon(
        layout.frame.turned_ring(shape.exterior.coords), [layout.frame.turned_ring(r.coords) for r in shape.interiors]
    )
    spots = unserved(layout.floor, layout.pieces, layout.reach, 0.0)
    low_u, low_v, high_u, high_v = turned.bounds
    for _ in range(40):
        u, v = dice.uniform(low_u, high_u), dice.uniform(low_v, high_v)
        if turned.contains(ShapelyPoint(u, v)) and not is_served(layout, turned, u, v):
            assert any(s.start <= u <= s.end and s.low <= v <= s.high for s in spots)


def is_served(layout: Layout, room: Polygon, u: float, v: float) -> bool:
    """By the rails seen from (u, v) across the floor, each counted as longer by the float's margin."""
    reach = layout.reach
    low, high = chord_through(room, u, v)
    seen = sorted({p.v for p in layout.pieces if low < p.v < high and is_beside(room, p, u, reach.margin)})
    below, above = [r for r in seen if r <= v], [r for r in seen if r > v]
    if below and above:
        return above[0] - below[-1] <= reach.span + ON_A_SIDE
    near = (below[::-1] or above)[:2]
    if not near:
        return False
    gap = abs(near[0] - near[-1])
    sticks_out = reach.edge - reach.bearing - gap if 0.0 < gap <= reach.span + ON_A_SIDE else 0.0
    return abs(v - near[0]) <= max(reach.margin, sticks_out) + ON_A_SIDE


def chord_through(room: Polygon, u: float, v: float) -> tuple[float, float]:
    _, low, _, high = room.bounds
    cut = room.intersection(LineString([(u, low - 1.0), (u, high + 1.0)]))
    parts = [part.bounds for part in getattr(cut, "geoms", [cut])]
    return next((b[1], b[3]) for b in parts if b[1] - ON_A_SIDE <= v <= b[3] + ON_A_SIDE)


def is_beside(room: Polygon, piece: Piece, u: float, margin: float) -> bool:
    start, end, v = piece.start, piece.end, piece.v
    if start <= u <= end:
        return True
    near = start if u < start else end
    return abs(u - near) <= margin + ON_A_SIDE and bool(room.covers(LineString([(near, v), (u, v)])))


@pytest.mark.parametrize("seed", SEEDS)
def test_places_left_to_the_float_are_named_with_their_size(seed: int) -> None:
    plan, (shape,) = random_rails(seed), random_case(seed).shapes
    for hand in plan.hand_areas:
        box = Polygon(hand.polygon)
        assert 0.0 < hand.area <= shape.intersection(box).area / 1e6 * (1 + 1e-9)
    said = [caution for caution in plan.cautions if caution.code == "by_hand"]
    assert len(said) == (1 if plan.hand_areas else 0)


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
def test_a_rectangle_has_the_fewest_rails_of_its_two_directions(width: float, depth: float, edge: float) -> None:
    case = plain_case(rectangle(width, depth), straightedge=edge)
    span, inset = edge - 2 * case.design.bearing, case.design.inset
    counts = [math.ceil((side - 2 * inset) / span - 1e-9) + 1 for side in (width, depth)]
    assert len(case.rails.rails) == min(counts)
    assert case.rails.hand_areas == ()


def test_rails_run_along_the_longer_side_and_are_named_from_one_side_to_the_other() -> None:
    plan = plain_case(rectangle(5000.0, 3000.0), inset=150.0).rails
    assert [rail.id for rail in plan.rails] == ["A", "B", "C"]
    assert [rail.start for rail in plan.rails] == [(150.0, 150.0), (150.0, 1500.0), (150.0, 2850.0)]
    assert [rail.end for rail in plan.rails] == [(4850.0, 150.0), (4850.0, 1500.0), (4850.0, 2850.0)]


def test_a_column_interrupts_a_rail_that_cannot_move_aside() -> None:
    column = ((2300.0, 1400.0), (2700.0, 1400.0), (2700.0, 1600.0), (2300.0, 1600.0))
    plan = plain_case(rectangle(9000.0, 3000.0), column, inset=150.0, straightedge=1480.0, direction=0.0).rails
    assert [rail.id for rail in plan.rails] == ["A", "B1", "B2", "C"]
    assert [rail.end[0] for rail in plan.rails][1] == pytest.approx(2300.0 - 150.0)
    assert [rail.start[0] for rail in plan.rails][2] == pytest.approx(2700.0 + 150.0)


def test_a_rail_moves_aside_for_a_column_where_the_straightedge_allows() -> None:
    column = ((2300.0, 1400.0), (2700.0, 1400.0), (2700.0, 1600.0), (2300.0, 1600.0))
    plan = plain_case(rectangle(5000.0, 3000.0), column, inset=150.0, direction=0.0).rails
    assert [rail.id for rail in plan.rails] == ["A", "B", "C"]
    assert plan.rails[1].start[1] in (pytest.approx(1250.0), pytest.approx(1750.0))


def test_both_legs_of_an_ell_have_a_rail_along_their_walls() -> None:
    ell = ((0.0, 0.0), (6000.0, 0.0), (6000.0, 2500.0), (2500.0, 2500.0), (2500.0, 6000.0), (0.0, 6000.0))
    case = plain_case(ell, inset=150.0)
    (shape,) = case.shapes
    for wall in zip(ell, (*ell[1:], ell[0]), strict=True):
        reach = LineString(wall).buffer(case.rails.layouts[0].reach.margin + 1.0, cap_style="flat")
        assert sum(line.intersection(reach).length for line in lines_of(case.rails)) > 0.0
    assert shape.contains(ShapelyPoint(100.0, 100.0))
    assert case.rails.hand_areas == ()


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
    assert bool(plan.rails) or plan.hand_areas == ()
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
    assert own.end[0] == pytest.approx(4850.0)


def test_rails_and_what_goes_with_them_are_written_as_json_under_the_names_of_the_contract() -> None:
    plan = plain_case(rectangle(4000.0, 3000.0)).rails
    rail = json_from(plan.rails[0])
    assert set(rail) == {"id", "from", "to", "strip", "stations", "settings", "ramp_volume"}
    whole = {"at", "along", "subfloor", "top", "shim", "sixteenths", "millimetres", "is_break"}
    assert set(rail["stations"][0]) == whole
    assert set(rail["settings"][0]) == {"order", "from", "to", "stations", "overlap", "strip"}
