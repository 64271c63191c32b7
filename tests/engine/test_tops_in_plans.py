"""Rails, sections, sections through the floor and what is unknown, under tops of many planes, in a bath."""

import math
import random
from itertools import pairwise
from typing import Any

import pytest
from tests.documents import Json, answer_to, plan_of, room_over
from tests.engine.top_rooms import L_ROOM, worked

DRAIN = {"id": "d", "kind": "drain", "radius": 50.0}
FALLS = {"kind": "to_drain", "drain": "d", "fall": 0.02}
TOPS: dict[str, tuple[Json, list[Json]]] = {
    "a round drain beside a cut": (FALLS, [DRAIN | {"at": [1250, 3250]}]),
    "a round drain that sees all": (FALLS, [DRAIN | {"at": [1200, 1200], "height": 60.0}]),
    "a linear drain along a wall": (FALLS, [DRAIN | {"at": [100, 50], "to": [4900, 50]}]),
    "two levels": ({"kind": "two_levels", "line": [[2500, 0], [2500, 9]], "left": 60, "right": 45, "ramp": 200}, []),
}


def bath(name: str) -> Json:
    dice = random.Random(5)
    spots = [(float(x), float(y), 0.0) for x, y in L_ROOM]
    for x in range(600, 5000, 900):
        spots += [(float(x), float(y), dice.uniform(-6, 6)) for y in range(500, 4000, 800) if x < 2400 or y < 2400]
    top, fixtures = TOPS[name]
    hole = [[600, 600], [1000, 600], [1000, 900], [600, 900]]
    door = {"id": "door", "wall": 5, "from": 1000, "to": 1800, "adjoining_height": 70.0, "exit": True}
    document = room_over(L_ROOM, spots, bed={"top": top}, fixtures=fixtures, openings=[door])
    document["outline"]["cutouts"] = [hole]
    return document


@pytest.fixture(scope="module", params=TOPS)
def planned(request: Any) -> tuple[Json, Json]:
    document = bath(request.param)
    return document, plan_of(document, "plan")


def test_sections_share_the_bed_out_to_the_last_drop(planned: tuple[Json, Json]) -> None:
    _, plan = planned
    assert len(plan["sections"]) > 1
    assert math.fsum(s["volume"] for s in plan["sections"]) == pytest.approx(plan["bed"]["volume"], rel=1e-9)


def test_every_station_of_a_rail_stands_under_the_facet_that_holds_there(planned: tuple[Json, Json]) -> None:
    document, plan = planned
    room = worked(document)
    stations = [s for rail in plan["rails"] for s in rail["stations"]]
    assert stations
    for station in stations:
        x, y = station["at"]
        assert station["top"] == pytest.approx(room.top.at(x, y))
        assert station["shim"] == pytest.approx(room.top.at(x, y) - 25.4 - room.surface.height_at(x, y))


def test_the_doubt_of_the_volume_is_there_and_holds_it(planned: tuple[Json, Json]) -> None:
    _, plan = planned
    low, high = plan["bed"]["volume_range"]
    assert low < plan["bed"]["volume"] < high


def test_every_facet_explains_itself(planned: tuple[Json, Json]) -> None:
    _, plan = planned
    for n in range(len(plan["bed"]["top"])):
        assert plan["explanations"][f"bed.top[{n}]"]["code"].startswith("top_")


def test_every_requirement_that_governs_says_how_its_price_is_found(planned: tuple[Json, Json]) -> None:
    _, plan = planned
    assert plan["bed"]["requirements"]
    for n, _ in enumerate(plan["bed"]["requirements"]):
        assert plan["explanations"][f"bed.requirements[{n}]"]["code"] == "relief"


def test_no_place_is_thinner_or_thicker_than_the_plan_says(planned: tuple[Json, Json]) -> None:
    """Creases cross the cutout and the notch of the L: what lies there is no floor and counts for nothing."""
    document, plan = planned
    room, dice, bed = worked(document), random.Random(2), plan["bed"]
    places = ((dice.uniform(0, 5000), dice.uniform(0, 4000)) for _ in range(3000))
    thick = [room.top.at(*p) - room.surface.height_at(*p) for p in places if room.figure.holds(p)]
    assert bed["thickness"]["min"] - 1e-6 <= min(thick) < bed["thickness"]["min"] + 3
    assert bed["thickness"]["max"] + 1e-6 >= max(thick) > bed["thickness"]["max"] - 3
    assert all(room.figure.holds(tuple(bed["thickness"][end]), 1e-6) for end in ("min_at", "max_at"))


def test_between_two_points_of_a_section_through_the_floor_all_is_straight(planned: tuple[Json, Json]) -> None:
    document, _ = planned
    room = worked(document)
    question = {"document": document, "from": [30, 20], "to": [2400, 3900]}
    for run in answer_to(question, "profile")["runs"]:
        for p, q in pairwise(run):
            (px, py), (qx, qy) = p["at"], q["at"]
            for share in (0.25, 0.5, 0.75):
                at = px + share * (qx - px), py + share * (qy - py)
                assert room.top.at(*at) == pytest.approx(p["top"] + share * (q["top"] - p["top"]), abs=1e-6)
