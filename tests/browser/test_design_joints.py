"""Movement joints and high spots on the phone, no network: seen on the drawing, drawn by two taps, explained."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.levels import hall_of
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

# Feet: an L of 40 by 30 with legs 14 and 18 wide. Its inside corner is 18 across and 14 up.
WALLS = [("40", "left"), ("14", "left"), ("22", "right"), ("16", "left"), ("18", "left"), ("30", "left")]
# One place, no corner, stands more than half an inch above the rest.
READINGS = [("40", 8) if n == 14 else ("41", 1 + n * 5 % 4) for n in range(20)]
ACROSS = (12.0, 22.0)  # ft: the slab's joint runs across the upright leg at this height


@pytest.fixture(scope="module")
def phone(shared_phones: Callable[..., Phone], shared_service: Service) -> Phone:
    """An L-shaped room, walked and read without a network."""
    return hall_of(shared_phones(), shared_service, WALLS, READINGS)


def joints(phone: Phone, kind: str) -> Locator:
    """Joints on the drawing, by their kind."""
    return phone.page.locator(f".drawing .joint.{kind}")


def open_joints(phone: Phone) -> None:
    """The screen of the room's joints, planned."""
    phone.tap("back")
    phone.tap("open-joints")
    phone.wait_for("figure-joints-width-value")


def tap_feet(phone: Phone, across: float, up: float) -> None:
    """Tap a place of the room, told in feet from its low corner: the drawing shows the whole floor."""
    floor = phone.page.locator(".room-drawing .floor")
    floor.scroll_into_view_if_needed()
    box = floor.bounding_box()
    assert box
    phone.page.mouse.click(box["x"] + box["width"] * across / 40.0, box["y"] + box["height"] * (1.0 - up / 30.0))


def test_the_joints_of_an_l_shaped_room_are_seen_listed_and_explained(phone: Phone) -> None:
    open_joints(phone)
    expect(joints(phone, "field")).to_have_count(2)
    expect(phone.page.locator(".drawing .joints .perimeter")).to_have_count(1)
    assert phone.text("figure-joints-width-value") == "1/4″"
    assert "inside corner" in phone.texts("joint-line")[0]
    codes = [one.get_attribute("data-code") for one in phone.page.locator("[data-testid=cautions] li").all()]
    assert codes == ["joints_decide"]
    phone.tap("figure-joints-width")
    assert "EJ171" in phone.text("explain-source")
    phone.tap("explain-close")
    phone.shot("design-joints")


def test_a_joint_of_the_slab_drawn_by_two_taps_is_carried_through(phone: Phone) -> None:
    phone.tap("draw-slab-joint")
    phone.wait_for("slab-how")
    low, high = ACROSS[1] - 0.4, ACROSS[1] + 0.4  # a thumb is not exact
    tap_feet(phone, 0.3, low)
    expect(phone.page.locator(".room-drawing .spot.current")).to_have_count(1)
    tap_feet(phone, 17.6, high)
    expect(joints(phone, "slab")).to_have_count(1)
    expect(phone.page.get_by_test_id("remove-slab-joint")).to_have_count(1)
    line = joints(phone, "slab").locator("path").last.get_attribute("d") or ""
    x, y, u, v = (float(part) for part in re.findall(r"-?[\d.]+", line))
    floor = phone.page.locator(".room-drawing .floor").bounding_box()
    assert floor
    assert y == v  # square to the wall
    assert abs(u - x) == pytest.approx(floor["width"] * 18.0 / 40.0, abs=1.0)  # from wall to wall
    phone.shot("design-slab-joint")


def test_outdoors_joints_stand_nearer_and_a_known_range_of_temperature_tells_the_movement(phone: Phone) -> None:
    phone.tap("exposure-outdoors")
    phone.wait_for_text("figure-joints-width-value", "1/2″")
    assert phone.page.locator("[data-code=joints_range_unknown]").count() == 1
    phone.tap("field-joints.temperature_range")
    phone.keys("1", "3", "0", "next")
    phone.wait_for_text("figure-joints-width-value", "5/8″")
    phone.wait_for_text("figure-joints-movement-value", "″")
    expect(phone.page.locator("[data-code=joints_range_unknown]")).to_have_count(0)


def test_a_high_spot_is_chipped_or_the_floor_is_raised_with_what_must_be_said_of_it(phone: Phone) -> None:
    phone.tap("back")
    phone.go_to("bed")
    phone.wait_for("chipping")
    expect(phone.page.locator(".room-drawing .spot.chip")).to_have_count(1)
    codes = {one.get_attribute("data-code") for one in phone.page.get_by_test_id("chipping").locator("li").all()}
    assert codes == {"chip_silica", "chip_structure"}
    assert phone.text("figure-bed-chip_plan-depth-value") == "1/2″"  # no more than may be chipped
    before = phone.text("figure-bed-chip_plan-saves_volume-value")
    phone.shot("design-chipping")
    phone.tap("field-bed.chip_depth")
    phone.keys("part-4", "next")
    phone.wait_for_text("figure-bed-chip_plan-depth-value", "1/4″")
    assert phone.text("figure-bed-chip_plan-saves_volume-value") != before
    phone.tap("figure-bed-chip_plan-saves_volume")
    assert "no source" in phone.text("explain-source")
    phone.tap("explain-close")
    expect(phone.page.locator("[data-testid=chipping] .number", has_text="$")).to_have_count(0)  # nobody gave a price
