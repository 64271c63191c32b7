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
    remove_device_of,
)
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

THEMES = ("light", "dark", "sun")
ALL_SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"
Phones = Callable[..., Phone]


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


def jobs_on(phone: Phone) -> list[str]:
    return [text.split("\n")[0] for text in phone.texts("job")]


def test_a_setter_invited_by_name_joins_with_the_code_alone_and_the_list_tells_of_the_phone(
    service: Service, new_phone: Phones
) -> None:
    olga = foreman_of(service, new_phone(office=True, engine=False))
    open_people(olga)
    code = invite(olga, "Ana", "setter")
    assert re.fullmatch(r"[0-9A-Z]{4}-[0-9A-Z]{4}", code)
    olga.wait_for_text("invite-left", r"Holds for (?:30:00|29:\d\d) more")
    olga.shot("office-invite")
    ana = join_as(new_phone(engine=False), service, code)
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
    late.open(f"{service.address}/settings")
    late.fill("join-code", code)
    late.tap("join-now")
    late.wait_for_text("join-outcome", "used before")
    assert olga.complaints + ana.complaints + late.complaints == []


def test_the_picture_of_the_code_is_read_in_every_light_opens_the_app_with_the_code_and_the_person_confirms(
    service: Service, new_phone: Phones
) -> None:
    olga = foreman_of(service, new_phone(engine=False))
    open_people(olga)
    code = invite(olga, "Ben", "setter")
    address = f"{service.address}/settings#join={code}"
    for theme in THEMES:
        olga.page.evaluate("(theme) => { document.documentElement.dataset.theme = theme; }", theme)
        olga.shot(f"{theme}-invite")
        assert texts_read_from(olga.page.get_by_test_id("qr").screenshot()) == [address]
    ben = new_phone(engine=False)
    ben.open(address)
    ben.wait_for("code-brought")
    assert ben.page.get_by_test_id("join-code").input_value() == code
    assert ben.page.url == f"{service.address}/settings"
    expect(ben.page.get_by_test_id("joined")).to_have_count(0)
    ben.tap("join-now")
    ben.wait_for_text("joined", r"Joined as Ben\.")
    ben.open(f"{service.address}/settings#join={code}")
    ben.wait_for("joined-already")


def test_inside_the_installed_app_the_code_is_read_from_a_photo_of_its_picture(
    service: Service, new_phone: Phones, tmp_path: Path
) -> None:
    olga = foreman_of(service, new_phone(engine=False))
    open_people(olga)
    code = invite(olga, "Ben", "setter")
    photo, other = tmp_path / "photo.jpg", tmp_path / "wall.jpg"
    shot = Image.open(BytesIO(olga.page.screenshot())).convert("RGB")
    shot.resize((1620, 3330)).rotate(4, fillcolor="grey").save(photo, quality=60)
    Image.new("RGB", (900, 700), "grey").save(other)
    ben = new_phone(engine=False)
    ben.open(f"{service.address}/settings")
    ben.page.get_by_test_id("code-picture").set_input_files(other)
    ben.wait_for_text("code-lost", "No join code was found")
    ben.page.get_by_test_id("code-picture").set_input_files(photo)
    expect(ben.page.get_by_test_id("join-code")).to_have_value(code)
    expect(ben.page.get_by_test_id("code-lost")).to_have_count(0)
    ben.tap("join-now")
    ben.wait_for_text("joined", r"Joined as Ben\.")


def test_a_code_that_does_not_say_whose_it_is_asks_for_the_name_and_still_holds(
    service: Service, new_phone: Phones
) -> None:
    phone: Phone = new_phone(engine=False)
    phone.open(f"{service.address}/settings")
    phone.fill("join-code", service.join_code())
    phone.tap("join-now")
    phone.wait_for_text("join-outcome", "the code still holds")
    phone.fill("join-person", "Rosa")
    phone.tap("join-now")
    phone.wait_for_text("joined", r"Joined as Rosa\.")


def test_a_crew_is_chosen_with_or_without_a_network_and_the_job_appears_with_its_setter_and_vanishes_again(
    service: Service, new_phone: Phones
) -> None:
    olga = foreman_of(service, new_phone(office=True, engine=False))
    ana = let_in(olga, service, new_phone(engine=False), "Ana", "setter")
    begin_job(olga, "Heron Court 3")
    begin_job(olga, "Pear Tree Yard")
    olga.wait_for_text("save-line", ALL_SENT)
    ana.page.get_by_test_id("jobs").get_by_text("No job yet").wait_for()
    assign(olga, "Heron Court 3", "Ana")
    ana.wait_for_text("job", "Heron Court 3")
    assert jobs_on(ana) == ["Heron Court 3"]
    ana.tap("job")
    ana.tap("change-job")
    expect(ana.page.get_by_test_id("keep-job")).to_be_visible()
    expect(ana.page.get_by_test_id("crew")).to_have_count(0)
    ana.tap("change-job-close")
    ana.tap("back")

    olga.lose_network()
    assign(olga, "Heron Court 3", "Ana")
    assign(olga, "Pear Tree Yard", "Ana")
    olga.wait_for_text("save-line", "2 waiting")
    assert jobs_on(ana) == ["Heron Court 3"]
    olga.find_network()
    ana.wait_for_text("job", "Pear Tree Yard")
    expect(ana.page.get_by_test_id("job")).to_have_count(1)
    assert olga.complaints + ana.complaints == []


def test_whoever_made_a_job_stays_with_it_when_a_foreman_marks_another(service: Service, new_phone: Phones) -> None:
    olga = foreman_of(service, new_phone(office=True, engine=False))
    ana = let_in(olga, service, new_phone(engine=False), "Ana", "setter")
    ben = let_in(olga, service, new_phone(engine=False), "Ben", "setter")
    begin_job(ana, "Heron Court 3")
    olga.wait_for_text("job", "Heron Court 3")
    olga.tap("job")
    olga.tap("change-job")
    crew = olga.page.get_by_test_id("crew-member")
    expect(crew.filter(has_text="Ana")).to_have_attribute("aria-pressed", "true")
    crew.filter(has_text="Ben").click()
    ben.wait_for_text("job", "Heron Court 3")
    assert jobs_on(ana) == ["Heron Court 3"]
    crew.filter(has_text="Ana").click()
    expect(ana.page.get_by_test_id("job")).to_have_count(0)
    assert jobs_on(ben) == ["Heron Court 3"]


def test_a_viewer_looks_everywhere_is_told_so_and_changes_nothing_until_the_role_changes(
    service: Service, new_phone: Phones
) -> None:
    olga = foreman_of(service, new_phone(office=True, engine=False))
    eve = let_in(olga, service, new_phone(engine=False), "Eve", "viewer")
    olga.begin_room("Heron Court 3", "Mill End", "Hall")
    olga.walk([("8", "left")] * 4)
    olga.home()
    assign(olga, "Heron Court 3", "Eve")
    eve.wait_for_text("viewer", "You may look; nothing you do here changes the job.")
    eve.wait_for_text("job", "Heron Court 3")
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


def test_names_are_changed_the_last_foreman_stays_and_without_a_network_the_list_is_shown_as_it_was(
    service: Service, new_phone: Phones
) -> None:
    olga = foreman_of(service, new_phone(engine=False))
    open_people(olga)
    olga.tap("device")
    olga.fill("device-name", "Olga's own")
    olga.tap("keep-device")
    olga.wait_for_text("device", "Olga's own")
    olga.tap("device")
    olga.tap("remove-device")
    olga.wait_for_text("removing", "the device in your hand")
    olga.tap("remove-really")
    olga.wait_for_text("not-done", "leave no foreman")
    olga.shot("phone-last-foreman")
    olga.tap("device-sheet-close")
    olga.tap("change-person")
    olga.fill("person-name", "Olga M.")
    olga.tap("keep-person")
    expect(olga.page.get_by_role("heading", name="Olga M.")).to_be_visible()

    olga.lose_network()
    olga.tap("change-person")
    olga.tap("role-viewer")
    olga.tap("keep-person")
    olga.page.get_by_test_id("person-sheet").get_by_text("cannot be reached now").wait_for()
    olga.tap("person-sheet-close")
    olga.page.get_by_text("As the office told it").wait_for()
    expect(olga.page.get_by_role("heading", name="Olga M.")).to_be_visible()


def test_what_a_phone_removed_in_mid_work_had_not_sent_is_saved_as_a_file_and_counted_once_in_the_office(
    service: Service, new_phone: Phones, tmp_path: Path
) -> None:
    olga = foreman_of(service, new_phone(office=True, engine=False))
    ana = let_in(olga, service, new_phone(engine=False), "Ana", "setter")
    ana.begin_room("Heron Court 3", "Mill End", "Hall")
    ana.walk([("8", "left")] * 4)
    ana.wait_for_text("save-line", ALL_SENT)
    ana.lose_network()
    ana.go_to("levels")
    ana.read([("40", part) for part in (3, 5, 7)])
    ana.wait_for_text("save-line", "3 waiting")
    remove_device_of(olga, "Ana")
    ana.find_network()
    ana.wait_for_text("save-line", r"^Removed by the office · 3 waiting stay here$")
    ana.keys("4", "1", "part-1")
    ana.wait_for_text("save-line", r"^Removed by the office · 4 waiting stay here$")
    ana.tap("join-again")
    ana.page.get_by_text("The office removed this phone").wait_for()
    ana.shot("phone-removed")
    with ana.page.expect_download() as download:
        ana.tap("save-unsent")
    ana.wait_for_text("unsent-saved", "Saved as a file: 4 changes")
    kept = tmp_path / download.value.suggested_filename
    download.value.save_as(kept)

    olga.tap("back")
    for told in ("Read: 4 new changes", "Read: 0 new changes"):
        olga.page.get_by_test_id("unsent-file").set_input_files(kept)
        olga.wait_for_text("unsent-told", told)
    olga.wait_for_text("save-line", ALL_SENT)
    olga.home()
    olga.open_room("Hall")
    olga.wait_for_text("step-levels", "4 readings")
    open_people(olga)
    person_card(olga, "Ana").get_by_test_id("another-device").click()
    olga.tap("make-code")
    olga.wait_for("invite-code")
    ana.fill("join-code", olga.text("invite-code"))
    ana.tap("join-now")
    ana.wait_for_text("joined", r"Joined as Ana\.")
    ana.wait_for_text("save-line", ALL_SENT)
    ana.home()
    ana.open_room("Hall")
    ana.wait_for_text("step-levels", "4 readings")
    assert olga.complaints + ana.complaints == []
