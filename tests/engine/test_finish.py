"""The finished floor: along doorways, at fixtures, layer by layer, and doors above it."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bad_documents import changed
from tests.documents import SQUARE, Json, plan_of, problems_of, room_over, spots_of, turned
from tests.judges import at, triangles_over
from tests.rooms import outline_of, random_room

MM = 1e-6
COVERING = {"tile_thickness": 10.0, "bond_thickness": 5.0}
FLAT = [(x, y, 0.0) for x, y in SQUARE]
LEANING = {"kind": "plane", "through": [[0, 0, 40.0], [4000, 0, 40.0], [0, 3000, 70.0]]}  # 1 in 100 up with y
STEPPED = {"kind": "two_levels", "line": [[0, 1400], [4000, 1400]], "left": 60.0, "right": 40.0, "ramp": 200.0}
"""Level at 60 above y = 1400, falling to 40 below y = 1200."""


def bed_of(top: Json, spots: list[tuple[float, float, float]] = FLAT, **more: object) -> Json:
    bed = {"top": top, "covering": COVERING, **dict(more.pop("bed", {}))}  # type: ignore[call-overload]
    found = plan_of(room_over(SQUARE, spots, bed=bed, **more))["bed"]
    return dict(found)


def door(start: float, end: float, **more: object) -> Json:
    """A doorway in the wall along x = 4000, which runs up from y = 0."""
    return {"id": "door", "wall": 1, "from": start, "to": end, **more}


def test_a_leaning_floor_is_told_at_both_ends_of_the_doorway_and_the_worst_step_counts() -> None:
    opening = door(1000, 2000, adjoining_height=68.0)
    (found,) = bed_of(LEANING, openings=[opening])["doorways"]
    assert (found["low"], found["finished_height"], found["high"]) == pytest.approx((65.0, 70.0, 75.0), abs=MM)
    assert (found["step"], found["worst_step"]) == pytest.approx((2.0, 7.0), abs=MM)
    assert (found["kind"], found["transition_length"]) == ("bevelled", pytest.approx(14.0, abs=MM))


def test_a_worst_step_may_be_one_down() -> None:
    (found,) = bed_of(LEANING, openings=[door(1000, 2000, adjoining_height=73.0)])["doorways"]
    assert (found["step"], found["worst_step"], found["kind"]) == (
        pytest.approx(-3.0, abs=MM),
        pytest.approx(-8.0, abs=MM),
        "bevelled",
    )


def test_a_top_that_changes_plane_within_the_doorway_is_told_exactly() -> None:
    (found,) = bed_of(STEPPED, openings=[door(900, 1500)])["doorways"]
    assert (found["low"], found["high"]) == pytest.approx((55.0, 75.0), abs=MM)
    assert found["finished_height"] == pytest.approx(55.0, abs=MM)
    assert (found["step"], found["worst_step"], found["kind"], found["transition"]) == (None, None, None, None)


def test_the_bed_is_thinnest_where_a_reading_stands_high_in_the_doorway() -> None:
    spots = [*FLAT, (4000.0, 1500.0, 8.0)]
    (found,) = bed_of({"kind": "level", "height": 40.0}, spots, openings=[door(1000, 2000)])["doorways"]
    assert found["bed_thickness"] == pytest.approx(32.0, abs=MM)


def test_the_bed_is_thinnest_where_an_edge_between_two_readings_crosses_a_wall_of_the_doorway() -> None:
    """An L whose inner corner no reading touches: the edge between (3, 1) and (1, 3) crosses the wall at x = 2."""
    corner = [(0.0, 0.0), (3000.0, 0.0), (3000.0, 2200.0), (2000.0, 2200.0), (2000.0, 3000.0), (0.0, 3000.0)]
    spots = [(x, y, 0.0) for x, y in corner if (x, y) != (2000.0, 2200.0)]
    spots += [(2900.0, 1400.0, 10.0), (1400.0, 2900.0, 10.0)]
    bed = {"top": {"kind": "level", "height": 40.0}}
    plan = plan_of(room_over(corner, spots, bed=bed, openings=[{"wall": 3, "from": 0, "to": 800}]))
    (found,) = plan["bed"]["doorways"]
    assert found["bed_thickness"] == pytest.approx(30.0, abs=MM)


@pytest.mark.parametrize("seed", range(25))
def test_thickness_at_a_doorway_is_the_least_of_many_places_judged_by_scipy(seed: int) -> None:
    room = random_room(seed)
    plan, (opening,) = plan_of(room), room["openings"]
    (found,), wall = plan["bed"]["doorways"], opening["wall"]
    outline = outline_of(room)
    p, q = np.array(outline[wall]), np.array(outline[(wall + 1) % len(outline)])
    along = np.linspace(opening["from"], opening["to"], 1001)[:, None] / np.linalg.norm(q - p)
    places = p + along * (q - p)
    subfloor = np.full(len(places), -np.inf)
    for triangle in triangles_over(spots_of(plan)):
        rows = np.linalg.solve(
            np.vstack([triangle[:, :2].T, np.ones(3)]), np.vstack([places.T, np.ones(len(places))])
        )
        inside = rows.min(axis=0) > -1e-9
        subfloor[inside] = np.maximum(subfloor[inside], at(triangle, places[inside]))
    judged = plan["bed"]["top"][0]["a"] - subfloor[np.isfinite(subfloor)].max()
    assert np.isfinite(subfloor).all()
    assert judged - 0.05 <= found["bed_thickness"] <= judged + MM


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 40), st.floats(0.0, 6.0), st.floats(-5000.0, 5000.0))
def test_turning_and_moving_the_room_changes_nothing_at_its_doorway(seed: int, angle: float, by: float) -> None:
    room, moved = random_room(seed), random_room(seed)
    moved["outline"] = {
        "vertices": [turned(p, angle, (by, -by)) for p in room["outline"]["vertices"]],
        "cutouts": [[turned(p, angle, (by, -by)) for p in ring] for ring in room["outline"]["cutouts"]],
    }
    for reading in moved["readings"]:
        reading["at"] = turned(reading["at"], angle, (by, -by))
    mine, theirs = (plan_of(r)["bed"]["doorways"][0] for r in (room, moved))
    for name in ("finished_height", "low", "high", "bed_thickness"):
        assert mine[name] == pytest.approx(theirs[name], abs=1e-4), name
    assert mine["kind"] == theirs["kind"]


@pytest.mark.parametrize(
    ("leaf", "clearance", "codes"),
    [
        (None, None, []),
        (65.0, 10.0, []),
        (58.0, 3.0, []),
        (57.0, 2.0, ["door_tight"]),
        (54.0, -1.0, ["door_blocked"]),
    ],
)
def test_a_door_that_drags_or_cannot_open_is_said(
    leaf: float | None, clearance: float | None, codes: list[str]
) -> None:
    bed = {"top": {"kind": "level", "height": 40.0}, "covering": COVERING}
    plan = plan_of(room_over(SQUARE, FLAT, bed=bed, openings=[door(1000, 2000, door_bottom=leaf)]))
    assert plan["bed"]["doorways"][0]["clearance"] == clearance
    assert [c["code"] for c in plan["cautions"] if c["where"] == "bed.doorways"] == codes


def test_a_door_clears_the_highest_floor_along_its_opening() -> None:
    (found,) = bed_of(LEANING, openings=[door(1000, 2000, door_bottom=80.0)])["doorways"]
    assert found["clearance"] == pytest.approx(5.0, abs=MM)


@pytest.mark.parametrize(
    ("kind", "height", "difference", "codes"),
    [
        ("drain", 55.0, 0.0, []),
        ("drain", 52.0, 3.0, []),
        ("drain", 51.0, 4.0, ["fixture_low"]),
        ("flange", 58.0, -3.0, ["fixture_proud"]),
        ("post", 90.0, -35.0, []),
        ("flange", None, None, []),
    ],
)
def test_the_finished_floor_is_told_beside_each_fixture(
    kind: str, height: float | None, difference: float | None, codes: list[str]
) -> None:
    bed = {"top": {"kind": "level", "height": 40.0}, "covering": COVERING}
    fixture = {"id": "f", "kind": kind, "at": [2000, 1500], "height": height}
    plan = plan_of(room_over(SQUARE, [*FLAT, (2000.0, 1500.0, 6.0)], bed=bed, fixtures=[fixture]))
    (found,) = plan["bed"]["fixtures"]
    assert (found["kind"], found["height"], found["finished_height"]) == (kind, height, 55.0)
    assert (found["difference"], found["bed_thickness"]) == (difference, pytest.approx(34.0))
    told = [c for c in plan["cautions"] if c["where"] == "bed.fixtures"]
    assert [c["code"] for c in told] == codes
    assert all("local plumbing code and a licensed trade" in c["text"] for c in told)


def test_a_linear_drain_is_told_where_the_floor_misses_it_most() -> None:
    fixture = {"id": "f", "kind": "drain", "at": [2000, 1000], "to": [2000, 2000], "height": 68.0}
    (found,) = bed_of(LEANING, fixtures=[fixture])["fixtures"]
    assert (found["finished_height"], found["difference"]) == pytest.approx((75.0, 7.0), abs=MM)


@pytest.mark.parametrize(("build", "membrane"), [("unbonded", 2.0), ("unbonded", 0.0), ("bonded", 2.0)])
def test_the_layers_add_up_from_the_subfloor_to_the_finished_floor(build: str, membrane: float) -> None:
    spots = [(x, y, dice) for (x, y), dice in zip(SQUARE, (0.0, 3.0, 6.0, 9.0), strict=True)]
    supplies = {"membrane": {"thickness": membrane}}
    bed = bed_of({"kind": "level", "height": 45.0}, spots, bed={"build": build}, supplies=supplies)
    rows = bed["build_up"]
    *layers, total = rows
    names = ["bed", "bond_coat", "tile", "total"]
    assert [row["layer"] for row in rows] == (["membrane", *names] if build == "unbonded" else names)
    for name, thickness in (("least", 36.0), ("most", 45.0), ("mean", bed["thickness"]["mean"])):
        assert total[name] == pytest.approx(thickness + 15.0, abs=MM)
        assert sum(layer[name] for layer in layers) == pytest.approx(total[name], abs=MM)


def test_every_figure_of_the_finished_floor_explains_itself() -> None:
    dice = random.Random(1)
    spots = [(x, y, dice.uniform(0, 5)) for x, y in SQUARE]
    bed = {"top": {"kind": "level", "height": 50.0}, "covering": COVERING}
    opening = door(1000, 2000, adjoining_height=50.0, door_bottom=80.0)
    fixtures = [{"id": "f", "kind": "drain", "at": [2000, 1500], "height": 60.0}]
    plan = plan_of(room_over(SQUARE, spots, bed=bed, openings=[opening], fixtures=fixtures))
    door_keys = plan["bed"]["doorways"][0].keys() - {"id", "at"}
    wanted = {f"bed.doorways[0].{key}" for key in door_keys} | {f"bed.build_up[{n}]" for n in range(5)}
    wanted |= {f"bed.fixtures[0].{key}" for key in ("finished_height", "difference", "bed_thickness")}
    assert wanted <= plan["explanations"].keys()
    assert plan["explanations"]["bed.doorways[0].kind"]["source_code"] == "ada_303"


@pytest.mark.parametrize(
    ("path", "value", "code"),
    [
        ("openings.0.door_bottom", "high", "not_a_number"),
        ("openings.0.door_bottom", 1e9, "too_large"),
        ("fixtures.0.to", [1.0], "wrong_count"),
        ("supplies", {"membrane": {"thickness": -1}}, "too_small"),
    ],
)
def test_bad_heights_are_refused_with_their_place(path: str, value: object, code: str) -> None:
    document = changed(path, value)
    ((where, told),) = problems_of(document)
    assert told == code
    assert where.startswith(path.split(".", maxsplit=1)[0])
