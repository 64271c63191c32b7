"""The whole job in the browser engine of iPhones: no network, a reload, then the office."""

import json
import os
import re
import shutil
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from selenium.webdriver.common.by import By
from tests.browser.records import document_from_records, pulled_records
from tests.browser.running import ROOT, Service, free_port
from tests.browser.webkit import webkit
from tests.browser.webkit_phone import WebKitPhone

from evenbed.engine.bridge import answer_text

pytestmark = [
    pytest.mark.browser,
    # Selenium's class for this browser calls another of Selenium's in a way that it means to give up.
    pytest.mark.filterwarnings("ignore:setting remote_server_addr in RemoteConnection:DeprecationWarning"),
]

CUBIC_FOOT_M3 = 0.3048**3
INCH = 25.4
WALLS = [("12", "left"), ("5", "left"), ("5", "right"), ("4", "left"), ("7", "left"), ("9", "left")]
READINGS = [("41", part) for part in (5, 9, 3, 12, 7, 1, 10, 4)]
ROOM = "Wash room"
VOLUME = "figure-bed-volume-value"
SHIM = "station-shim"

# What pages get on phones of 2016 to 2022, in the browser and from the home screen; from memory, no source.
PAGE_SIZES = [(375, 553), (375, 647), (390, 664), (360, 740)]


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[WebKitPhone]:
    with webkit(tmp_path / "browser") as driver:
        yield WebKitPhone(driver)


@pytest.fixture
def app(tmp_path: Path) -> Path:
    """A copy of the built app, that a next version can take the place of."""
    built = Path(os.environ.get("EVENBED_WEB", ROOT / "web" / "dist"))
    return Path(shutil.copytree(built, tmp_path / "app"))


@pytest.fixture
def service_of_app(app: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Service]:
    """A service that serves that copy."""
    monkeypatch.setenv("EVENBED_WEB", str(app))
    running = Service(tmp_path, free_port())
    running.start()
    yield running
    running.stop()


def put_next_version(app: Path) -> None:
    """A page that can be told from the last one, and a service worker that knows it."""
    page, worker = app / "index.html", app / "service-worker.js"
    page.write_text(page.read_text().replace("<html", '<html data-version="next"'))
    told, changes = re.subn(r'("?url"?:\s*"/index.html",\s*"?revision"?:\s*")\w+"', r'\1next"', worker.read_text())
    assert changes == 1
    worker.write_text(told)
    for packed in (*app.glob("index.html.*"), *app.glob("service-worker.js.*")):
        packed.unlink()


def shim_on(phone: WebKitPhone) -> str:
    """The shim in hand, with the mark that names its rail and station."""
    number = phone.wait_for(SHIM).find_element(By.CSS_SELECTOR, ".number")
    return f"{number.get_attribute('data-testid')} {number.text}"


def figures(phone: WebKitPhone) -> tuple[str, str]:
    """The bed's volume and the first shim as they stand on the screen."""
    phone.go_to("bed")
    volume = phone.wait_for(VOLUME).text
    phone.go_to("rails")
    return volume, shim_on(phone)


def cubic_feet_from(text: str) -> tuple[float, float]:
    """`41.3 ft³` as a number, and half of its last digit."""
    found = re.fullmatch(r"([\d,]+)(?:\.(\d+))?\s?ft³", text)
    assert found, text
    digits = found[2] or ""
    return float(f"{found[1].replace(',', '')}.{digits}"), 0.5 * 10 ** -len(digits)


def sixteenths_from(text: str) -> int:
    """`1 3/16″` as sixteenths."""
    return int(sum(Fraction(word) for word in text.replace("″", "").replace("−", "-").split()) * 16)


def check_against_the_engine(service: Service, shown: tuple[str, str]) -> None:
    """The engine in CPython, over what reached the service, gives what WebKit showed."""
    records = pulled_records(service)
    typed = sorted(int(inches) * INCH + part * INCH / 16 for inches, part in READINGS)
    assert sorted(r["fields"]["down"] for r in records if r["kind"] == "reading") == pytest.approx(typed, abs=1e-9)
    plan = json.loads(answer_text("plan", json.dumps(document_from_records(records, ROOM))))
    volume, half_a_digit = cubic_feet_from(shown[0])
    assert volume == pytest.approx(plan["bed"]["volume"] / CUBIC_FOOT_M3, abs=half_a_digit + 1e-9)
    found = re.fullmatch(r"figure-rails-(\d+)-stations-(\d+)-shim-value (.+)", shown[1])
    assert found
    station = plan["rails"][int(found[1])]["stations"][int(found[2])]
    assert sixteenths_from(found[3]) == station["sixteenths"]


def check_in_sight(phone: WebKitPhone, *marks: str) -> None:
    """On a phone of any size the hands need no scrolling; ends at the size that it began with."""
    for width, height in PAGE_SIZES:
        phone.resize(width, height)
        phone.until(f"{', '.join(marks)} in sight at {width} by {height}", lambda: not phone.hidden(*marks))


def work(phone: WebKitPhone) -> tuple[str, str]:
    """New job, L-shaped room by taped walls, readings; the figures as shown."""
    phone.begin_room("Juniper Lane 12", "Lower Mill", ROOM)
    check_in_sight(phone, "typed", "keypad", "turn-left", "turn-right", "close-figure")
    phone.walk(WALLS)
    phone.shot("webkit-1-outline")
    phone.go_to("levels")
    phone.read(READINGS)
    check_in_sight(phone, "typed", "keypad", "last-reading")
    phone.shot("webkit-2-levels")
    shown = figures(phone)
    check_in_sight(phone, SHIM, "station-where", "station-set", "shim-table")
    phone.shot("webkit-3-rails")
    return shown


def test_the_whole_job_in_webkit(service: Service, phone: WebKitPhone) -> None:
    phone.open(service.address)
    shown = work(phone)
    phone.wait_for_text("save-line", "11 waiting")  # job, room, outline, 8 readings
    phone.wait_until_kept()
    phone.wait_until_engine_kept()

    service.stop()
    phone.reload()
    assert shim_on(phone) == shown[1]
    assert figures(phone) == shown
    phone.wait_for_text("save-line", "11 waiting")
    assert phone.engine_wakes()[1], "a second start begins from the kept picture of the engine's memory"

    service.start()
    phone.join(service.join_code(), "Rosa")
    phone.wait_for_text("save-line", r"[Ss]ent")
    assert figures(phone) == shown
    check_against_the_engine(service, shown)
    assert phone.complaints() == []


def test_the_app_opens_in_webkit_at_any_address_without_a_network(service: Service, phone: WebKitPhone) -> None:
    phone.open(service.address)
    phone.wait_until_kept()
    service.stop()
    phone.open(f"{service.address}/settings")
    phone.wait_for("join-code")
    phone.open(service.address)
    phone.wait_for("new-job")
    phone.wait_for_text("save-line", "^Saved on this phone$")
    assert phone.complaints() == []


def test_a_new_version_is_offered_in_webkit_and_taken_with_all_that_waits(
    service_of_app: Service, app: Path, phone: WebKitPhone
) -> None:
    phone.open(service_of_app.address)
    phone.wait_until_kept()
    phone.begin_room("Juniper Lane 12", "Lower Mill", ROOM)
    phone.keys("1", "2", "feet")
    assert not phone.shown("accept-update")

    put_next_version(app)
    phone.reload()
    phone.wait_for("accept-update")
    assert phone.version() == ""
    phone.tap("accept-update")
    phone.until("the next version", lambda: phone.version() == "next" and phone.shown("keypad"))
    phone.wait_for_text("typed", "^12′")
    phone.wait_for_text("save-line", "2 waiting")
    assert not phone.shown("accept-update")
    assert phone.complaints() == []
