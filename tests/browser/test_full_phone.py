"""A phone whose storage is full says so, keeps what is typed, loses nothing, and saves once there is room."""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.running import Service
from tests.faults.written import check_whole, written_on

pytestmark = pytest.mark.browser

RECTANGLE = [("9", "left"), ("7", "left"), ("9", "left"), ("7", "left")]
ROUND = [("41", 3), ("41", 7), ("41", 5)]
QUOTA = 1_000_000
FULL = "this phone is full"
TYPED = r"40\s9/16″"
BALLAST = """
  const opening = indexedDB.open("ballast");
  opening.onupgradeneeded = () => opening.result.createObjectStore("ballast", { autoIncrement: true });
  await new Promise((done, fail) => { opening.onsuccess = done; opening.onerror = () => fail(opening.error); });
  const noise = (size) => Array.from({ length: size }, () => String.fromCharCode(33 + Math.random() * 90)).join("");
  const put = (size) => new Promise((answer) => {
    const transaction = opening.result.transaction("ballast", "readwrite");
    transaction.objectStore("ballast").put(noise(size));
    transaction.oncomplete = () => answer("");
    transaction.onabort = () => answer(transaction.error?.name ?? "aborted");
  });
"""
FILL = f"""
async () => {{ {BALLAST}
  let added = 0;
  for (const size of [100000, 10000, 1000, 100, 10]) {{
    while (added < 5000 && (await put(size)) === "") added += 1;
  }}
  opening.result.close();
  return added < 5000;
}}
"""
"""Something else of the same browser takes all that is left, to the last bytes. True once nothing more is taken."""
PROBE = f"""
async () => {{ {BALLAST}
  const said = [];
  for (const size of [1000, 100, 10]) said.push(await put(size));
  opening.result.close();
  return said;
}}
"""
"""What the browser says to one more of each size; nothing where it took it."""
PROBES, PROBE_MS, IN_A_ROW = 100, 50, 3
MAKE_ROOM = """
() => new Promise((done, fail) => {
  const deleting = indexedDB.deleteDatabase("ballast");
  deleting.onsuccess = () => done();
  deleting.onerror = () => fail(deleting.error);
})
"""


def open_small(phone: Phone, service: Service) -> None:
    """The app on a phone that grants it next to nothing, as when other things have filled it; nothing is planned."""
    phone.context.route("**/assets/engine-*.json", lambda route: route.abort())
    grant(phone, service, QUOTA)
    phone.open(service.address)


def grant(phone: Phone, service: Service, quota: int) -> None:
    told = {"origin": service.address, "quotaSize": quota}
    phone.context.new_cdp_session(phone.page).send("Storage.overrideQuotaForOrigin", told)


def fill(phone: Phone, service: Service) -> None:
    """The browser reckons with what it granted until that is used up; then it asks, and hears that there is none.

    It may tidy up meanwhile and take a little more: it counts as full once it has refused everything, time and again.
    """
    assert phone.page.evaluate(FILL)
    grant(phone, service, 1)
    refused = 0
    for _ in range(PROBES):
        full = set(phone.page.evaluate(PROBE)) == {"QuotaExceededError"}
        refused = refused + 1 if full else 0
        if refused == IN_A_ROW:
            return
        phone.page.wait_for_timeout(PROBE_MS)
    raise AssertionError("This phone is not full.")


def make_room(phone: Phone, service: Service) -> None:
    grant(phone, service, 10 * QUOTA)
    phone.page.evaluate(MAKE_ROOM)


def test_a_full_phone_says_so_keeps_what_is_typed_and_saves_it_when_there_is_room(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True)
    open_small(phone, service)
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.walk(RECTANGLE)
    phone.go_to("levels")
    phone.read(ROUND)

    fill(phone, service)
    phone.keys("4", "0", "part-9")
    phone.wait_for_text("save-line", FULL)
    phone.wait_for_text("typed", TYPED)
    phone.shot("full-phone")
    check_whole(written := written_on(phone.page), len(ROUND))
    assert len(written.readings) == len(ROUND)

    make_room(phone, service)
    phone.keys("next")
    phone.wait_for_text("entry-what", r"\b5\b")
    expect(phone.page.get_by_test_id("save-line")).not_to_contain_text(FULL)
    assert len(written_on(phone.page).readings) == len(ROUND) + 1
    phone.page.reload()
    phone.wait_for_text("entry-what", r"\b5\b")
    assert set(phone.complaints) <= {"Not saved: full"}


def test_a_full_phone_still_hands_over_what_it_holds_and_what_was_typed_follows(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True)
    open_small(phone, service)
    phone.begin_room("Heron Court 3", "Upper Ferry", "Hall")
    phone.walk(RECTANGLE)
    phone.go_to("levels")
    phone.read(ROUND)
    levels = phone.page.url
    phone.home()
    phone.join(service.join_code(), "Ana")
    phone.wait_for_text("save-line", r"^Saved on this phone · sent ")

    phone.open(levels)
    fill(phone, service)
    phone.keys("4", "0", "part-9")
    phone.wait_for_text("save-line", FULL)
    phone.wait_for_text("typed", TYPED)
    make_room(phone, service)
    phone.keys("next")
    phone.wait_for_text("save-line", r"^Saved on this phone · sent ")
    assert len(written_on(phone.page).readings) == len(ROUND) + 1
