"""Names are changed, the last foreman stays, and what a removed phone had not sent is not lost."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.people import foreman_of, let_in, open_people, person_card, remove_device_of
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

ALL_SENT = r"^Saved on this (?:phone|computer) · sent \d+:\d\d [AP]M$"
Phones = Callable[..., Phone]


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
