"""A section is known by where it lies: what was told of it stays with its polygon, whatever its number becomes."""

import random
from datetime import datetime
from typing import Any

import pytest
from shapely import Point, Polygon
from shapely.ops import polylabel
from tests.documents import Json, plan_of, room_over
from tests.engine.fill_days import at, clock_of, codes_of, finished, states_of
from tests.engine.rail_cases import random_case
from tests.engine.section_cases import random_sections, sections_of
from tests.share import share_of

from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.filling.belonging import Belonging
from evenbed.engine.filling.progress import records_from
from evenbed.engine.filling.shapes import Section
from evenbed.engine.filling.times import Clock

ROOMS = range(share_of(150))
PRECISION = 1.0  # mm in the judge's widest circle
WIDE_ROOM = [(0.0, 0.0), (8000.0, 0.0), (8000.0, 2000.0), (0.0, 2000.0)]
DOOR = {"id": "door", "wall": 1, "from": 500.0, "to": 1300.0, "exit": True}
RAILS = (150.0, 1900.0, 3700.0, 5500.0, 7850.0)  # x of each, across the wide room; the door is beyond the last
NOON = Clock(datetime.fromisoformat(at("12:00")))


@pytest.mark.parametrize("seed", ROOMS)
def test_a_sections_place_stands_off_its_walls_a_fifth_of_what_the_best_place_does_by_shapely(seed: int) -> None:
    for section in random_sections(seed).sections:
        polygon = Polygon(section.polygon)
        place = Point(section.at)
        widest = polygon.exterior.distance(polylabel(polygon, PRECISION))
        assert polygon.contains(place)
        assert polygon.exterior.distance(place) >= 0.2 * (widest - PRECISION)


def test_whatever_the_mixer_does_to_the_order_the_same_polygons_are_filled() -> None:
    renamed = 0
    for seed in ROOMS:
        dice, before = random.Random(seed), random_sections(seed).sections
        after = sections_of(random_case(seed), dice.choice(before).at).sections
        done = [section for section in before if dice.random() < 0.5]
        rows = [Placement(one.id, placed_at=at("09:00"), at=one.at) for one in done]
        mud = [MixedBatch(at("08:30"), section=one.id, at=one.at) for one in done]
        records = records_from(after, rows, mud, NOON)
        filled = [section for section, record in zip(after, records, strict=True) if record.is_filled]
        assert {corners_of(section) for section in filled} == {corners_of(section) for section in done}
        assert [record.mixed for record in records if record.is_filled] == [-3.5] * len(done)
        assert Belonging(after).changed(rows) == frozenset()
        renamed += {section.id for section in filled} != {section.id for section in done}
    assert renamed > len(ROOMS) / 10


def corners_of(section: Section) -> frozenset[tuple[float, float]]:
    return frozenset((round(x, 3), round(y, 3)) for x, y in section.polygon)


def wide_room(xs: tuple[float, ...] = RAILS, **more: Any) -> Json:
    """Bays of a wide room from the far end to the door, one section each, between rails across it at these x."""
    lines = [{"id": "ABCDEFG"[n], "from": [x, 50.0], "to": [x, 1950.0]} for n, x in enumerate(xs)]
    room = {"openings": [DOOR], "rails": {"lines": lines}} | more
    return room_over(WIDE_ROOM, [(x, y, 0.0) for x, y in WIDE_ROOM], **room)


def done(number: int, **more: Any) -> Json:
    """A section of the wide room as it was planned, mixed, placed and cut off."""
    section = plan_of(wide_room())["sections"][number - 1]
    return finished(section["id"], "08:00", "09:00", at=section["at"], **more)


def states_between(xs: tuple[float, ...], *rows: Json, **more: Any) -> tuple[list[str], Json]:
    answer = clock_of(wide_room(xs, placements=list(rows), **more), at("10:00"))
    return states_of(answer), answer


def test_the_wide_room_has_four_sections_from_far_to_near() -> None:
    middles = [section["at"] for section in plan_of(wide_room())["sections"]]
    assert [place[0] for place in middles] == pytest.approx([950.0, 2800.0, 4600.0, 6750.0])
    assert [place[1] for place in middles] == pytest.approx([1000.0] * 4)


def test_a_rail_dragged_where_nothing_is_filled_leaves_what_is_filled_as_it_was() -> None:
    states, answer = states_between((150.0, 1900.0, 3700.0, 5900.0, 7850.0), done(1), done(2))
    assert states == ["screeded", "screeded", "waiting", "waiting"]
    assert "sections_changed" not in codes_of(answer)


def test_a_rail_dragged_beside_what_is_filled_is_told_once() -> None:
    states, answer = states_between((150.0, 2100.0, 3700.0, 5500.0, 7850.0), done(1), done(2))
    assert states == ["screeded", "screeded", "waiting", "waiting"]
    told = [caution for caution in answer["cautions"] if caution["code"] == "sections_changed"]
    assert [(one["where"], one["values"]) for one in told] == [("sections", {"count": 2, "names": "S1, S2"})]


def test_a_rail_added_behind_gives_new_numbers_and_the_same_sections_are_filled() -> None:
    batch = {"mixed_at": at("09:30"), "section": "S4", "at": [6750.0, 1000.0]}
    states, answer = states_between((150.0, 1000.0, *RAILS[1:]), done(2), done(3), batches=[batch])
    assert states == ["waiting", "waiting", "screeded", "screeded", "filling"]
    assert "sections_changed" not in codes_of(answer)
    assert [one["section"] for one in answer["batches"]] == ["S5"]
    by_number = [{key: value for key, value in done(n).items() if key != "at"} for n in (2, 3)]
    assert states_between((150.0, 1000.0, *RAILS[1:]), *by_number)[0] == [
        "waiting",
        "screeded",
        "screeded",
        *["waiting"] * 2,
    ]


def test_sections_that_became_one_are_filled_once_all_of_them_were() -> None:
    fewer = (150.0, 3700.0, 5500.0, 7850.0)
    begun = done(2) | {"placed_at": None, "screeded_at": None}
    reach = {"straightedge": 4000.0}
    lines = wide_room(fewer)["rails"] | reach
    assert states_between(fewer, done(1), done(2), rails=lines)[0] == ["screeded", "waiting", "waiting"]
    states, answer = states_between(fewer, done(1), begun, rails=lines)
    assert states == ["filling", "waiting", "waiting"]
    assert "sections_changed" in codes_of(answer)
    placed = done(2) | {"screeded_at": None}
    assert states_between(fewer, done(1, channels_at=at("09:30")), placed, rails=lines)[0][0] == "placed"


def test_a_place_at_a_border_counts_in_the_nearest_section_and_one_beyond_in_none() -> None:
    rows = [done(1) | {"at": [8049.0, 1000.0]}, done(2) | {"at": [-51.0, 1000.0]}]
    batch = {"mixed_at": at("09:30"), "section": "S1", "at": [1e5, 1e5]}
    states, answer = states_between(RAILS, *rows, batches=[batch])
    assert states[1:] == ["waiting", "waiting", "screeded"]
    assert {(one["path"], one["code"]) for one in answer["notices"]} == {
        ("document.placements[1].at", "no_section_there"),
        ("document.batches[0].at", "no_section_there"),
    }
