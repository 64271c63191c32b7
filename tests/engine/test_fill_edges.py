"""Edges of the bed: in doorways, and where work stops. shapely and scipy judge."""

import math
import random
from typing import Any

import numpy as np
import pytest
from scipy.interpolate import LinearNDInterpolator
from shapely import LineString, Polygon, union_all
from tests.documents import Json, plan_of, room_over
from tests.engine.fill_days import LONG_ROOM, at, clock_at, clock_of, codes_of, finished, long_room
from tests.rooms import random_room
from tests.share import share_of

ROOMS = range(share_of(100))
SAMPLES = 400
STEEPEST = 0.05  # mm per mm that a random floor's triangles rise at most, along a doorway
PROBE = 0.01  # mm by which filled and unfilled bed are grown to find what they share
WIDE_ROOM = [(0.0, 0.0), (5000.0, 0.0), (5000.0, 2400.0), (0.0, 2400.0)]


@pytest.mark.parametrize("seed", ROOMS)
def test_a_doorways_edge_lies_in_its_wall_and_is_as_thick_as_a_dense_sampling_finds(seed: int) -> None:
    room = random_room(seed)
    (opening,), plan = room["openings"], plan_of(room)
    (edge,) = plan["edges"]
    wall = LineString([plan["outline"]["vertices"][n % len(plan["outline"]["vertices"])] for n in walls_of(opening)])
    assert (edge["kind"], edge["opening"]) == ("doorway", opening["id"])
    for end, along in (("from", opening["from"]), ("to", opening["to"])):
        assert wall.interpolate(along).distance(shapely_point(edge[end])) < 1e-6
    assert edge["length"] == pytest.approx(opening["to"] - opening["from"])
    subfloor = LinearNDInterpolator([r["at"] for r in plan["levels"]["heights"]], heights_of(plan))
    places = np.linspace(edge["from"], edge["to"], SAMPLES)
    thick = np.maximum(0.0, top_of(plan) - subfloor(places))
    slack = edge["length"] / SAMPLES * STEEPEST
    assert edge["lowest"] == pytest.approx(np.nanmin(thick), abs=slack)
    assert edge["highest"] == pytest.approx(np.nanmax(thick), abs=slack)
    assert edge["lowest"] <= np.nanmin(thick) + 1e-6
    assert edge["highest"] >= np.nanmax(thick) - 1e-6


def walls_of(opening: Json) -> tuple[int, int]:
    return opening["wall"], opening["wall"] + 1


def shapely_point(at_place: list[float]) -> Any:
    return LineString([at_place, at_place]).interpolate(0.0)


def heights_of(plan: Json) -> list[float]:
    return [height["z"] for height in plan["levels"]["heights"]]


def top_of(plan: Json) -> float:
    (facet,) = plan["bed"]["top"]
    assert facet["b"] == facet["c"] == 0.0
    return float(facet["a"])


def test_every_doorway_has_its_edge_whether_a_floor_adjoins_or_not() -> None:
    doors = [
        {"id": "out", "wall": 3, "from": 500.0, "to": 1300.0, "exit": True},
        {"id": "on", "wall": 0, "from": 2000.0, "to": 2900.0, "adjoining_height": 40.0},
        {"id": "open", "wall": 1, "from": 0.0, "to": 1800.0},
    ]
    plan = plan_of(long_room() | {"openings": doors})
    assert [(e["id"], e["opening"], e["from"], e["to"], e["length"]) for e in plan["edges"]] == [
        ("E1", "out", [0.0, 1300.0], [0.0, 500.0], 800.0),
        ("E2", "on", [2000.0, 0.0], [2900.0, 0.0], 900.0),
        ("E3", "open", [10_000.0, 0.0], [10_000.0, 1800.0], 1800.0),
    ]
    assert {(edge["lowest"], edge["highest"]) for edge in plan["edges"]} == {(31.75, 31.75)}
    assert plan["explanations"]["edges[0].highest"]["inputs"] == {"lowest": 31.75, "highest": 31.75}


def test_where_the_top_lies_on_the_subfloor_an_edge_has_no_height() -> None:
    spots = [(0.0, 0.0, 0.0), (4000.0, 0.0, 60.0), (4000.0, 3000.0, 60.0), (0.0, 3000.0, 0.0)]
    doors = [{"id": "a", "wall": 0, "from": 1000.0, "to": 3000.0}]
    room = room_over(
        [spot[:2] for spot in spots], spots, openings=doors, bed={"top": {"kind": "level", "height": 30.0}}
    )
    (edge,) = plan_of(room)["edges"]
    assert (edge["lowest"], edge["highest"]) == (0.0, pytest.approx(15.0))


@pytest.mark.parametrize("seed", ROOMS)
def test_edges_where_work_stops_are_the_border_between_filled_and_unfilled(seed: int) -> None:
    dice, room = random.Random(seed), random_room(seed)
    sections = plan_of(room)["sections"]
    filled = {section["id"] for section in sections if dice.random() < 0.5}
    rows = [{"section": name, "placed_at": at("09:00")} for name in sorted(filled)]
    answer = clock_of(room | {"placements": rows}, at("10:00"))
    parts = {section["id"]: Polygon(section["polygon"]) for section in sections}
    done = union_all([parts[name].buffer(PROBE, join_style="mitre") for name in parts if name in filled])
    rest = union_all([parts[name].buffer(PROBE, join_style="mitre") for name in parts if name not in filled])
    border = done.intersection(rest).area / (2.0 * PROBE)
    edges = answer["stop_edges"]
    assert math.fsum(edge["length"] for edge in edges) == pytest.approx(border, abs=1.0 + 1e-3 * border)
    for edge in edges:
        line = LineString([edge["from"], edge["to"]])
        assert line.length == pytest.approx(edge["length"])
        assert done.distance(line) == rest.distance(line) == 0.0
        assert edge["lowest"] <= edge["highest"]


def test_an_edge_across_the_rails_is_cut_back() -> None:
    answer = clock_at("09:00", placements=[finished("S1", "08:00", "09:00")])
    (edge,) = answer["stop_edges"]
    assert (edge["kind"], edge["length"], edge["lowest"]) == ("cut", pytest.approx(1800.0), pytest.approx(31.75))
    assert {edge["from"][0], edge["to"][0]} == {8000.0}
    assert "cold_joint_cut" in codes_of(answer)


@pytest.mark.parametrize(("x", "kind"), [(6000.0, "joint"), (6024.0, "joint"), (6026.0, "cut"), (5970.0, "cut")])
def test_an_edge_within_an_inch_of_a_movement_joint_is_at_it(x: float, kind: str) -> None:
    joints = {"slab_joints": [[[x, 0.0], [x, 1800.0]]]}
    rows = [finished("S1", "08:00", "09:00"), finished("S2", "09:00", "10:00")]
    (edge,) = clock_at("10:00", placements=rows, joints=joints)["stop_edges"]
    assert edge["kind"] == kind


def test_an_edge_along_a_rail_is_one_line_with_the_strip_for_its_mark() -> None:
    room = room_over(WIDE_ROOM, [(x, y, 0.0) for x, y in WIDE_ROOM])
    room |= {
        "openings": [{"id": "d", "wall": 3, "from": 500.0, "to": 1300.0, "exit": True}],
        "rails": {"direction": 90.0},
    }
    plan = plan_of(room)
    assert len(plan["sections"]) == len(plan["rails"]) - 1
    rows = [{"section": "S1", "placed_at": at("09:00")}]
    answer = clock_of(room | {"placements": rows}, at("09:30"))
    (edge,) = answer["stop_edges"]
    assert (edge["kind"], edge["length"]) == ("rail", pytest.approx(2400.0))
    assert {edge["from"][0], edge["to"][0]} <= {x for rail in plan["rails"] for x in (rail["from"][0],)} | {
        edge["to"][0]
    }
    assert not {"cold_joint_rail", "cold_joint_cut"} & set(codes_of(answer))
    stopped = clock_of(room | {"placements": rows, "stoppages": [{"start": at("09:20")}]}, at("09:30"))
    too_late = clock_of(room | {"placements": rows, "filling": {"day_ends": at("10:00")}}, at("09:30"))
    for stopping in (stopped, too_late):
        assert "cold_joint_rail" in codes_of(stopping)
        assert "cold_joint_cut" not in codes_of(stopping)


def test_work_had_better_stop_at_a_joint_that_can_be_reached_before_the_day_ends() -> None:
    joints = {"slab_joints": [[[4000.0, 0.0], [4000.0, 1800.0]]]}
    rows = [finished("S1", "08:00", "09:00")]
    for ends, stop in (("11:30", ("S3", 1800.0, 0.0)), ("10:30", (None, 0.0, 1800.0)), ("17:00", ("S5", 0.0, 0.0))):
        answer = clock_at("09:00", placements=rows, joints=joints, filling={"day_ends": at(ends)})
        best = answer["best_stop"]
        assert (best["after"], best["joint"], best["cut"]) == stop
    assert clock_at("09:00", placements=rows, joints=joints)["best_stop"]["after"] == "S3"
    assert clock_at("09:00", placements=rows, joints=joints)["best_stop"]["at"] == at("11:00")


def test_a_section_that_was_begun_is_finished_before_work_stops() -> None:
    rows = [finished("S1", "08:00", "09:00"), {"section": "S2", "mixed_at": at("09:00")}]
    answer = clock_at("09:10", placements=rows, filling={"day_ends": at("09:30")})
    assert answer["best_stop"]["after"] == "S2"
    assert LONG_ROOM[1] == (10_000.0, 0.0)
