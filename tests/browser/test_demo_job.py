"""The demo job: whoever joins finds it planned to its waiting times, and its records have their stories."""

import re

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("room", ["Upstairs bath", "Powder room"])
def test_a_phone_that_joins_finds_the_demo_job_planned_to_its_waiting_times(demo_phone: Phone, room: str) -> None:
    phone = demo_phone
    phone.find_demo_room(room)
    expect(phone.page.get_by_test_id("problems")).to_have_count(0)
    phone.go_to("rails")
    assert len(phone.shims()) >= 2
    phone.go_to("waiting")
    phone.wait_for("milestones")
    times = phone.page.get_by_test_id("milestones").locator(".number").all_inner_texts()
    assert len(times) >= 5
    assert all(re.search(r"\d", time) for time in times)
    assert phone.complaints == []


def test_the_story_of_a_temperature_and_of_the_placing_is_one_tap_from_where_they_are_changed(
    demo_phone: Phone,
) -> None:
    phone = demo_phone
    phone.go_to("filling")
    phone.tap("open-section-1")
    phone.tap("section-placed_at")
    phone.tap("time--1")
    phone.tap("time-keep")
    phone.tap("placement-history")
    phone.wait_for_text("story-step", "Placed")
    expect(phone.page.get_by_test_id("story-who").first).to_have_text("Ana, on this phone")
    phone.find_demo_room()
    phone.go_to("waiting")
    expect(phone.page.get_by_test_id("placement-history")).to_be_visible()
    phone.tap("add-climate")
    phone.tap("field-climate-air")
    phone.keys("7", "3", "next")
    phone.tap("keep-climate")
    row = phone.page.locator("li.line").filter(has_text="73\u202f°F")
    row.get_by_test_id("climate-history").click()
    phone.wait_for_text("story-step", r"Air\s*73\s°F")
