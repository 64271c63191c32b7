"""The phones of these tests have been to the app before, and know nothing of each other."""

from collections.abc import Callable
from typing import Any

import pytest
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

LEAVE_SOMETHING = """() => {
  localStorage.setItem("left", "here");
  document.cookie = "left=here; max-age=3600";
}"""
FOUND = """async () => {
  const names = (await indexedDB.databases()).map(({ name }) => name);
  return { names, stored: localStorage.length, cookie: document.cookie, caches: (await caches.keys()).length };
}"""


def found_on(phone: Phone, address: str) -> dict[str, Any]:
    """What the browser holds for the app's address before the app has run."""
    phone.page.goto(f"{address}/manifest.webmanifest")
    found: dict[str, Any] = phone.page.evaluate(FOUND)
    return found


def test_a_phone_has_the_app_but_nothing_of_the_one_before_it(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    one: Phone = new_phone(engine=False)
    one.open(service.address)
    one.join(service.join_code(), "Ana")
    one.begin_room("Heron Court 3", "Mill End", "Hall")
    one.page.evaluate(LEAVE_SOMETHING)
    left = found_on(one, service.address)
    assert left["names"]
    assert left["cookie"]
    assert one.context.cookies()

    other: Phone = new_phone(engine=False)
    assert found_on(other, service.address) == {"names": [], "stored": 0, "cookie": "", "caches": left["caches"]}
    assert left["caches"] >= 2  # the app's files, and the engine's memory
    assert other.context.cookies() == []
    other.open(service.address)
    other.wait_for_text("save-line", "^Saved on this phone$")
    assert other.texts("job") == []


def test_a_phone_opens_without_reaching_the_service_even_once(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(engine=False)
    service.stop()
    phone.open(service.address)
    phone.wait_for_text("save-line", "^Saved on this phone$")


def test_a_cold_phone_never_heard_of_the_app(service: Service, new_phone: Callable[..., Phone]) -> None:
    phone: Phone = new_phone(cold=True, engine=False)
    assert found_on(phone, service.address) == {"names": [], "stored": 0, "cookie": "", "caches": 0}
