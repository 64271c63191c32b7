"""What a foreman does about people and devices, and how somebody invited joins: told once for all browser tests."""

from typing import Literal

from playwright.sync_api import Locator, expect
from tests.browser.phone import Phone
from tests.browser.running import Service

Role = Literal["foreman", "setter", "viewer"]


def foreman_of(service: Service, phone: Phone, person: str = "Olga") -> Phone:
    """The phone or window, joined by the code that the service's command prints."""
    phone.open(service.address)
    phone.join(service.join_code(), person)
    return phone


def open_people(phone: Phone) -> None:
    """The list of people, from any screen."""
    phone.tap("open-settings")
    phone.tap("to-people")
    phone.wait_for("people")


def invite(foreman: Phone, person: str, role: Role) -> str:
    """On the list of people: a code for somebody new. The sheet with the code stays open."""
    foreman.tap("invite-somebody")
    foreman.fill("invite-name", person)
    foreman.tap(f"role-{role}")
    foreman.tap("make-code")
    foreman.wait_for("invite-code")
    return foreman.text("invite-code")


def join_as(phone: Phone, service: Service, code: str) -> Phone:
    """Joins by a code that says whose it is: no name is typed."""
    phone.open(f"{service.address}/settings")
    phone.fill("join-code", code)
    phone.tap("join-now")
    phone.wait_for("joined")
    return phone


def let_in(foreman: Phone, service: Service, phone: Phone, person: str, role: Role) -> Phone:
    """The whole way: invited on the foreman's list, joined on the other phone, both on their list of jobs."""
    open_people(foreman)
    code = invite(foreman, person, role)
    join_as(phone, service, code)
    foreman.tap("invite-close")
    for one in (foreman, phone):
        one.to_jobs()
    return phone


def person_card(foreman: Phone, person: str) -> Locator:
    """That person on the list of people."""
    return foreman.page.get_by_test_id("person").filter(
        has=foreman.page.get_by_role("heading", name=person, exact=True)
    )


def remove_device_of(foreman: Phone, person: str) -> None:
    """Removes that person's one device, from the list of jobs."""
    open_people(foreman)
    person_card(foreman, person).get_by_test_id("device").click()
    foreman.tap("remove-device")
    foreman.tap("remove-really")
    expect(person_card(foreman, person).get_by_test_id("removed-device")).to_be_visible()


def assign(foreman: Phone, job: str, *persons: str) -> None:
    """Toggles people in the crew of a job, from the list of jobs and back to it."""
    foreman.page.get_by_test_id("job").filter(has_text=job).click()
    foreman.tap("change-job")
    for person in persons:
        member = foreman.page.get_by_test_id("crew-member").filter(has_text=person)
        was = member.get_attribute("aria-pressed")
        member.click()
        expect(member).to_have_attribute("aria-pressed", "false" if was == "true" else "true")
    foreman.tap("change-job-close")
    foreman.tap("back")
