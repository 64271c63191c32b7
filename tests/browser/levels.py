"""Reading the floor on the phone: set-ups, marks, places tapped on the drawing, and what comes of it all."""

import json
import re
from typing import Any

from playwright.sync_api import Locator, expect
from tests.browser.phone import PLAN_PATIENCE_MS, Phone, middle_of
from tests.browser.records import document_from_records, pulled_records
from tests.browser.running import Service

from evenbed.engine.bridge import answer_text

INCH = 25.4


def begin_floor(phone: Phone, room: str, walls: list[tuple[str, str]]) -> None:
    """A new job with one room, its walls taped, ready to be read."""
    phone.begin_room("Brook Street 4", "Old Tannery", room)
    phone.walk(walls)
    phone.go_to("levels")
    phone.wait_for("standing")


def wait_for_pattern(phone: Phone) -> None:
    """Until the engine has said where to read: more places than a room of four walls has corners and walls."""
    expect(phone.page.locator(".spot.proposed").nth(8)).to_be_attached(timeout=PLAN_PATIENCE_MS)


def here(phone: Phone, inches: str, sixteenths: int = 0) -> None:
    """Read whole inches and sixteenths where the rod stands; the sixteenth goes on by itself, none needs the key."""
    phone.keys(*inches)
    phone.keys(f"part-{sixteenths}" if sixteenths else "next")


def spots(phone: Phone, kind: str) -> Locator:
    """What stands on the drawing, by its kind."""
    return phone.page.locator(f".room-drawing .spot.{kind}")


def read_places(phone: Phone) -> Locator:
    """Every reading on the drawing, whether or not it looks mis-read."""
    return phone.page.locator(".room-drawing .spot:is(.read, .suspect)")


def tap_spot(phone: Phone, spot: Locator) -> None:
    """Tap a point of the drawing, by its own middle."""
    phone.page.mouse.click(*middle_of(spot))


def open_sheet(phone: Phone, name: str) -> None:
    """One of the sheets behind the line that says from where one reads."""
    phone.tap("levels-note")
    phone.tap(f"open-{name}")


def begin_setup(phone: Phone, kind: str, name: str = "", *, shot: str = "") -> None:
    """A new set-up with a new instrument."""
    open_sheet(phone, "setups")
    phone.tap("new-setup")
    phone.tap(f"setup-instrument-new:{kind}")
    if name:
        phone.fill("setup-name", name)
    if shot:
        phone.shot(shot)
    phone.tap("keep-setup")
    expect(phone.page.get_by_test_id("setup-form")).to_have_count(0)


def add_mark(phone: Phone, name: str, height: str = "") -> None:
    """A new mark, with its height in whole inches where it is known; the sheet of marks stays open."""
    open_sheet(phone, "marks")
    phone.tap("new-mark")
    phone.fill("mark-name", name)
    if height:
        phone.tap("field-height")
        phone.keys(*height, "next")
    phone.tap("keep-mark")
    phone.wait_for_text("mark", re.escape(name))


def joined_phone(service: Service, phone: Phone) -> Phone:
    """The phone, joined, for tests that each begin a job of their own without a network."""
    phone.open(service.address)
    phone.join(service.join_code(), "Rosa")
    return phone


def hall_of(phone: Phone, service: Service, walls: list[tuple[str, str]], readings: list[tuple[str, int]]) -> Phone:
    """The phone with a room walked and read on it, the network gone since the app was opened."""
    phone.open(service.address)
    phone.wait_until_kept()
    phone.lose_network()
    phone.begin_room("Quarry Row 9", "Old Tannery", "Hall")
    phone.walk(walls)
    phone.go_to("levels")
    phone.read(readings)
    return phone


def sent_plan(phone: Phone, service: Service, room: str) -> tuple[dict[str, Any], dict[str, Any]]:
    """The document that the office can make of what the phone sent, and the engine's quick plan of it."""
    phone.find_network()
    phone.wait_for_text("save-line", r"^Saved on this phone · sent ")
    document = document_from_records(pulled_records(service), room)
    plan = json.loads(answer_text("quick_plan", json.dumps(document)))
    assert "problems" not in plan, plan
    return document, plan


def inches_from(text: str) -> float:
    """`+1' 3 5/16"` somewhere in a text, in inches."""
    found = re.search(r"([+\u2212])?(?:(\d+)\u2032\u00a0)?(?:(\d+)(?:\u00a0|\u2033))?(?:(\d+)/(\d+)\u2033)?", text)
    assert found, text
    sign, feet, whole, over, under = found.groups()
    size = int(feet or 0) * 12 + int(whole or 0) + (int(over) / int(under) if over else 0)
    return -size if sign == "\u2212" else size
