"""Rails laid out on a phone, no network: dragged on the drawing, what that breaks told, each step one undo."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.levels import hall_of, inches_from
from tests.browser.looks import faint_text, small_targets, sticking_out
from tests.browser.phone import Phone, middle_of
from tests.browser.running import Service

pytestmark = pytest.mark.browser

# Feet: an L of 20 by 16 with legs 8 and 9 wide.
WALLS = [("20", "left"), ("8", "left"), ("11", "right"), ("8", "left"), ("9", "left"), ("16", "left")]
READINGS = [("40", 8) if n == 3 else ("41", 1 + n * 5 % 4) for n in range(9)]
THUMB_PX = 56
SUN_RATIO = 7.0
STEP_PX = 1.0  # a drag goes in whole eighths of an inch, less than a pixel here
LYING, STANDING = re.compile(r"^M[\d.]+ ([\d.]+)L[\d.]+ \1$"), re.compile(r"^M([\d.]+) [\d.]+L\1 ")
WATCH = """(what) => {
  const onDrop = { capture: true, once: true };
  const drop = new Promise((done) => addEventListener("pointerup", () => done(performance.now()), onDrop));
  const isThere = () => document.querySelector(`.drawing ${what}`) !== null;
  const told = (tell) => (isThere() ? tell(performance.now()) : requestAnimationFrame(() => told(tell)));
  window.told = drop.then((at) => new Promise(told).then((now) => now - at));
}"""
IS_AT = """([rail, wanted, off]) => {
  const drawn = [...document.querySelectorAll(`.drawing .rail[data-rail="${rail}"] > path`)].at(-1);
  return drawn.getAttribute("d").match(/-?[\\d.]+/g).every((part, n) => Math.abs(part - wanted[n]) <= off);
}"""


@pytest.fixture(scope="module")
def laid(shared_phones: Callable[..., Phone], shared_service: Service) -> Phone:
    """An L-shaped room, walked and read without a network; its rails run along the longest wall."""
    phone = hall_of(shared_phones(), shared_service, WALLS, READINGS)
    phone.go_to("rails")
    phone.tap("rails-layout")
    phone.wait_for("figure-layout-rails-value")
    phone.tap("direction-along")
    expect(phone.page.locator(".drawing .rail > path").first).to_have_attribute("d", LYING)
    return phone


@pytest.fixture
def phone(laid: Phone) -> Phone:
    """The room with its rails as proposed, none in hand."""
    for way_out in ("placing-leave", "hand-done", "to-proposal"):
        if laid.page.get_by_test_id(way_out).count():
            laid.tap(way_out)
    laid.wait_for_text("lay-how", "proposed")
    expect(laid.page.locator(".rail .station").first).to_be_attached()
    return laid


def rails(phone: Phone) -> list[str]:
    """The names of the rails on the drawing, sorted."""
    return sorted(one.get_attribute("data-rail") or "" for one in phone.page.locator(".drawing .rail").all())


def ends(phone: Phone, rail: str) -> list[float]:
    """Where a rail begins and ends on the drawing: x, y, x, y in px."""
    line = phone.page.locator(f'.drawing .rail[data-rail="{rail}"] > path').last
    return [float(part) for part in re.findall(r"-?[\d.]+", line.get_attribute("d") or "")]


def expect_at(phone: Phone, rail: str, wanted: list[float], off: float = 0.05) -> None:
    """A rail is drawn there before long."""
    phone.until(f"{rail} at {wanted}", f"({IS_AT})({[rail, wanted, off]})")


def take(phone: Phone, rail: str) -> None:
    """Take a rail in hand by a tap on it, a third along, where no name stands."""
    surface = phone.page.locator(".drawing .surface").bounding_box()
    assert surface
    x, y, u, v = ends(phone, rail)
    phone.page.mouse.click(surface["x"] + x + (u - x) * 0.31, surface["y"] + y + (v - y) * 0.31)
    phone.wait_for_text("hand-standing", f"Rail {rail} ")


def drag(phone: Phone, start: tuple[float, float], by: tuple[float, float]) -> None:
    """One finger from a place of the screen by so many px, in steps as a thumb goes."""
    mouse = phone.page.mouse
    mouse.move(*start)
    mouse.down()
    mouse.move(start[0] + by[0] / 2, start[1] + by[1] / 2)
    mouse.move(start[0] + by[0], start[1] + by[1])


def tap_floor(phone: Phone, across: float, down: float) -> None:
    """Tap a place of the drawing, told in shares of the floor's extent from its upper left corner."""
    box = phone.page.locator(".drawing .floor").bounding_box()
    assert box
    phone.page.mouse.click(box["x"] + box["width"] * across, box["y"] + box["height"] * down)


def length_in_hand(phone: Phone) -> float:
    """How long the rail in hand is said to be, inches."""
    return inches_from(phone.text("hand-standing").split("·")[1].strip())


def px_in(line: list[float], inches: float) -> float:
    """Pixels to the inch, from a rail's line on the drawing and its length."""
    return (line[2] - line[0]) / inches


def name_of(phone: Phone, rail: str) -> Locator:
    return phone.page.locator(f'.drawing .rail[data-rail="{rail}"] .rail-name')


def test_the_rails_of_an_l_shaped_room_are_drawn_counted_and_explained(phone: Phone) -> None:
    assert phone.text("figure-layout-rails-value") == str(len(rails(phone)))
    stations = phone.page.locator(".drawing .rail .station").count()
    assert phone.text("figure-layout-stations-value") == str(stations)
    expect(phone.page.locator(".drawing .spacing").first).to_be_attached()
    phone.tap("figure-layout-widest")
    assert "longest straightedge" in phone.text("explain")
    phone.tap("explain-close")
    phone.shot("rails-layout")
    assert small_targets(phone.page, THUMB_PX) + sticking_out(phone.page) == []


def test_a_rail_dragged_with_the_finger_says_what_it_breaks_and_one_undo_takes_it_back(phone: Phone) -> None:
    before = ends(phone, "B")
    take(phone, "B")
    phone.page.evaluate(WATCH, "[data-kind=between]")
    drag(phone, middle_of(name_of(phone, "B")), (3.0, 30.0))
    held = ends(phone, "B")
    assert held == pytest.approx([before[0], before[1] + 30.0, before[2], before[3] + 30.0], abs=STEP_PX)
    assert not phone.page.get_by_test_id("to-proposal").count()  # nothing is done before it is dropped
    phone.page.mouse.up()
    expect(phone.page.locator(".drawing .hand-area[data-kind=between]")).to_have_count(1)
    expect(phone.page.locator(".drawing .spacing.too-wide")).to_have_count(1)
    expect(phone.page.locator('[data-testid=cautions] [data-code="rails_too_far"]').first).to_be_attached()
    expect(phone.page.get_by_test_id("hand-standing")).to_have_class(re.compile("warns"))
    print(f"told {phone.page.evaluate('window.told'):.0f} ms after the drop")
    assert ends(phone, "B") == pytest.approx(held, abs=STEP_PX)
    phone.shot("rails-layout-dragged")
    phone.tap("undo")
    phone.tap("hand-done")
    phone.wait_for_text("lay-how", "proposed")
    expect_at(phone, "B", before)


def test_an_end_is_drawn_out_by_its_handle_on_a_zoomed_drawing_too(phone: Phone) -> None:
    take(phone, "D")
    phone.tap("zoom-in")
    before = ends(phone, "D")
    drag(phone, middle_of(phone.page.locator("[data-handle='2']")), (-40.0, 9.0))
    phone.page.mouse.up()
    phone.wait_for_text("hand-standing", "Rail D ")
    assert ends(phone, "D") == pytest.approx([before[0], before[1], before[2] - 40.0, before[3]], abs=STEP_PX)
    drag(phone, middle_of(phone.page.locator(".drawing .floor")), (0.0, 12.0))  # beside the rail the drawing moves
    phone.page.mouse.up()
    assert ends(phone, "D")[1] == pytest.approx(before[1] + 12.0, abs=0.2)
    phone.tap("zoom-fit")
    phone.tap("undo")
    phone.tap("hand-done")
    phone.wait_for_text("lay-how", "proposed")


def test_a_second_finger_lets_go_of_the_rail_and_both_zoom(phone: Phone) -> None:
    take(phone, "B")
    before = ends(phone, "B")
    x, y = middle_of(name_of(phone, "B"))
    touch = phone.context.new_cdp_session(phone.page)
    fingers = [{"x": x, "y": y, "id": 0}, {"x": x + 60, "y": y + 50, "id": 1}]

    def send(kind: str, *points: dict[str, float]) -> None:
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(points)})

    send("touchStart", fingers[0])
    moved = fingers[0] | {"y": y + 25.0}
    send("touchMove", moved)
    expect_at(phone, "B", [before[0], before[1] + 25.0, before[2], before[3] + 25.0], off=STEP_PX)
    send("touchStart", moved, fingers[1])
    expect_at(phone, "B", before)
    send("touchMove", moved, fingers[1] | {"x": x + 120})
    send("touchEnd")
    phone.wait_for("zoom-fit")
    phone.tap("zoom-fit")
    expect_at(phone, "B", before)
    assert phone.page.get_by_test_id("to-proposal").count() == 0
    phone.tap("hand-done")
    phone.wait_for_text("lay-how", "proposed")


def test_whatever_a_finger_does_buttons_and_arrow_keys_do(phone: Phone) -> None:
    before = ends(phone, "B")
    take(phone, "B")
    long = length_in_hand(phone)
    phone.tap("nudge-on")
    phone.page.keyboard.press("ArrowUp")
    phone.page.keyboard.press("ArrowDown")
    phone.tap("pace-fine")
    phone.tap("nudge-back")
    phone.tap("shorter-1")
    phone.tap("pace-coarse")
    phone.tap("longer-2")
    expect(phone.page.get_by_test_id("rail-deck")).to_be_visible()
    assert length_in_hand(phone) == long + 7 / 8
    assert ends(phone, "B")[1] == pytest.approx(before[1] - (1 - 1 / 8) * px_in(before, long), abs=0.2)
    for _ in range(6):
        phone.tap("undo")
    phone.tap("hand-done")
    phone.wait_for_text("lay-how", "proposed")
    expect_at(phone, "B", before)


def test_rails_are_split_taken_away_and_added_and_a_reload_keeps_them(phone: Phone) -> None:
    assert rails(phone) == ["A", "B", "C", "D", "E"]
    take(phone, "B")
    phone.tap("split-rail")
    phone.tap("placing-middle")
    phone.tap("hand-done")
    phone.wait_for_text("figure-layout-rails-value", "6")
    assert rails(phone) == ["A", "B", "C", "D", "E", "F"]
    take(phone, "F")
    phone.tap("delete-rail")
    phone.wait_for_text("figure-layout-rails-value", "5")
    phone.tap("add-rail")
    tap_floor(phone, 0.75, 0.25)  # the notch of the L is no floor
    phone.wait_for_text("placing-how", "No rail fits")
    tap_floor(phone, 0.75, 0.70)
    phone.wait_for_text("hand-standing", "Rail F ")
    phone.wait_for_text("figure-layout-rails-value", "6")
    x, _, u, _ = ends(phone, "F")
    floor = phone.page.locator(".drawing .floor").bounding_box()
    assert floor
    assert u - x == pytest.approx(floor["width"], abs=15.0)  # from wall to wall
    phone.shot("rails-layout-added")
    placed = {rail: ends(phone, rail) for rail in rails(phone)}
    phone.page.reload()
    phone.wait_for("figure-layout-rails-value")
    phone.wait_for_text("lay-how", "as you placed them")
    expect(phone.page.locator(".drawing .rail .station").first).to_be_attached()
    assert {rail: ends(phone, rail) for rail in rails(phone)} == placed
    phone.tap("to-proposal")
    phone.wait_for_text("figure-layout-rails-value", "5")
    assert rails(phone) == ["A", "B", "C", "D", "E"]
    phone.tap("undo")
    phone.wait_for_text("figure-layout-rails-value", "6")
    assert {rail: ends(phone, rail) for rail in rails(phone)} == placed


def test_the_proposal_follows_the_direction_and_the_tools_on_hand(phone: Phone) -> None:
    line = phone.page.locator(".drawing .rail > path").first
    phone.tap("direction-across")
    expect(line).to_have_attribute("d", STANDING)
    phone.tap("undo")
    expect(line).to_have_attribute("d", LYING)
    phone.tap("add-straightedge")
    phone.keys("1", "0", "feet", "next")
    phone.wait_for_text("figure-layout-widest", "Spans 9\u2032\u00a08")
    phone.tap("add-strips")
    phone.tap("field-strips-length")
    phone.keys("6", "feet", "next")
    phone.tap("keep-strips")
    phone.wait_for_text("strips-line", "6\u2032\u00a00\u2033 long.*2 strips")
    for _ in range(2):
        phone.tap("undo")
    phone.wait_for_text("figure-layout-widest", "Spans 5\u2032\u00a08")
    expect(phone.page.get_by_test_id("strips-line")).to_have_count(0)


def test_in_spanish_and_millimetres_a_rail_is_taken_in_hand_by_its_name_and_moved(phone: Phone) -> None:
    address = phone.page.evaluate("location.pathname")
    phone.go("/settings")
    phone.tap("language-es")
    phone.tap("units-metric")
    phone.go(address)
    phone.wait_for_text("lay-how", "propuesta")
    phone.page.get_by_test_id("take-rail").nth(1).click()
    phone.wait_for_text("hand-standing", "Maestra B · [0-9.]+\u202fmm")
    expect(phone.page.get_by_test_id("nudge-on")).to_have_attribute("aria-label", "25\u202fmm hacia arriba")
    phone.tap("nudge-on")
    phone.tap("hand-done")
    phone.wait_for_text("lay-how", "como usted las puso")
    for theme in ("dark", "sun"):
        phone.page.evaluate("(theme) => { document.documentElement.dataset.theme = theme; }", theme)
        phone.shot(f"rails-layout-{theme}")
    seen, faint = faint_text(phone.page, SUN_RATIO)
    assert seen > 10
    assert faint == []
    assert small_targets(phone.page, THUMB_PX) + sticking_out(phone.page) == []
    assert phone.complaints == []
