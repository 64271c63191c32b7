"""The finished bed checked on the phone without a network: read, mapped, judged, worked over, read again."""

import re

import pytest
from playwright.sync_api import expect
from tests.browser.levels import begin_floor, here, spots, wait_for_pattern
from tests.browser.phone import Phone, middle_of

pytestmark = pytest.mark.browser

WALLS = [("9", "left"), ("8", "left"), ("9", "left"), ("8", "left")]
FLOOR = (5, 9, 3, 12, 7, 1, 10, 4)  # sixteenths over 41": the subfloor
FLAT = ("38", 8)  # inches and sixteenths of the rod on the bed, everywhere but in the dip
DIP = 6
"""In the middle of the room the rod reads so many sixteenths more. All round it the bed is flat: a straightedge
across rests level on both sides and stands open by just that, 3/8 in (9.5 mm), wherever the other readings are."""
MOST_READINGS = 60
CLASS = "bs_8204_sr2"  # 5 mm under 2 m


@pytest.fixture(scope="module")
def checked(joined: Phone) -> str:
    """The address of the check of a room whose subfloor was read without a network, held against one class."""
    joined.lose_network()
    joined.to_jobs()
    begin_floor(joined, "Wash room", WALLS)
    wait_for_pattern(joined)
    for sixteenths in FLOOR:
        here(joined, "41", sixteenths)
    joined.go_to("checking")
    joined.tap("standard")
    joined.tap(f"standard-{CLASS}")
    joined.wait_for_text("standard", "BS 8204, SR2")
    address: str = joined.page.evaluate("location.pathname")
    return address


@pytest.fixture
def room(phone: Phone, checked: str) -> Phone:
    """The phone at the check of that room, with the newest plan of it."""
    phone.go(checked)
    phone.wait_for("verdict")
    expect(phone.page.locator(".verdict.is-old")).to_have_count(0)
    return phone


def tap_floor(phone: Phone, across: float, down: float) -> None:
    """Tap the drawing at shares of its first wall's length from that wall's left end."""
    wall = phone.page.locator(".room-drawing .walls .wall").first.bounding_box()
    assert wall is not None
    phone.page.mouse.click(wall["x"] + wall["width"] * across, wall["y"] + wall["height"] * down)


def choose_standard(phone: Phone, standard: str) -> None:
    """Hold the bed against another rule."""
    phone.tap("standard")
    phone.tap(f"standard-{standard}")
    expect(phone.page.get_by_test_id("standards")).to_have_count(0)


def read_flat(phone: Phone) -> int:
    """Read flat bed wherever the check asks, until it asks no more. How many readings that took."""
    for taken in range(MOST_READINGS):
        last = phone.page.get_by_test_id("entry-what").last
        expect(last).not_to_have_text(re.compile("Working out where to read next"))
        before = last.inner_text()  # a newer plan may find meanwhile that nothing more is to be read
        if phone.page.get_by_test_id("on-to-check").count():
            return taken
        here(phone, *FLAT)
        expect(last).not_to_have_text(before)
    raise AssertionError(f"More than {MOST_READINGS} readings were asked for.")


def lay_edge(phone: Phone, *ends: tuple[float, float]) -> None:
    """Lay a straightedge by hand: two taps on the drawing of its own screen."""
    phone.tap("lay-edge")
    expect(phone.page.locator(".at-edge .room-drawing .walls .wall").first).to_be_visible()
    for end in ends:
        tap_floor(phone, *end)
    phone.wait_for("under-edge")


def test_a_dip_that_was_read_is_told_by_its_depth_against_the_limit(room: Phone) -> None:
    room.wait_for_text("verdict", "Not read yet")
    room.tap("read-bed")
    room.wait_for_text("still-stands", "has it stood still")
    room.tap("setup-stands")
    expect(room.page.get_by_test_id("still-stands")).to_have_count(0)
    room.page.mouse.click(*middle_of(room.page.locator(".room-drawing .walls .wall").first))
    rod = room.page.locator(".room-drawing .spot.current")
    tapped = middle_of(rod)
    here(room, FLAT[0], FLAT[1] + DIP + 1)
    room.wait_for_text("last-reading", "15/16")
    assert middle_of(rod) != tapped
    room.tap("undo")
    expect(room.page.get_by_test_id("last-reading")).to_have_count(0)
    room.wait_for_text("entry-what", r"Bed reading 1\b")
    assert middle_of(rod) == pytest.approx(tapped, abs=1.0)  # px
    here(room, FLAT[0], FLAT[1] + DIP)
    room.wait_for_text("last-reading", "7/8")
    assert read_flat(room) >= 4
    room.shot("check-read")
    room.tap("on-to-check")
    room.wait_for_text("verdict", "Beyond the limit")
    room.wait_for_text("verdict", r"3/8″ stands open under a 6′\s6\s3/4″ straightedge")
    room.tap("figure-flatness-checks-0-gap")
    room.wait_for("explain-source")
    room.tap("explain-close")
    room.shot("check-home")


def test_the_levels_show_the_subfloor_alone(room: Phone) -> None:
    room.go_to("levels")
    expect(spots(room, "read").or_(spots(room, "suspect"))).to_have_count(len(FLOOR))
    room.wait_for_text("entry-what", rf"Reading {len(FLOOR) + 1}\b")


def test_the_map_is_told_in_a_table_too(room: Phone) -> None:
    expect(room.page.locator(".room-drawing .fill.flat path[d^=M]").first).to_be_visible()
    room.tap("map-table")
    rows = room.page.get_by_test_id("map-figures").locator("tbody tr")
    expect(rows).to_have_count(room.page.locator(".room-drawing .spot:is(.read, .high, .low)").count())
    assert len(set(rows.locator("td").all_inner_texts())) == 2  # flat, and the dip
    room.tap("check-layer-gaps")
    expect(room.page.locator(".room-drawing .edge-bar.beyond")).not_to_have_count(0)
    expect(rows.first.locator("td")).to_have_text("3/8″")
    room.tap("map-table")


def test_a_gap_typed_under_a_straightedge_is_judged_at_once_and_a_slip_loses_nothing(room: Phone) -> None:
    lay_edge(room, (0.1, 0.15), (0.6, 0.15))
    room.tap("type-gap")
    room.keys("3", "0", "feet", "next")
    room.wait_for_text("wedge", "is no gap under a straightedge")
    room.tap("wedge-close")
    room.tap("type-gap")
    room.wait_for_text("typed", "30′")  # what was typed is there still
    room.keys("back", "back", "back", "part-4")
    room.wait_for_text("wedge-verdict", "1/4″ measured.*Beyond the limit")
    room.shot("check-wedge")
    room.tap("back")
    room.page.get_by_test_id("measured-gap").click()
    room.wait_for_text("gap-verdict", "Beyond the limit")
    room.tap("correct-gap")
    room.keys("part-2", "next")
    expect(room.page.get_by_test_id("gap-sheet")).to_have_count(0)
    room.wait_for_text("measured-gap", "Within the limit.*1/8″")


def test_a_straightedge_runs_through_no_wall(room: Phone) -> None:
    lay_edge(room, (0.5, 0.2), (0.9, 0.2))
    room.tap("edge-long-0")
    room.wait_for_text("edge-fit", r"6′\s6\s3/4″ long, moved along its line")
    room.wait_for_text("edge-length", r"6′\s6\s3/4″")
    expect(room.page.get_by_test_id("edge-outside")).to_have_count(0)
    room.tap("field-edge-to-0")
    room.keys("9", "9", "9", "next")
    room.wait_for_text("edge-outside", "Part of it lies outside the room")
    room.tap("edge-cut")
    expect(room.page.get_by_test_id("edge-outside")).to_have_count(0)
    room.tap("edge-up")
    expect(room.page.get_by_test_id("edge-length")).to_have_count(0)


def test_a_line_of_heights_is_typed_one_after_another_and_the_one_undo_takes_the_last_back(room: Phone) -> None:
    room.tap("height-line")
    for sixteenths in (1, 2, 3, 9):
        here(room, "38", sixteenths)
        room.wait_for_text("line-last", f"{sixteenths}/16|1/8″")
    room.tap("undo")
    room.wait_for_text("entry-what", "Height 4")
    room.page.reload()
    room.wait_for_text("entry-what", "Height 4")
    here(room, "38", 1)
    room.tap("keep-line")
    room.page.get_by_test_id("measured-line").click()
    expect(room.page.get_by_test_id("line-heights").locator("li")).to_have_text(["0″", "−1/16″", "−1/8″", "0″"])
    room.tap("line-sheet-close")


def test_what_was_filled_up_counts_once_it_is_read_again(room: Phone) -> None:
    first = room.page.locator('[data-testid="work"][data-work="K1"]')
    expect(first).to_contain_text("Fill up")
    first.get_by_test_id("work-done").click()
    first.get_by_test_id("work-was-done").wait_for()
    room.shot("check-work")
    first.get_by_test_id("read-it-again").click()
    room.wait_for("keypad")
    read_flat(room)
    room.tap("on-to-check")
    room.wait_for_text("verdict", "Within the limit")
    room.shot("check-within")


def test_a_straightedge_passed_over_the_whole_bed_judges_what_the_readings_cannot(room: Phone) -> None:
    choose_standard(room, "ansi_a108_02")
    room.wait_for_text("verdict", r"Readings too far apart to say.*Under a 12″ straightedge")
    room.tap("pass-over")
    room.wait_for_text("passing", "I passed a 12″ straightedge over the whole bed")
    room.shot("check-pass")
    tap_floor(room, 0.3, 0.5)
    room.wait_for_text("wedge", "Gap under a 12″ straightedge")
    room.keys("5", "0", "feet", "next")
    room.wait_for_text("wedge", "is no gap under a straightedge")
    room.keys("back", "back", "back", "part-1")
    room.wait_for_text("verdict", "Within the limit")
    room.page.get_by_test_id("measured-gap").first.click()
    room.wait_for_text("passed-over", "✓ Passed over the whole bed")
    room.tap("gap-sheet-close")
    choose_standard(room, CLASS)
    room.wait_for_text("verdict", r"Within the limit.*6′\s6\s3/4″ straightedge")


def test_in_spanish_and_millimetres_the_same_bed_is_told(room: Phone) -> None:
    room.tap("open-settings")
    room.tap("language-es")
    room.tap("units-metric")
    room.tap("back")
    room.wait_for_text("verdict", "Dentro del límite")
    room.wait_for_text("verdict", r"El límite es 5\smm")
    room.wait_for_text("limit-0", r"Regla de 2\sm")
    room.shot("check-es")
