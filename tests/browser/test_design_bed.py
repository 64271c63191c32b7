"""The height is decided on the phone without a network: tried, held against the chosen top, kept beside, taken."""

import json
from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.pushed import push_job
from tests.browser.running import Service
from tests.browser.test_seen_floor import inches

from evenbed.engine.bridge import answer_text

pytestmark = pytest.mark.browser

Json = dict[str, Any]
INCH, SIXTEENTH = 25.4, 25.4 / 16
PERSON = "Ana"
CODES = "(found) => found.map((one) => one.dataset.code)"


def floor(lean: float) -> list[Json]:
    """Readings on a grid over 3.6 m x 2.4 m, mm below the line; `lean` is how much lower the far end lies."""
    rise = (0.0, 2.5, 1.0, 4.0, 0.5)
    places = [(450.0 + 900.0 * i, 400.0 + 800.0 * j) for i in range(4) for j in range(3)]
    downs = [1000.0 + lean * x / 3600.0 + rise[(2 * n) % 5] for n, (x, _) in enumerate(places)]
    return [{"at": list(at), "down": down} for at, down in zip(places, downs, strict=True)]


def room(name: str, lean: float, **fields: Any) -> Json:
    corners = [[0, 0], [3600, 0], [3600, 2400], [0, 2400]]
    return {"name": name, "outline": {"vertices": corners}, "readings": floor(lean), **fields}


def doorway(name: str, wall: int, beyond: float) -> Json:
    return {"id": name, "wall": wall, "from": 800.0, "to": 1600.0, "adjoining_height": beyond, "exit": False}


DRAIN = {"id": "shower", "kind": "drain", "at": [1100.0, 900.0], "radius": 50.0}
HALL = room("Hall bath", 40.0, openings=[doorway("hall", 3, 53.0), doorway("study", 1, 14.0)])
SHOWER = room("Shower", 5.0, fixtures=[DRAIN])
SUNK = room("Sunk room", 8.0, openings=[doorway("sunk", 0, 12.0)])


def designed(given: Json, top: Json) -> Json:
    """What the engine says of the room's bed under a top."""
    parts: Json = {name: given[name] for name in ("outline", "openings", "fixtures") if name in given}
    readings: list[Json] = [{"id": f"r{n}", **reading} for n, reading in enumerate(given["readings"])]
    document: Json = {"document": 1, **parts, "readings": readings, "bed": {"top": top}}
    answer: Json = json.loads(answer_text("bed_design", json.dumps(document)))
    return answer


@pytest.fixture(scope="module")
def away(shared_service: Service, shared_phones: Callable[..., Phone]) -> Iterator[Phone]:
    """A phone of somebody who joined, has the three rooms, and lost the network."""
    push_job(shared_service, "Alder Court", [HALL, SHOWER, SUNK])
    phone: Phone = shared_phones()
    phone.open(shared_service.address)
    phone.join(shared_service.join_code(), PERSON)
    phone.wait_until_kept()
    phone.lose_network()
    yield phone
    assert phone.complaints == []


def at_the_bed(phone: Phone, name: str) -> Phone:
    phone.to_jobs()
    phone.open_room(name)
    phone.go_to("bed")
    phone.wait_for("effects")
    return phone


def bags(design: Json) -> int:
    found: int = next(row["packages"] for row in design["materials"] if row["item"] == "cement")
    return found


def tape(mm: float) -> str:
    """A depth as the tape shows it, to the nearest sixteenth; a pattern."""
    whole, part = divmod(round(mm / SIXTEENTH), 16)
    fraction = str(Fraction(part, 16)) if part else ""
    return rf"^{whole}\s{fraction}″$" if whole and part else f"^{fraction or whole}″$"


def assert_figures(phone: Phone, design: Json) -> None:
    """The figures above the thumb become the engine's."""
    for end in ("min", "max"):
        phone.wait_for_text(f"figure-bed-thickness-{end}-value", tape(design["bed"]["thickness"][end]))
    phone.wait_for_text("figure-materials-0-packages-value", f"^{bags(design)}$")


def test_a_level_top_and_the_best_plane_at_two_doorways_are_compared_and_one_is_decided(away: Phone) -> None:
    phone = at_the_bed(away, "Hall bath")
    level, plane = {"kind": "level"}, {"kind": "least_mortar", "holds": [{"opening": "hall"}, {"opening": "study"}]}
    by_level, by_plane = designed(HALL, level), designed(HALL, plane)
    assert bags(by_level) > bags(by_plane)
    assert_figures(phone, by_level)
    phone.tap("top-kind-least_mortar")
    phone.wait_for_text("doorway-hall", "flush")
    phone.wait_for_text("doorway-study", "flush")
    assert_figures(phone, by_plane)
    assert phone.text("figure-materials-0-packages-by") == f"−{bags(by_level) - bags(by_plane)}"
    phone.wait_for("governs")
    phone.tap("keep-beside")
    phone.tap("drop-trial")
    assert_figures(phone, by_level)
    expect(phone.page.get_by_test_id("compared-bags")).to_have_text([str(bags(by_level)), str(bags(by_plane))])
    phone.shot("design-beside")
    phone.tap("choose-alternative")
    phone.wait_for_text("decision", rf"^{PERSON}.*\d:\d\d")
    assert_figures(phone, by_plane)
    phone.shot("design-decided")
    phone.tap("undo")
    phone.wait_for("undecided")
    assert_figures(phone, by_level)
    expect(phone.page.get_by_test_id("alternative")).to_have_count(1)


def test_a_tap_or_a_typed_height_is_tried_outlives_leaving_and_is_taken_or_put_back(away: Phone) -> None:
    phone = at_the_bed(away, "Sunk room")
    lowest = phone.text("top-shown")
    phone.tap("top-up")
    phone.wait_for_text("figure-bed-thickness-min-by", r"^\+")
    tried = phone.text("top-shown")
    assert 0 < inches(tried) - inches(lowest) <= inches("1/8″") + inches("1/16″")
    phone.go_to("levels")
    at_the_bed(phone, "Sunk room")
    assert phone.text("top-shown") == tried
    phone.tap("field-top-height")
    phone.keys("2", "part-8", "next")
    height = {"kind": "level", "height": 2.5 * INCH}
    assert_figures(phone, designed(SUNK, height))
    phone.tap("figure-bed-thickness-max")
    phone.wait_for("explain-source")
    phone.tap("explain-close")
    phone.tap("take-top")
    phone.wait_for_text("decision", PERSON)
    assert_figures(phone, designed(SUNK, height))
    phone.tap("top-down")
    phone.wait_for_text("figure-bed-thickness-max-by", "^−1/8″$")
    phone.tap("drop-trial")
    phone.wait_for_text("top-shown", r"^\+2")
    assert_figures(phone, designed(SUNK, height))
    phone.tap("undo")
    phone.wait_for("undecided")
    expect(phone.page.get_by_test_id("top-shown")).to_have_text(lowest)


def test_a_shower_falls_to_its_drain_and_a_steeper_fall_takes_more(away: Phone) -> None:
    phone = at_the_bed(away, "Shower")
    gentle, steep = ({"kind": "to_drain", "drain": "shower", "fall": inch / 12} for inch in (0.25, 0.5))
    phone.tap("top-kind-to_drain")
    phone.wait_for("drain-form")
    assert_figures(phone, designed(SHOWER, gentle))
    phone.tap("field-top-fall")
    phone.keys("part-8", "next")
    phone.wait_for_text("field-top-fall", "1/2")
    assert_figures(phone, designed(SHOWER, steep))
    assert designed(SHOWER, steep)["bed"]["volume"] > designed(SHOWER, gentle)["bed"]["volume"]
    expect(phone.page.get_by_test_id("deciding").locator("[data-code=drain]")).to_be_visible()
    phone.shot("design-shower")
    phone.tap("take-top")
    phone.wait_for("decision")
    assert_figures(phone, designed(SHOWER, steep))


def test_heights_that_cannot_all_hold_say_which_and_one_tap_lets_one_give(away: Phone) -> None:
    phone = at_the_bed(away, "Sunk room")
    met = {"kind": "least_mortar", "holds": [{"opening": "sunk"}]}
    problems = {problem["code"]: problem["values"] for problem in designed(SUNK, met)["problems"]}
    phone.tap("top-kind-least_mortar")
    phone.wait_for_text("conflicts", "Doorway sunk, not above")
    assert phone.page.locator("[data-code^=top_conflict]").evaluate_all(CODES) == list(problems)
    expect(phone.page.get_by_test_id("take-top")).to_be_disabled()
    expect(phone.page.locator(".room-drawing .fill path").first).to_be_visible()
    phone.shot("design-conflict")
    phone.tap("relieve-top_conflict_held_high")
    expect(phone.page.get_by_test_id("conflicts")).to_have_count(0)
    phone.wait_for("effects")
    alone = problems["top_conflict_held_high"]["alone"]
    eased = {"kind": "least_mortar", "holds": [{"opening": "sunk", "low": 12.0, "high": 12.0 + alone + 1e-6}]}
    assert_figures(phone, designed(SUNK, eased))
    phone.tap("drop-trial")


def test_while_the_engine_sleeps_a_height_can_be_typed_and_decided(
    shared_service: Service, shared_phones: Callable[..., Phone], away: Phone
) -> None:
    assert away.complaints == []
    phone: Phone = shared_phones(engine=False)
    phone.open(shared_service.address)
    phone.join(shared_service.join_code(), PERSON)
    phone.lose_network()
    phone.to_jobs()
    phone.open_room("Shower")
    phone.go_to("bed")
    expect(phone.page.get_by_test_id("top-up")).to_be_disabled()
    phone.tap("field-top-height")
    phone.keys("1", "part-8", "next")
    phone.wait_for_text("top-shown", r"^\+1\s1/2″$")
    phone.tap("take-top")
    phone.wait_for_text("decision", PERSON)
    phone.tap("top-down")
    phone.wait_for_text("top-shown", r"^\+1\s3/8″$")
    assert phone.complaints == []
