"""Which room when: the board without a network, small and wide; a calendar made, followed and revoked; a file."""

import re
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import httpx
import icalendar
import pytest
from playwright.sync_api import expect
from tests.browser.looks import faint_text, small_targets, sticking_out
from tests.browser.people import foreman_of
from tests.browser.phone import Phone
from tests.browser.pushed import FIRST_ROOM, push_job
from tests.browser.running import Service
from tests.documents import Json
from tests.forecasters import Foreteller, foreteller, says
from tests.phones import uuid_text
from tests.questions import answer_to

pytestmark = pytest.mark.browser

NOW = datetime.now(UTC).replace(microsecond=0)
OUTLINE = {"vertices": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]}
READINGS: list[Json] = [{"at": [x, y], "down": 1000 + n} for n, (x, y) in enumerate(OUTLINE["vertices"])]
HALL, BATH, ATTIC = (uuid_text(FIRST_ROOM + n) for n in range(3))
HALL_PLACED, BATH_PLACED = NOW - timedelta(hours=2), NOW - timedelta(days=20)
MILESTONES = ("walk", "tile", "grout", "light_traffic", "heavy_traffic")
DAYS_FORETOLD = 9
THUMB_PX, SUN_RATIO = 56, 7.0
SENT = r"sent \d+:\d\d"


def cold_days() -> Json:
    """A cold week: everything takes longer than at the temperature that is assumed without one."""
    days = [f"{NOW + timedelta(days=n - 1):%Y-%m-%d}" for n in range(DAYS_FORETOLD)]
    return {
        "utc_offset_seconds": 0,
        "daily": {
            "time": days,
            "temperature_2m_min": [2.0] * DAYS_FORETOLD,
            "temperature_2m_max": [9.0] * DAYS_FORETOLD,
        },
    }


@pytest.fixture(scope="module")
def weather() -> Iterator[Foreteller]:
    with foreteller(says(cold_days())) as told:
        yield told


@pytest.fixture(scope="module")
def office_service(
    tmp_path_factory: pytest.TempPathFactory, port: int, visited: Path, weather: Foreteller
) -> Iterator[Service]:
    """A service that asks for the weather, with a job of three rooms: just placed, placed long ago, not placed."""
    assert visited.exists()
    running = Service(tmp_path_factory.mktemp("dates"), port, {"EVENBED_FORECAST": weather.address})
    running.start()
    push_job(running, "Maple house", [room("Hall", HALL_PLACED), room("Bath", BATH_PLACED), room("Attic", None)])
    yield running
    running.stop()


def room(name: str, placed: datetime | None) -> Json:
    records = [("placement", {"section": "s1", "placed_at": placed.isoformat()})] if placed else []
    return {"name": name, "outline": OUTLINE, "readings": READINGS, "records": records}


@pytest.fixture(scope="module")
def window(office_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    return foreman_of(office_service, shared_phones(office=True))


@pytest.fixture(scope="module")
def pocket(office_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    phone = foreman_of(office_service, shared_phones(), "Otto")
    phone.page.set_viewport_size({"width": 360, "height": 740})
    return phone


def rows_of(phone: Phone, group: str) -> list[str]:
    """The rooms of a group of the board, once nothing is being worked out any more."""
    phone.wait_for("board")
    expect(phone.page.get_by_test_id("board-busy")).to_have_count(0)
    expect(phone.page.get_by_test_id("board-asked")).to_have_count(0)
    rows = phone.page.get_by_test_id(f"board-{group}").get_by_test_id("board-row")
    return [text.replace("\n", " ") for text in rows.all_inner_texts()]


def expected(placed: datetime) -> dict[str, Json]:
    """The engine's windows of a room that nobody measured a temperature in."""
    document = {
        "document": 1,
        "outline": OUTLINE,
        "readings": READINGS,
        "placements": [{"placed_at": placed.isoformat()}],
    }
    answer = answer_to("waiting", document=document, now=NOW.isoformat())
    return {row["milestone"]: row for row in answer["countdown"]}


def events_in(content: bytes) -> dict[str, Any]:
    calendar: Any = icalendar.Calendar.from_ical(content)
    events = {str(event["uid"]): event for event in calendar.walk("VEVENT")}
    assert [*calendar.errors, *(error for event in events.values() for error in event.errors)] == []
    return events


def uids(*rooms: str) -> set[str]:
    return {f"{one}-{milestone}@evenbed" for one in rooms for milestone in MILESTONES}


def test_the_board_tells_which_room_when_in_a_wide_window(window: Phone) -> None:
    window.to_jobs()
    window.tap("open-board")
    window.wait_for("board")
    (due,), (coming,) = rows_of(window, "due"), rows_of(window, "coming")
    assert "Maple house, Bath" in due
    assert "Maple house, Hall" in coming
    assert "Walk on it" in coming
    assert [text.split(" ", 2)[2] for text in rows_of(window, "bare")] == ["Attic"]
    assert small_targets(window.page, THUMB_PX) == []
    bars = window.page.get_by_test_id("week-bar")
    in_reach = [row for row in expected(HALL_PLACED).values() if hours_ahead(row["early"]) < 6 * 24]
    assert len(in_reach) <= bars.count() <= len(MILESTONES)
    assert sticking_out(window.page) == []
    window.shot("board-wide")


def hours_ahead(at: str) -> float:
    return (datetime.fromisoformat(at) - NOW) / timedelta(hours=1)


def test_the_board_works_on_a_small_phone_without_a_network_and_in_spanish(pocket: Phone) -> None:
    pocket.wait_until_kept()
    pocket.lose_network()
    pocket.to_jobs()
    pocket.tap("to-board")
    (coming,) = rows_of(pocket, "coming")
    left = hours_ahead(expected(HALL_PLACED)["walk"]["likely"])
    shown = re.search(r"(\d+)\s*h", coming)
    assert shown is not None, coming
    assert abs(float(shown[1]) - left) <= 1.0
    assert sticking_out(pocket.page) == []
    assert small_targets(pocket.page, THUMB_PX) == []
    pocket.shot("board-phone")
    pocket.tap("open-settings")
    pocket.tap("language-es")
    pocket.go("/board")
    expect(pocket.page.get_by_role("heading", name="Qué cuarto y cuándo")).to_be_visible()
    assert sticking_out(pocket.page) == []
    pocket.shot("board-phone-spanish")
    pocket.go("/settings")
    pocket.tap("language-en")
    pocket.tap("theme-sun")
    pocket.go("/board")
    (_,) = rows_of(pocket, "coming")
    assert faint_text(pocket.page, SUN_RATIO)[1] == []
    pocket.go("/settings")
    pocket.tap("theme-light")


def test_dates_are_saved_for_the_phone_s_own_calendar_without_a_network(pocket: Phone) -> None:
    pocket.lose_network()
    pocket.to_jobs()
    pocket.open_room("Hall")
    pocket.go_to("waiting")
    with pocket.page.expect_download() as saved:
        pocket.tap("save-dates")
    assert saved.value.suggested_filename == "Hall.ics"
    events = events_in(Path(saved.value.path()).read_bytes())
    assert set(events) == uids(HALL)
    for milestone, row in expected(HALL_PLACED).items():
        event = events[f"{HALL}-{milestone}@evenbed"]
        assert event["dtstart"].dt == datetime.fromisoformat(row["early"])
        assert event["dtend"].dt == datetime.fromisoformat(row["late"])
        assert str(event["summary"]).startswith("Maple house, Hall: ")


def test_the_address_needs_the_office_and_says_so(pocket: Phone) -> None:
    pocket.lose_network()
    pocket.go("/settings")
    pocket.wait_for("calendar-offline")
    expect(pocket.page.get_by_test_id("make-calendar")).to_be_disabled()
    assert sticking_out(pocket.page) + small_targets(pocket.page, THUMB_PX) == []


def made_address(phone: Phone) -> str:
    phone.go("/settings")
    phone.tap("make-calendar")
    return phone.page.get_by_test_id("calendar-address").input_value()


def test_a_subscribed_calendar_follows_a_changed_forecast_and_dies_when_it_is_revoked(window: Phone) -> None:
    address = made_address(window)
    assert sticking_out(window.page) + small_targets(window.page, THUMB_PX) == []
    window.shot("calendar-address")
    before = events_in(httpx.get(address).raise_for_status().content)
    assert set(before) == uids(HALL, BATH)
    walk = expected(HALL_PLACED)["walk"]
    assert before[f"{HALL}-walk@evenbed"]["dtstart"].dt == datetime.fromisoformat(walk["early"])
    take_cold_days(window)
    after = events_in(httpx.get(address).raise_for_status().content)
    assert set(after) == set(before)
    for uid, event in after.items():
        assert int(event["sequence"]) > int(before[uid]["sequence"])
    for milestone in MILESTONES:
        uid = f"{HALL}-{milestone}@evenbed"
        assert after[uid]["dtend"].dt > before[uid]["dtend"].dt, "cold stretches every wait"
    window.go("/settings")
    window.tap("revoke-calendar")
    expect(window.page.get_by_test_id("calendar-since")).to_have_count(0)
    assert httpx.get(address).status_code == 404


def take_cold_days(window: Phone) -> None:
    """The job says where it is, and the days ahead come from the service that the setting names."""
    window.to_jobs()
    window.page.get_by_test_id("job").click()
    window.tap("change-job")
    window.fill("job-on-earth", "41.88, -87.63")
    assert sticking_out(window.page) + small_targets(window.page, THUMB_PX) == []
    window.tap("keep-on-earth")
    window.tap("change-job-close")
    window.page.get_by_test_id("room").filter(has_text="Hall").click()
    window.go_to("waiting")
    window.tap("take-forecast")
    window.wait_for_text("forecast-said", f"{DAYS_FORETOLD} days")
    window.wait_for_text("save-line", SENT)


def test_the_page_of_a_job_tells_what_each_room_waits_for_next(window: Phone) -> None:
    window.to_jobs()
    window.page.get_by_test_id("job").click()
    hall = window.page.get_by_test_id("room").filter(has_text="Hall").get_by_test_id("next-line")
    expect(hall).to_contain_text("Walk on it")
    expect(window.page.get_by_test_id("room").filter(has_text="Attic").get_by_test_id("next-line")).to_have_count(0)
    window.shot("job-next")
