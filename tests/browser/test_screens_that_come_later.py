"""Screens in files of their own: there without a network; where one cannot be had, a way on that loses nothing."""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

RECTANGLE = [("9", "left"), ("7", "left"), ("9", "left"), ("7", "left")]
FILE = "/assets/History-"
FORGET = """
async (start) => {
  let count = 0;
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const kept of await cache.keys()) {
      if (new URL(kept.url).pathname.startsWith(start)) count += await cache.delete(kept);
    }
  }
  return count;
}
"""
"""Takes the app's files whose address starts so from what the phone keeps, and counts them."""


def with_a_room(service: Service, phone: Phone) -> str:
    """A room on the phone, its steps away from the list of jobs; the room's id."""
    phone.open(service.address)
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.walk(RECTANGLE)
    return str(phone.page.url.split("/room/")[1].split("/")[0])


def test_screens_never_opened_before_open_without_a_network_right_after_the_first_visit(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True, engine=False)
    phone.open(service.address)
    phone.wait_until_kept()
    phone.lose_network()
    service.stop()
    room = with_a_room(service, phone)
    for address, sign in (
        (f"/history/room/{room}", "history"),
        (f"/room/{room}/in-out", "way-table_out"),
        ("/people", "for-foremen"),
        ("/review", "review"),
        ("/settings", "settings"),
        (f"/room/{room}/material", "field-mix.batch_volume"),
        (f"/room/{room}/waiting", "add-climate"),
    ):
        phone.open(f"{service.address}{address}")
        phone.wait_for(sign)
    assert phone.complaints == []


def test_a_screen_that_cannot_be_loaded_says_so_and_comes_once_it_can_be(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    """Its file is no longer kept here, as where another tab took an update."""
    phone: Phone = new_phone(engine=False)
    room = with_a_room(service, phone)
    phone.wait_until_kept()
    assert phone.page.evaluate(FORGET, FILE) == 1
    phone.context.new_cdp_session(phone.page).send("Network.clearBrowserCache")
    service.stop()
    phone.open(f"{service.address}/history/room/{room}")
    phone.wait_for("screen-not-here")
    phone.shot("screen-not-here")
    expect(phone.page.get_by_test_id("load-again")).to_be_visible()
    phone.lose_network()
    expect(phone.page.get_by_test_id("load-again")).to_have_count(0)
    phone.find_network()
    service.start()
    phone.tap("screen-again")
    phone.wait_for("history")
