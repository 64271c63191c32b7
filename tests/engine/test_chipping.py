"""Chip or raise: areas, volumes, savings and the best depth, against shapely, brute force and figures by hand."""

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
from tests.documents import SQUARE, Json, plan_of, problems_of, room_over, spots_of, turned
from tests.judges import Floor, above, at, floor_over
from tests.rooms import polygon_of, random_room

from evenbed.engine.document.check import check_document
from evenbed.engine.mix import bag_yield_from
from evenbed.engine.worked import WorkedRoom

RELATIVE = 1e-9
TINY = 1e-12  # m³
PRICES = {"cement_bag": 20.0, "sand": 60.0, "labour": {"hour": 50.0}}
CHEAP = {"cement_bag": 40.0, "sand": 90.0, "labour": {"hour": 30.0, "chipping": 0.2, "chipping_depth": 0.01}}
MINIMUM = 31.75
Spot = tuple[float, float, float]


def bump(x: float, y: float, high: float, half: float = 500.0) -> list[Spot]:
    """A pyramid: its foot is a square on its corner, 2 × half² in area."""
    foot = [(x - half, y), (x + half, y), (x, y - half), (x, y + half)]
    return [(x, y, high), *((px, py, 0.0) for px, py in foot)]


def over(*bumps: list[Spot], **more: Any) -> Json:
    return room_over(SQUARE, [*((x, y, 0.0) for x, y in SQUARE), *(s for b in bumps for s in b)], **more)


def rows_of(document: Json) -> list[Json]:
    return list(plan_of(document)["bed"]["chipping"])


def judged(floor: Floor, level: float) -> tuple[float, float]:
    """Area in m² and volume in m³ of the subfloor above a height, by shapely and numpy."""
    area, volume = [], []
    for triangle, part in floor.parts:
        high = above(floor.room, part, triangle, level)
        if high.area:
            area.append(high.area)
            volume.append(high.area * (at(triangle, high.centroid.coords)[0] - level))
    return math.fsum(area) / 1e6, math.fsum(volume) / 1e9


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


@settings(max_examples=25, deadline=None)
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
    assert [(c["code"], c["values"]) for c in told] == [("chip_unread", {"x": 4000.0, "y": 3000.0})]


def test_dust_and_the_structure_are_cautioned_wherever_there_is_something_to_chip() -> None:
    told = {c["code"]: c["text"] for c in plan_of(over(bump(2000, 1500, 10.0)))["cautions"]}
    assert "1926.1153" in told["chip_silica"]
    assert "APF 10" in told["chip_silica"]
    assert "licensed engineer" in told["chip_structure"]
    assert "post-tensioned" in told["chip_structure"]
    flat = plan_of(over())
    assert not [c for c in flat["cautions"] if c["where"] == "bed.chipping"]
    assert (flat["bed"]["chipping"], flat["bed"]["chip_plan"]) == ([], None)


def given_top(height: float, *bumps: list[Spot], **bed: Any) -> Json:
    return over(*bumps, bed={"top": {"kind": "level", "height": height}, **bed})


def test_under_a_given_top_only_what_is_too_thin_is_chipped_and_takes_mortar() -> None:
    plan = plan_of(given_top(36.75, bump(1000, 1500, 10.0), bump(3000, 1500, 6.0)))
    first, second = plan["bed"]["chipping"]
    assert (first["depth"], second["depth"]) == pytest.approx((5.0, 1.0), abs=1e-9)
    assert (first["area"], second["area"]) == pytest.approx((0.125, 0.5 / 36.0), rel=1e-9)
    assert first["chipped_volume"] == pytest.approx(0.125 * 0.005 / 3.0, rel=1e-9)
    assert first["saves_volume"] == pytest.approx(-first["chipped_volume"], rel=1e-9)
    chip_plan = plan["bed"]["chip_plan"]
    assert (chip_plan["top_lower_by"], chip_plan["spots"]) == (0.0, ["h1", "h2"])
    assert chip_plan["area"] == pytest.approx(first["area"] + second["area"], rel=1e-12)


def test_a_given_top_that_is_thick_enough_everywhere_needs_no_chipping() -> None:
    bed = plan_of(given_top(60.0, bump(1000, 1500, 10.0)))["bed"]
    assert (bed["chipping"], bed["chip_plan"]) == ([], None)


def test_no_more_is_chipped_than_may_be_and_what_remains_is_said() -> None:
    plan = plan_of(given_top(31.75, bump(2000, 1500, 10.0), chip_depth=4.0))
    (row,) = plan["bed"]["chipping"]
    assert row["depth"] == 4.0
    assert row["chipped_volume"] == pytest.approx(0.5 * 0.010 / 3.0 * (1.0 - 0.6**3), rel=1e-9)
    (told,) = [c for c in plan["cautions"] if c["code"] == "chip_too_deep"]
    assert told["values"]["needed"] == pytest.approx(10.0)
    assert told["values"]["most"] == 4.0


def test_chipping_where_the_top_lay_below_the_subfloor_takes_the_mortar_that_then_fits() -> None:
    """A pyramid of 10 mm under a top at 4 mm with a minimum of 1 mm: above 3 mm it is cut away, and refilled by 1."""
    (row,) = plan_of(given_top(4.0, bump(2000, 1500, 10.0), minimum_thickness=1.0))["bed"]["chipping"]
    foot, bare = 0.5 * 0.7**2, 0.5 * 0.6**2
    before = (foot - bare) * 0.001 - (0.5 * 0.01 / 3.0) * (0.7**3 - 0.6**3) + bare * 0.001
    assert row["area"] == pytest.approx(foot, rel=1e-9)
    between = foot * 0.007 / 3.0 - bare * 0.006 / 3.0 - bare * 0.001  # of the pyramid from 3 to 4 mm, beyond the bare
    assert row["saves_volume"] == pytest.approx((foot - bare) * 0.001 - between - foot * 0.001, rel=1e-6)
    assert before > 0.0


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


def balance(room: WorkedRoom, prices: Json, depth: float) -> float:
    """What is saved at a depth, worked out anew from the prices."""
    mix, labour = room.document.mix, room.document.prices.labour
    bag = bag_yield_from(mix)
    material = (prices["cement_bag"] + prices["sand"] * bag.sand_loose) * (1.0 + mix.waste) / bag.volume
    hour = prices["labour"]["hour"]
    area, chipped = room.chipping.below.area(depth), room.chipping.below.volume(depth)
    mortar = room.figure.area * depth / 1e3 - chipped
    hours = labour.chipping * area + labour.chipping_depth * chipped * 1e3
    return float((material + labour.per_volume * hour) * mortar - hour * hours)


@pytest.mark.parametrize("prices", [PRICES, CHEAP], ids=["dear labour", "cheap labour"])
@pytest.mark.parametrize("seed", range(0, 24, 2))
def test_no_depth_saves_more_than_the_best_plan(seed: int, prices: Json) -> None:
    document = random_room(seed) | {"prices": prices}
    room = WorkedRoom(check_document(document)[0])
    plan = room.chipping.plan
    if plan is None:
        assert not room.chipping.rows
        return
    best = plan.saves_cost
    assert best is not None
    assert best == pytest.approx(balance(room, prices, plan.depth), rel=1e-9, abs=1e-9)
    unread = room.chipping.unread
    most = min(12.7, math.inf if unread is None else unread.spare)
    tried = [balance(room, prices, float(depth)) for depth in np.linspace(0.0, most, 400)]
    assert max(tried) <= best + 1e-6 * max(1.0, abs(best))
    assert plan.depth <= most


def test_where_chipping_costs_more_than_it_saves_the_best_plan_is_to_raise_the_top() -> None:
    dear = {"cement_bag": 0.01, "sand": 0.0, "labour": {"hour": 90.0, "per_volume": 0.0, "chipping": 100.0}}
    steep = [(x, y, 0.0 if x < 2000 else 12.0) for x in (0.0, 1900.0, 2100.0, 4000.0) for y in (0.0, 3000.0)]
    best = plan_of(room_over(SQUARE, steep, prices=dear))["bed"]["chip_plan"]
    if best is not None:
        assert (best["depth"], best["saves_cost"], best["spots"]) == (0.0, 0.0, [])


def test_without_prices_nothing_is_weighed() -> None:
    bed = plan_of(over(bump(1000, 1500, 10.0), bump(3000, 1500, 6.0)))["bed"]
    best = bed["chip_plan"]
    assert (best["basis"], best["saves_cost"], best["spots"]) == ("none", None, ["h1"])
    assert (best["depth"], best["top_lower_by"]) == pytest.approx((4.0, 4.0), abs=1e-9)
    assert best["labour_hours"] == pytest.approx(1.5 * best["area"] + 0.1 * best["chipped_volume"] * 1e3)
    assert all(row["saves_cost"] is None for row in bed["chipping"])


@pytest.mark.parametrize("missing", ["cement_bag", "sand", "labour"])
def test_one_price_missing_leaves_costs_unknown(missing: str) -> None:
    prices = {key: value for key, value in PRICES.items() if key != missing}
    best = plan_of(over(bump(2000, 1500, 10.0), prices=prices))["bed"]["chip_plan"]
    assert (best["basis"], best["saves_cost"]) == ("none", None)


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


@settings(max_examples=15, deadline=None)
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


def test_rows_and_plan_explain_themselves() -> None:
    told = plan_of(over(bump(2000, 1500, 10.0), prices=PRICES))["explanations"]
    assert told["bed.chipping[0]"]["code"] == "chip_lowered"
    assert told["bed.chip_plan"]["inputs"]["hour"] == 50.0


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
