"""Chip or raise: the areas, volumes and mortar of each high spot, against shapely and figures by hand."""

import math
import random
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bad_documents import changed
from tests.bumps import MINIMUM, PRICES, bump, judged, over, rows_of
from tests.documents import SQUARE, Json, plan_of, problems_of, room_over, spots_of, turned
from tests.judges import Floor, above, at, floor_over
from tests.rooms import polygon_of, random_room
from tests.share import share_of

RELATIVE = 1e-9
TINY = 1e-12  # m³


def mortar_over_chipped(floor: Floor, top: float, minimum: float) -> float:
    """m³ under a level top, the subfloor chipped wherever the bed would be thinner than the minimum."""
    volume = []
    for triangle, part in floor.parts:
        high = above(floor.room, part, triangle, top - minimum)
        whole = part.area * (top - at(triangle, part.centroid.coords)[0])
        over_high = high.area * (top - at(triangle, high.centroid.coords)[0]) if high.area else 0.0
        volume.append(whole - over_high + high.area * minimum)
    return math.fsum(volume) / 1e9


@pytest.mark.parametrize("seed", range(40))
def test_every_row_chips_the_area_and_volume_that_shapely_finds_and_saves_the_mortar_it_says(seed: int) -> None:
    plan = plan_of(random_room(seed) | {"prices": PRICES})
    bed, room = plan["bed"], polygon_of(random_room(seed))
    floor, top = floor_over(spots_of(plan), room), bed["top"][0]["a"]
    for row in [*bed["chipping"], *([bed["chip_plan"]] if bed["chip_plan"] else [])]:
        area, volume = judged(floor, top - row["depth"] - MINIMUM)
        after = mortar_over_chipped(floor, top - row["depth"], MINIMUM)
        assert row["area"] == pytest.approx(area, rel=RELATIVE, abs=1e-8)
        assert row["chipped_volume"] == pytest.approx(volume, rel=RELATIVE, abs=TINY)
        assert row["saves_volume"] == pytest.approx(bed["volume"] - after, rel=RELATIVE, abs=TINY)
        assert row["saves_mass"] == pytest.approx(row["saves_volume"] * plan["mix"]["density"], rel=RELATIVE)


@pytest.mark.parametrize("seed", range(0, 40, 3))
def test_high_spots_come_the_highest_first_and_deeper_rows_save_more(seed: int) -> None:
    plan = plan_of(random_room(seed))
    rows, heights = plan["bed"]["chipping"], {tuple(h["at"]): h["z"] for h in plan["levels"]["heights"]}
    highs = [heights[tuple(row["at"])] for row in rows]
    assert highs == sorted(highs, reverse=True)
    assert [row["id"] for row in rows] == [f"h{n}" for n in range(1, len(rows) + 1)]
    for shallow, deep in pairwise(rows):
        assert all(shallow[k] <= deep[k] for k in ("depth", "area", "chipped_volume", "saves_volume"))
    assert all(row["depth"] <= 12.7 for row in rows)


@settings(max_examples=share_of(25), deadline=None)
@given(st.integers(0, 30), st.floats(0.5, 12.0), st.floats(0.1, 5.0))
def test_chipping_deeper_never_saves_less_and_what_is_saved_and_chipped_is_floor_times_depth(
    seed: int, depth: float, more: float
) -> None:
    room = random_room(seed)
    found = [rows_of(room | {"bed": {"chip_depth": d}})[-1:] for d in (depth, depth + more)]
    area = polygon_of(room).area / 1e6
    for (row,) in (rows for rows in found if rows):
        whole = row["saves_volume"] + row["chipped_volume"]
        assert whole == pytest.approx(area * row["depth"] / 1e3, rel=RELATIVE)
    if all(found):
        assert found[0][0]["saves_volume"] <= found[1][0]["saves_volume"] + 1e-7


@pytest.mark.parametrize(("chip_depth", "depth"), [(4.0, 4.0), (12.7, 10.0)])
def test_a_pyramid_is_chipped_quadratic_in_area_and_cubic_in_volume_and_no_deeper_than_its_foot(
    chip_depth: float, depth: float
) -> None:
    (row,) = rows_of(over(bump(2000, 1500, 10.0), bed={"chip_depth": chip_depth}))
    share = depth / 10.0
    assert (row["at"], row["depth"]) == ([2000.0, 1500.0], pytest.approx(depth, abs=1e-9))
    assert row["area"] == pytest.approx(0.5 * share**2, rel=1e-12)
    assert row["chipped_volume"] == pytest.approx(0.5 * 0.010 / 3.0 * share**3, rel=1e-12)
    assert row["saves_volume"] == pytest.approx(12.0 * depth / 1e3 - row["chipped_volume"], rel=1e-12)


def test_of_two_bumps_the_higher_is_brought_down_to_the_lower_and_then_both() -> None:
    first, both = rows_of(over(bump(1000, 1500, 10.0), bump(3000, 1500, 6.0)))
    assert (first["at"], both["at"]) == ([1000.0, 1500.0], [3000.0, 1500.0])
    assert (first["depth"], both["depth"]) == pytest.approx((4.0, 10.0), abs=1e-9)
    assert first["area"] == pytest.approx(0.5 * 0.4**2, rel=1e-12)
    assert both["area"] == pytest.approx(1.0, rel=1e-12)
    assert both["chipped_volume"] == pytest.approx(0.5 * 0.016 / 3.0, rel=1e-12)


def test_two_bumps_alike_govern_together() -> None:
    rows = rows_of(over(bump(1000, 1500, 8.0), bump(3000, 1500, 8.0)))
    assert [row["at"] for row in rows] == [[1000.0, 1500.0], [3000.0, 1500.0]]
    assert [row["depth"] for row in rows] == pytest.approx([8.0, 8.0], abs=1e-9)


def test_of_a_bump_at_the_wall_only_the_half_in_the_room_is_chipped() -> None:
    half = [(0.0, 1500.0, 10.0), (500.0, 1500.0, 0.0), (0.0, 1000.0, 0.0), (0.0, 2000.0, 0.0)]
    (row,) = rows_of(over(half))
    assert row["area"] == pytest.approx(0.25, rel=1e-12)
    assert row["chipped_volume"] == pytest.approx(0.25 * 0.010 / 3.0, rel=1e-12)


def test_a_little_lump_on_a_bump_is_no_spot_of_its_own() -> None:
    lump = [(2200.0, 1500.0, 6.8), (2100.0, 1500.0, 6.5)]
    assert len(rows_of(over(bump(2000, 1500, 10.0), lump))) == 1


def estimated_corner() -> Json:
    """A floor that rises towards a corner where nobody read."""
    places = [(x, y) for x in (500.0, 2000.0, 3500.0) for y in (500.0, 1500.0, 2500.0)]
    spots = [(x, y, 0.004 * (x + y)) for x, y in places]
    return room_over(SQUARE, spots)


def test_where_nobody_read_nothing_is_chipped_and_a_reading_is_asked_for() -> None:
    plan = plan_of(estimated_corner())
    assert (plan["bed"]["chipping"], plan["bed"]["chip_plan"]) == ([], None)
    told = [c for c in plan["cautions"] if c["where"] == "bed.chipping"]
    assert [c["code"] for c in told] == ["chip_unread"]
    assert told[0]["values"] == {"x": 4000.0, "y": 3000.0, "depth": pytest.approx(0.0, abs=1e-9)}


def test_a_lower_corner_that_nobody_read_stops_the_chipping_at_its_height() -> None:
    spots = [(4000.0, 3000.0, 0.0), (0.0, 3000.0, 0.0), (4000.0, 0.0, 0.0), *bump(2500, 1500, 10.0)]
    plan = plan_of(room_over(SQUARE, spots))
    (row,), (x, y, corner) = plan["bed"]["chipping"], plan["surface"]["points"][plan["surface"]["estimated"][0]]
    assert (x, y) == (0.0, 0.0)
    assert row["depth"] == pytest.approx(10.0 - corner, abs=1e-9)
    assert [c["values"]["depth"] for c in plan["cautions"] if c["code"] == "chip_unread"] == [row["depth"]]


def test_dust_and_the_structure_are_cautioned_wherever_there_is_something_to_chip() -> None:
    told = {c["code"]: c["text"] for c in plan_of(over(bump(2000, 1500, 10.0)))["cautions"]}
    assert "1926.1153" in told["chip_silica"]
    assert "APF 10" in told["chip_silica"]
    assert "licensed engineer" in told["chip_structure"]
    assert "post-tensioned" in told["chip_structure"]
    flat = plan_of(over())
    assert not [c for c in flat["cautions"] if c["where"] == "bed.chipping"]
    assert (flat["bed"]["chipping"], flat["bed"]["chip_plan"]) == ([], None)


def u_shaped() -> Json:
    """Two arms read so sparsely that one triangle of the subfloor reaches over both, a high rim along its middle."""
    outline = [[0, 0], [3000, 0], [3000, 2000], [2000, 2000], [2000, 500], [1000, 500], [1000, 2000], [0, 2000]]
    spots = [(0.0, 0.0, 0.0), (3000.0, 0.0, 0.0), (1500.0, 400.0, 0.0), (0.0, 2000.0, 9.0), (3000.0, 2000.0, 9.0)]
    bed = {"top": {"kind": "level", "height": 36.75}}
    return room_over(outline, spots, bed=bed)


def test_places_on_two_sides_of_a_wall_are_two_spots_though_one_triangle_reaches_over_both() -> None:
    plan = plan_of(u_shaped())
    rows, room = plan["bed"]["chipping"], polygon_of(u_shaped())
    floor = floor_over(spots_of(plan), room)
    area, volume = judged(floor, 5.0)
    assert [(row["at"][0] >= 2000.0, row["at"][1]) for row in rows] == [(False, 2000.0), (True, 2000.0)]
    assert math.fsum(row["area"] for row in rows) == pytest.approx(area, rel=RELATIVE)
    assert math.fsum(row["chipped_volume"] for row in rows) == pytest.approx(volume, rel=RELATIVE)
    assert rows[0]["area"] == pytest.approx(rows[1]["area"], rel=1e-6)


DRAIN = {"kind": "to_drain", "drain": "d", "fall": 1 / 48}


@pytest.mark.parametrize(("height", "comes_down"), [(None, True), (60.0, False)])
def test_a_top_to_a_drain_comes_down_unless_the_drain_stands(height: float | None, comes_down: bool) -> None:
    fixture = {"id": "d", "kind": "drain", "at": [2000, 1500], "radius": 50, "height": height}
    spots = [(x, y, 0.0) for x in (0.0, 1000.0, 3000.0, 4000.0) for y in (0.0, 1000.0, 2000.0, 3000.0)]
    document = room_over(SQUARE, [*spots, (2100.0, 1500.0, 10.0)], bed={"top": DRAIN}, fixtures=[fixture])
    plan = plan_of(document)
    facets, room = plan["bed"]["top"], polygon_of(document)
    rows = plan["bed"]["chipping"]
    assert bool(rows) == comes_down
    for row in rows:
        area, volume = under_facets(plan, facets, room, row["depth"])
        assert row["area"] == pytest.approx(area, rel=1e-6)
        assert row["chipped_volume"] == pytest.approx(volume, rel=1e-6)
        assert row["saves_volume"] == pytest.approx(12.0 * row["depth"] / 1e3 - volume, rel=1e-6)


def under_facets(plan: Json, facets: list[Json], room: Any, depth: float) -> tuple[float, float]:
    """Area and volume to chip under a top of several planes, facet by facet, by shapely."""
    found = []
    for facet in facets:
        part = room.intersection(shapely.Polygon(facet["polygon"]))
        floor = floor_over(spots_of(plan), part)
        leant = [(t - np.outer(np.ones(3), [0, 0, 1]) * plane_at(facet, t)[:, None], p) for t, p in floor.parts]
        found.append(judged(Floor(part, tuple(leant)), -depth - MINIMUM))
    return math.fsum(a for a, _ in found), math.fsum(v for _, v in found)


def plane_at(facet: Json, triangle: Any) -> Any:
    return facet["a"] + facet["b"] * triangle[:, 0] + facet["c"] * triangle[:, 1]


@pytest.mark.parametrize(("low", "depth"), [(None, 10.0), (47.0, 3.0)])
def test_a_held_doorway_holds_the_top_up_whatever_is_chipped(low: float | None, depth: float) -> None:
    """Finished at 41.75 + 15 over the bump; the plane of least mortar over a bump in the middle is level."""
    holds = [] if low is None else [{"at": [2000, 0], "low": low + 6.75}, {"at": [2000, 3000], "low": low + 6.75}]
    bed = {
        "top": {"kind": "least_mortar", "holds": holds, "largest_fall": 0.0},
        "covering": {"tile_thickness": 10.0, "bond_thickness": 5.0},
    }
    (row,) = rows_of(over(bump(2000, 1500, 10.0), bed=bed))
    assert row["depth"] == pytest.approx(depth, abs=1e-6)


@settings(max_examples=share_of(15), deadline=None)
@given(st.integers(0, 30), st.floats(0.0, 6.0), st.floats(-5000.0, 5000.0))
def test_turning_and_moving_the_room_changes_no_row(seed: int, angle: float, by: float) -> None:
    room, moved = random_room(seed), random_room(seed)
    moved["outline"] = {
        "vertices": [turned(p, angle, (by, -by)) for p in room["outline"]["vertices"]],
        "cutouts": [[turned(p, angle, (by, -by)) for p in ring] for ring in room["outline"]["cutouts"]],
    }
    for reading in moved["readings"]:
        reading["at"] = turned(reading["at"], angle, (by, -by))
    mine, theirs = rows_of(room), rows_of(moved)
    assert [row["id"] for row in mine] == [row["id"] for row in theirs]
    for one, other in zip(mine, theirs, strict=True):
        for name in ("depth", "area", "chipped_volume", "saves_volume"):
            assert one[name] == pytest.approx(other[name], rel=1e-5, abs=1e-9), name


def test_the_order_of_reading_changes_no_row() -> None:
    room = random_room(12)
    mixed = random_room(12)
    random.Random(5).shuffle(mixed["readings"])
    assert rows_of(room) == rows_of(mixed)


@pytest.mark.parametrize(
    ("path", "value", "code"),
    [
        ("bed.chip_depth", -1.0, "too_small"),
        ("bed.chip_depth", 201.0, "too_large"),
        ("bed.chip_depth", "deep", "not_a_number"),
        ("prices", {"labour": {"chipping": -0.1}}, "too_small"),
    ],
)
def test_a_bad_depth_or_rate_is_refused_with_its_place(path: str, value: object, code: str) -> None:
    ((where, told),) = problems_of(changed(path, value))
    assert told == code
    assert where.startswith(path)
