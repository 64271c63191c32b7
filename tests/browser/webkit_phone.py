"""A person's hand on the app in WebKit: presses keys and buttons by the marks they carry for tests."""

import re
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from selenium.common.exceptions import WebDriverException
from selenium.webdriver import WebKitGTK
from selenium.webdriver.common.by import By
from selenium.webdriver.remote.webelement import WebElement
from tests.browser.hand import Hand
from tests.browser.shots import PICTURED, SHOTS

PATIENCE_S = 120.0  # the engine's first start takes several seconds, many more on a busy machine
LOOK_S = 0.03
KEEP_COMPLAINTS = """
const note = (text) => sessionStorage.setItem("complaints", `${sessionStorage.getItem("complaints") ?? ""}${text}\n`);
addEventListener("error", (event) => note(event.message));
addEventListener("unhandledrejection", (event) => note(String(event.reason)));
console.error = (...words) => note(words.join(" "));
"""
WAKES = """
return performance.getEntriesByName("engine wakes").map(({ duration, detail }) => [duration, detail.fromSnapshot]);
"""
PICTURES = """
const done = arguments[0];
caches.open("evenbed-engine-memory").then((cache) => cache.keys()).then((found) => done(found.length));
"""

HIDDEN = """
const box = (found) => document.querySelector(found).getBoundingClientRect();
const { top, bottom } = box("main.room");
const isHidden = (at) => at.top < top || at.bottom > Math.min(bottom, innerHeight);
return [...arguments].filter((mark) => isHidden(box(`[data-testid="${mark}"]`)));
"""

T = TypeVar("T")


@dataclass
class WebKitPhone(Hand):
    """One tab with the app in it."""

    driver: WebKitGTK

    def open(self, address: str) -> None:
        """Open the app at an address and wait for its head."""
        self.driver.get(address)
        self._begin()

    def reload(self) -> None:
        """Load the same address again."""
        self.driver.refresh()
        self._begin()

    def _begin(self) -> None:
        self.driver.execute_script(KEEP_COMPLAINTS)
        self.wait_for("save-line")

    def complaints(self) -> list[str]:
        """Errors the page told of, before a reload too."""
        kept: str | None = self.driver.execute_script("return sessionStorage.getItem('complaints')")
        return kept.splitlines() if kept else []

    def resize(self, width: int, height: int) -> None:
        """Give the page another phone's size."""
        bar = self.driver.get_window_size()["height"] - self.driver.execute_script("return innerHeight")
        self.driver.set_window_size(width, height + bar)
        size = "return innerWidth === arguments[0] && innerHeight === arguments[1]"
        self.until(f"{width} by {height}", lambda: self.driver.execute_script(size, width, height))

    def hidden(self, *marks: str) -> list[str]:
        """Those of the marked things that are not wholly in sight."""
        found: list[str] = self.driver.execute_script(HIDDEN, *marks)
        return found

    def until(self, what: str, look: Callable[[], T]) -> T:
        """The first answer that is something; elements may come, move and go meanwhile. Raises TimeoutError."""
        patience, trouble = time.monotonic() + PATIENCE_S, ""
        while time.monotonic() < patience:
            try:
                if found := look():
                    return found
            except WebDriverException as error:
                trouble = str(error.msg)
            time.sleep(LOOK_S)
        raise TimeoutError(f"{what}: {trouble}\n{self.driver.find_element(By.TAG_NAME, 'body').text}")

    def shown(self, mark: str) -> list[WebElement]:
        """What carries the mark and can be seen."""
        return [e for e in self.driver.find_elements(By.CSS_SELECTOR, f'[data-testid="{mark}"]') if e.is_displayed()]

    def wait_for(self, mark: str) -> WebElement:
        """Wait until something with the mark is there."""
        return self.until(mark, lambda: self.shown(mark)[-1:])[0]

    def wait_for_text(self, mark: str, pattern: str) -> str:
        """Wait until what is marked says something the pattern finds; all that it says."""

        def said() -> str:
            texts = [element.text for element in self.shown(mark)]
            return texts[-1] if texts and re.search(pattern, texts[-1]) else ""

        return self.until(f"{mark} {pattern}", said)

    def tap(self, mark: str) -> None:
        """Tap what carries the mark, as soon as nothing covers it."""

        def tapped() -> bool:
            for element in self.shown(mark)[-1:]:
                element.click()
                return True
            return False

        self.until(mark, tapped)

    def fill(self, mark: str, text: str) -> None:
        """Type into a text field."""
        field = self.wait_for(mark)
        field.clear()
        field.send_keys(text)

    def keys(self, *keys: str) -> None:
        """Press keys of the pad."""
        for key in keys:
            self.tap(f"key-{key}")

    def shot(self, name: str) -> None:
        """Keep a picture of the screen for a person to look at, where pictures are kept."""
        if not PICTURED:
            return
        SHOTS.mkdir(parents=True, exist_ok=True)
        self.driver.save_screenshot(str(SHOTS / f"{name}.png"))

    def engine_wakes(self) -> tuple[float, bool]:
        """Wait until the engine is awake: how long that took in milliseconds, and whether from the kept picture."""
        found: list[Any] = self.until("engine wakes", lambda: self.driver.execute_script(WAKES))
        return found[-1][0], found[-1][1]

    def version(self) -> str:
        """Which version's page this is, as a test marked it."""
        marked: str = self.driver.execute_script("return document.documentElement.dataset.version ?? ''")
        return marked

    def wait_until_kept(self) -> None:
        """Wait until the app's files are on the phone, so that it can open without a network."""
        held = "return navigator.serviceWorker.controller !== null"
        self.until("app kept", lambda: self.driver.execute_script(held))

    def wait_until_engine_kept(self) -> None:
        """Wait until the picture of the engine's memory is on the phone."""
        self.until("engine kept", lambda: self.driver.execute_async_script(PICTURES))

    def go_to(self, step: str) -> None:
        """Open a step of the room: from the course where it is in sight, else by way of the room's own screen."""
        self.until("the screen", lambda: not self.driver.find_elements(By.CSS_SELECTOR, "main[aria-busy=true]"))
        if not self.shown(f"step-{step}"):
            self.tap("step-room" if self.shown("step-room") else "back")
        self.tap(f"step-{step}")
