"""The app's own engine worker on an empty page of a browser: questions put to it one by one, each answer timed."""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Page, Route

from tests.browser.running import Service

DIST = Path(os.environ.get("EVENBED_WEB", Path(__file__).parents[2] / "web" / "dist"))
ASK = """
async ([workerUrl, asked]) => {
  const worker = new Worker(workerUrl, { type: "module" });
  const next = () => new Promise((answer, fail) => {
    worker.onmessage = ({ data }) => (data.say === "broken" ? fail(new Error(data.why)) : answer(data));
  });
  await next();
  const times = [];
  for (const [id, [question, text]] of asked.entries()) {
    const start = performance.now();
    worker.postMessage({ id, question, text });
    await next();
    times.push(performance.now() - start);
  }
  worker.terminate();
  return times;
}
"""

Asked = tuple[str, str]
"""A question's name and its text."""


@contextmanager
def engine_page(browser: Browser, service: Service) -> Iterator[Page]:
    """An empty page of the service, which may start the app's worker."""
    context = browser.new_context()
    page = context.new_page()
    page.route("**/blank", _blank)
    page.goto(f"{service.address}/blank")
    yield page
    context.close()


def answers_ms(page: Page, asked: Sequence[Asked]) -> list[float]:
    """How long each of the questions took, put to a new worker one after the other, ms; its start is not counted."""
    worker = "/assets/" + next(path.name for path in (DIST / "assets").glob("worker-*.js"))
    times: list[float] = page.evaluate(ASK, [worker, list(asked)])
    return times


def _blank(route: Route) -> None:
    route.fulfill(body="<!doctype html>", content_type="text/html")
