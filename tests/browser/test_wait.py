"""Waiting without a network: a logger's file and a forecast taken in, the windows held against an independent sum,
a milestone let pass by somebody who looked, frost foretold, a file that cannot be read, and all of it in Spanish."""

import re
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from playwright.sync_api import FilePayload, expect
from tests.browser.levels import hall_of
from tests.browser.phone import LOOK_MS, PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service
from tests.browser.waits_by_hand import FORECAST_F, likely_by_hand

pytestmark = pytest.mark.browser

# Feet: 12 by 9, no place more than half an inch above the others.
WALLS = [("12", "left"), ("9", "left"), ("12", "left"), ("9", "left")]
READINGS = [("40", 8) if n == 7 else ("41", 1 + n * 5 % 4) for n in range(10)]
PLACED_H = 30  # ago, when all of it was in place
STEP_MIN = 30
MILESTONES = 5
A_MINUTE = timedelta(minutes=1)
TWO_MINUTES = 2 * A_MINUTE  # moments are shown without their seconds, and placed is known to a second or two
HALF_A_DEGREE = 0.5 + 1e-6  # temperatures are shown in whole degrees


@pytest.fixture(scope="module")
def phone(shared_phones: Callable[..., Phone], shared_service: Service) -> Phone:
    """A room walked and read without a network, on the screen of its waiting."""
    phone = hall_of(shared_phones(), shared_service, WALLS, READINGS)
    phone.go_to("waiting")
    return phone


def logged(now: datetime) -> list[tuple[datetime, float]]:
    """What the logger saw since placing: a day's swing in °F, to the tenth."""
    start = now.replace(second=0, microsecond=0) - timedelta(hours=PLACED_H, minutes=10)
    moments = [start + timedelta(minutes=STEP_MIN * n) for n in range(2 * PLACED_H)]
    return [
        (at, round(64.0 + 8.0 * float(np.sin(at.hour / 24.0 * 2.0 * np.pi)) - n * 0.05, 1))
        for n, at in enumerate(moments)
    ]


def csv_from(rows: list[tuple[datetime, float]], bad: int | None = None) -> FilePayload:
    """As a logger in the United States writes it: a line of its own first, then a header, dates and °F."""
    lines = [f'"{n}","{at:%m/%d/%Y %I:%M:%S %p}","{value}"' for n, (at, value) in enumerate(rows, start=1)]
    if bad is not None:
        lines[bad] = f'"{bad + 1}","{rows[bad][0]:%m/%d/%Y %I:%M:%S %p}","sensor lost"'
    text = "\r\n".join(['"#","Date Time","Temp, °F"', *lines]) + "\r\n"
    return {"name": "bed logger 3.csv", "mimeType": "text/csv", "buffer": text.encode()}


def type_forecast(phone: Phone, days: list[tuple[int, int]]) -> None:
    """Lows and highs of the next days, one key after the other."""
    phone.tap("add-forecast")
    for figure in (figure for day in days for figure in day):
        phone.keys(*str(figure), "next")
    expect(phone.page.get_by_test_id("keypad")).to_have_count(0)
    phone.tap("keep-forecast")
    expect(phone.page.locator("dialog[open]")).to_have_count(0)


def moment_from(text: str, near: datetime) -> datetime:
    """`Nov 30, 2:53 PM` as a moment, in the year in which it lies nearest to another one."""
    found = [datetime.strptime(f"{near.year + n} {text}", "%Y %b %d, %I:%M %p") for n in (-1, 0, 1)]  # noqa: DTZ007
    return min((one.replace(tzinfo=near.tzinfo) for one in found), key=lambda one: abs(one - near))


def here_now() -> datetime:
    """What clocks on the wall here say, with their offset."""
    return datetime.now(UTC).astimezone()


Windows = dict[str, list[datetime]]


def day_of(at: datetime) -> str:
    """A moment's day as the screen has it, which midnight changes."""
    return "today" if at.date() == here_now().date() else "yesterday"


def windows_shown(phone: Phone, near: datetime) -> Windows:
    """Early, likely and late of each milestone, from the table beside the picture."""
    phone.tap("plot-table")
    shown = phone.page.get_by_test_id("plot-figures").locator("table").first.locator("tbody tr")
    expect(shown).to_have_count(MILESTONES)
    rows = shown.all()
    cells = [row.locator("th, td").all_inner_texts() for row in rows]
    phone.tap("plot-table")
    return {name: [moment_from(text, near) for text in texts] for name, *texts in cells}


def windows_once(phone: Phone, near: datetime, are_those: Callable[[Windows], bool]) -> Windows:
    """The windows as soon as they are those that are waited for, or as they stand when patience ends."""
    patience = time.monotonic() + PLAN_PATIENCE_MS / 1000.0
    while True:
        windows = windows_shown(phone, near)
        if are_those(windows) or time.monotonic() > patience:
            return windows
        phone.page.wait_for_timeout(LOOK_MS)


def amiss(windows: Windows, by_hand: dict[str, datetime]) -> list[str]:
    """The milestones whose likely moment is not the one reckoned by hand."""
    return [name for name, moment in by_hand.items() if abs(windows[name][1] - moment) > TWO_MINUTES]


def test_windows_from_a_logger_and_a_typed_forecast_are_those_of_an_independent_sum(phone: Phone) -> None:
    now = here_now()
    expect(phone.page.get_by_test_id("next")).to_have_count(0)
    phone.tap("field-placed-ago")
    phone.keys(*str(PLACED_H), "next")
    placed = here_now() - timedelta(hours=PLACED_H)
    phone.wait_for("next")
    sections = phone.page.locator("[data-testid^=placed-section-]")
    assert sections.count() > 1
    expect(sections.filter(has_text="Now")).to_have_count(0)  # the whole bed, each of its sections
    rows = logged(now)
    phone.tap("add-log")
    phone.page.get_by_test_id("log-file").set_input_files(csv_from(rows))
    phone.wait_for_text("log-facts", rf"^{len(rows)} temperatures")
    assert phone.page.get_by_test_id("log-unit-fahrenheit").get_attribute("aria-pressed") == "true"
    assert phone.page.get_by_test_id("log-days-month").get_attribute("aria-pressed") == "true"
    shown = [int(figure) for figure in re.findall(r"(\d+)\u202f°F", phone.text("log-facts"))]
    assert shown == pytest.approx([edge(value for _, value in rows) for edge in (min, max)], abs=HALF_A_DEGREE)
    phone.shot("wait-log")
    phone.tap("keep-log")
    phone.wait_for_text("temperature_log-line", rf"bed logger 3\.csv: {len(rows)} temperatures")
    today = here_now().replace(hour=0, minute=0, second=0, microsecond=0)
    type_forecast(phone, FORECAST_F)
    expect(phone.page.get_by_test_id("forecast-line")).to_have_count(len(FORECAST_F))
    by_hand = likely_by_hand(rows, placed, today)
    windows = windows_once(phone, now, lambda windows: not amiss(windows, by_hand))
    assert not amiss(windows, by_hand), f"{windows} shown, {by_hand} by hand"
    for name, (early, likely, late) in windows.items():
        assert early < likely < late, name
    assert by_hand["Set tile"] < rows[-1][0] < by_hand["Grout"], (
        "one of them rests on what was measured, one does not"
    )
    phone.shot("wait-windows")


def test_a_prediction_never_ticks_itself_but_somebody_who_looked_does_by_name_and_time(phone: Phone) -> None:
    walk = phone.page.get_by_test_id("milestone-walk")
    expect(walk).to_have_attribute("data-state", "should_be_ready")
    phone.tap("look-walk")
    assert "never ticks itself" in phone.text("tick")
    phone.tap("tick-how-sounding")
    assert phone.page.get_by_test_id("keep-tick").is_disabled()
    phone.fill("tick-by", "Ben Okafor")
    phone.tap("tick-when")
    phone.tap("time--5")
    phone.tap("time--5")
    phone.tap("time-keep")
    looked = here_now() - timedelta(minutes=10)
    phone.tap("keep-tick")
    expect(walk).to_have_attribute("data-state", "ticked")
    told = walk.get_by_test_id("ticked").inner_text()
    assert "Ben Okafor" in told
    assert "Sounded by tapping" in told
    clocks = [rf"{day_of(at)} {at:%-I:%M}\s{at:%p}" for at in (looked, looked - A_MINUTE)]
    assert any(re.search(clock, told) for clock in clocks), told
    walk.get_by_test_id("tick-history").click()
    phone.wait_for_text("story-step", "Ben Okafor")
    phone.tap("back")
    phone.go_to("waiting")
    phone.wait_for("milestones")
    phone.shot("wait-ticked")
    phone.tap("undo")
    expect(walk).to_have_attribute("data-state", "should_be_ready")
    expect(phone.page.get_by_test_id("ticked")).to_have_count(0)


def test_the_same_day_is_no_choice_once_its_time_has_passed_and_a_choice_made_before_stands(phone: Phone) -> None:
    expect(phone.page.get_by_test_id("too-late-same_day")).to_be_visible()
    expect(phone.page.get_by_test_id("choose-same_day")).to_have_count(0)
    phone.tap("field-placed-ago")
    phone.keys("1", "next")
    phone.tap("choose-same_day")
    expect(phone.page.get_by_test_id("tile-undo")).to_be_visible()
    for _ in range(2):  # the choice, and when it was placed
        phone.tap("undo")
    expect(phone.page.get_by_test_id("too-late-same_day")).to_be_visible()


def test_sections_still_to_be_placed_are_told_where_times_are_read(phone: Phone) -> None:
    phone.tap("placed-section-1")
    phone.tap("time-remove")
    expect(phone.page.get_by_test_id("placed-in-part")).to_be_visible()
    phone.tap("placed-section-2")
    phone.tap("time-remove")
    phone.tap("placed-section-2")  # now
    expect(phone.page.get_by_test_id("placed-section-2")).not_to_contain_text("Now")
    assert phone.page.get_by_test_id("section-ahead-2").count() == 0  # it came with the time, or never
    expect(phone.page.get_by_test_id("placed-now")).to_have_text(re.compile(r"^The section left is placed: now"))
    for _ in range(3):
        phone.tap("undo")
    expect(phone.page.get_by_test_id("placed-in-part")).to_have_count(0)


def test_a_look_before_the_window_is_asked_about_once_more_with_the_reason(phone: Phone) -> None:
    heavy = phone.page.get_by_test_id("milestone-heavy_traffic")
    expect(heavy).to_have_attribute("data-state", "waiting")
    phone.tap("look-heavy_traffic")
    phone.fill("tick-by", "Ana")
    phone.tap("keep-tick")
    assert "after this look" in phone.text("tick-early")
    phone.tap("tick-wait")
    expect(heavy).to_have_attribute("data-state", "waiting")
    phone.tap("look-heavy_traffic")
    phone.tap("keep-tick")
    phone.tap("tick-all-the-same")
    expect(heavy).to_have_attribute("data-state", "ticked")
    expect(phone.page.locator("[data-code=ticked_early]").first).to_be_visible()
    heavy.get_by_test_id("take-tick-back").click()
    expect(heavy).to_have_attribute("data-state", "waiting")


def test_a_file_that_cannot_be_read_is_told_line_by_line_and_nothing_is_lost(phone: Phone) -> None:
    before = phone.texts("temperature_log-line")
    phone.tap("add-log")
    phone.page.get_by_test_id("log-file").set_input_files(csv_from(logged(here_now()), bad=4))
    phone.wait_for_text("log-problems", "^1 line is in the way")
    assert 'Line 6: "sensor lost" is not a temperature.' in phone.text("log")
    expect(phone.page.get_by_test_id("keep-log")).to_have_count(0)
    phone.shot("wait-bad-log")
    phone.tap("log-close")
    assert phone.texts("temperature_log-line") == before
    phone.tap("add-log")
    phone.wait_for_text("log-problems", "^1 line is in the way")
    phone.tap("log-let-go")
    expect(phone.page.locator("dialog[open]")).to_have_count(0)
    assert phone.texts("temperature_log-line") == before


def test_frost_foretold_while_the_bed_hardens_is_told_with_what_to_do(phone: Phone) -> None:
    expect(phone.page.get_by_test_id("spell-frost")).to_have_count(0)
    type_forecast(phone, [(18, 30), (15, 28), (17, 29), *FORECAST_F[3:]])
    expect(phone.page.get_by_test_id("spell-frost").first).to_be_visible()
    told = phone.page.get_by_test_id("spell-frost").first.inner_text()
    for word in ("Frost", "Foretold", "Heat the room"):
        assert word in told
    phone.shot("wait-frost")


def test_the_waiting_is_told_in_spanish(phone: Phone) -> None:
    phone.tap("open-settings")
    phone.tap("language-es")
    phone.tap("back")
    phone.wait_for("next")
    assert phone.text("look-walk") == "Alguien miró"
    assert "Helada" in phone.page.get_by_test_id("spell-frost").first.inner_text()
    assert re.search(r"^Probable .* Entre .* y ", phone.text("next-window"))
    phone.shot("wait-es")
    assert phone.complaints == []
