"""Slips of the thumb and the tape: told in place, in plain words; nothing is lost and the rest of the app goes on."""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
CROSSING = [("8", "left"), ("8", "left"), ("4", "left"), ("9", "right"), ("4", "right"), ("1", "right")]
NOT_CLOSING = [("8", "left"), ("8", "left"), ("2", "left"), ("8", "left")]
ROUND = [("41", part) for part in (3, 7, 5, 9, 4, 8, 6, 2, 11, 10)]


@pytest.fixture(scope="module")
def phone(shared_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    """A phone that visited once and has no network: each test begins a job of its own on it."""
    phone: Phone = shared_phones()
    phone.open(shared_service.address)
    phone.wait_until_kept()
    phone.lose_network()
    shared_service.stop()
    return phone


def begin(phone: Phone, walls: list[tuple[str, str]]) -> None:
    """A new job with one room, its walls taped and closed; on the outline's screen."""
    phone.to_jobs()
    phone.begin_room("Slip Lane", "Mill End", "Hall")
    phone.walk(walls)


def begin_read(phone: Phone) -> None:
    """A square room, read all round; on its levels."""
    begin(phone, SQUARE)
    phone.go_to("levels")
    phone.read(ROUND)


def give(phone: Phone, field: str, *keys: str) -> None:
    """A length given in a sheet of its own."""
    phone.tap(f"field-{field}")
    phone.keys(*keys, "next")
    expect(phone.page.get_by_test_id("value")).to_have_count(0)


def problem(phone: Phone, code: str) -> str:
    """What the screen says of the problem with that code."""
    told = phone.page.locator(f'[data-testid=problems] [data-code="{code}"]')
    expect(told).to_be_visible(timeout=10_000)
    return told.inner_text()


def test_walls_that_cross_are_told_by_number_and_place_and_can_be_walked_again(phone: Phone) -> None:
    begin(phone, CROSSING)
    said = problem(phone, "walls_cross")
    assert "Wall" in said
    assert "across" in said
    phone.tap("walk-again")
    phone.wait_for_text("entry-what", "Wall 6")  # the first five are kept, the last is to be taped again
    phone.tap("undo")
    phone.wait_for_text("entry-what", "Wall 5")


def test_walls_that_miss_closing_by_feet_are_told_by_how_much_and_one_wall_can_be_mended(phone: Phone) -> None:
    begin(phone, NOT_CLOSING)
    assert "6′ 0″" in problem(phone, "does_not_close").replace("\u00a0", " ")
    give(phone, "wall-3", "8", "feet")
    problem(phone, "too_few_readings")


def test_a_wall_of_no_length_cannot_be_walked(phone: Phone) -> None:
    phone.to_jobs()
    phone.begin_room("Slip Lane", "Mill End", "Hall")
    phone.keys("0", "feet")
    for turn in ("turn-left", "turn-right", "turn-other", "close-figure"):
        expect(phone.page.get_by_test_id(turn)).to_be_disabled()
    phone.keys("back", "back", "8", "feet")
    expect(phone.page.get_by_test_id("turn-left")).to_be_enabled()


def test_a_wall_mended_to_no_length_is_told_and_mended_again(phone: Phone) -> None:
    begin(phone, SQUARE)
    give(phone, "wall-2", "0", "feet")
    expect(phone.page.locator("[data-testid=problems] .caution")).to_have_count(1, timeout=10_000)
    give(phone, "wall-2", "8", "feet")
    problem(phone, "too_few_readings")


def test_a_doorway_past_the_wall_or_backwards_is_told_before_it_is_added(phone: Phone) -> None:
    begin(phone, SQUARE)
    phone.tap("add-doorway")
    sheet = phone.page.get_by_test_id("form-doorway")
    give(phone, "door-from", "7", "feet")
    give(phone, "door-to", "9", "feet")
    expect(sheet).to_contain_text("runs past the end of the wall")
    expect(phone.page.get_by_test_id("keep-doorway")).to_be_disabled()
    give(phone, "door-to", "6", "feet")
    expect(sheet).to_contain_text("must end further along the wall than it begins")
    expect(phone.page.get_by_test_id("keep-doorway")).to_be_disabled()

    phone.tap("form-doorway-close")
    phone.tap("add-doorway")
    expect(phone.page.get_by_test_id("field-door-from")).to_contain_text("7′")
    give(phone, "door-to", "7", "feet", "8")
    phone.tap("keep-doorway")
    expect(phone.page.get_by_test_id("remove-doorway")).to_have_count(1)


def test_a_cutout_outside_the_room_is_told_before_it_is_added_and_one_along_the_wall_is_taken(phone: Phone) -> None:
    begin(phone, SQUARE)
    phone.tap("add-cutout")
    for field, feet in (("along", "6"), ("off", "0"), ("across", "3"), ("deep", "1")):
        give(phone, f"cutout-{field}", feet, "feet")
    expect(phone.page.get_by_test_id("form-cutout")).to_contain_text("not wholly on the floor")
    expect(phone.page.get_by_test_id("keep-cutout")).to_be_disabled()
    give(phone, "cutout-across", "2", "feet")
    phone.tap("keep-cutout")
    expect(phone.page.get_by_test_id("remove-cutout")).to_have_count(1)
    problem(phone, "too_few_readings")


def test_a_rod_cannot_be_stood_outside_the_room(phone: Phone) -> None:
    begin(phone, SQUARE)
    phone.go_to("levels")
    phone.tap("place-by-tape")
    give(phone, "offset-along", "9", "feet")
    give(phone, "offset-off", "1", "feet")
    expect(phone.page.get_by_test_id("offset")).to_contain_text("outside the floor")
    expect(phone.page.get_by_test_id("stand-here")).to_be_disabled()
    give(phone, "offset-along", "3", "feet")
    phone.tap("stand-here")
    phone.read([("41", 3)])


def test_readings_left_outside_by_a_smaller_outline_are_told_and_kept(phone: Phone) -> None:
    begin_read(phone)
    phone.go_to("outline")
    give(phone, "wall-1", "5", "feet")
    give(phone, "wall-3", "5", "feet")
    outside = phone.page.locator('[data-code="reading_outside"]')
    expect(outside.first).to_contain_text("is outside the room", timeout=10_000)
    give(phone, "wall-1", "8", "feet")
    give(phone, "wall-3", "8", "feet")
    phone.wait_for("figure-outline-area-value")
    phone.tap("back")
    phone.wait_for_text("step-levels", f"{len(ROUND)} readings")


def test_a_least_thickness_above_the_greatest_is_told_where_it_is_set_and_put_right_there(phone: Phone) -> None:
    begin_read(phone)
    phone.go_to("bed")
    phone.wait_for("figure-bed-volume-value")
    give(phone, "bed.minimum_thickness", "9")
    problem(phone, "minimum_above_maximum")
    phone.go_to("levels")
    phone.keys("4", "1", "part-5")
    phone.wait_for_text("entry-what", rf"\b{len(ROUND) + 2}\b")
    phone.go_to("bed")
    give(phone, "bed.minimum_thickness", "1")
    phone.wait_for("figure-bed-volume-value")
    expect(phone.page.get_by_test_id("problems")).to_have_count(0)


def test_a_straightedge_that_spans_nothing_is_told_on_the_rails_and_changed_there(phone: Phone) -> None:
    begin_read(phone)
    phone.go_to("rails")
    phone.wait_for("station-where")
    phone.tap("rails-layout")
    give(phone, "rails.straightedge", "1")
    phone.tap("back")
    expect(phone.page.get_by_test_id("problems")).not_to_be_empty(timeout=10_000)
    phone.tap("rails-layout")
    give(phone, "rails.straightedge", "8", "feet")
    phone.tap("back")
    phone.wait_for("station-where")


def test_no_slip_broke_anything_behind_the_screens(phone: Phone) -> None:
    begin(phone, CROSSING)
    problem(phone, "walls_cross")
    phone.go_to("bed")
    phone.wait_for("to-missing-step")
    phone.home()
    assert phone.complaints == []
