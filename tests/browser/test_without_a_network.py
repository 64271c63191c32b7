"""No signal in the basement: the app opens, keeps what is typed, and takes readings whatever the engine does."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Route, expect
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

RECTANGLE = [("9", "left"), ("7", "left"), ("9", "left"), ("7", "left")]
ROUND = [
    ("41", part) for part in (3, 7, 5, 9, 4, 8, 6, 2, 11, 10)
]  # far enough round the room to leave the first wall
ENGINE_FILES = "**/assets/engine-*.json"


def visited_once(service: Service, phone: Phone) -> None:
    """One visit, then neither service nor network."""
    phone.open(service.address)
    phone.wait_until_kept()
    phone.lose_network()
    service.stop()


def begin_square_room(phone: Phone) -> None:
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.walk(RECTANGLE)
    phone.go_to("levels")


def test_the_app_opens_at_its_root_without_a_network_right_after_the_first_visit(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True, engine=False)
    visited_once(service, phone)
    phone.new_tab()
    phone.open(service.address)
    phone.wait_for("new-job")
    phone.wait_for_text("save-line", "^Saved on this phone$")
    assert phone.complaints == []


def test_the_app_opens_at_any_address_without_a_network_right_after_the_first_visit(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True, engine=False)
    visited_once(service, phone)
    begin_square_room(phone)
    address = phone.page.url
    assert address.endswith("/levels")
    phone.new_tab()
    phone.open(address)
    phone.wait_for("keypad")
    phone.open(f"{service.address}/room/019df2e4-d900-7000-8000-0000000000ff/rails")
    expect(phone.page.get_by_text("Nothing here")).to_be_visible()
    assert phone.complaints == []


def test_a_half_typed_number_outlives_leaving_the_screen_a_reload_and_the_tab(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(engine=False)
    visited_once(service, phone)
    begin_square_room(phone)
    phone.keys("4", "1")
    phone.wait_for_text("typed", "^41″$")

    phone.tap("back")
    phone.go_to("levels")
    phone.wait_for_text("typed", "^41″$")
    phone.page.reload()
    phone.wait_for("keypad")
    phone.wait_for_text("typed", "^41″$")
    address = phone.page.url
    phone.new_tab()
    phone.open(address)
    phone.wait_for("keypad")
    phone.wait_for_text("typed", "^41″$")
    phone.keys("part-5")
    phone.wait_for_text("last-reading", r"3′\s5\s5/16″")


def test_a_tab_closed_in_mid_walk_and_in_mid_round_loses_nothing(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(engine=False)
    visited_once(service, phone)
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.keys("9", "feet")
    phone.tap("turn-left")
    phone.keys("7", "feet", "6")
    address = phone.page.url
    phone.new_tab()
    phone.open(address)
    phone.wait_for_text("entry-what", "Wall 2")
    phone.wait_for_text("typed", r"^7′\s6″$")
    phone.tap("turn-left")
    phone.walk([("9", "left"), ("7", "left")])

    phone.go_to("levels")
    phone.read(ROUND[:3])
    phone.new_tab()
    phone.open(service.address)
    phone.wait_for_text("save-line", "6 waiting")  # job, room, outline, 3 readings
    phone.open_room("Hall")
    phone.go_to("levels")
    phone.wait_for_text("entry-what", "Reading 4")
    phone.wait_for_text("last-reading", r"3′\s5\s5/16″")
    assert phone.complaints == []


def test_readings_go_on_while_the_engine_is_still_waking_on_the_very_first_visit(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True)
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    phone.context.route(ENGINE_FILES, hold)
    phone.open(service.address)
    begin_square_room(phone)
    phone.read(ROUND)
    phone.wait_for_text("save-line", f"{3 + len(ROUND)} waiting")
    phone.go_to("bed")
    phone.wait_for_text("engine-waking", "waking up")
    assert held

    for route in held:
        route.continue_()
    phone.context.unroute(ENGINE_FILES)
    phone.wait_for("figure-bed-volume-value")
    assert phone.complaints == []


def test_a_phone_that_cannot_reach_the_engine_takes_readings_says_so_and_reckons_them_later(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True)
    phone.context.route(ENGINE_FILES, lambda route: route.abort())
    phone.open(service.address)
    begin_square_room(phone)
    phone.read(ROUND)
    phone.wait_for_text("levels-note", "could not be reckoned")
    phone.wait_for_text("save-line", f"{3 + len(ROUND)} waiting")
    phone.go_to("bed")
    phone.wait_for_text("engine-failed", "What you entered is safe")

    phone.context.unroute(ENGINE_FILES)
    phone.page.reload()
    phone.wait_for("figure-bed-volume-value")
