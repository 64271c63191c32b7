"""What checks a reading: its neighbours, as it is typed, and the tests of the instrument it was taken with."""

import math

import pytest
from playwright.sync_api import expect
from tests.browser.levels import (
    begin_floor,
    begin_setup,
    here,
    open_sheet,
    read_places,
    sent_plan,
    spots,
    wait_for_pattern,
)
from tests.browser.phone import PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

INCH = 25.4
ROOM = [("12", "left"), ("9", "left"), ("12", "left"), ("9", "left")]
EVEN = (4, 5, 4, 3, 4, 5, 3, 4, 5, 4, 3, 4)  # sixteenths over 41": an ordinary floor


def test_a_reading_a_whole_inch_out_is_flagged_as_it_is_typed_and_read_again(
    phone: Phone, shared_service: Service
) -> None:
    begin_floor(phone, "Landing", ROOM)
    wait_for_pattern(phone)
    for sixteenths in EVEN:
        here(phone, "41", sixteenths)
    expect(phone.page.get_by_test_id("suspect")).to_have_count(0)
    key = phone.page.get_by_test_id("key-5").bounding_box()
    here(phone, "42", 4)
    phone.keys("4")
    expect(phone.page.get_by_test_id("suspect")).to_contain_text("whole inch?", timeout=PLAN_PATIENCE_MS)
    expect(phone.page.get_by_test_id("suspect")).to_contain_text("Expected about 3′ 5")
    phone.shot("levels-checks-1-suspect")
    assert phone.page.get_by_test_id("key-5").bounding_box() == key
    expect(phone.page.get_by_test_id("typed")).to_contain_text("4″")
    expect(spots(phone, "suspect")).to_have_count(1)
    phone.tap("suspect-again")
    phone.wait_for_text("entry-what", "Read again here")
    here(phone, "41", 4)
    expect(phone.page.get_by_test_id("suspect")).to_have_count(0, timeout=PLAN_PATIENCE_MS)
    expect(spots(phone, "suspect")).to_have_count(0)
    expect(phone.page.get_by_test_id("typed")).to_contain_text("4″")  # what was begun waits at its place
    phone.tap("last-reading")
    expect(phone.page.get_by_test_id("earlier-reading")).to_contain_text("3′ 6 1/4″")
    phone.tap("reading-close")

    phone.keys("3", "part-4")
    expect(phone.page.get_by_test_id("suspect")).to_be_visible(timeout=PLAN_PATIENCE_MS)
    phone.tap("suspect-right")
    expect(phone.page.get_by_test_id("suspect")).to_have_count(0)
    phone.page.reload()
    phone.wait_for_text("levels-note", "High to low")
    expect(phone.page.get_by_test_id("suspect")).to_have_count(0)
    document, plan = sent_plan(phone, shared_service, "Landing")
    assert len(document["readings"]) == len(EVEN) + 2
    assert len(plan["levels"]["suspects"]) >= 1


def test_a_flip_test_shows_the_level_s_error_and_is_taken_off_what_is_read_after_it(
    phone: Phone, shared_service: Service
) -> None:
    begin_floor(phone, "Porch", ROOM)
    wait_for_pattern(phone)
    begin_setup(phone, "straightedge")
    phone.keys("part-3")
    expect(read_places(phone)).to_have_count(2)

    open_sheet(phone, "instruments")
    phone.tap("instrument")
    phone.tap("test-flip")
    phone.wait_for("test")
    phone.shot("levels-checks-2-flip")
    for gap in ("part-6", "part-2"):
        phone.keys(gap, "next")
    phone.keys("6", "feet", "next")
    phone.wait_for_text("test-found", "The line rises 13/64″ in 10′.0″")  # (6 - 2) / 2 sixteenths in 6 feet
    phone.shot("levels-checks-3-found")
    phone.tap("test-accept")
    phone.wait_for_text("instrument-check", "The line rises 13/64″ in 10′.0″")
    phone.tap("instrument-form-close")
    phone.tap("instruments-close")

    phone.keys("part-5")
    phone.keys("part-4")
    expect(read_places(phone)).to_have_count(6)
    phone.wait_for_text("levels-note", "High to low")
    open_sheet(phone, "instruments")
    phone.tap("instrument")
    phone.wait_for_text("check-effect", "Taken off 4 readings")
    phone.shot("levels-checks-4-taken-off")
    phone.tap("instrument-form-close")
    phone.tap("instruments-close")
    phone.tap("last-reading")
    phone.wait_for("point-correction")
    phone.shot("levels-checks-5-point")
    phone.tap("reading-close")

    document, plan = sent_plan(phone, shared_service, "Porch")
    off = [h["correction"] for h in plan["levels"]["heights"]]
    a, b = document["readings"][-2]["at"], document["readings"][-1]["at"]
    along = math.dist(a, b)
    assert off[:2] == [0, 0]
    assert off[-1] == pytest.approx(2 / 16 * INCH / (6 * 304.8) * along)
    assert [o > 0 for o in off] == [False, False, False, True, False, True]


def test_a_two_peg_test_tells_that_it_cannot_tell_and_may_be_only_noted(
    phone: Phone, shared_service: Service
) -> None:
    begin_floor(phone, "Shop", ROOM)
    wait_for_pattern(phone)
    open_sheet(phone, "instruments")
    phone.tap("new-laser")
    phone.tap("test-two_peg")
    phone.wait_for("test")
    for reading in (("40", 0), ("41", 0), ("38", 0), ("39", 4)):
        here(phone, *reading)
    phone.keys("2", "0", "feet", "next")
    phone.keys("2", "0", "feet", "next")
    phone.wait_for_text("test-untold", "Both sights are the same length")
    phone.page.get_by_test_id("test-given").last.click()
    phone.keys("1", "0", "feet", "next")
    phone.wait_for_text("test-found", "The line falls 1/4″ in 10′.0″")
    phone.shot("levels-checks-6-two-peg")
    phone.tap("test-note")
    phone.wait_for_text("check-effect", "Only noted")
    phone.tap("instrument-form-close")
    phone.tap("instruments-close")
    for sixteenths in EVEN[:4]:
        here(phone, "41", sixteenths)
    phone.wait_for_text("standing", "Laser 1 · set-up 1")
    phone.wait_for_text("levels-note", "High to low")
    document, plan = sent_plan(phone, shared_service, "Shop")
    assert document["instrument_checks"][0]["accepted"] is False
    assert [h["correction"] for h in plan["levels"]["heights"]] == [0] * 4
