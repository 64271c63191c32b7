"""The whole job on a phone without a network, then the office sees the same numbers."""

import json
import math
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from tests.browser.phone import Phone
from tests.browser.records import document_from_records, pulled_records
from tests.browser.running import Service

from evenbed.engine.bridge import answer_text

pytestmark = pytest.mark.browser

FOOT = 304.8
WALLS = [("20", "left"), ("8", "left"), ("8", "right"), ("8", "left"), ("12", "left"), ("16", "left")]
AREA_SQUARE_FEET = 20 * 8 + 12 * 8
SIXTEENTHS = [5, 7, 3, 4, 9, 11, 2, 8, 6, 1, 13, 5, 7, 12, 10, 4, 3, 9, 8, 6, 5, 11, 2, 7]
READINGS = [("41", part) for part in SIXTEENTHS]
ROOM = "Wash room"
ROUNDED = 0.75 + 1e-5  # sixteenths: further than to the nearest where neighbours would step


def sixteenths_from(text: str) -> int:
    """`1 3/16″` as sixteenths, read off the screen."""
    words = text.replace("″", "").replace("−", "-").replace("\u00a0", " ").split()
    return int(sum(Fraction(word) for word in words) * 16)


def work_offline(phone: Phone) -> None:
    """New job, L-shaped room by taped walls, 24 readings."""
    phone.begin_room("Juniper Lane 12", "Lower Mill", ROOM)
    phone.walk(WALLS)
    phone.shot("whole-job-1-outline")
    phone.go_to("levels")
    phone.read(READINGS)
    phone.shot("whole-job-2-levels")
    phone.go_to("bed")
    phone.wait_for("figure-bed-volume-value")
    phone.shot("whole-job-3-bed")


def bed_figures(phone: Phone) -> list[str]:
    phone.go_to("bed")
    marks = ("figure-bed-thickness-min-value", "figure-bed-thickness-max-value", "figure-bed-volume-value")
    phone.wait_for(marks[0])
    return [phone.text(mark) for mark in marks]


def shim_figures(phone: Phone, shot: str) -> list[list[str]]:
    phone.go_to("rails")
    phone.wait_for("station-where")
    phone.shot(shot)
    return phone.shims()


def test_a_room_read_without_a_network_is_planned_kept_sent_and_seen_the_same_in_the_office(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone()
    phone.open(service.address)
    phone.wait_until_kept()
    phone.context.set_offline(True)
    service.stop()

    work_offline(phone)
    figures = bed_figures(phone)
    shims = shim_figures(phone, "whole-job-4-rails")
    assert len(shims) >= 3
    phone.wait_for_text("save-line", "27 waiting")  # job, room, outline, 24 readings
    phone.tap("station-set")
    phone.wait_for_text("save-line", "28 waiting")

    phone.page.reload()
    phone.wait_for("station-where")
    assert shim_figures(phone, "whole-job-5-reloaded") == shims
    assert bed_figures(phone) == figures
    phone.wait_for_text("save-line", "28 waiting")

    service.start()
    phone.context.set_offline(False)
    phone.join(service.join_code(), "Rosa")
    phone.wait_for_text("save-line", r"[Ss]ent")
    phone.shot("whole-job-6-sent")

    office: Phone = new_phone(office=True)
    office.open(service.address)
    office.join(service.join_code(), "Foreman")
    office.wait_for_text("job", "Juniper Lane 12")
    office.tap("job")
    office.tap("room")
    assert bed_figures(office) == figures
    office.shot("whole-job-7-office-bed")
    assert shim_figures(office, "whole-job-8-office-rails") == shims

    check_against_the_service(service, figures, shims)
    assert phone.complaints + office.complaints == []


def in_turn(rail: dict[str, Any]) -> list[int]:
    """A rail's stations as they are set: lie by lie of its strips, each once."""
    lies = sorted(rail["settings"], key=lambda setting: int(setting["order"]))
    return list(dict.fromkeys(station for lie in lies for station in lie["stations"]))


def check_against_the_service(service: Service, figures: list[str], shims: list[list[str]]) -> None:
    """The service holds what was typed, and the engine over it gives what the screens showed, to a sixteenth."""
    records = pulled_records(service)
    readings = [r["fields"] for r in records if r["kind"] == "reading"]
    typed = sorted(41 * 25.4 + part * 25.4 / 16 for part in SIXTEENTHS)
    assert sorted(r["down"] for r in readings) == pytest.approx(typed, abs=1e-9)
    plan = json.loads(answer_text("plan", json.dumps(document_from_records(records, ROOM))))
    assert plan["outline"]["area"] == pytest.approx(AREA_SQUARE_FEET * FOOT**2 / 1e6)
    shown = [[sixteenths_from(text) for text in rail] for rail in shims]
    stations = [[rail["stations"][n] for n in in_turn(rail)] for rail in plan["rails"]]
    assert shown == [[station["sixteenths"] for station in rail] for rail in stations]
    pairs = [(s["sixteenths"], s["shim"] / 25.4 * 16) for rail in stations for s in rail]
    assert all(abs(a - b) <= ROUNDED for a, b in pairs)
    assert math.isclose(sixteenths_from(figures[0]), plan["bed"]["thickness"]["min"] / 25.4 * 16, abs_tol=0.51)
