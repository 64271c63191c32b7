"""A phone that joins a company with thousands of readings, against the same answers put bare into its database."""

import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, expect, sync_playwright

from evenbed.store.work import Store
from evenbed.wire.protocol import MOST_RECORDS
from tests.benchmarks.crews import BEGUN, JOB, apply, change, company, reading, requests
from tests.benchmarks.sizes import Sizes
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.phone import Phone
from tests.browser.profiles import PHONE
from tests.browser.running import Service, free_port
from tests.phones import uuid_text
from tests.stores import url_of

READINGS = 200
"""Of each room."""
PATIENCE_MS = 180_000
PUT_BARE = """
async ([token, limit]) => {
  const start = performance.now();
  const pages = [];
  for (let after = 0, view = 0, more = true; more; ) {
    const address = `/api/pull?after=${after}&view=${view}&limit=${limit}`;
    const page = await (await fetch(address, { headers: { authorization: `Bearer ${token}` } })).json();
    pages.push(page.records);
    ({ next: after, view, more } = page);
  }
  const fetched = performance.now() - start;
  const opening = indexedDB.open("bare");
  opening.onupgradeneeded = () => opening.result.createObjectStore("records", { keyPath: ["kind", "id"] });
  await new Promise((done, fail) => { opening.onsuccess = done; opening.onerror = () => fail(opening.error); });
  const transaction = opening.result.transaction("records", "readwrite", { durability: "strict" });
  const records = transaction.objectStore("records");
  for (const record of pages.flat()) records.put(record);
  await new Promise((done, fail) => {
    transaction.oncomplete = done;
    transaction.onabort = () => fail(transaction.error);
  });
  return { count: pages.flat().length, fetched, took: performance.now() - start };
}
"""


def print_pulling(sizes: Sizes) -> None:
    """Print both, the app with all that it does to show them."""
    records = 2 + sizes.rooms + sizes.rooms * READINGS
    with _service(sizes.rooms) as (service, token), sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        try:
            bare = _bare(browser, service, token)
            joined_s = _joined_s(browser, service, sizes.rooms)
        finally:
            browser.close()
    assert bare["count"] == records
    bare_s = bare["took"] / 1000.0
    print(f"{records} records pulled into Chromium, s, against the same answers put bare into IndexedDB at once")
    print(f"  joined, stored and shown {joined_s:6.2f}  bare {bare_s:6.2f}  ratio {joined_s / bare_s:5.2f}", end="  ")
    print(f"(asking alone takes {bare['fetched'] / 1000.0:.2f})")


@contextmanager
def _service(rooms: int) -> Iterator[tuple[Service, str]]:
    with tempfile.TemporaryDirectory() as folder:
        file, token = company(Path(folder))
        with closing(Store(url_of(file))) as store:
            for push in requests(_work(rooms)):
                apply(store, push)
        service = Service(Path(folder), free_port())
        service.start()
        try:
            yield service, token
        finally:
            service.stop()


def _work(rooms: int) -> list[dict[str, Any]]:
    """So many rooms, and readings in each of them."""
    ids = [uuid_text(30_000 + room) for room in range(rooms)]
    first = BEGUN + 1
    begun = [
        change(first + n, "room", one, {"job_id": JOB, "name": f"Room {n + 1}"}, phone=1) for n, one in enumerate(ids)
    ]
    readings = [reading(first + rooms + number, ids[number % rooms], phone=1) for number in range(rooms * READINGS)]
    return begun + readings


def _bare(browser: Browser, service: Service, token: str) -> dict[str, Any]:
    page = browser.new_context().new_page()
    page.route("**/blank", lambda route: route.fulfill(body="<!doctype html>", content_type="text/html"))
    page.goto(f"{service.address}/blank")
    told: dict[str, Any] = page.evaluate(PUT_BARE, [token, MOST_RECORDS])
    page.context.close()
    return told


def _joined_s(browser: Browser, service: Service, rooms: int) -> float:
    """From the tap that joins to the list of rooms that says how many readings each has; the engine is left out."""
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True, locale="en-US")
    context.route("**/assets/engine-*.json", lambda route: route.abort())
    phone = Phone(context, context.new_page(), [])
    phone.open(service.address)
    code = service.join_code()
    start = time.perf_counter()
    phone.join(code, "Ana")
    phone.page.get_by_test_id("job").filter(has_text="Mill End").click()
    full = phone.page.get_by_test_id("room").filter(has_text=f"{READINGS} readings")
    expect(full).to_have_count(rooms, timeout=PATIENCE_MS)
    took = time.perf_counter() - start
    context.close()
    return took
