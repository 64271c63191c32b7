"""The plan with its lay-out of a room of 30 m²: how long a person waits for it in the browser, and in CPython.

Everything is asked as the phone asks it: after each change first what a screen waits for, then the whole plan, which
finds the bed worked out. A change that leaves the floor alone finds floor and bed, a record the rails as well. What
has no rails stands beside it: the bed alone (`bed_design`), over a floor as new.
"""

import json
import statistics
import tempfile
import time
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

from evenbed.engine.bridge import answer_text
from tests.benchmarks.laid_room import AT_WORK, laid_room
from tests.benchmarks.sizes import Sizes
from tests.benchmarks.worker import answers_ms, engine_page
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.running import Service, free_port

STEP = 5.0  # mm a rail is dragged at a time
WAITED_FOR_MS = 150.0  # what a person is to wait for the plan with its lay-out, at most
SCREENS = ("quick_plan", "plan")
"""What is asked after a change: with all rails, what a screen waits for; then with statistics."""
TIMES = 2  # each change is made, for each run

Case = tuple[str, str]
"""What was changed, and what is asked then."""


def print_laying(sizes: Sizes) -> None:
    """Print the table, measured in the installed Chromium over a real service and in CPython."""
    cases = list(_cases(TIMES * sizes.runs))
    asked = [(question, text) for (_, question), text in cases]
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        service = Service(Path(folder), free_port())
        service.start()
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        try:
            with engine_page(browser, service) as page:
                theirs = answers_ms(page, asked)
        finally:
            browser.close()
            service.stop()
    mine = [_answer_ms(*one) for one in asked]
    _print_table([case for case, _ in cases], theirs, mine)


def _cases(times: int) -> Iterator[tuple[Case, str]]:
    """Every question in the order in which it is asked, with its text."""
    rails = json.loads(answer_text("quick_plan", json.dumps(laid_room())))["rails"]
    for n in range(times + 1):
        floor = laid_room(moved=0.1 * (n + 1))
        changes = {
            "another reading": (laid_room(moved=-0.1 * (n + 1)), ("bed_design",)),
            "a reading": (floor, SCREENS),
            "a rail dragged": (floor | _dragged(floor, rails, STEP * (n + 1)), SCREENS),
            "a check added": (floor | _checked(rails), SCREENS),
            "a batch mixed": (floor | _mixed(n + 1), ("fill_clock", *SCREENS)),
        }
        for change, (document, questions) in changes.items():
            for question in questions:
                clock = {"document": document, "now": AT_WORK.format(minute=n + 2)}
                yield (change, question), json.dumps(clock if question == "fill_clock" else document)


def _dragged(room: dict[str, Any], rails: Sequence[dict[str, Any]], by: float) -> dict[str, Any]:
    """All rails where they were proposed, the second one so much nearer to the first."""
    lines = [{"id": rail["id"], "from": list(rail["from"]), "to": list(rail["to"])} for rail in rails]
    for end in ("from", "to"):
        lines[1][end][_across(rails[1])] -= by
    return {"rails": room["rails"] | {"lines": lines}}


def _across(rail: dict[str, Any]) -> int:
    """Which of x and y is the way across a rail."""
    return 0 if abs(rail["to"][0] - rail["from"][0]) < abs(rail["to"][1] - rail["from"][1]) else 1


def _checked(rails: Sequence[dict[str, Any]]) -> dict[str, Any]:
    along = [{"id": rail["id"], "rail": rail["id"], "to": 600.0, "off": 1.0, "level": "L"} for rail in rails]
    across = {"id": "x", "rails": [rails[0]["id"], rails[1]["id"]], "from": 400.0, "to": 400.0, "off": -1.5}
    return {"checks": [*along, across | {"level": "L", "length": 1200.0}]}


def _mixed(count: int) -> dict[str, Any]:
    mixed = [{"id": f"b{n}", "section": "S1", "mixed_at": AT_WORK.format(minute=n)} for n in range(count)]
    return {"batches": mixed, "placements": [{"section": "S1", "mixed_at": AT_WORK.format(minute=0)}]}


def _answer_ms(question: str, text: str) -> float:
    start = time.perf_counter()
    answer_text(question, text)
    return 1000.0 * (time.perf_counter() - start)


def _print_table(cases: Sequence[Case], theirs: Sequence[float], mine: Sequence[float]) -> None:
    """Median and worst of each; the first time round is left out: the engine had only just come awake."""
    kinds = list(dict.fromkeys(cases))
    print(f"plan with lay-out of 30 m², ms, {len(cases) // len(kinds) - 1} times: median and worst")
    for case in kinds:
        places = [n for n, one in enumerate(cases) if one == case][1:]
        here, there = [mine[n] for n in places], [theirs[n] for n in places]
        ratio = statistics.median(there) / statistics.median(here)
        beyond = sum(ms > WAITED_FOR_MS for ms in there)
        told = f"{' then '.join(case):30s} in a browser {_told(there)}, CPython {_told(here)}, ratio {ratio:.2f}"
        print(f"  {told}; beyond {WAITED_FOR_MS:.0f} ms {beyond} of {len(there)}")


def _told(times: Sequence[float]) -> str:
    return f"{statistics.median(times):6.1f} and {max(times):6.1f}"
