"""Movement joints: whatever the room, panels are the floor and no longer than the spacing, and joints lie in it."""

import itertools
import math
import random
from collections.abc import Sequence

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import Json, plan_of, problems_of, room_over, turned
from tests.jointed import Corners, area_of_panel, joints_in, lines_in, worked_joints
from tests.rooms import polygon_of, random_room
from tests.share import share_of

from evenbed.engine.joints.shapes import JointsAnswer

NO_AREA = 1e-9  # of the room: rounding of two different libraries
NEAR = 1e-5  # mm
HALL = [[0, 0], [12_000, 0], [12_000, 9000], [0, 9000]]
L_ROOM = [[0, 0], [12_000, 0], [12_000, 4000], [5000, 4000], [5000, 9000], [0, 9000]]
SLABS = [((1000.0, -200.0), (2000.0, 9500.0))]


def any_slab_joints(seed: int, room: Json) -> list[list[list[float]]]:
    """Up to three lines across a room's box, some of them ending amid the floor."""
    dice = random.Random(seed)
    low_x, low_y, high_x, high_y = polygon_of(room).bounds
    spots = [[dice.uniform(low_x, high_x), dice.uniform(low_y, high_y)] for _ in range(6)]
    return [spots[2 * n : 2 * n + 2] for n in range(dice.randint(0, 3))]


def any_joints(seed: int, spacing: float) -> tuple[Json, JointsAnswer]:
    room = random_room(seed)
    room["joints"] = {"spacing": spacing, "slab_joints": any_slab_joints(seed, room)}
    return room, worked_joints(room).answer


seeds = st.integers(0, 10**6)
spacings = st.sampled_from([900.0, 2438.4, 3657.6, 7620.0])


@given(seeds, spacings)
@settings(max_examples=share_of(60), deadline=None)
def test_panels_are_the_floor_and_no_longer_than_the_spacing(seed: int, spacing: float) -> None:
    room, answer = any_joints(seed, spacing)
    floor, panels = polygon_of(room), [area_of_panel(panel) for panel in answer.panels]
    assert all(panel.is_valid for panel in panels)
    assert math.fsum(panel.area for panel in panels) == pytest.approx(floor.area, rel=NO_AREA)
    tree = shapely.STRtree(panels)
    beside = [(i, j) for i, j in tree.query(panels).T if i < j]
    shared = [shapely.intersection(panels[i], panels[j], grid_size=NEAR).area for i, j in beside]
    assert math.fsum(shared) <= NEAR * floor.length
    outside = [shapely.difference(panel, floor, grid_size=NEAR).area for panel in panels]
    assert math.fsum(outside) <= NEAR * (floor.length + sum(panel.length for panel in panels))
    assert answer.longest_panel == max(panel.length for panel in answer.panels) <= spacing + NEAR
    assert all(panel.width <= panel.length for panel in answer.panels)


@given(seeds, spacings)
@settings(max_examples=share_of(60), deadline=None)
def test_joints_lie_in_the_room_and_part_the_panels(seed: int, spacing: float) -> None:
    room, answer = any_joints(seed, spacing)
    floor = polygon_of(room).buffer(NEAR)
    joints = [line for some in lines_in(answer).values() for line in some]
    assert all(floor.covers(line) for line in joints)
    edges = math.fsum(area_of_panel(panel).length for panel in answer.panels)
    doubled = polygon_of(room).length + 2.0 * math.fsum(line.length for line in joints)
    assert edges == pytest.approx(doubled, rel=1e-9)


@given(seeds)
@settings(max_examples=share_of(60), deadline=None)
def test_joints_of_the_slab_are_carried_through_and_reach_what_bounds_them(seed: int) -> None:
    room, answer = any_joints(seed, 7620.0)
    floor = polygon_of(room)
    carried = shapely.union_all(lines_in(answer).get("slab", [])).buffer(1.0)
    on = shapely.union_all([line for some in lines_in(answer).values() for line in some])
    for joint in room["joints"]["slab_joints"]:
        inside = shapely.LineString(joint).intersection(floor.buffer(-1.0))
        left = inside.difference(carried)
        assert max((part.length for part in _parts(left)), default=0.0) <= 300.0 + 2.0  # no more than a tile
    bounds = floor.boundary.union(on)
    for line in lines_in(answer).get("slab", []):
        others = shapely.union_all([*_parts(bounds.difference(line.buffer(0.01)))])
        assert all(shapely.Point(end).distance(others) < 0.1 for end in line.coords)


def _parts(some: shapely.Geometry) -> list[shapely.Geometry]:
    return [part for part in shapely.get_parts(some) if part.length > 0.0]


@given(st.sampled_from([HALL, L_ROOM]), st.floats(0.0, 360.0), st.floats(-5e4, 5e4), st.floats(-5e4, 5e4))
@settings(max_examples=share_of(40), deadline=None)
def test_a_room_turned_and_moved_has_the_same_joints(outline: Corners, angle: float, x: float, y: float) -> None:
    still = joints_in(outline, slab_joints=SLABS)

    def place(at: Sequence[float]) -> tuple[float, float]:
        return turned(at, math.radians(angle), (x, y))

    moved = joints_in([place(at) for at in outline], slab_joints=[[place(at) for at in line] for line in SLABS])
    assert [joint.kind for joint in moved.field] == [joint.kind for joint in still.field]
    for one, other in zip(still.field, moved.field, strict=True):
        assert math.dist(place(one.start), other.start) < NEAR
        assert math.dist(place(one.end), other.end) < NEAR
        assert other.module_off == pytest.approx(one.module_off, abs=NEAR)


def test_a_room_walked_the_other_way_round_has_the_same_joints() -> None:
    assert joints_in(L_ROOM[::-1]).field == joints_in(L_ROOM).field


def test_a_joint_of_the_slab_is_not_doubled_by_one_nearer_than_a_tile() -> None:
    answer = joints_in(HALL, slab_joints=[[[6100, 0], [6100, 9000]]])
    upright = sorted(joint.start[0] for joint in answer.field if joint.start[0] == joint.end[0])
    assert upright == [6100.0]
    assert next(joint.module_off for joint in answer.field if joint.kind == "slab") is None


def test_a_joint_of_the_slab_that_ends_amid_the_floor_is_carried_on_to_the_wall() -> None:
    answer = joints_in([[0, 0], [5000, 0], [5000, 4000], [0, 4000]], slab_joints=[[[2000, 0], [2000, 2500]]])
    assert [(joint.kind, joint.why, joint.start, joint.end) for joint in answer.field] == [
        ("slab", "slab", (2000.0, 0.0), (2000.0, 2500.0)),
        ("field", "carried_on", (2000.0, 2500.0), (2000.0, 4000.0)),
    ]


def test_a_joint_of_the_slab_in_one_leg_leaves_the_other_leg_whole() -> None:
    u_room = [[0, 0], [6000, 0], [6000, 4000], [4000, 4000], [4000, 1500], [2000, 1500], [2000, 3500], [0, 3500]]
    answer = joints_in(u_room, slab_joints=[[[0, 2500], [2000, 2500]]])
    assert [line.coords[:] for line in lines_in(answer)["slab"]] == [[(0.0, 2500.0), (2000.0, 2500.0)]]
    assert "carried_on" not in lines_in(answer)


def test_an_inside_corner_beside_another_joint_keeps_its_own() -> None:
    room = [(0, 0), (7000, 0), (7000, 4000), (4000, 4000), (4000, 8000), (1000, 8000), (1000, 4200), (0, 4200)]
    lines = [line for why in lines_in(joints_in(room)).values() for line in why]
    for corner in ((4000, 4000), (1000, 4200)):
        assert min(line.distance(shapely.Point(corner)) for line in lines) < 1e-6


def test_an_inside_corner_without_room_for_a_joint_is_told() -> None:
    room = [(0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 6000), (0, 6000)]
    doubled = {"slab_joints": [[[0, 3100], [3000, 3100]], [[2900, 0], [2900, 3100]]]}
    for joints, told in (({}, set()), (doubled, {"corners_without_joint"})):
        codes = {caution.code for caution in worked_joints(room_over(room, [(0, 0, 0)], joints=joints)).cautions}
        assert codes == told | {"joints_decide"}


def test_joints_in_neighbouring_panels_run_on_in_line() -> None:
    answer = joints_in(HALL, slab_joints=[[[0, 4300], [12_000, 4300]]])
    assert {joint.start[0] for joint in answer.field if joint.why == "spacing"} == {6000.0}


def test_a_joint_moves_to_the_nearest_tile_and_says_when_it_cannot() -> None:
    room = room_over([[0, 0], [10_000, 0], [10_000, 3000], [0, 3000]], [(0, 0, 0)])
    on = worked_joints(room | {"bed": {"covering": {"longest_edge": 457.2}}}).answer
    assert [joint.start[0] for joint in on.field] == [11 * 457.2]
    assert on.field[0].module_off == 0.0
    off = worked_joints(room | {"bed": {"covering": {"longest_edge": 457.2}}, "joints": {"spacing": 5000}}).answer
    assert [joint.start[0] for joint in off.field] == [5000.0]
    assert off.field[0].module_off == pytest.approx(11 * 457.2 - 5000.0)


def test_the_tile_is_wide_as_it_is_sold_across_the_longest_wall() -> None:
    room = room_over(HALL, [(0, 0, 0)], supplies={"tile": {"width": 150.0}})
    module = worked_joints(room).answer.tile_module
    assert (module.along, module.across) == (300.0, 150.0)


@pytest.mark.parametrize("edge", [0.0, 5e-324, 1e-9])
def test_jogs_shorter_than_a_foot_and_tile_without_size_make_no_trouble(edge: float) -> None:
    jogged = [[0, 0], [4000, 0], [4000, 3000], [2200, 3000], [2200, 2900], [2000, 2900], [2000, 3000], [0, 3000]]
    room = room_over(jogged, [(0, 0, 0)], bed={"covering": {"longest_edge": edge}})
    assert worked_joints(room).answer.field == ()
    wide = room_over([[0, 0], [20_000, 0], [20_000, 9000], [0, 9000]], [(0, 0, 0)], bed=room["bed"])
    assert worked_joints(wide).answer.field


def test_the_perimeter_counts_walls_cutouts_and_round_fixtures() -> None:
    drains = [{"at": [500, 500], "kind": "drain", "radius": 50.0}]
    drains += [{"at": [1000, 500], "kind": "drain", "radius": 10.0, "to": [1300, 500]}]
    room = room_over(HALL, [(0, 0, 0)], fixtures=drains)
    assert worked_joints(room).answer.perimeter.length == pytest.approx(42_000.0 + math.tau * 60.0 + 600.0)


CODES = [
    ({}, set()),
    ({"spacing": 9000.0}, {"joints_far_apart"}),
    ({"exposure": "outdoors"}, {"joints_range_unknown"}),
    ({"exposure": "outdoors", "temperature_range": 50.0}, set()),
    ({"slab_joints": [[[20_000, 0], [20_000, 9000]]]}, {"slab_joints_passed"}),
    ({"spacing": 300.0}, {"too_many_panels"}),
]


@pytest.mark.parametrize(("joints", "codes"), CODES)
def test_cautions_stand_where_they_are_due_and_the_designer_decides_always(joints: Json, codes: set[str]) -> None:
    worked = worked_joints(room_over(HALL, [(0, 0, 0)], joints=joints))
    assert {caution.code for caution in worked.cautions} == codes | {"joints_decide"}


def test_a_floor_in_too_many_panels_keeps_the_joints_of_its_slab() -> None:
    answer = joints_in(HALL, spacing=300.0, slab_joints=[[[4000, 0], [4000, 9000]]])
    assert [joint.kind for joint in answer.field] == ["slab"]
    assert len(answer.panels) == 2


def test_the_plan_tells_the_joints_and_explains_each_figure() -> None:
    corners = [(x, y, 0.0) for x, y in HALL]
    plan = plan_of(room_over(HALL, corners, joints={"exposure": "outdoors", "temperature_range": 60.0}))
    told = {path for path in plan["explanations"] if path.startswith("joints.")}
    names = ("perimeter.width", "perimeter.length", "width", "width_published", "width_by_movement", "movement")
    assert told == {f"joints.{name}" for name in (*names, "spacing.used", "field", "longest_panel")}
    assert plan["explanations"]["joints.width_published"]["source_code"] == "movement_joints"
    assert "from memory" in plan["explanations"]["joints.perimeter.width"]["source"]
    assert [joint["id"] for joint in plan["joints"]["field"]] == ["J1", "J2", "J3", "J4", "J5"]


@pytest.mark.parametrize("ends", [[[0, 0], [0, 0]], [[5, 5], [5, 5.5]]])
def test_a_joint_of_the_slab_from_a_place_to_itself_is_refused(ends: list[list[float]]) -> None:
    room = room_over(HALL, [(x, y, 0.0) for x, y in HALL], joints={"slab_joints": [[[0, 0], [9, 9]], ends]})
    assert problems_of(room) == [("joints.slab_joints[1]", "slab_joint_empty")]


def test_a_circle_of_many_corners_and_the_finest_spacing_take_no_time() -> None:
    ring = [(9000 * math.cos(a), 9000 * math.sin(a)) for a in (math.tau * n / 200 for n in range(200))]
    answer = joints_in(ring, spacing=1000.0)
    assert answer.longest_panel <= 1000.0 + NEAR
    assert all(a.id != b.id for a, b in itertools.pairwise(answer.field))
