"""Nothing is stuck on a phone: a file of what was not sent, with a broken app too; an update keeps what waits."""

import json
import os
import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.bare_files import bare_files
from tests.browser.looks import faint_text, small_targets, sticking_out
from tests.browser.people import foreman_of
from tests.browser.phone import Phone
from tests.browser.records import pulled_records
from tests.browser.running import ROOT, Service

pytestmark = pytest.mark.browser

ALL_SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"
BREAK_THE_APP = """async () => {
  const source = document.querySelector("script[type=module]").src;
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      if (request.url.split("?")[0] !== source) continue;
      const headers = { "Content-Type": "text/javascript" };
      await cache.put(request, new Response("throw new Error('broken')", { headers }));
    }
  }
}"""


@pytest.fixture
def app(tmp_path: Path) -> Path:
    """A copy of the built app, that a next version can take the place of."""
    built = Path(os.environ.get("EVENBED_WEB", ROOT / "web" / "dist"))
    return Path(shutil.copytree(built, tmp_path / "app"))


@pytest.fixture
def service_of_app(app: Path, tmp_path: Path, port: int, monkeypatch: pytest.MonkeyPatch) -> Iterator[Service]:
    """A service that serves that copy."""
    monkeypatch.setenv("EVENBED_WEB", str(app))
    running = Service(tmp_path, port)
    running.start()
    yield running
    running.stop()


def begin_offline(phone: Phone, service: Service) -> None:
    """A job, a room and its outline on a phone that never joined: three changes wait."""
    phone.open(service.address)
    phone.wait_until_kept()
    phone.lose_network()
    phone.begin_room("Heron Court 3", "Mill End", "Hall")
    phone.walk([("8", "left")] * 4)
    phone.wait_for_text("save-line", "3 waiting")


def saved_file(phone: Phone, mark: str, folder: Path) -> Path:
    with phone.page.expect_download() as download:
        phone.tap(mark)
    kept = folder / download.value.suggested_filename
    download.value.save_as(kept)
    return kept


def test_with_the_app_broken_and_no_network_what_was_not_sent_is_saved_and_read_in_on_another_phone(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    broken: Phone = new_phone(cold=True, engine=False)
    begin_offline(broken, service)
    broken.page.evaluate(BREAK_THE_APP)
    broken.page.goto(service.address)
    expect(broken.page.get_by_test_id("to-rescue")).to_be_hidden()
    expect(broken.page.get_by_test_id("to-rescue")).to_be_visible(timeout=20_000)
    expect(broken.page.get_by_test_id("save-line")).to_have_count(0)
    broken.shot("not-started")
    broken.tap("to-rescue")
    kept = saved_file(broken, "rescue-save", tmp_path)
    broken.wait_for_text("rescue-told", r"Saved as a file: 3 waiting.*Guardado en un archivo: 3")
    broken.shot("rescue")
    assert small_targets(broken.page, 56) + sticking_out(broken.page) == []
    assert faint_text(broken.page, 7.0)[1] == []
    assert len(json.loads(kept.read_text())["changes"]) == 3
    assert [text for text in broken.complaints if "broken" not in text] == []

    olga = foreman_of(service, new_phone(office=True, engine=False))
    olga.tap("open-settings")
    olga.page.get_by_test_id("unsent-file").set_input_files(kept)
    olga.wait_for_text("unsent-told", "Read: 3 new changes")
    olga.wait_for_text("save-line", ALL_SENT)
    olga.home()
    olga.open_room("Hall", "Heron Court 3")
    expect(olga.page.locator(".sheet .wall").first).to_be_attached()


def test_the_page_for_rescue_says_so_where_nothing_was_ever_stored(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    phone: Phone = new_phone(engine=False)
    phone.page.goto(f"{service.address}/rescue.html")
    kept = saved_file(phone, "rescue-save", tmp_path)
    phone.wait_for_text("rescue-told", "Saved as a file: 0 waiting")
    assert json.loads(kept.read_text())["changes"] == []
    assert phone.complaints == []


def test_the_settings_say_what_the_browser_promised_what_is_used_and_save_a_file_in_every_state(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(f"{service.address}/settings")
    phone.wait_for_text("promise", "has not been asked yet|has promised")
    saved_file(phone, "save-unsent", tmp_path)
    phone.wait_for_text("unsent-saved", "No change waits to be sent")
    odd = tmp_path / "odd.json"
    for text, told in (("[]", "no file of unsent changes"), ('{"evenbed_unsent": 1, "changes": 7}', "damaged")):
        odd.write_text(text)
        phone.page.get_by_test_id("unsent-file").set_input_files(odd)
        phone.wait_for_text("unsent-told", told)

    begin_offline(phone, service)
    phone.tap("open-settings")
    phone.wait_for_text("promise", r"Asked \w{3}, .* did not promise|has promised")
    phone.wait_for_text("used", r"^[\d.]+ MB used of \d+ MB$")
    file = saved_file(phone, "save-unsent", tmp_path)
    phone.wait_for_text("unsent-saved", "3 changes")
    phone.page.get_by_test_id("unsent-file").set_input_files(file)
    phone.wait_for_text("unsent-told", "Read: 0 new changes")
    phone.wait_for_text("save-line", "3 waiting")
    assert phone.complaints == []


def put_next_version(app: Path) -> None:
    """A page that can be told from the last one, and a service worker that knows it."""
    page, worker = app / "index.html", app / "service-worker.js"
    page.write_text(page.read_text().replace("<html", '<html data-version="next"'))
    told, changes = re.subn(r'("?url"?:\s*"/index.html",\s*"?revision"?:\s*")\w+"', r'\1next"', worker.read_text())
    assert changes == 1
    worker.write_text(told)
    for packed in (*app.glob("index.html.*"), *app.glob("service-worker.js.*")):
        packed.unlink()


def test_a_new_version_is_taken_with_everything_that_waits_and_sends_it(
    service_of_app: Service, app: Path, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(cold=True, engine=False)
    foreman_of(service_of_app, phone, "Ana")
    phone.wait_until_kept()
    service_of_app.stop()
    with bare_files(app, service_of_app.port):
        phone.begin_room("Heron Court 3", "Mill End", "Hall")
        phone.walk([("8", "left")] * 4)
        phone.go_to("levels")
        phone.keys("4", "1")
        put_next_version(app)
        phone.page.reload()
        phone.wait_for("accept-update")
        assert phone.page.locator("html").get_attribute("data-version") is None
        phone.tap("accept-update")
        expect(phone.page.locator("html")).to_have_attribute("data-version", "next", timeout=20_000)
        phone.wait_for_text("typed", "^41″")
        phone.wait_for_text("save-line", "3 waiting")
        expect(phone.page.get_by_test_id("accept-update")).to_have_count(0)

    service_of_app.start()
    phone.page.reload()
    phone.wait_for_text("save-line", ALL_SENT)
    sent = {record["kind"] for record in pulled_records(service_of_app)}
    assert sent == {"job", "room"}
    assert phone.complaints == []
