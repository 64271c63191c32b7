"""Walking the floor: what is proposed, passed over, found by two tapes or stepped with a long level."""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.levels import (
    begin_floor,
    here,
    open_sheet,
    read_places,
    sent_plan,
    spots,
    tap_spot,
    wait_for_pattern,
)
from tests.browser.phone import PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

FOOT = 304.8
CLOSET = [("4", "left"), ("3", "left"), ("4", "left"), ("3", "left")]
ROOM = [("12", "left"), ("9", "left"), ("12", "left"), ("9", "left")]


def test_a_place_is_passed_over_and_offered_again_at_the_end(phone: Phone) -> None:
    begin_floor(phone, "Closet", CLOSET)
    wait_for_pattern(phone)
    places = spots(phone, "proposed").count()
    phone.tap("skip-place")
    expect(spots(phone, "skipped")).to_have_count(1)
    phone.wait_for_text("entry-what", rf"Reading 1 · 0 of {places - 1} read")
    phone.shot("levels-walk-1-skipped")
    for number in range(1, places):
        here(phone, "41", number % 5 + 3)
        expect(read_places(phone)).to_have_count(number)
    phone.wait_for_text("entry-what", "All read but 1 skipped place")
    phone.shot("levels-walk-2-all-but")
    phone.page.reload()
    phone.tap("read-skipped")
    phone.wait_for_text("entry-what", rf"Reading {places} · {places - 1} of {places} read")
    here(phone, "41", 3)
    phone.wait_for_text("entry-what", "All read")
    expect(spots(phone, "skipped")).to_have_count(0)


def test_the_first_reading_needs_no_engine_and_half_a_number_stays_where_it_was_begun(
    shared_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True)
    phone.page.route("**/*worker*.js", lambda route: route.abort())  # an engine that never wakes
    phone.open(shared_service.address)
    begin_floor(phone, "Closet", CLOSET)
    phone.wait_for_text("entry-what", "Reading 1 · 0 of 6 read")
    here(phone, "41", 3)
    expect(read_places(phone)).to_have_count(1)
    phone.keys("4", "2")
    phone.page.reload()
    phone.wait_for_text("typed", "42")
    phone.wait_for_text("entry-what", "Reading 2 · 1 of 6 read")


def test_a_place_is_found_by_two_tapes_and_tapes_that_do_not_meet_are_told(phone: Phone) -> None:
    begin_floor(phone, "Kitchen", ROOM)
    wait_for_pattern(phone)
    phone.tap("place-by-tape")
    phone.tap("way-tapes")
    corners = phone.page.locator(".dialog .spot.estimated")
    expect(corners).to_have_count(4)
    tap_spot(phone, corners.nth(0))
    tap_spot(phone, phone.page.locator(".dialog .spot.estimated").nth(0))
    expect(phone.page.locator(".dialog .spot.current")).to_have_count(2)
    for name, feet in (("first", "4"), ("second", "5")):
        phone.tap(f"field-tape-{name}")
        phone.keys(feet, "feet", "next")
    expect(phone.page.get_by_test_id("tapes-problem")).to_contain_text("do not reach each other")
    phone.shot("levels-walk-3-tapes-apart")
    for name, feet in (("first", "8"), ("second", "6")):
        phone.tap(f"field-tape-{name}")
        phone.keys("back", "back", feet, "feet", "next")
    phone.wait_for("tapes-place")
    phone.shot("levels-walk-4-tapes")
    expect(phone.page.get_by_test_id("tapes-place")).to_have_count(1)
    phone.tap("tapes-place")
    here(phone, "40", 5)
    expect(read_places(phone)).to_have_count(1)
    phone.tap("last-reading")
    expect(phone.page.get_by_test_id("reading")).to_contain_text("7′ 2″")  # (144 + 64 - 36) / 24 feet along


def test_a_long_level_stepped_over_the_floor_makes_one_surface_in_the_office(
    phone: Phone, shared_service: Service
) -> None:
    begin_floor(phone, "Pantry", ROOM)
    wait_for_pattern(phone)
    open_sheet(phone, "setups")
    phone.tap("new-setup")
    phone.tap("setup-instrument-new:straightedge")
    phone.shot("levels-walk-5-long-level")
    phone.tap("keep-setup")
    phone.wait_for_text("standing", "Long level 1, stepped")
    for number, sixteenths in enumerate((3, 5, 2, 4, 6, 3), start=1):
        if number % 3 == 0:
            phone.tap("gap-end")
        phone.keys(f"part-{sixteenths}")
        expect(read_places(phone)).to_have_count(2 * number)
    phone.shot("levels-walk-6-stepping")
    phone.wait_for_text("levels-note", "High to low")
    open_sheet(phone, "setups")
    phone.wait_for_text("setup-line", "6 layings, tied")
    phone.shot("levels-walk-7-layings")
    phone.tap("setups-close")

    phone.tap("undo")
    expect(read_places(phone)).to_have_count(10, timeout=PLAN_PATIENCE_MS)
    document, plan = sent_plan(phone, shared_service, "Pantry")
    downs = [r["down"] for r in document["readings"]]
    assert downs == pytest.approx([n * 25.4 / 16 for n in (0, 3, 0, 5, 2, 0, 0, 4, 0, 6)])
    places = [tuple(r["at"]) for r in document["readings"]]
    assert places[2::2] == places[1:-1:2]  # each laying goes on where the one before it ended
    assert plan["levels"]["untied"] == []
    rises = [b - a for a, b in zip(downs[::2], downs[1::2], strict=True)]
    heights = {tuple(h["at"]): h["z"] for h in plan["levels"]["heights"]}
    assert heights[places[-1]] - heights[places[0]] == pytest.approx(-sum(rises), abs=1e-6)
