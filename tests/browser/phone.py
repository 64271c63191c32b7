"""A person's hand on the app: presses keys and buttons by the marks they carry for tests."""

import re
import time
from contextlib import suppress
from dataclasses import dataclass

from playwright.sync_api import BrowserContext, Error, Locator, Page, expect
from tests.browser.hand import Hand
from tests.browser.running import Service
from tests.browser.shots import PICTURED, SHOTS

LOOK_MS = 50
GO = "(path) => { history.pushState(null, '', path); dispatchEvent(new PopStateEvent('popstate')); }"
STILL_MS = 100.0
PLAN_PATIENCE_MS = 30_000  # the engine may have to wake first
expect.set_options(timeout=PLAN_PATIENCE_MS)  # a busy machine is slow, not wrong


@dataclass
class Phone(Hand):
    """One browser profile with one page of the app open in it; what it complained of stays in `complaints`."""

    context: BrowserContext
    page: Page
    complaints: list[str]

    def tap(self, mark: str) -> None:
        """Tap what carries the mark, inside the screen where it stands there more than once."""
        self.page.get_by_test_id(mark).locator("visible=true").last.click()

    def fill(self, mark: str, text: str) -> None:
        """Type into a text field."""
        self.page.get_by_test_id(mark).fill(text)

    def text(self, mark: str) -> str:
        """What the marked element says."""
        return self.page.get_by_test_id(mark).last.inner_text().replace("\n", " ")

    def texts(self, mark: str) -> list[str]:
        """What each element with the mark says."""
        return self.page.get_by_test_id(mark).all_inner_texts()

    def keys(self, *keys: str) -> None:
        """Press keys of the pad."""
        for key in keys:
            self.page.get_by_test_id(f"key-{key}").last.click()

    def shot(self, name: str) -> None:
        """Keep a picture of the screen for a person to look at, where pictures are kept."""
        if not PICTURED:
            return
        SHOTS.mkdir(parents=True, exist_ok=True)
        self.page.screenshot(path=SHOTS / f"{name}.png", full_page=True)

    def wait_for(self, mark: str) -> None:
        """Wait until something with the mark is there."""
        expect(self.page.get_by_test_id(mark).last).to_be_visible(timeout=PLAN_PATIENCE_MS)

    def wait_for_text(self, mark: str, pattern: str) -> None:
        """Wait until the marked element says something the pattern finds."""
        expect(self.page.get_by_test_id(mark).last).to_have_text(re.compile(pattern), timeout=PLAN_PATIENCE_MS)

    def open(self, address: str) -> None:
        """Open the app at an address and wait for its head."""
        self.page.goto(address)
        self.wait_for("save-line")

    def new_tab(self) -> None:
        """Close the tab in mid-job and open another over the same storage."""
        self.page.close()
        self.page = self.context.new_page()

    def lose_network(self) -> None:
        """No request gets through any more."""
        self.context.set_offline(True)

    def find_network(self) -> None:
        """Requests get through again."""
        self.context.set_offline(False)

    def open_room(self, room: str, job: str = "") -> None:
        """From the list of jobs to the room's own screen."""
        self.page.get_by_test_id("job").filter(has_text=job).click()
        self.page.get_by_test_id("room").filter(has_text=room).click()
        expect(self.page.get_by_test_id("course").locator("visible=true")).to_have_count(1)

    def go(self, path: str) -> None:
        """To an address inside the app from any other, as by the browser's own way back: nothing is loaded anew."""
        self.page.evaluate(GO, path)

    def to_jobs(self) -> None:
        """To the list of jobs, likewise."""
        self.go("/")
        self.wait_for("jobs")

    def home(self) -> None:
        """To the list of jobs, as after opening the app again."""
        self.page.goto(self.page.evaluate("location.origin"))
        self.wait_for("jobs")

    def wait_until_kept(self) -> None:
        """Wait until the app's files are on the phone, so that it can open without a network."""
        self.page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        self.until("app kept", "navigator.serviceWorker.controller !== null")

    def until(self, what: str, expression: str) -> None:
        """Wait until the page says yes to the expression; it may load anew meanwhile. Raises TimeoutError."""
        patience = time.monotonic() + PLAN_PATIENCE_MS / 1000
        while time.monotonic() < patience:
            with suppress(Error):  # the page that was asked has gone
                if self.page.evaluate(expression):
                    return
            self.page.wait_for_timeout(LOOK_MS)
        raise TimeoutError(what)

    def go_to(self, step: str) -> None:
        """Open a step of the room: from the course where it is in sight, else by way of the room's own screen."""
        expect(self.page.locator("main[aria-busy=true]")).to_have_count(0)  # a screen in a file of its own has come
        bricks = self.page.get_by_test_id(f"step-{step}").locator("visible=true")
        if not bricks.count():
            self.tap("step-room" if self.page.get_by_test_id("step-room").count() else "back")
        bricks.last.click()

    def open_demo_room(self, service: Service, room: str = "Upstairs bath") -> None:
        """Join the office that has the demo job and open one of its rooms, planned."""
        self.open(service.address)
        self.join(service.join_code(), "Ana")
        self.find_demo_room(room)

    def find_demo_room(self, room: str = "Upstairs bath") -> None:
        """A room of the demo job, planned, from wherever this phone stands."""
        self.to_jobs()
        self.open_room(room)
        self.wait_for("figure-bed-volume-value")

    def shims(self) -> list[list[str]]:
        """The shim table, rail by rail, as it stands on the rails' screen."""
        self.wait_for("station-where")
        self.tap("shim-table")
        tables = self.page.get_by_test_id("shim-sheet").get_by_test_id("shims")
        expect(tables.first).to_be_visible()
        found = [t.locator("tbody td:last-child").all_inner_texts() for t in tables.all()]
        self.tap("shim-sheet-close")
        return found


def middle_of(found: Locator) -> tuple[float, float]:
    """The middle of what was found, once it stands still: a plan that comes meanwhile draws it anew."""
    patience, before, box = time.monotonic() + PLAN_PATIENCE_MS / 1000, None, found.bounding_box()
    while box is None or box != before:
        assert time.monotonic() < patience, "it never stood still"
        found.page.wait_for_timeout(STILL_MS)
        before, box = box, found.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
