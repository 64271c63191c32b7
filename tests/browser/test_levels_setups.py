"""A floor read from several set-ups: tied by a mark and by a place read again, and the same in the office."""

import pytest
from playwright.sync_api import expect
from tests.browser.levels import (
    add_mark,
    begin_floor,
    begin_setup,
    here,
    inches_from,
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

SQUARE = [("12", "left"), ("10", "left"), ("12", "left"), ("10", "left")]
LOWER = 5  # inches that the second line lies under the first
ROOM = "Long room"


def test_a_room_of_three_set_ups_tied_by_a_mark_and_by_a_place_has_the_engines_own_plan(
    phone: Phone, shared_service: Service
) -> None:
    begin_floor(phone, ROOM, SQUARE)
    wait_for_pattern(phone)
    for sixteenths in (5, 9, 3, 12, 7, 1, 10, 4):
        here(phone, "41", sixteenths)
    expect(read_places(phone)).to_have_count(8)

    add_mark(phone, "nail by the door")
    phone.tap("read-mark")
    phone.wait_for_text("entry-what", "nail by the door")
    here(phone, "20", 8)

    begin_setup(phone, "optical", shot="levels-setup-1-new")
    phone.wait_for_text("standing", "Optical level 1 · set-up 2")
    phone.wait_for_text("levels-note", "Not tied")
    phone.wait_for_text("entry-what", "nail by the door")
    phone.shot("levels-setup-2-untied")
    here(phone, str(20 - LOWER), 9)
    phone.wait_for_text("entry-what", r"8 of \d+ read")
    for sixteenths in (6, 2, 11):
        here(phone, str(41 - LOWER), sixteenths)

    begin_setup(phone, "laser", "By the window")
    phone.wait_for_text("standing", "By the window")
    phone.wait_for_text("levels-note", "Not tied")
    tap_spot(phone, spots(phone, "read").first)
    phone.shot("levels-setup-3-place")
    phone.tap("read-from-here")
    here(phone, "43", 4)
    expect(phone.page.get_by_test_id("levels-note")).not_to_contain_text("Not tied")
    here(phone, "43", 7)

    phone.wait_for_text("levels-note", "High to low")
    open_sheet(phone, "setups")
    expect(phone.page.get_by_test_id("setup")).to_have_count(3)
    expect(phone.page.get_by_test_id("setup-line").nth(2)).to_contain_text("±", timeout=PLAN_PATIENCE_MS)
    lines = phone.texts("setup-line")
    phone.wait_for_text("fit-spread", "Nothing checks the readings yet")
    phone.shot("levels-setup-4-all")
    phone.tap("setups-close")
    phone.go_to("bed")
    phone.wait_for("figure-bed-volume-value")
    thinnest, thickest = (phone.text(f"figure-bed-thickness-{end}-value") for end in ("min", "max"))

    document, plan = sent_plan(phone, shared_service, ROOM)
    assert [len(document[part]) for part in ("readings", "setups", "marks")] == [15, 3, 1]
    assert plan["levels"]["untied"] == []
    assert plan["levels"]["redundancy"] == 0
    shown = [inches_from(text.split("at ")[1]) for text in lines]
    assert shown == pytest.approx([s["line_height"] / 25.4 for s in plan["levels"]["setups"]], abs=1 / 32 + 1e-6)
    assert inches_from(thinnest) == pytest.approx(plan["bed"]["thickness"]["min"] / 25.4, abs=1 / 32 + 1e-6)
    assert inches_from(thickest) == pytest.approx(plan["bed"]["thickness"]["max"] / 25.4, abs=1 / 32 + 1e-6)


def test_what_a_second_tie_misses_by_is_told_by_place_and_set_ups(phone: Phone) -> None:
    begin_floor(phone, ROOM, SQUARE)
    wait_for_pattern(phone)
    for sixteenths in (5, 5, 5, 5, 5, 5):
        here(phone, "41", sixteenths)
    expect(read_places(phone)).to_have_count(6)
    begin_setup(phone, "laser", "By the window")
    for number, sixteenths in ((0, 9), (1, 13)):
        tap_spot(phone, read_places(phone).nth(number))
        phone.tap("read-from-here")
        here(phone, "36", sixteenths)

    open_sheet(phone, "setups")
    phone.wait_for_text("fit-spread", r"disagree by \d\.\d times what was foretold, over 1 check")
    miss = phone.page.get_by_test_id("misclosure")
    expect(miss).to_have_count(1)
    expect(miss).to_contain_text("1/4")
    expect(miss).to_contain_text("By the window")
    phone.shot("levels-setup-5-misses")
