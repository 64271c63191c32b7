"""The height under a thumb: the engine's answer in the browser beside CPython's, and how soon the page shows it."""

import json
import statistics
import tempfile
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, sync_playwright

from evenbed.engine.bridge import answer_text
from tests.benchmarks.floors import read_floor
from tests.benchmarks.sizes import Sizes
from tests.benchmarks.worker import answers_ms, engine_page
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.phone import Phone
from tests.browser.profiles import phone_of, unvisited
from tests.browser.pushed import push_job
from tests.browser.running import Service, free_port

READINGS = 60  # a typical room
STEP = 25.4 / 8
FALL_STEP = 0.0001
STEPS = 12
SHOWN = "performance.getEntriesByName('trial shown').map(({ startTime, duration }) => [startTime, duration])"


def print_deciding(sizes: Sizes) -> None:
    """Print what a moved height waits for, measured in the installed Chromium over a real service."""
    asked = {"level": moved_heights(STEPS * sizes.runs), "round drain": moved_falls(STEPS * sizes.runs)}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        service = Service(Path(folder), free_port())
        service.start()
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        try:
            print(f"a top moved a little, {READINGS} readings, {STEPS * sizes.runs} times: median and worst ms")
            for kind, texts in asked.items():
                _print_answers(browser, service, kind, texts)
            _print_shown(browser, service)
        finally:
            browser.close()
            service.stop()


def moved_heights(count: int) -> list[str]:
    """One room under as many level tops, an eighth of an inch apart, as JSON."""
    room = read_floor(READINGS)
    return [json.dumps(room | {"bed": {"top": {"kind": "level", "height": 40.0 + n * STEP}}}) for n in range(count)]


def moved_falls(count: int) -> list[str]:
    """One room under as many falls to a round drain, as JSON."""
    room = read_floor(READINGS) | {"fixtures": [{"id": "d", "kind": "drain", "at": [1800.0, 1800.0], "radius": 50.0}]}
    tops = ({"kind": "to_drain", "drain": "d", "fall": 0.02 + n * FALL_STEP} for n in range(count))
    return [json.dumps(room | {"bed": {"top": top}}) for top in tops]


def _print_answers(browser: Browser, service: Service, kind: str, texts: list[str]) -> None:
    """The first answer of each is left out: it works out the floor, which the next ones keep."""
    with engine_page(browser, service) as page:
        first, *theirs = answers_ms(page, [("bed_design", text) for text in texts])
    mine = [_answer_ms(text) for text in texts][1:]
    ratio = statistics.median(theirs) / statistics.median(mine)
    print(f"  {kind:11s} in a browser {_told(theirs)} (first {first:.1f}), CPython {_told(mine)}, ratio {ratio:.2f}")


def _answer_ms(text: str) -> float:
    start = time.perf_counter()
    answer_text("bed_design", text)
    return 1000.0 * (time.perf_counter() - start)


def _print_shown(browser: Browser, service: Service) -> None:
    room = read_floor(READINGS)
    push_job(service, "Bench", [{"name": "Moved", "outline": room["outline"], "readings": room["readings"]}])
    with phone_of(unvisited(browser, office=False)) as phone:
        phone.open(service.address)
        phone.join(service.join_code(), "Ana")
        phone.to_jobs()
        phone.open_room("Moved")
        phone.go_to("bed")
        phone.wait_for("effects")
        times = [_shown_ms(phone) for _ in range(STEPS)]
    print(f"  answer to figures on the page  {_told(times)}")


def _shown_ms(phone: Phone) -> float:
    """One tap: from the engine's answer until the page's figures are the new ones."""
    before: list[Any] = phone.page.evaluate(SHOWN)
    phone.tap("top-up")
    phone.until(
        "figures shown", f"JSON.stringify({SHOWN}) !== {json.dumps(json.dumps(before, separators=(',', ':')))}"
    )
    duration: float = phone.page.evaluate(SHOWN)[0][1]
    return duration


def _told(times: list[float]) -> str:
    return f"{statistics.median(times):.1f} and {max(times):.1f}"
