"""Two phones and an office hold the same job, whatever each did while it had no network."""

from collections.abc import Callable

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.records import pulled_records
from tests.browser.running import Service

pytestmark = pytest.mark.browser

SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"
SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
LONGER_THAN_A_NAME = "a very long name " * 20


@pytest.fixture(scope="module")
def joined_phones(shared_service: Service, shared_phones: Callable[..., Phone]) -> tuple[Phone, Phone]:
    """Ana's and Ben's, both joined."""
    ana, ben = (joined(shared_service, shared_phones(engine=False), person) for person in ("Ana", "Ben"))
    return ana, ben


@pytest.fixture
def two_phones(joined_phones: tuple[Phone, Phone], request: pytest.FixtureRequest) -> tuple[Phone, Phone]:
    """A job of the test's own with a hall, read four times: Ana stands on its levels, Ben has the room open."""
    ana, ben = joined_phones
    job = request.node.name
    ana.to_jobs()
    ana.begin_room(job, "Mill End", "Hall")
    ana.walk(SQUARE)
    ana.go_to("levels")
    ana.read([("40", part) for part in (3, 5, 7, 9)])
    ana.wait_for_text("save-line", SENT)
    ben.to_jobs()
    ben.open_room("Hall", job)
    wait_for_readings(ben, 4)
    return ana, ben


def joined(service: Service, phone: Phone, person: str) -> Phone:
    phone.open(service.address)
    phone.join(service.join_code(), person)
    return phone


def wait_for_readings(phone: Phone, count: int) -> None:
    """On the room's own screen."""
    phone.wait_for_text("step-levels", rf"Levels{count} readings")


def open_reading(phone: Phone, number: int) -> None:
    phone.tap("levels-note")
    phone.page.get_by_test_id("listed-reading").nth(number - 1).click()
    phone.wait_for("delete-reading")


def rename_room(phone: Phone, name: str) -> None:
    """On the room's own screen."""
    phone.tap("change-room")
    phone.fill("room-name", name)
    phone.tap("keep-room")
    expect(phone.page.get_by_test_id("change-room-sheet")).to_have_count(0)


def test_what_two_phones_did_without_a_network_meets_on_both_and_in_the_office(
    two_phones: tuple[Phone, Phone],
    shared_service: Service,
    new_phone: Callable[..., Phone],
    request: pytest.FixtureRequest,
) -> None:
    ana, ben = two_phones
    ana.lose_network()
    ben.lose_network()
    ana.keys("4", "0", "part-1")
    ana.wait_for_text("save-line", "1 waiting · sent")
    rename_room(ben, "Hall, north side")
    ben.wait_for_text("save-line", "1 waiting · sent")

    ben.find_network()
    ana.find_network()
    wait_for_readings(ben, 5)
    ana.tap("back")
    expect(ana.page.locator(".head-title")).to_have_text("Hall, north side")
    office = joined(shared_service, new_phone(office=True, engine=False), "Foreman")
    office.open_room("Hall, north side", request.node.name)
    wait_for_readings(office, 5)
    for phone in (ana, ben, office):
        phone.wait_for_text("save-line", SENT)
        assert phone.complaints == []


def test_a_corrected_reading_replaces_the_first_on_every_phone_and_the_first_stays_in_the_history(
    two_phones: tuple[Phone, Phone], shared_service: Service
) -> None:
    ana, ben = two_phones
    open_reading(ana, 2)
    ana.tap("correct-reading")
    ana.keys("4", "1", "part-8", "next")
    expect(ana.page.get_by_test_id("reading")).to_have_count(0)
    ana.wait_for_text("save-line", SENT)

    ben.go_to("levels")
    ben.tap("levels-note")
    corrected = ben.page.get_by_test_id("listed-reading").filter(has_text="3′ 5 1/2″")
    corrected.click()
    expect(ben.page.get_by_test_id("reading")).to_contain_text("Read before")
    expect(ben.page.get_by_test_id("reading")).to_contain_text("3′ 4 5/16″")

    readings = [r for r in pulled_records(shared_service) if r["kind"] == "reading"]
    new = next(r for r in readings if r["fields"].get("supersedes"))
    old = next(r for r in readings if r["id"] == new["fields"]["supersedes"])
    assert (old["fields"]["down"], new["fields"]["down"]) == pytest.approx((40.3125 * 25.4, 41.5 * 25.4))


def test_a_deleted_reading_goes_from_every_phone_and_undo_brings_it_back_to_all(
    two_phones: tuple[Phone, Phone],
) -> None:
    ana, ben = two_phones
    open_reading(ana, 1)
    ana.tap("delete-reading")
    wait_for_readings(ben, 3)
    ana.tap("undo")
    wait_for_readings(ben, 4)


def test_a_room_deleted_on_one_phone_is_brought_back_from_the_other(two_phones: tuple[Phone, Phone]) -> None:
    ana, ben = two_phones
    ana.tap("back")
    ana.tap("change-room")
    ana.tap("delete-room")
    expect(ben.page.get_by_text("Nothing here")).to_be_visible()
    ben.tap("open-settings")
    ben.tap("restore")
    expect(ana.page.get_by_test_id("room")).to_contain_text("Hall")
    expect(ana.page.get_by_test_id("room")).to_contain_text("4 readings")


def test_a_change_the_office_refuses_is_shown_with_its_value_until_it_was_seen(
    two_phones: tuple[Phone, Phone], request: pytest.FixtureRequest
) -> None:
    ana, ben = two_phones
    ana.tap("back")
    rename_room(ana, LONGER_THAN_A_NAME)
    ana.wait_for_text("refused-link", "1 not taken")
    ana.tap("refused-link")
    ana.wait_for_text("refused", "One of the values cannot be kept.")
    expect(ana.page.get_by_test_id("refused")).to_contain_text(LONGER_THAN_A_NAME.strip())
    ana.tap("dismiss")
    expect(ana.page.get_by_test_id("refused-link")).to_have_count(0)
    ana.wait_for_text("save-line", SENT)
    rename_room(ben, "Hall again")
    ana.home()
    ana.page.get_by_test_id("job").filter(has_text=request.node.name).click()
    ana.wait_for_text("room", "Hall again")
