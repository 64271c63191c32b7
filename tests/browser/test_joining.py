"""A phone joins the office: what it is told when it cannot, what its save line says, and what it finds."""

from collections.abc import Callable

import pytest
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

SENT = r"^Saved on this phone · sent \d+:\d\d [AP]M$"
SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]


def test_a_wrong_code_is_answered_in_the_language_of_the_person_and_a_right_one_still_joins(
    service: Service, new_phone: Callable[..., Phone]
) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(service.address)
    phone.tap("open-settings")
    phone.tap("language-es")
    phone.fill("join-code", "AAAA-AAAA")
    phone.fill("join-person", "Rosa")
    phone.tap("join-now")
    phone.wait_for_text("join-outcome", "Ese código no es correcto")
    phone.fill("join-code", service.join_code())
    phone.tap("join-now")
    phone.wait_for_text("joined", "Unido como Rosa")


def test_joining_without_a_network_says_so(service: Service, new_phone: Callable[..., Phone]) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(service.address)
    phone.lose_network()
    phone.tap("open-settings")
    phone.fill("join-code", "AAAA-AAAA")
    phone.fill("join-person", "Rosa")
    phone.tap("join-now")
    phone.wait_for_text("join-outcome", "No network here")


def test_the_save_line_tells_what_is_true_at_every_point(service: Service, new_phone: Callable[..., Phone]) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(service.address)
    phone.wait_for_text("save-line", "^Saved on this phone$")
    phone.begin_room("Pear Tree Yard", "Mill End", "Hall")
    phone.wait_for_text("save-line", "^Saved on this phone · 2 waiting$")
    phone.join(service.join_code(), "Ana")
    phone.wait_for_text("save-line", SENT)
    service.stop()
    phone.walk(SQUARE)
    phone.wait_for_text("save-line", r"^Saved on this phone · 1 waiting · sent \d+:\d\d [AP]M$")
    service.start()
    phone.wait_for_text("save-line", SENT)
