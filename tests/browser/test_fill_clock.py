"""Filling on the phone, no network, the clock moved: batches, sections, alarms, edges, the day book."""

import re
from collections.abc import Callable
from datetime import UTC, datetime
from io import BytesIO

import pytest
from PIL import Image
from playwright.sync_api import Locator, expect
from tests.browser.looks import faint_text, small_targets, sticking_out
from tests.browser.phone import Phone, middle_of
from tests.browser.pushed import push_job
from tests.browser.running import Service

pytestmark = pytest.mark.browser

FT = 304.8
WIDE, DEEP = 14 * FT, 10 * FT
ROOM = {
    "name": "Hall",
    "outline": {"vertices": [[0, 0], [WIDE, 0], [WIDE, DEEP], [0, DEEP]]},
    "openings": [{"id": "porch", "wall": 0, "from": 4 * FT, "to": 7 * FT, "exit": True}],
    "mix.batch_volume": 0.14,  # m³: about one batch a section
    "readings": [
        {"at": [i * WIDE / 4, j * DEEP / 3], "down": 1000 + (i * 7 + j * 5) % 5 * 2}
        for i in range(5)
        for j in range(4)
    ],
}
MORNING = datetime(2026, 6, 1, 8, 0, tzinfo=UTC)
SPY = "navigator.vibrate = (pattern) => { (window.shaken ??= []).push(pattern); return true; };"
THUMB_PX = 56


@pytest.fixture(scope="module")
def phone(shared_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    """The room of four sections on a joined phone without a network, at eight in the morning."""
    push_job(shared_service, "Orchard Lane 3", [ROOM])
    phone: Phone = shared_phones()
    phone.context.add_init_script(SPY)
    phone.open(shared_service.address)
    phone.join(shared_service.join_code(), "Rosa")
    phone.wait_until_kept()
    phone.open_room("Hall")
    phone.lose_network()
    phone.page.clock.install(time=MORNING)
    phone.page.reload()
    to_filling(phone)
    return phone


def to_filling(phone: Phone) -> None:
    """The filling screen, from the room's own screen."""
    phone.wait_for("course")
    phone.go_to("filling")
    phone.wait_for("fill-clock")


def later(phone: Phone, minutes: int) -> None:
    """So many minutes go by, in a moment."""
    phone.page.clock.fast_forward(minutes * 60_000)


def sections(phone: Phone, state: str) -> Locator:
    """Sections on the drawing that are in that state."""
    return phone.page.locator(f".drawing .live-section.{state}")


def minutes_left(phone: Phone) -> int:
    """The giant figure, whole minutes."""
    return int(phone.text("countdown-left").split(":")[0])


def fill_next(phone: Phone, minutes: int) -> None:
    """One section from the mixer to packed channels, each moment by its tap, in so many minutes."""
    for tap in ("tap-mixed", "tap-placed", "tap-cut", "tap-packed"):
        expect(phone.page.get_by_test_id(tap)).to_be_enabled()
        phone.tap(tap)
        later(phone, minutes // 4)


def test_a_batch_counts_down_and_a_reload_in_mid_batch_loses_nothing(phone: Phone) -> None:
    expect(sections(phone, "waiting")).to_have_count(4)
    assert phone.page.get_by_test_id("tap-placed").is_disabled()
    phone.wait_for_text("now-section", "Next: section 1")
    phone.tap("tap-mixed")
    expect(sections(phone, "filling")).to_have_count(1)
    phone.wait_for_text("countdown-say", "Fresh until 9:30")
    later(phone, 20)
    phone.wait_for_text("countdown-left", r"^(70:00|69:\d\d)$")
    phone.page.reload()
    phone.wait_for("fill-clock")
    expect(sections(phone, "filling")).to_have_count(1)
    assert minutes_left(phone) == 69
    phone.tap("tap-placed")
    phone.wait_for_text("countdown-say", "No batch waits")
    expect(sections(phone, "placed")).to_have_count(1)
    phone.tap("undo")  # the batch and its section, one step
    expect(sections(phone, "filling")).to_have_count(1)
    phone.tap("tap-placed")


def test_a_cut_section_leaves_channels_to_pack_at_once_and_edges_to_cut_back(phone: Phone) -> None:
    phone.tap("tap-cut")
    expect(sections(phone, "screeded")).to_have_count(1)
    expect(phone.page.locator(".drawing .live-channel")).to_have_count(1)
    assert phone.page.get_by_test_id("habit").get_attribute("data-code") == "clean_groove"
    phone.tap("habit-done")
    expect(phone.page.get_by_test_id("habit")).to_have_attribute("data-code", "channels_at_once")
    phone.tap("habit-off")
    phone.wait_for_text("channel-task", "pack them now, by")
    edges = phone.page.get_by_test_id("stop-edge")
    expect(edges).to_have_count(2)  # along its rail, and across the bay where the strips are moved
    assert {edge.get_attribute("data-kind") for edge in edges.all()} == {"rail", "cut"}
    assert re.search(r"5\u2032.*high", edges.filter(has_text="Across").inner_text())  # half of ten feet
    phone.shot("fill-clock-cut")
    phone.tap("pack-section")
    expect(sections(phone, "packed")).to_have_count(1)


def test_a_mixer_that_changes_the_order_leaves_what_is_filled_where_it_lies(phone: Phone) -> None:
    first = sections(phone, "packed").filter(has_text="1").locator("path").first
    outline = first.get_attribute("d")
    filled = phone.page.locator(f'.drawing .live-section:has(path[d="{outline}"])')
    phone.tap("place-mixer")
    phone.page.mouse.click(*middle_of(first))
    expect(filled).to_have_text(
        "2"
    )  # the room by itself: with the mixer at the far end the other far section is first
    expect(filled).to_have_class("live-section packed")
    expect(sections(phone, "waiting")).to_have_count(3)
    phone.tap("mixer-outside")
    expect(filled).to_have_text("1")
    expect(filled).to_have_class("live-section packed")


def test_three_sections_tell_the_pace_and_whether_the_day_is_long_enough(phone: Phone) -> None:
    fill_next(phone, 40)
    fill_next(phone, 40)
    expect(sections(phone, "packed")).to_have_count(3)
    phone.wait_for_text("now-section", "Next: section 4")
    phone.tap("day-ends")
    phone.fill("time-typed", "17:00")
    phone.tap("time-keep")
    phone.wait_for_text("fits-day", "before work ends at 5:00")
    expect(phone.page.get_by_test_id("fits-day")).to_have_class(re.compile("good"))
    phone.tap("day-ends")
    phone.fill("time-typed", "09:50")  # it is about twenty to ten
    phone.tap("time-keep")
    phone.wait_for_text("fits-day", "Not all will be filled")
    phone.tap("day-ends")
    phone.tap("time-remove")
    expect(phone.page.get_by_test_id("fits-day")).to_have_count(0)


def test_a_late_batch_alarms_on_every_screen_once_and_is_thrown_away(phone: Phone) -> None:
    phone.tap("tap-mixed")
    phone.wait_for_text("countdown-say", "Fresh")
    for count in range(2, 6):
        phone.tap("tap-mixed")
        expect(phone.page.get_by_test_id("batch-line")).to_have_count(3 + count)
    phone.wait_for_text("batch-warning", "will not be used in time")  # five in a row at this pace
    for count in range(4, 0, -1):
        phone.tap("undo")
        expect(phone.page.get_by_test_id("batch-line")).to_have_count(3 + count)
    expect(phone.page.get_by_test_id("batch-warning")).to_have_count(0)
    phone.until("foretold", "localStorage.getItem('evenbed.alarms').includes('use_by')")
    phone.go_to("bed")
    later(phone, 75)
    expect(phone.page.get_by_test_id("alarm")).to_have_attribute("data-code", "use_soon")
    assert len(phone.page.evaluate("window.shaken")) == 1
    phone.tap("alarm-heard")
    expect(phone.page.get_by_test_id("alarm")).to_have_count(0)
    later(phone, 20)
    expect(phone.page.get_by_test_id("alarm")).to_have_attribute("data-code", "use_by")
    phone.page.reload()
    phone.wait_for("alarm")
    assert phone.page.evaluate("window.shaken ?? []") == []  # sounded once; shown until it is heard
    phone.tap("alarm-open")
    phone.wait_for_text("countdown-say", "Too old")
    phone.wait_for_text("batch-warning", "throw it away")
    assert minutes_left(phone) == 5
    for theme in ("light", "dark", "sun"):
        phone.page.evaluate("(theme) => { document.documentElement.dataset.theme = theme; }", theme)
        phone.shot(f"fill-clock-late-{theme}")
        assert faint_text(phone.page, 7.0 if theme == "sun" else 4.5)[1] == []
    assert small_targets(phone.page, THUMB_PX) == []
    assert sticking_out(phone.page) == []
    phone.tap("throw-away")
    expect(phone.page.get_by_test_id("alarm")).to_have_count(0)
    phone.wait_for_text("countdown-say", "No batch waits")
    expect(sections(phone, "waiting")).to_have_count(1)


def test_the_day_book_keeps_a_stop_a_note_with_its_photo_and_forms(phone: Phone) -> None:
    phone.tap("lasting-stopped")
    phone.wait_for("stopped")
    later(phone, 10)
    phone.tap("go-on")
    expect(phone.page.get_by_test_id("stopped")).to_have_count(0)
    phone.tap("add-note")
    phone.fill("note-text", "Sand came wetter than before")
    picture = BytesIO()
    Image.new("RGB", (64, 48), (120, 90, 60)).save(picture, "JPEG")
    file = {"name": "sand.jpg", "mimeType": "image/jpeg", "buffer": picture.getvalue()}
    phone.page.get_by_test_id("note-choose-photo").set_input_files(file)  # type: ignore[arg-type]
    lines = phone.page.get_by_test_id("entry-line")
    expect(lines.first).to_contain_text("Sand came wetter than before")
    expect(lines.first).to_contain_text("1 photo")
    expect(lines.filter(has_text="Work stopped")).to_have_count(1)
    phone.tap("form-E1")
    expect(phone.page.get_by_test_id("form-E1")).to_have_text("Form is set")
    assert "3\u2032" in phone.text("form-edge")


def test_the_mixer_stands_where_it_is_tapped_and_outside_again(phone: Phone) -> None:
    phone.tap("place-mixer")
    phone.page.mouse.click(*middle_of(sections(phone, "waiting").locator("path").first))
    expect(phone.page.locator(".drawing .live-mixer")).to_have_count(1)
    phone.tap("mixer-outside")
    expect(phone.page.locator(".drawing .live-mixer")).to_have_count(0)


def test_a_time_that_was_tapped_too_late_is_corrected(phone: Phone) -> None:
    phone.tap("open-section-1")
    before = phone.text("section-screeded_at")
    phone.tap("section-screeded_at")
    phone.tap("time--5")
    phone.tap("time-keep")
    expect(phone.page.get_by_test_id("section-screeded_at")).not_to_have_text(before)
    phone.tap("section-sheet-close")
    phone.tap("undo")
    phone.tap("open-section-1")
    phone.wait_for_text("section-screeded_at", re.escape(before.split()[-2]))
    phone.tap("section-sheet-close")


def test_the_clock_speaks_spanish(phone: Phone) -> None:
    phone.tap("open-settings")
    phone.tap("language-es")
    phone.tap("units-metric")
    phone.tap("back")
    phone.wait_for("fill-clock")
    assert "Sigue: tramo 4." in phone.text("now-section")
    assert phone.text("tap-mixed").startswith("Amasada hecha")
    assert "0,9" in phone.text("form-edge") or "914" in phone.text("form-edge")  # three feet in millimetres or metres
    assert sticking_out(phone.page) == []
    phone.shot("fill-clock-spanish")
    assert phone.complaints == []
