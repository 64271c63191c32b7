"""A setter who reads Spanish and measures in millimetres finds nothing else on any screen."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.looks import words_on
from tests.browser.phone import Phone
from tests.browser.running import Service
from tests.browser.screens import LAYERS, on_paper, sheet, walk_outside_the_room, walk_the_sheets, walk_the_steps
from tests.browser.words import matcher, sentences

pytestmark = pytest.mark.browser

ENGLISH, SPANISH = sentences("en"), sentences("es")
ONLY_ENGLISH = matcher({key: text for key, text in ENGLISH.items() if SPANISH[key] != text})
OURS = matcher(SPANISH)
# What people named, and what is no language: the app's name, languages named in themselves, numbers with their units.
NAMES = {
    "Alder Street house",
    "12 Alder Street, Fernhollow",
    "Upstairs bath",
    "Powder room",
    "Ana",
    "phone",
    "Demo crew",
    "Invented for trying things out: two rooms, read with one laser.",
    "Demo",
    "English",
    "Español",
    "Evenbed",
    "hall door",
    "Láser 1",
}
UNITS = r"mm|m|m²|m³|kg|kg/m²|lb/ft²|lb|l|L|h|d|min|×10⁻⁶/°C|°C|km/h|%|MB"
FIGURE = re.compile(rf"(?:[A-Z]{{1,2}}\d*)?|[\W\d_]*(?:(?:{UNITS})[\W\d_]*)*")
MONTHS = "ene|feb|mar|abr|may|jun|jul|ago|sept?|oct|nov|dic"
DAY = rf"(?:lun|mar|mié|jue|vie|sáb|dom), \d{{1,2}} (?:de )?(?:{MONTHS})"
DATE = rf"\d{{1,2}} (?:{MONTHS}) \d{{4}}"
AXIS_DAY = r"(?:lun|mar|mié|jue|vie|sáb|dom) \d{1,2}"
MOMENT = re.compile(rf"(?:(?:{DAY}|{DATE}), )?\d{{1,2}}:\d\d(?: [ap]\. ?m\.)?|{AXIS_DAY}")
MARK = re.compile(r"[0-9A-Z]{4}-[0-9A-Z]{4}|[0-9a-f]{64}|K\d+ [+−][\d.]+")
"""Codes to join, SHA-256, and places to work over with how much."""
JOINS = re.compile(r"(?<=\.) |: | · |, ")
RAW = re.compile(r"[{}]|undefined|NaN|\[object|\bnull\b|\b[a-z]+\.[a-z]+(?:_[a-z]+)+\b")
IMPERIAL = re.compile("[′″]|\\bft\\b|\\bin\\b|°F(?! \\(\\d+ °C)|ft²(?!\\))|ft³(?! \\(\\d+ kg/m³)|\\bgal\\b")


def in_spanish(phone: Phone) -> None:
    """Spanish and millimetres, chosen in the settings by thumb; then in the demo's first room."""
    phone.tap("open-settings")
    phone.tap("language-es")
    phone.tap("units-metric")
    phone.find_demo_room()


def is_ours(text: str) -> bool:
    """Whether a text is a name, a figure, a moment, one of our Spanish sentences, or two of these joined."""
    if text in NAMES or FIGURE.fullmatch(text) or MOMENT.fullmatch(text) or MARK.fullmatch(text):
        return True
    if OURS.fullmatch(text):
        return ONLY_ENGLISH.fullmatch(text) is None
    return any(is_ours(text[: join.start()]) and is_ours(text[join.end() :]) for join in JOINS.finditer(text))


def is_foreign(text: str) -> bool:
    """Whether a text does not belong on a screen of somebody who reads Spanish and millimetres."""
    plain = " ".join(text.split()).strip("‹› ↰↱✗✓")
    return not is_ours(plain) or RAW.search(plain) is not None or IMPERIAL.search(plain) is not None


class Listener:
    """Hears the texts of every stop and keeps what should not be there."""

    def __init__(self, phone: Phone) -> None:
        self.phone = phone
        self.heard = 0
        self.faults: list[tuple[str, str]] = []

    def __call__(self, stop: str) -> None:
        texts = words_on(self.phone.page)
        self.heard += len(texts)
        wrong = {text for text in texts if is_foreign(text)}
        self.faults += [(stop, text) for text in sorted(wrong)]


def test_every_screen_and_sheet_of_the_demo_room_speaks_spanish_and_millimetres_alone(demo_phone: Phone) -> None:
    phone = demo_phone
    in_spanish(phone)
    listener = Listener(phone)
    for layer in LAYERS:
        phone.tap(f"layer-{layer}")
        listener(f"floor-{layer}")
    walk_the_steps(phone, listener)
    walk_the_sheets(phone, listener)
    walk_outside_the_room(phone, listener)
    assert listener.faults == [], "\n".join(sorted({f for _, f in listener.faults}))
    assert listener.heard > 500  # a walk that hears little has not looked
    assert phone.complaints == []


def test_the_page_for_the_stud_is_in_spanish_too(demo_phone: Phone) -> None:
    phone = demo_phone
    in_spanish(phone)
    listener = Listener(phone)
    with on_paper(phone):
        expect(phone.page.locator(".paper")).to_be_visible()
        listener("paper")
    assert listener.faults == [], "\n".join(sorted({f for _, f in listener.faults}))
    assert listener.heard > 80


def test_every_explanation_of_a_figure_is_in_spanish(demo_phone: Phone) -> None:
    phone = demo_phone
    in_spanish(phone)
    listener = Listener(phone)
    for step in ("bed", "material", "filling", "waiting"):
        phone.go_to(step)
        figures = phone.page.locator("button.figure")
        expect(figures.first).to_be_visible()
        for mark in dict.fromkeys(f.get_attribute("data-testid") or "" for f in figures.all()):
            with sheet(phone, mark, "explain"):
                listener(f"{step}-{mark}")
    assert listener.faults == [], "\n".join(sorted({f for _, f in listener.faults}))
    assert listener.heard > 500


def test_the_page_tells_its_language_and_keeps_it(demo_phone: Phone) -> None:
    phone = demo_phone
    in_spanish(phone)
    expect(phone.page.locator("html")).to_have_attribute("lang", "es")
    phone.page.reload()
    phone.wait_for("save-line")
    expect(phone.page.locator("html")).to_have_attribute("lang", "es")


def test_four_digits_of_millimetres_end_a_reading(demo_service: Service, shared_phones: Callable[..., Phone]) -> None:
    phone: Phone = shared_phones(engine=False)
    phone.open(demo_service.address)
    phone.tap("open-settings")
    phone.tap("units-metric")
    phone.tap("back")
    phone.begin_room("Casa Robles", "Molino", "Cocina")
    for length in ("3000", "2400", "3000"):
        phone.keys(*length)
        phone.tap("turn-left")
    phone.keys(*"2400")
    phone.tap("close-figure")
    phone.wait_for("walk-again")
    phone.go_to("levels")
    for number, down in enumerate(("1204", "1209", "1198"), start=2):
        phone.keys(*down)
        phone.wait_for_text("entry-what", rf"\b{number}\b")
    phone.wait_for_text("last-reading", r"1[\s.,]?198\smm")
    assert phone.page.get_by_test_id("key-part-1").count() == 0
