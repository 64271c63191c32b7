"""Browsers with a profile of their own for every phone, most of them as after a first visit to the app.

What a first visit costs, the app's files and the engine's first start, is paid once for each address: the profile is
kept, and every phone has a copy of it. It holds no record, no setting, no cookie: nobody has joined or typed yet.
"""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, ViewportSize
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.phone import Phone
from tests.browser.running import Service

PHONE: ViewportSize = {"width": 360, "height": 740}
OFFICE: ViewportSize = {"width": 1440, "height": 900}
LOOK_MS = 100
PATIENCE_LOOKS = 600
PICTURES = "caches.open('evenbed-engine-memory').then((cache) => cache.keys()).then((kept) => kept.length)"
NEVER_AWAKE = """
const Own = Worker;
window.Worker = new Proxy(Own, {
  construct: (_, [address, given]) => given?.name === "engine"
    ? Object.assign(new EventTarget(), { postMessage() {}, terminate() {} })
    : new Own(address, given),
});
"""
TYPED = "cookies,indexeddb,local_storage"
"""What a person's use of an app leaves, in the browser's own words."""


def first_visit(browser: Browser, folder: Path, port: int) -> Path:
    """The profile of a phone that has opened the app at that port, no more. Nothing may listen there yet."""
    data, profile = folder / "data", folder / "profile"
    data.mkdir()
    service = Service(data, port)
    service.start()
    try:
        with phone_of(profiled(browser, profile, office=False)) as phone:
            phone.open(service.address)
            phone.wait_until_kept()
            _wait_for_picture(phone)
            _forget_typed(phone, service.address)
    finally:
        service.stop()
    return profile


def _wait_for_picture(phone: Phone) -> None:
    """Until the engine's memory is kept. Raises TimeoutError where it never is."""
    for _ in range(PATIENCE_LOOKS):
        if phone.page.evaluate(PICTURES):
            return
        phone.page.wait_for_timeout(LOOK_MS)
    raise TimeoutError("No picture of the engine's memory was kept.")


def _forget_typed(phone: Phone, address: str) -> None:
    phone.page.goto("about:blank")
    browser = phone.context.new_cdp_session(phone.page)
    browser.send("Storage.clearDataForOrigin", {"origin": address, "storageTypes": TYPED})


def copied(profile: Path, folder: Path) -> Path:
    """A copy of a profile that no browser has open, in a new folder."""
    return Path(shutil.copytree(profile, folder))


def profiled(browser: Browser, profile: Path, *, office: bool) -> BrowserContext:
    """A browser of its own over the profile."""
    context: BrowserContext = browser.browser_type.launch_persistent_context(
        profile, executable_path=chromium_path(), args=list(FLAGS), **_looks(office=office)
    )
    return context


def keep_asleep(context: BrowserContext) -> BrowserContext:
    """From the next page on, the browser never gets round to running the engine; all else goes on as ever."""
    context.add_init_script(NEVER_AWAKE)
    return context


def unvisited(browser: Browser, *, office: bool) -> BrowserContext:
    """A context of the browser in which nothing was ever opened."""
    return browser.new_context(**_looks(office=office))


def _looks(*, office: bool) -> Any:
    size = OFFICE if office else PHONE
    return {"viewport": size, "has_touch": not office, "is_mobile": not office, "locale": "en-US"}


@contextmanager
def phone_of(context: BrowserContext) -> Iterator[Phone]:
    """A phone in the context, closed at the end."""
    phone = Phone(context, context.pages[0] if context.pages else context.new_page(), [])
    context.on("weberror", lambda error: phone.complaints.append(str(error.error)))
    context.on("console", lambda message: _note(phone, message))
    try:
        yield phone
    finally:
        context.close()


def _note(phone: Phone, message: ConsoleMessage) -> None:
    """Failed requests are what a lost network looks like; anything else on the console is a fault."""
    if message.type == "error" and "Failed to load resource" not in message.text:
        phone.complaints.append(message.text)
