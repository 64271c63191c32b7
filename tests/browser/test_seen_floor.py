"""What is seen of a floor: high and low ground, what is not known, points opened, a profile drawn by finger."""

import re
from fractions import Fraction

import pytest
from playwright.sync_api import FloatRect, Page, expect
from tests.browser.phone import PLAN_PATIENCE_MS, Phone, middle_of

pytestmark = pytest.mark.browser
INCH = re.compile(r"(−?)(?:(\d+)(?:\s|$|″))?(?:(\d+)/(\d+))?")
ROUNDED_IN = Fraction(1, 16)  # three figures, each rounded to a sixteenth, differ by no more
Share = tuple[float, float]


def box_of(page: Page) -> FloatRect:
    box = page.get_by_test_id("drawing").locator("visible=true").first.bounding_box()
    assert box is not None
    return box


def drawing_at(page: Page, share: Share) -> Share:
    box = box_of(page)
    return box["x"] + box["width"] * share[0], box["y"] + box["height"] * share[1]


def draw(page: Page, start: Share, end: Share) -> None:
    """A finger from one share of the drawing's width and height to another."""
    page.get_by_test_id("drawing").locator("visible=true").first.scroll_into_view_if_needed()
    page.mouse.move(*drawing_at(page, start))
    page.mouse.down()
    page.mouse.move(*drawing_at(page, end), steps=6)
    page.mouse.up()


def inches(text: str) -> Fraction:
    """`−1 5/16″` as a number."""
    found = INCH.search(text.replace("\u00a0", " ").replace("+", ""))
    assert found is not None
    minus, whole, over, under = found.groups()
    size = Fraction(int(whole or 0)) + (Fraction(int(over), int(under)) if over else Fraction(0))
    return -size if minus else size


@pytest.fixture(scope="module")
def away(demo_phone: Phone) -> Phone:
    """The demo's phone, with its statistics worked out once and then without a network."""
    demo_phone.wait_until_kept()
    demo_phone.lose_network()
    return demo_phone


@pytest.fixture
def phone(away: Phone) -> Phone:
    """At the demo room's own screen."""
    away.find_demo_room()
    return away


def test_the_contours_of_high_and_low_ground_carry_their_heights(phone: Phone) -> None:
    labels = phone.page.locator(".room-drawing .contour-labels text")
    expect(labels.first).to_be_visible()
    assert all("″" in (text or "") for text in labels.all_text_contents())
    phone.shot("seen-ground")


def test_what_is_still_unknown_is_shaded_with_a_key_in_the_persons_units(phone: Phone) -> None:
    phone.tap("layer-doubt")
    expect(phone.page.locator(".room-drawing .fill.doubt path").first).to_be_visible(timeout=PLAN_PATIENCE_MS)
    key = phone.page.locator(".scale-key span:not(.swatches, .swatches *)").all_text_contents()
    least, most = (inches(text) for text in key)
    assert 0 < least < most < 1
    expect(phone.page.locator(".room-drawing .fill.doubt .hatched")).not_to_have_count(0)
    phone.shot("seen-doubt")


def test_a_place_worth_reading_says_why_and_leads_to_it(phone: Phone) -> None:
    first = phone.page.locator(".room-drawing .spot.wanting", has_text="1")
    expect(first).to_be_visible(timeout=PLAN_PATIENCE_MS)
    phone.page.mouse.click(*middle_of(first.locator("circle")))
    phone.wait_for_text("next-why", r"\w+")
    phone.shot("seen-next")
    phone.tap("read-here")
    phone.wait_for("keypad")
    expect(phone.page.locator(".room-drawing .spot.current")).to_be_visible()


def test_a_point_opens_with_its_height_its_fit_and_what_stood_there_before(phone: Phone) -> None:
    phone.go_to("levels")
    phone.tap("levels-note")
    phone.page.get_by_test_id("listed-reading").nth(4).click()
    phone.wait_for_text("point-height", r"″ ± \d+/\d+″")
    phone.wait_for_text("point-fit", r"Nothing checks it|off")
    before = phone.text("reading").split("Reading ")[1].split("″")[0]
    phone.tap("correct-reading")
    phone.keys("4", "2", "part-8", "next")
    expect(phone.page.get_by_test_id("correct-reading")).to_have_count(0)
    phone.tap("levels-note")
    phone.page.get_by_test_id("listed-reading").last.click()
    phone.wait_for_text("earlier-reading", re.escape(before))
    expect(phone.page.get_by_test_id("reading-history")).to_be_visible()
    expect(phone.page.get_by_test_id("photos").last).to_be_visible()
    phone.shot("seen-point")
    phone.tap("reading-close")
    phone.tap("undo")


def test_the_bed_tells_how_sure_its_volume_is_and_the_chance_of_a_higher_spot(phone: Phone) -> None:
    phone.go_to("bed")
    phone.wait_for_text("figure-bed-volume-range", r"9 times in 10: .+ to .+")
    phone.wait_for_text("higher", r"chance|certainly")
    phone.tap("figure-bed-volume")
    phone.wait_for_text("explain-range", r"9 times in 10")
    phone.tap("explain-close")
    phone.tap("higher")
    phone.wait_for_text("higher-sheet", r"highest reading")
    phone.tap("higher-sheet-close")
    phone.go_to("material")
    phone.wait_for_text("figure-materials-0--range", r"9 times in 10: \d+")


def test_a_line_drawn_by_finger_shows_the_bed_along_it_in_the_same_figures(phone: Phone) -> None:
    phone.tap("profile-mode")
    draw(phone.page, (0.2, 0.65), (0.6, 0.4))
    phone.wait_for("profile-section")
    phone.wait_for_text("profile-times", r"^Heights drawn \d+ times")
    phone.shot("seen-profile")
    phone.tap("profile-table")
    rows = phone.page.get_by_test_id("profile-figures").locator("tbody tr")
    expect(rows.nth(1)).to_be_visible()
    for row in rows.all():
        subfloor, top, thickness = (inches(text) for text in row.locator("td").all_inner_texts())
        assert abs(top - subfloor - thickness) <= ROUNDED_IN
    phone.page.get_by_test_id("profile-along").fill("0")
    first, last = (
        phone.page.get_by_test_id("profile-figures").locator(f"tbody tr:{n}-child td:last-child")
        for n in ("first", "last")
    )
    expect(phone.page.get_by_test_id("profile-thickness")).to_have_text(first.inner_text())
    phone.page.get_by_test_id("profile-along").press("End")
    expect(phone.page.get_by_test_id("profile-thickness")).to_have_text(last.inner_text())


def test_an_end_is_dragged_and_two_taps_draw_a_line_too(phone: Phone) -> None:
    phone.tap("profile-mode")
    draw(phone.page, (0.2, 0.3), (0.5, 0.6))
    phone.wait_for("profile-section")
    ends = phone.page.locator(".room-drawing .cut .end circle")
    kept, moved = middle_of(ends.first), middle_of(ends.last)
    box = box_of(phone.page)
    at = ((moved[0] - box["x"]) / box["width"], (moved[1] - box["y"]) / box["height"])
    draw(phone.page, at, (0.3, 0.8))
    assert middle_of(ends.first) == pytest.approx(kept, abs=1.0)
    assert middle_of(ends.last) == pytest.approx(drawing_at(phone.page, (0.3, 0.8)), abs=3.0)
    phone.page.mouse.click(*drawing_at(phone.page, (0.2, 0.5)))
    phone.page.mouse.click(*drawing_at(phone.page, (0.6, 0.7)))
    assert middle_of(ends.first) == pytest.approx(drawing_at(phone.page, (0.2, 0.5)), abs=3.0)
    phone.wait_for("profile-section")
    phone.tap("profile-mode")
    expect(phone.page.get_by_test_id("profile-section")).to_have_count(0)


def test_two_fingers_still_move_the_drawing_while_a_line_is_wanted(phone: Phone) -> None:
    phone.tap("profile-mode")
    (ax, ay), (bx, by) = drawing_at(phone.page, (0.3, 0.3)), drawing_at(phone.page, (0.5, 0.5))
    hand = phone.context.new_cdp_session(phone.page)

    def touch(kind: str, *places: Share) -> None:
        points = [{"x": x, "y": y, "id": n} for n, (x, y) in enumerate(places)]
        hand.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", (ax, ay), (bx, by))
    for step in range(1, 6):
        touch("touchMove", (ax - 6 * step, ay), (bx + 6 * step, by))
    touch("touchEnd")
    expect(phone.page.get_by_test_id("zoom-fit")).to_be_visible()
    expect(phone.page.locator(".room-drawing .cut")).to_have_count(0)


def test_in_the_office_the_profile_stands_beside_a_drawing_that_keeps_its_size(demo_office: Phone) -> None:
    before = box_of(demo_office.page)["height"]
    demo_office.tap("profile-mode")
    draw(demo_office.page, (0.2, 0.3), (0.6, 0.7))
    demo_office.wait_for("profile-section")
    assert box_of(demo_office.page)["height"] == pytest.approx(before, abs=1.0)
    demo_office.shot("seen-office-profile")
