"""Gloves, sun and kneeling: sizes, contrast, focus, wide windows and the page for the stud, on every screen."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.looks import faint_text, small_targets, sticking_out
from tests.browser.phone import SHOTS, Phone
from tests.browser.running import Service
from tests.browser.screens import sheet, walk_outside_the_room, walk_the_sheets, walk_the_steps

pytestmark = pytest.mark.browser

THUMB_PX = 56
STANDING_PX = 96
KNEELING_PX = 40
SUN_RATIO = 7.0
THEMES = ("light", "dark", "sun")


def in_the_demo_room(service: Service, phone: Phone, theme: str = "light") -> Phone:
    phone.open(service.address)
    phone.tap("open-settings")
    phone.tap(f"theme-{theme}")
    phone.open_demo_room(service)
    return phone


def walk_everywhere(phone: Phone, stop: Callable[[str], None]) -> None:
    walk_the_steps(phone, stop)
    walk_the_sheets(phone, stop)
    walk_outside_the_room(phone, stop)


def text_height(figure: Locator) -> float:
    height: float = figure.evaluate("(box) => parseFloat(getComputedStyle(box).fontSize)")
    return height


def test_every_button_and_link_is_as_large_as_a_gloved_thumb_and_nothing_sticks_out(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone = in_the_demo_room(demo_service, new_phone())
    faults: list[tuple[str, str]] = []

    def measure(stop: str) -> None:
        faults.extend((stop, fault) for fault in small_targets(phone.page, THUMB_PX) + sticking_out(phone.page))

    walk_everywhere(phone, measure)
    assert faults == [], "\n".join(map(" ".join, sorted(set(faults))))


def test_text_in_bright_sun_stands_out_seven_to_one_on_every_screen(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone = in_the_demo_room(demo_service, new_phone(), "sun")
    faults: list[tuple[str, str]] = []
    counts: list[int] = []

    def measure(stop: str) -> None:
        seen, faint = faint_text(phone.page, SUN_RATIO)
        counts.append(seen)
        faults.extend((stop, text) for text in faint)

    walk_everywhere(phone, measure)
    assert faults == [], "\n".join(map(" ".join, sorted(set(faults))))
    assert min(counts) >= 3


def test_a_shim_is_read_standing_and_the_other_working_figures_kneeling(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone = in_the_demo_room(demo_service, new_phone())
    phone.go_to("rails")
    phone.wait_for("station-where")
    for _ in range(3):
        assert text_height(phone.page.locator(".figure.giant .number")) >= STANDING_PX
        phone.tap("station-after")
    phone.go_to("bed")
    assert text_height(phone.page.get_by_test_id("top-shown")) >= KNEELING_PX
    phone.go_to("levels")
    phone.keys("4", "1")
    assert text_height(phone.page.get_by_test_id("typed")) >= KNEELING_PX


def test_whoever_uses_a_keyboard_sees_where_the_focus_is(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone = in_the_demo_room(demo_service, new_phone(office=True))
    phone.page.locator("body").focus()
    ring = "() => { const look = getComputedStyle(document.activeElement); return look.outlineStyle === 'none' ? 0 : parseFloat(look.outlineWidth); }"
    name = "() => document.activeElement.dataset.testid ?? document.activeElement.className"
    seen: dict[str, float] = {}
    for _ in range(25):
        phone.page.keyboard.press("Tab")
        if phone.page.evaluate("document.activeElement !== document.body"):
            seen[phone.page.evaluate(name)] = phone.page.evaluate(ring)
    assert len(seen) > 10
    assert {name for name, width in seen.items() if width < 2} == set()


def test_a_wide_window_shows_list_drawing_and_figures_side_by_side(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    office = in_the_demo_room(demo_service, new_phone(office=True))

    def check(stop: str) -> None:
        office.shot(f"office-{stop}")
        beside, drawing, panel = (office.page.locator(f".room-{part}").bounding_box() for part in ("beside", "drawing", "panel"))
        assert beside and drawing and panel, stop
        assert beside["x"] + beside["width"] <= drawing["x"] + 1, stop
        assert drawing["x"] + drawing["width"] <= panel["x"] + 1, stop
        assert min(beside["height"], drawing["height"], panel["height"]) >= 300, stop
        assert sticking_out(office.page) == [], stop

    walk_the_steps(office, check)


@pytest.mark.parametrize("theme", THEMES)
def test_every_screen_is_pictured_in_each_light(
    demo_service: Service, new_phone: Callable[..., Phone], theme: str
) -> None:
    phone = in_the_demo_room(demo_service, new_phone(), theme)
    expect(phone.page.locator("html")).to_have_attribute("data-theme", theme)
    walk_the_steps(phone, lambda stop: phone.shot(f"{theme}-{stop}"))
    walk_outside_the_room(phone, lambda stop: phone.shot(f"{theme}-{stop}"))
    assert phone.complaints == []


def test_the_page_for_the_stud_has_the_drawing_shims_order_and_times_on_two_sheets_at_most(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    office = in_the_demo_room(demo_service, new_phone(office=True))
    office.page.emulate_media(media="print")
    paper = office.page.locator(".paper")
    expect(paper.locator("svg")).to_be_visible()
    expect(paper.get_by_test_id("shims")).to_have_count(3)
    for words in ("Upstairs bath", "Order", "Waiting", "Cement", "Set tile", "Dead load, worst", "licensed engineer"):
        expect(paper.get_by_text(words).first).to_be_visible()
    expect(office.page.locator(".head")).to_be_hidden()
    SHOTS.mkdir(parents=True, exist_ok=True)
    pdf = office.page.pdf(path=SHOTS / "stud.pdf", format="A4")
    assert pdf.count(b"/Type /Page\n") in (1, 2)
    office.page.set_viewport_size({"width": 794, "height": 1123})
    office.shot("stud")


def test_a_sheet_closes_by_its_button_and_by_the_escape_key(
    demo_service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone = in_the_demo_room(demo_service, new_phone())
    phone.go_to("bed")
    with sheet(phone, "figure-bed-volume", "explain"):
        expect(phone.page.get_by_test_id("explain-source")).to_be_visible()
    phone.tap("figure-bed-volume")
    phone.wait_for("explain")
    phone.page.keyboard.press("Escape")
    expect(phone.page.get_by_test_id("explain")).to_have_count(0)
