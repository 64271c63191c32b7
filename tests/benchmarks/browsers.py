"""The engine in a real browser: its start, a plan of 200 readings beside CPython's, and the bytes to first use."""

import tempfile
import time
from pathlib import Path

from playwright.sync_api import Browser, Page, Response, sync_playwright

from tests.benchmarks.floors import read_anew, read_floor
from tests.benchmarks.plans import asking, best_ms
from tests.benchmarks.sizes import Sizes
from tests.browser.chromium import FLAGS, chromium_path
from tests.browser.running import Service, free_port

WAKE_PATIENCE_S = 60.0
SNAPSHOT_MS = 10_000  # at most: the picture of the engine's memory is kept in the background, after the start
ASK = """
async ([workerUrl, texts, lingerMs]) => {
  const worker = new Worker(workerUrl, { type: "module" });
  const next = () => new Promise((answer, fail) => {
    worker.onmessage = ({ data }) => (data.say === "broken" ? fail(new Error(data.why)) : answer(data));
  });
  const awake = await next();
  const times = [];
  for (const alike of texts) {
    let least = Infinity;
    for (const [run, text] of alike.entries()) {
      const start = performance.now();
      worker.postMessage({ id: run, question: "plan", text });
      await next();
      least = Math.min(least, performance.now() - start);
    }
    times.push(least);
  }
  const until = performance.now() + lingerMs;
  const isKept = async () => (await (await caches.open("evenbed-engine-memory")).keys()).length > 0;
  while (performance.now() < until && !(await isKept())) await new Promise((done) => { setTimeout(done, 50); });
  worker.terminate();
  return { wake: awake.tookMs, fromSnapshot: awake.fromSnapshot, times };
}
"""


def print_browser(sizes: Sizes) -> None:
    """Print what a phone waits for and carries, measured in the installed Chromium over a real service."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        service = Service(Path(folder), free_port())
        service.start()
        browser = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        try:
            _print_bytes(browser, service)
            _print_engine(browser, service, sizes)
        finally:
            browser.close()
            service.stop()


def _print_bytes(browser: Browser, service: Service) -> None:
    """A first visit with nothing kept, until the engine is awake: each address counted once, as it travelled."""
    page = browser.new_context(service_workers="block").new_page()
    responses: dict[str, Response] = {}
    page.on("response", lambda response: _keep_first(responses, response))
    start = time.perf_counter()
    page.goto(service.address)
    page.get_by_test_id("jobs").wait_for()
    seen = time.perf_counter()
    _wait_until_awake(page)
    awake = time.perf_counter()
    size = sum(r.request.sizes()["responseBodySize"] for r in responses.values() if r.url.startswith(service.address))
    print(f"first visit in Chromium: screen after {seen - start:.1f} s, engine awake after {awake - start:.1f} s")
    print(f"  bytes to first use {size / 1e6:.2f} MB in {len(responses)} answers, as they travelled")
    page.context.close()


def _keep_first(responses: dict[str, Response], response: Response) -> None:
    responses.setdefault(response.url, response)


def _wait_until_awake(page: Page) -> None:
    patience = time.monotonic() + WAKE_PATIENCE_S
    while not page.evaluate("performance.getEntriesByName('engine wakes').length"):
        if time.monotonic() > patience:
            raise TimeoutError("The engine did not wake.")
        time.sleep(0.05)


def _print_engine(browser: Browser, service: Service, sizes: Sizes) -> None:
    page = browser.new_context().new_page()
    page.route("**/blank", lambda route: route.fulfill(body="<!doctype html>", content_type="text/html"))
    page.goto(f"{service.address}/blank")
    texts = [read_anew(read_floor(count), sizes.runs) for count in sizes.readings]
    cold = page.evaluate(ASK, [_worker_address(), [texts[0][:1]], SNAPSHOT_MS])
    second = page.evaluate(ASK, [_worker_address(), texts, 0])
    print(f"engine start: cold {cold['wake']:.0f} ms, second {second['wake']:.0f} ms", end=" ")
    print("(from its picture)" if second["fromSnapshot"] else "(no picture was kept)")
    print(f"full plan in the browser, ms (best of {sizes.runs}), against the same in CPython")
    for count, alike, theirs in zip(sizes.readings, texts, second["times"], strict=True):
        mine = best_ms(asking("plan", alike), sizes.runs)
        print(f"  {count:5d} readings  {theirs:8.1f}  CPython {mine:8.1f}  ratio {theirs / mine:5.2f}")


def _worker_address() -> str:
    assets = Path(__file__).parents[2] / "web" / "dist" / "assets"
    return "/assets/" + next(p.name for p in assets.glob("worker-*.js"))
