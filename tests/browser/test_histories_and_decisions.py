"""Every record's story, and edits that met: told on phone and in the office, with each value one tap away."""

import re
from collections.abc import Callable
from dataclasses import dataclass

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.people import assign, foreman_of, let_in
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
ALL_SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"


@dataclass
class Company:
    """Two setters' phones and the office's window."""

    service: Service
    olga: Phone
    ana: Phone
    ben: Phone

    @property
    def everybody(self) -> tuple[Phone, ...]:
        return self.olga, self.ana, self.ben


@pytest.fixture(scope="module")
def company(shared_service: Service, shared_phones: Callable[..., Phone]) -> Company:
    """Everybody joined, for all tests of this file."""
    olga = foreman_of(shared_service, shared_phones(office=True, engine=False))
    ana, ben = (let_in(olga, shared_service, shared_phones(engine=False), name, "setter") for name in ("Ana", "Ben"))
    return Company(shared_service, olga, ana, ben)


@pytest.fixture
def hall(company: Company, request: pytest.FixtureRequest) -> Company:
    """A job of the test's own, made by Ana and seen by Ben too: each has its hall open, with four readings."""
    job = request.node.name
    for one in company.everybody:
        one.find_network()
        one.to_jobs()
    company.ana.begin_room(job, "Mill End", "Hall")
    company.ana.walk(SQUARE)
    company.ana.go_to("levels")
    company.ana.read([("40", part) for part in (3, 5, 7, 9)])
    company.ana.tap("back")
    assign(company.olga, job, "Ben")
    for one in (company.olga, company.ben):
        one.open_room("Hall", job)
        one.wait_for_text("step-levels", "4 readings")
    for one in company.everybody:
        one.wait_for_text("save-line", ALL_SENT)
    return company


def rename(phone: Phone, name: str) -> None:
    """The room, on its own screen."""
    phone.tap("change-room")
    phone.fill("room-name", name)
    phone.tap("keep-room")
    expect(phone.page.get_by_test_id("change-room-sheet")).to_have_count(0)


def open_history(phone: Phone) -> Locator:
    """The room's, from its own screen; the steps, newest first."""
    phone.tap("change-room")
    phone.tap("room-history")
    steps = phone.page.get_by_test_id("story-step")
    expect(steps.first).to_be_visible()
    return steps


def open_reading(phone: Phone, number: int) -> None:
    phone.go_to("levels")
    phone.tap("levels-note")
    phone.page.get_by_test_id("listed-reading").nth(number - 1).click()
    phone.wait_for("reading-history")


def meet(company: Company) -> None:
    """Ana and Ben give the hall a name each, neither knowing of the other; Ben's is the later one."""
    company.ana.lose_network()
    company.ben.lose_network()
    rename(company.ana, "Hall, north")
    rename(company.ben, "Hall by the stairs")
    company.ana.find_network()
    company.ana.wait_for_text("save-line", ALL_SENT)
    company.ben.find_network()
    for one in company.everybody:
        one.wait_for_text("decide-link", "1 to decide")
        expect(one.page.locator(".head-title")).to_have_text("Hall by the stairs")


def nothing_to_decide(phone: Phone, name: str) -> None:
    expect(phone.page.get_by_test_id("decide-link")).to_have_count(0, timeout=15_000)
    phone.wait_for_text("save-line", ALL_SENT)
    expect(phone.page.get_by_test_id("to-decide")).to_have_count(0)
    assert phone.complaints == []
    phone.home()
    expect(phone.page.get_by_test_id("to-decide")).to_have_count(0)
    phone.page.get_by_test_id("job").filter(has_text="test_").last.click()
    phone.wait_for_text("room", name)


def test_the_story_of_a_room_says_who_when_and_on_which_device_and_puts_an_earlier_value_back(hall: Company) -> None:
    rename(hall.ana, "Hall, north")
    expect(hall.olga.page.locator(".head-title")).to_have_text("Hall, north")
    steps = open_history(hall.olga)
    expect(steps.first).to_contain_text("Ana, on phone")
    expect(steps.first.get_by_test_id("story-line")).to_have_count(1)
    expect(steps.first).to_contain_text(re.compile(r"Name of the room\s*Hall\s*→\s*became\s*Hall, north"))
    expect(steps.nth(1)).to_contain_text("4 walls, 64 ft²".replace(" ft", "\u202fft"))
    expect(steps.last).to_contain_text("Made")
    hall.olga.shot("office-history")

    steps.first.get_by_test_id("put-back").click()
    expect(steps.first).to_contain_text("Olga, on this computer")
    expect(hall.ana.page.locator(".head-title")).to_have_text("Hall")
    hall.olga.tap("undo")
    expect(hall.ana.page.locator(".head-title")).to_have_text("Hall, north")
    expect(hall.olga.page.get_by_test_id("story-step")).to_have_count(5)


def test_the_story_of_a_reading_goes_through_its_corrections_and_any_of_them_can_be_put_back(hall: Company) -> None:
    open_reading(hall.ana, 1)
    hall.ana.tap("correct-reading")
    hall.ana.keys("4", "1", "part-8", "next")
    expect(hall.ana.page.get_by_test_id("reading")).to_have_count(0)
    hall.ben.go_to("levels")
    hall.ben.tap("levels-note")
    hall.ben.page.get_by_test_id("listed-reading").filter(has_text="3′\u00a05\u00a01/2″").click()
    hall.ben.tap("reading-history")
    steps = hall.ben.page.get_by_test_id("story-step")
    expect(steps).to_have_count(2)
    expect(steps.first).to_contain_text("Corrected")
    expect(steps.first).to_contain_text(re.compile(r"3′\s4\s3/16″\s*→\s*became\s*3′\s5\s1/2″"))
    steps.first.get_by_test_id("put-back").first.click()
    expect(steps).to_have_count(3)
    expect(steps.first).to_contain_text("Ben, on this phone")
    hall.ana.tap("levels-note")
    expect(hall.ana.page.get_by_test_id("listed-reading").last).to_have_text(re.compile(r"3′\s4\s3/16″"))
    hall.ana.tap("levels-about-close")
    hall.ana.tap("back")
    hall.ben.tap("back")


def test_without_a_network_the_last_story_kept_is_shown_with_its_time_and_the_unsent_changes_on_top(
    hall: Company,
) -> None:
    before = open_history(hall.ana).count()
    expect(hall.ana.page.get_by_test_id("story-source")).to_have_count(0)
    hall.ana.tap("back")
    hall.ana.lose_network()
    rename(hall.ana, "Hall, south")
    steps = open_history(hall.ana)
    expect(steps).to_have_count(before + 1)
    expect(steps.first).to_contain_text("not sent yet")
    expect(steps.first).to_contain_text("Ana, on this phone")
    hall.ana.wait_for_text("story-source", r"This is what it told \w{3}, \w{3} \d+")
    hall.ana.shot("phone-history-offline")
    hall.ana.find_network()
    expect(steps.first).not_to_contain_text("not sent yet")
    expect(hall.ana.page.get_by_test_id("story-source")).to_have_count(0)
    hall.ana.tap("back")


def test_a_job_deleted_and_brought_back_says_so_in_its_story(hall: Company, request: pytest.FixtureRequest) -> None:
    olga = hall.olga
    olga.tap("back")
    olga.tap("change-job")
    olga.tap("delete-job")
    olga.tap("open-settings")
    row = olga.page.locator("li.line").filter(has_text=request.node.name)
    row.get_by_test_id("deleted-history").click()
    steps = olga.page.get_by_test_id("story-step")
    expect(steps.first).to_contain_text("Deleted")
    olga.tap("bring-back")
    expect(steps.first).to_contain_text("Brought back")
    expect(steps.nth(1)).to_contain_text("Deleted")
    expect(steps.nth(2)).to_contain_text(re.compile(r"Crew.*Ana, Ben", re.DOTALL))


def test_a_reading_that_somebody_deleted_is_found_in_the_story_of_its_room_and_brought_back(hall: Company) -> None:
    open_reading(hall.ana, 1)
    hall.ana.tap("delete-reading")
    hall.ben.wait_for_text("step-levels", "3 readings")
    open_history(hall.ben)
    hall.ben.tap("deleted-here")
    hall.ben.wait_for_text("history", r"History: Reading 3′\s4\s3/16″")
    expect(hall.ben.page.get_by_test_id("story-step").first).to_contain_text(re.compile(r"Deleted\s*Ana, on phone"))
    hall.ben.tap("bring-back")
    expect(hall.ben.page.get_by_test_id("story-step").first).to_contain_text("Brought back")
    hall.olga.wait_for_text("step-levels", "4 readings")


def test_edits_that_met_are_listed_on_both_phones_and_in_the_office_and_keeping_one_closes_the_matter_for_all(
    hall: Company,
) -> None:
    meet(hall)
    for one in hall.everybody:
        one.tap("decide-link")
        one.wait_for_text("keep-standing-side", r"Hall by the stairs\s*Ben, on (?:this )?phone")
        one.wait_for_text("take-other-side", r"Hall, north\s*Ana, on (?:this )?phone")
        one.wait_for_text("conflict", "Name of the room")
    hall.ana.shot("phone-decide")
    hall.olga.shot("office-decide")
    hall.olga.tap("keep-standing")
    for one in hall.everybody:
        nothing_to_decide(one, "Hall by the stairs")


def test_edits_that_met_are_decided_without_a_network_and_the_other_value_taken_reaches_everybody(
    hall: Company,
) -> None:
    meet(hall)
    expect(hall.ana.page.get_by_test_id("to-decide")).to_be_visible()
    hall.ana.tap("to-decide")
    hall.ana.wait_for_text("keep-standing-side", "Ben, on phone")
    hall.ana.lose_network()
    hall.ana.tap("take-other")
    expect(hall.ana.page.get_by_test_id("conflict")).to_have_count(0)
    hall.ana.wait_for_text("save-line", "1 waiting")
    hall.ana.find_network()
    for one in hall.everybody:
        nothing_to_decide(one, "Hall, north")
