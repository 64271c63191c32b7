"""The foreman lets people in, says what they may do and which jobs they see, and takes devices off the list."""

import re
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import expect
from tests.browser.people import (
    assign,
    foreman_of,
    invite,
    join_as,
    let_in,
    open_people,
    person_card,
)
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

THEMES = ("light", "dark", "sun")
ALL_SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"
Phones = Callable[..., Phone]


@pytest.fixture(scope="module")
def window(shared_service: Service, shared_phones: Phones) -> Phone:
    """The office's wide window, where Olga is foreman."""
    return foreman_of(shared_service, shared_phones(office=True, engine=False))


@pytest.fixture
def olga(window: Phone) -> Phone:
    """The same, on the list of jobs; each test lets in people of its own."""
    window.find_network()
    window.to_jobs()
    return window


@pytest.fixture(scope="module")
def pocket(shared_service: Service, shared_phones: Phones) -> Phone:
    """The phone of another foreman."""
    return foreman_of(shared_service, shared_phones(engine=False), "Otto")


@pytest.fixture
def otto(pocket: Phone) -> Phone:
    """The same, opened anew."""
    pocket.home()
    return pocket


def texts_read_from(picture: bytes) -> list[str]:
    """What an independent reader of QR codes finds in a picture."""
    return [found.text for found in zxingcpp.read_barcodes(Image.open(BytesIO(picture)))]


def begin_job(phone: Phone, job: str) -> None:
    phone.to_jobs()
    phone.tap("new-job")
    phone.fill("job-name", job)
    phone.tap("begin-job")
    phone.wait_for("job-page")
    phone.tap("back")


def check_jobs(phone: Phone, job: str) -> None:
    """That one job is on the list, and no other."""
    expect(phone.page.get_by_test_id("job")).to_have_text([re.compile(f"^{job}")])


def test_a_setter_invited_by_name_joins_with_the_code_alone_and_the_list_tells_of_the_phone(
    olga: Phone, shared_service: Service, new_phone: Phones
) -> None:
    open_people(olga)
    code = invite(olga, "Ana", "setter")
    assert re.fullmatch(r"[0-9A-Z]{4}-[0-9A-Z]{4}", code)
    olga.wait_for_text("invite-left", r"Holds for (?:30:00|29:\d\d) more")
    olga.shot("office-invite")
    ana = join_as(new_phone(engine=False), shared_service, code)
    ana.wait_for_text("joined", r"Joined as Ana\.")
    expect(ana.page.get_by_test_id("to-people")).to_have_count(0)
    olga.tap("invite-close")
    expect(person_card(olga, "Ana")).to_contain_text("Setter")
    expect(person_card(olga, "Ana").get_by_test_id("device")).to_contain_text(
        re.compile("phone.*Last heard of", re.S)
    )
    expect(person_card(olga, "Olga").get_by_test_id("device")).to_contain_text("you are looking at it")
    olga.shot("office-people")

    late = new_phone(engine=False)
    late.open(f"{shared_service.address}/settings")
    late.fill("join-code", code)
    late.tap("join-now")
    late.wait_for_text("join-outcome", "used before")
    assert olga.complaints + ana.complaints + late.complaints == []


def test_the_picture_of_the_code_is_read_in_every_light_opens_the_app_with_the_code_and_the_person_confirms(
    otto: Phone, shared_service: Service, new_phone: Phones
) -> None:
    open_people(otto)
    code = invite(otto, "Ben", "setter")
    address = f"{shared_service.address}/settings#join={code}"
    for theme in THEMES:
        otto.page.evaluate("(theme) => { document.documentElement.dataset.theme = theme; }", theme)
        otto.shot(f"{theme}-invite")
        assert texts_read_from(otto.page.get_by_test_id("qr").screenshot()) == [address]
    ben = new_phone(engine=False)
    ben.open(address)
    ben.wait_for("code-brought")
    expect(ben.page.get_by_test_id("join-code")).to_have_value(code)
    assert ben.page.url == f"{shared_service.address}/settings"
    expect(ben.page.get_by_test_id("joined")).to_have_count(0)
    ben.tap("join-now")
    ben.wait_for_text("joined", r"Joined as Ben\.")
    ben.open(f"{shared_service.address}/settings#join={code}")
    ben.wait_for("joined-already")


def test_inside_the_installed_app_the_code_is_read_from_a_photo_of_its_picture(
    otto: Phone, shared_service: Service, new_phone: Phones, tmp_path: Path
) -> None:
    open_people(otto)
    code = invite(otto, "Ben", "setter")
    photo, other = tmp_path / "photo.jpg", tmp_path / "wall.jpg"
    shot = Image.open(BytesIO(otto.page.screenshot())).convert("RGB")
    shot.resize((1620, 3330)).rotate(4, fillcolor="grey").save(photo, quality=60)
    Image.new("RGB", (900, 700), "grey").save(other)
    ben = new_phone(engine=False)
    ben.open(f"{shared_service.address}/settings")
    ben.page.get_by_test_id("code-picture").set_input_files(other)
    ben.wait_for_text("code-lost", "No join code was found")
    ben.page.get_by_test_id("code-picture").set_input_files(photo)
    expect(ben.page.get_by_test_id("join-code")).to_have_value(code)
    expect(ben.page.get_by_test_id("code-lost")).to_have_count(0)
    ben.tap("join-now")
    ben.wait_for_text("joined", r"Joined as Ben\.")


def test_a_code_that_does_not_say_whose_it_is_asks_for_the_name_and_still_holds(
    shared_service: Service, new_phone: Phones
) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(f"{shared_service.address}/settings")
    phone.fill("join-code", shared_service.join_code())
    phone.tap("join-now")
    phone.wait_for_text("join-outcome", "the code still holds")
    phone.fill("join-person", "Rosa")
    phone.tap("join-now")
    phone.wait_for_text("joined", r"Joined as Rosa\.")


def test_a_crew_is_chosen_with_or_without_a_network_and_the_job_appears_with_its_setter_and_vanishes_again(
    olga: Phone, shared_service: Service, new_phone: Phones
) -> None:
    cleo = let_in(olga, shared_service, new_phone(engine=False), "Cleo", "setter")
    begin_job(olga, "Heron Court 3")
    begin_job(olga, "Pear Tree Yard")
    olga.wait_for_text("save-line", ALL_SENT)
    cleo.page.get_by_test_id("jobs").get_by_text("No job yet").wait_for()
    assign(olga, "Heron Court 3", "Cleo")
    cleo.wait_for_text("job", "Heron Court 3")
    check_jobs(cleo, "Heron Court 3")
    cleo.tap("job")
    cleo.tap("change-job")
    expect(cleo.page.get_by_test_id("keep-job")).to_be_visible()
    expect(cleo.page.get_by_test_id("crew")).to_have_count(0)
    cleo.tap("change-job-close")
    cleo.tap("back")

    olga.lose_network()
    assign(olga, "Heron Court 3", "Cleo")
    assign(olga, "Pear Tree Yard", "Cleo")
    olga.wait_for_text("save-line", "2 waiting")
    check_jobs(cleo, "Heron Court 3")
    olga.find_network()
    cleo.wait_for_text("job", "Pear Tree Yard")
    expect(cleo.page.get_by_test_id("job")).to_have_count(1)
    assert olga.complaints + cleo.complaints == []


def test_whoever_made_a_job_stays_with_it_when_a_foreman_marks_another(
    olga: Phone, shared_service: Service, new_phone: Phones
) -> None:
    dora = let_in(olga, shared_service, new_phone(engine=False), "Dora", "setter")
    finn = let_in(olga, shared_service, new_phone(engine=False), "Finn", "setter")
    begin_job(dora, "Mill Lane 9")
    olga.page.get_by_test_id("job").filter(has_text="Mill Lane 9").click()
    olga.tap("change-job")
    crew = olga.page.get_by_test_id("crew-member")
    expect(crew.filter(has_text="Dora")).to_have_attribute("aria-pressed", "true")
    crew.filter(has_text="Finn").click()
    finn.wait_for_text("job", "Mill Lane 9")
    check_jobs(dora, "Mill Lane 9")
    crew.filter(has_text="Dora").click()
    expect(dora.page.get_by_test_id("job")).to_have_count(0)
    check_jobs(finn, "Mill Lane 9")


def test_a_viewer_looks_everywhere_is_told_so_and_changes_nothing_until_the_role_changes(
    olga: Phone, shared_service: Service, new_phone: Phones
) -> None:
    eve = let_in(olga, shared_service, new_phone(engine=False), "Eve", "viewer")
    olga.begin_room("Brook Street 4", "Mill End", "Hall")
    olga.walk([("8", "left")] * 4)
    olga.home()
    assign(olga, "Brook Street 4", "Eve")
    eve.wait_for_text("viewer", "You may look; nothing you do here changes the job.")
    eve.wait_for_text("job", "Brook Street 4")
    expect(eve.page.get_by_test_id("new-job")).to_have_count(0)
    eve.open_room("Hall")
    expect(eve.page.get_by_test_id("change-room")).to_have_count(0)
    eve.shot("phone-viewer")
    eve.go_to("material")
    eve.tap("field-mix.sand")
    eve.wait_for_text("only-looks", "Nothing was changed")
    eve.tap("only-looks-seen")
    eve.tap("step-room")
    eve.go_to("levels")
    expect(eve.page.get_by_test_id("keypad")).to_have_count(0)
    eve.tap("back")
    eve.tap("room-history")
    eve.wait_for("story-step")
    expect(eve.page.get_by_test_id("put-back")).to_have_count(0)

    open_people(olga)
    person_card(olga, "Eve").get_by_test_id("change-person").click()
    olga.tap("role-setter")
    olga.tap("keep-person")
    expect(eve.page.get_by_test_id("viewer")).to_have_count(0, timeout=20_000)
    eve.tap("back")
    eve.tap("change-room")
    eve.fill("room-name", "Hall by Eve")
    eve.tap("keep-room")
    eve.wait_for_text("save-line", ALL_SENT)
    assert olga.complaints + eve.complaints == []
