"""Gloves, sun and kneeling: sizes, contrast, focus, wide windows and the page for the stud, on every screen."""

from dataclasses import dataclass, field

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.looks import faint_text, focused, small_targets, sticking_out
from tests.browser.phone import Phone
from tests.browser.screens import on_paper, sheet, walk_outside_the_room, walk_the_sheets, walk_the_steps
from tests.browser.shots import PICTURED, SHOTS

pytestmark = pytest.mark.browser

THUMB_PX = 56
STANDING_PX = 96
KNEELING_PX = 40
SUN_RATIO = 7.0
THEMES = ("light", "dark", "sun")
MEASURED = ("light", "sun")


def in_light(phone: Phone, theme: str) -> Phone:
    """The demo room in one of the lights, chosen in the settings."""
    phone.tap("open-settings")
    phone.tap(f"theme-{theme}")
    phone.find_demo_room()
    return phone


@dataclass
class Walked:
    """What was measured at every stop, in the light and then in the sun, each with the stop's name."""

    phone: Phone
    faults: list[tuple[str, str]] = field(default_factory=list)
    faint: list[tuple[str, str]] = field(default_factory=list)
    counts: list[int] = field(default_factory=list)

    def __call__(self, stop: str) -> None:
        for theme in THEMES if PICTURED else MEASURED:
            self.phone.page.evaluate("(theme) => { document.documentElement.dataset.theme = theme; }", theme)
            if theme == "light":
                found = small_targets(self.phone.page, THUMB_PX) + sticking_out(self.phone.page)
                self.faults.extend((stop, fault) for fault in found)
            if theme == "sun":
                seen, faint = faint_text(self.phone.page, SUN_RATIO)
                self.counts.append(seen)
                self.faint.extend((stop, text) for text in faint)
            self.phone.shot(f"{theme}-{stop}")


@pytest.fixture(scope="module")
def everywhere(demo_phone: Phone) -> Walked:
    """One walk through every screen, measured and pictured at each stop in each light."""
    walked = Walked(in_light(demo_phone, "light"))
    walk_the_steps(walked.phone, walked)
    walk_the_sheets(walked.phone, walked)
    walk_outside_the_room(walked.phone, walked)
    walked.phone.home()
    return walked


def text_height(figure: Locator) -> float:
    height: float = figure.evaluate("(box) => parseFloat(getComputedStyle(box).fontSize)")
    return height


def test_every_button_and_link_is_as_large_as_a_gloved_thumb_and_nothing_sticks_out(everywhere: Walked) -> None:
    assert everywhere.faults == [], "\n".join(map(" ".join, sorted(set(everywhere.faults))))


def test_text_in_bright_sun_stands_out_seven_to_one_on_every_screen(everywhere: Walked) -> None:
    assert everywhere.faint == [], "\n".join(map(" ".join, sorted(set(everywhere.faint))))
    assert min(everywhere.counts) >= 3


def test_the_walk_through_every_screen_leaves_nothing_to_complain_of(everywhere: Walked) -> None:
    assert everywhere.phone.complaints == []


def test_a_shim_is_read_standing_and_the_other_working_figures_kneeling(demo_phone: Phone) -> None:
    phone = in_light(demo_phone, "light")
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


def test_whoever_uses_a_keyboard_sees_where_the_focus_is(demo_office: Phone) -> None:
    phone = in_light(demo_office, "light")
    phone.page.locator("body").focus()
    seen: dict[str, float] = {}
    for _ in range(25):
        phone.page.keyboard.press("Tab")
        name, ring = focused(phone.page)
        seen[name] = ring
    assert len(seen) > 10
    assert [name for name, ring in seen.items() if name and ring < 2] == []


def test_a_wide_window_shows_list_drawing_and_figures_side_by_side(demo_office: Phone) -> None:
    office = in_light(demo_office, "light")

    def check(stop: str) -> None:
        office.shot(f"office-{stop}")
        assert sticking_out(office.page) == [], stop
        if stop.startswith("record"):  # a page as it is printed: one column
            assert office.page.get_by_test_id("record-paper").is_visible()
            return
        beside, drawing, panel = (
            office.page.locator(f".room-{part}").bounding_box() for part in ("beside", "drawing", "panel")
        )
        assert beside, stop
        assert drawing, stop
        assert panel, stop
        assert beside["x"] + beside["width"] <= drawing["x"] + 1, stop
        assert drawing["x"] + drawing["width"] <= panel["x"] + 1, stop
        assert min(beside["height"], drawing["height"], panel["height"]) >= 300, stop

    walk_the_steps(office, check)


def test_each_light_is_chosen_in_the_settings_and_colours_the_page(demo_phone: Phone) -> None:
    papers = set()
    for theme in THEMES:
        phone = in_light(demo_phone, theme)
        expect(phone.page.locator("html")).to_have_attribute("data-theme", theme)
        papers.add(phone.page.evaluate("getComputedStyle(document.documentElement).backgroundColor"))
    assert len(papers) == len(THEMES)


def test_the_page_for_the_stud_has_the_drawings_shims_order_and_times_on_two_sheets_at_most(
    demo_office: Phone,
) -> None:
    office = in_light(demo_office, "light")
    with on_paper(office):
        paper = office.page.locator(".paper")
        expect(paper.locator("svg")).to_have_count(2)  # the rails with their shims, and the sections
        expect(paper.locator("svg").first).to_be_visible()
        rails = paper.locator("svg").first.locator(".rail").count()
        assert rails >= 3
        expect(paper.get_by_test_id("shims")).to_have_count(rails)
        for words in (
            "Upstairs bath",
            "Filling",
            "Order",
            "Waiting",
            "Cement",
            "Set tile",
            "Dead load, worst",
            "licensed engineer",
        ):
            expect(paper.get_by_text(words).first).to_be_visible()
        expect(office.page.locator(".head")).to_be_hidden()
        SHOTS.mkdir(parents=True, exist_ok=True)
        pdf = office.page.pdf(path=SHOTS / "stud.pdf", format="A4")
        office.shot("stud")
        assert pdf.count(b"/Type /Page\n") in (1, 2)


def test_a_sheet_closes_by_its_button_and_by_the_escape_key(demo_phone: Phone) -> None:
    phone = in_light(demo_phone, "light")
    phone.go_to("bed")
    with sheet(phone, "figure-bed-volume", "explain"):
        expect(phone.page.get_by_test_id("explain-source").first).to_be_visible()  # its range has its own
    phone.tap("figure-bed-volume")
    phone.wait_for("explain")
    phone.page.keyboard.press("Escape")
    expect(phone.page.get_by_test_id("explain")).to_have_count(0)
