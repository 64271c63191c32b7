"""Tops of many planes against geometry done by hand. Subfloors are flat, at z = 0, unless the test says otherwise."""

import math
from collections.abc import Sequence
from typing import Any

import pytest
from tests.documents import SQUARE, Json, answer_to, problems_of, room_over
from tests.engine.top_rooms import L_ROOM, U_ROOM, worked

from evenbed.engine.worked import WorkedRoom

COVERING = 4.7625 + 9.525  # mm of bond coat and tile between the top of bed and the finished floor
BIG = [[0, 0], [3000, 0], [3000, 3000], [0, 3000]]


def flat(outline: Sequence[Sequence[float]], top: Json, *fixtures: Json) -> Json:
    return room_over(outline, [(x, y, 0.0) for x, y in outline], bed={"top": top}, fixtures=list(fixtures))


def drain_at(at: list[float], radius: float = 0.0, height: float | None = 40.0 + COVERING, **more: Any) -> Json:
    """A drain whose edge lies in the top of bed at z = 40."""
    return {"id": "d", "kind": "drain", "at": at, "radius": radius, "height": height, **more}


def to_drain(fall: float = 0.02, **more: Any) -> Json:
    return {"kind": "to_drain", "drain": "d", "fall": fall, **more}


FAR = drain_at([1250, 3250])  # in the short leg of an L: it does not see the whole of the long one


def saving(room: WorkedRoom) -> dict[str, float]:
    return {r.kind: r.saves for r in room.designed_top.requirements}


def test_a_square_falls_to_its_middle_from_every_wall_alike() -> None:
    """Half the diagonal is 2121.3203 mm: the walls stand 2 % of it, 42.4264 mm, above the drain. From the middle of a
    wall, 1500 mm away, that is a fall of 2.8284 %. The hollow is a pyramid upside down: a third of its box is air
    below the walls, so that the mean height is 40 + 2/3 of 42.4264."""
    room = worked(flat(BIG, to_drain(), drain_at([1500, 1500])))
    rise = 0.02 * 1500 * math.sqrt(2)
    assert [room.top.at(*p) for p in ((0, 0), (1500, 0), (3000, 1234))] == pytest.approx([40 + rise] * 3)
    assert room.top.at(1500, 1500) == pytest.approx(40.0)
    assert sorted(math.hypot(f.b, f.c) for f in room.top.facets) == pytest.approx([0.02 * math.sqrt(2)] * 4)
    assert room.quantities.volume == pytest.approx(9e-3 * (40 + rise * 2 / 3))
    assert saving(room)["drain_height"] == pytest.approx(9e-3)
    assert saving(room)["least_fall"] == pytest.approx(9e-3 * 1500 * math.sqrt(2) * 2 / 3 / 1000)


def test_the_ring_of_a_drain_shortens_the_longest_fall_and_lies_level() -> None:
    """From the corner it is 2121.3203 − 50 mm to the ring: 41.4264 mm at 2 %. From a wall's middle 41.4264 mm in
    1450 mm are 2.8570 %."""
    room = worked(flat(BIG, to_drain(), drain_at([1500, 1500], 50.0)))
    rise = 0.02 * (1500 * math.sqrt(2) - 50)
    assert room.top.at(3000, 700) == pytest.approx(40 + rise)
    assert [room.top.at(1500, 1500), room.top.at(1548, 1500)] == pytest.approx([40.0, 40.0])
    assert room.top.at(1500, 1550 + 145) == pytest.approx(40 + rise / 10)
    ring = next(f for f in room.top.facets if f.b == f.c == 0)
    assert len(ring.polygon) == 24
    assert {round(math.dist(p, (1500, 1500)), 9) for p in ring.polygon} == {50.0}


def test_off_centre_the_farthest_corner_decides_and_near_walls_fall_steeply() -> None:
    """In 4000 × 3000 with the drain at 1000, 1000 the farthest corner is √(3000² + 2000²) = 3605.5513 mm away:
    72.1110 mm at 2 %. The walls 1000, 3000, 2000 and 1000 mm away fall at 7.2111, 2.4037, 3.6056 and 7.2111 %."""
    room = worked(flat(SQUARE, to_drain(), drain_at([1000, 1000])))
    rise = 0.02 * math.hypot(3000, 2000)
    slopes = [math.hypot(f.b, f.c) for f in room.top.facets]
    assert slopes == pytest.approx([rise / 1000, rise / 3000, rise / 2000, rise / 1000])
    assert room.quantities.volume == pytest.approx(12e-3 * (40 + rise * 2 / 3))
    why = room.designed_top.explanation
    assert why is not None
    found = {name: why.inputs[name] for name in ("wall", "drain", "longest", "x", "y")}
    assert found == pytest.approx({"wall": 40 + rise, "drain": 40.0, "longest": rise / 0.02, "x": 4000, "y": 3000})


def test_an_l_is_split_along_the_wall_that_lets_every_place_beyond_fall_square_to_it() -> None:
    """The drain at 1250, 3250 in the short leg does not see the wall along y = 2500. The wall along x = 2500, drawn
    on, parts the leg, 2500 × 4000, from 2500 × 2500 beyond it. The leg's farthest corners are √(1250² + 3250²) =
    3482.0971 mm away: its walls and the cut stand 69.6419 mm above the drain. Beyond, 2500 mm more at 2 % make 50."""
    room = worked(flat(L_ROOM, to_drain(), drain_at([1250, 3250])))
    rise = 0.02 * math.hypot(1250, 3250)
    wall = 40 + rise
    places = [(0, 0), (2500, 4000), (2500, 1000), (3000, 77), (5000, 0), (5000, 2500)]
    assert [room.top.at(*p) for p in places] == pytest.approx([wall, wall, wall, wall + 10, wall + 50, wall + 50])
    leg, beyond = 10e-3 * (40 + rise * 2 / 3), 6.25e-3 * (wall + 25)
    assert room.quantities.volume == pytest.approx(leg + beyond)


def test_both_legs_of_a_u_fall_to_the_part_between_them_that_has_the_drain() -> None:
    """The drain at 2500, 500 sees the floor between the legs, 5000 × 1000, whole: √(2500² + 500²) = 2549.5098 mm to
    its corners, 50.9902 mm at 2 %. Each leg, 1000 × 3000, falls 60 mm square to the cut along y = 1000."""
    room = worked(flat(U_ROOM, to_drain(), drain_at([2500, 500])))
    wall = 40 + 0.02 * math.hypot(2500, 500)
    places = [(0, 0), (500, 1000), (2500, 1000), (0, 4000), (4300, 2500)]
    assert [room.top.at(*p) for p in places] == pytest.approx([wall, wall, wall, wall + 60, wall + 30])
    middle = 5e-3 * (40 + (wall - 40) * 2 / 3)
    assert room.quantities.volume == pytest.approx(middle + 2 * 3e-3 * (wall + 30))


def test_a_leg_a_little_out_of_square_still_falls_to_its_cut() -> None:
    """Walls that lean 20 mm in 2500 over the way down, as walls do."""
    room = worked(flat([[0, 0], [5000, -20], [5015, 2520], [2500, 2500], [2510, 4000], [0, 4010]], to_drain(), FAR))
    high = max(room.top.at(5000, -20), room.top.at(5015, 2520))
    assert high == pytest.approx(40 + 0.02 * (math.hypot(1250, 3250) + 2510), abs=1.0)
    leaning = [[0, 0], [5000, -400], [5000, 2500], [2500, 2500], [2500, 4000], [0, 4000]]
    assert problems_of(flat(leaning, to_drain(), FAR)) == [("bed.top.drain", "drain_hidden")]


def test_a_drain_that_sees_all_of_an_l_leaves_it_whole() -> None:
    """At 1200, 1200 both walls at the inner corner show their front, 1300 mm off; the corner 5000, 0 is farthest."""
    room = worked(flat(L_ROOM, to_drain(), drain_at([1200, 1200])))
    assert len(room.top.facets) == 6
    assert room.top.at(2500, 2500) == pytest.approx(40 + 0.02 * math.hypot(3800, 1300))


def test_a_drain_along_a_wall_has_one_plane_that_rises_square_to_it() -> None:
    """3000 mm at 2 % are 60 mm at the far wall; on average half of that."""
    room = worked(flat(SQUARE, to_drain(), drain_at([0, 0], to=[4000, 0])))
    (facet,) = room.top.facets
    assert (facet.a, facet.b, facet.c) == pytest.approx((40.0, 0.0, 0.02))
    assert room.quantities.volume == pytest.approx(12e-3 * 70)
    assert not [c for c in room.designed_top.cautions if c.code == "drain_short"]


def test_a_drain_across_the_room_has_a_plane_each_side_and_its_width_is_level() -> None:
    """Half of 80 mm each side of x = 1000: to the left 960 mm rise 19.2 mm, to the right 2960 mm rise 59.2 mm."""
    room = worked(flat(SQUARE, to_drain(), drain_at([1000, 100], 40.0, to=[1000, 2900])))
    places = [(0, 5), (960, 2000), (1000, 3000), (1040, 0), (4000, 3000)]
    assert [room.top.at(*p) for p in places] == pytest.approx([59.2, 40.0, 40.0, 40.0, 99.2])
    left, middle, right = 960 * (40 + 9.6), 80 * 40, 2960 * (40 + 29.6)
    assert room.quantities.volume == pytest.approx(3000 * (left + middle + right) / 1e9)
    (short,) = [c for c in room.designed_top.cautions if c.code == "drain_short"]
    assert short.values == pytest.approx({"short": 200.0})


def test_a_linear_drain_may_lie_askew_but_leaves_no_corner_where_water_stands() -> None:
    """Askew in a rectangle all water runs to the line, along walls at last. In the L a drain along the far wall at
    y = 4000 would leave the corner 5000, 2500 of the long leg, and the whole wall there, without a way down."""
    askew = worked(flat(SQUARE, to_drain(), drain_at([1000, 500], to=[2000, 1500])))
    assert [math.hypot(f.b, f.c) for f in askew.top.facets] == pytest.approx([0.02, 0.02])
    (bad,) = answer_to(flat(L_ROOM, to_drain(), drain_at([0, 4000], to=[2500, 4000])))["problems"]
    assert (bad["path"], bad["code"]) == ("bed.top.drain", "drain_hidden")
    assert (bad["values"]["x"], bad["values"]["y"]) == (5000, 2500)


def test_two_levels_meet_in_a_ramp_to_the_right_of_their_line() -> None:
    """40 mm up to x = 1000, a ramp of 240 mm, 60 mm from x = 1240: 20 in 240 is 1 in 12, the steepest for a ramp."""
    top = {"kind": "two_levels", "line": [[1000, 0], [1000, 500]], "left": 40, "right": 60, "ramp": 240}
    room = worked(flat(SQUARE, top))
    assert [room.top.at(x, 2000) for x in (0, 1000, 1120, 1240, 4000)] == pytest.approx([40, 40, 50, 60, 60])
    assert room.quantities.volume == pytest.approx(3000 * (1000 * 40 + 240 * 50 + 2760 * 60) / 1e9)
    saves = {r.path: r.saves for r in room.designed_top.requirements}
    assert saves == pytest.approx({"bed.top.left": 3 * 1.12e-3, "bed.top.right": 3 * 2.88e-3})
    assert room.designed_top.cautions == ()


def test_a_steeper_ramp_and_a_step_are_cautioned() -> None:
    steep = {"kind": "two_levels", "line": [[1000, 0], [1000, 500]], "left": 40, "right": 60, "ramp": 200}
    (caution,) = worked(flat(SQUARE, steep)).designed_top.cautions
    assert caution.code == "steep_ramp"
    assert caution.values == pytest.approx({"run": 10, "rise": 20, "needed": 240})
    room = worked(flat(SQUARE, steep | {"ramp": 0}))
    assert [c.code for c in room.designed_top.cautions] == ["step_in_floor"]
    assert room.quantities.volume == pytest.approx(3000 * (1000 * 40 + 3000 * 60) / 1e9)
    assert worked(flat(SQUARE, steep | {"ramp": 0, "right": 46})).designed_top.cautions == ()


def test_a_plane_through_one_point_is_level_and_through_two_leans_along_them_only() -> None:
    """Through 40 at the origin and 50 at 3000, 4000, which is 5000 mm off: 2 mm a metre along 0.6, 0.8."""
    level = worked(flat(SQUARE, {"kind": "plane", "through": [[1, 2, 45]]}))
    assert [level.top.at(*p) for p in ((0, 0), (4000, 3000))] == [45, 45]
    assert saving(level) == pytest.approx({"given_height": 12e-3})
    leaning = worked(flat(SQUARE, {"kind": "plane", "through": [[0, 0, 40], [3000, 4000, 50]]}))
    (facet,) = leaning.top.facets
    assert (facet.a, facet.b, facet.c) == pytest.approx((40, 0.0012, 0.0016))


def test_more_points_than_three_must_stand_in_one_plane_to_half_a_millimetre() -> None:
    """Of four corners of a rectangle each is as far from the plane of the other three: the last typed is named."""
    corners = [[0, 0, 40], [4000, 0, 44], [4000, 3000, 47]]
    fits = worked(flat(SQUARE, {"kind": "plane", "through": [*corners, [0, 3000, 43.4]]}))
    assert fits.top.at(2000, 1500) == pytest.approx(43.6)
    bad = answer_to(flat(SQUARE, {"kind": "plane", "through": [*corners, [0, 3000, 45]]}))["problems"]
    assert [(p["path"], p["code"], p["values"]["by"]) for p in bad] == [("bed.top.through[3]", "top_off_plane", 2.0)]
    five = [*corners, [2000, 1500, 41.5], [0, 3000, 43]]
    assert problems_of(flat(SQUARE, {"kind": "plane", "through": five})) == [("bed.top.through[3]", "top_off_plane")]


def test_without_a_height_the_drain_lies_as_low_as_the_least_thickness_lets_it() -> None:
    """On a flat floor the bed is thinnest at the drain: 31.75 mm. A hump of 100 mm at a corner lifts it instead: the
    walls, 42.4264 mm above the drain, must clear it by 31.75."""
    room = worked(flat(BIG, to_drain(), drain_at([1500, 1500], height=None)))
    assert room.top.at(1500, 1500) == pytest.approx(31.75)
    assert saving(room)["minimum_thickness"] == pytest.approx(9e-3)
    spots = [(x, y, 100.0 * (x == y == 0)) for x, y in BIG]
    hump = room_over(BIG, spots, bed={"top": to_drain()}, fixtures=[drain_at([1500, 1500], height=None)])
    high = worked(hump)
    assert high.top.at(0, 0) == pytest.approx(131.75)
    (minimum,) = [r for r in high.designed_top.requirements if r.kind == "minimum_thickness"]
    assert (minimum.at, minimum.limit) == ((0, 0), 31.75)
    assert "least_fall" not in saving(high)  # a lesser fall would lift the drain under walls that cannot sink


def test_walls_at_a_given_height_fall_at_least_as_asked_or_say_how_high_they_must_be() -> None:
    """2 % of half the diagonal are 42.4264 mm: walls at 82.4264 will do, and nothing lower."""
    (bad,) = answer_to(flat(BIG, to_drain(perimeter=82.4), drain_at([1500, 1500])))["problems"]
    assert (bad["path"], bad["code"]) == ("bed.top.perimeter", "perimeter_too_low")
    assert bad["values"]["least"] == 82.427
    assert worked(flat(BIG, to_drain(perimeter=82.427), drain_at([1500, 1500]))).top.at(0, 0) == pytest.approx(82.427)
    assert (bad["values"]["x"], bad["values"]["y"]) in [(x, y) for x, y in BIG]
    room = worked(flat(BIG, to_drain(perimeter=100.0), drain_at([1500, 1500])))
    assert [room.top.at(0, 9), room.top.at(1500, 1500)] == pytest.approx([100, 40])
    assert saving(room) == pytest.approx({"given_height": 6e-3, "drain_height": 3e-3})


def test_under_walls_at_a_given_height_an_open_drain_sinks_to_the_least_thickness() -> None:
    """Walls at 100, a flat floor: the drain at 31.75 keeps the least thickness, and falls steeper than asked. Each mm
    of thickness less sinks the pyramid's tip: a third of the room. Walls that sink take two thirds of it along."""
    room = worked(flat(BIG, to_drain(perimeter=100.0), drain_at([1500, 1500], height=None)))
    assert [room.top.at(0, 9), room.top.at(1500, 1500)] == pytest.approx([100, 31.75])
    assert saving(room) == pytest.approx({"minimum_thickness": 3e-3, "given_height": 6e-3})


def test_a_level_top_says_what_holds_it_up() -> None:
    lowest = worked(room_over(SQUARE, [(x, y, float(x == y == 0)) for x, y in SQUARE]))
    (minimum,) = lowest.designed_top.requirements
    assert (minimum.kind, minimum.at, minimum.limit) == ("minimum_thickness", (0, 0), 31.75)
    assert minimum.saves == pytest.approx(12e-3)
    (given,) = worked(flat(SQUARE, {"kind": "level", "height": 50})).designed_top.requirements
    assert (given.kind, given.limit) == ("given_height", 50)
    assert given.saves == pytest.approx(12e-3)
