"""A job as a file, without any network: out of one phone and into another that has never heard of an office."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.looks import small_targets, sticking_out
from tests.browser.phone import PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service
from tests.jobfiles.hostile import good, text, zipped
from tests.pictures import jpeg

pytestmark = pytest.mark.browser

SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
THUMB_PX = 56
FIGURE = "figure-bed-volume-value"


def worked_hall(phone: Phone, service: Service, picture: Path) -> None:
    """A room with readings that the office has, a photo and a note that it has not: the network went."""
    phone.open(service.address)
    phone.join(service.join_code(), "Ana")
    phone.begin_room("Heron Court", "Mill End", "Hall")
    phone.walk(SQUARE)
    phone.go_to("levels")
    phone.read([("40", part) for part in (3, 5, 7, 9)])
    phone.tap("back")
    phone.wait_for_text("save-line", "sent")
    phone.to_jobs()
    phone.tap("job")
    phone.wait_for("save-job-file")  # the page of the job was looked at: its history comes
    phone.wait_until_kept()
    phone.page.wait_for_timeout(1_500)
    phone.lose_network()
    phone.to_jobs()
    phone.open_room("Hall")
    phone.page.get_by_test_id("choose-photo").set_input_files(picture)
    expect(phone.page.get_by_test_id("photo-image")).to_have_count(1, timeout=PLAN_PATIENCE_MS)
    phone.wait_for(FIGURE)


def saved_job(phone: Phone, folder: Path) -> Path:
    """The file, as the browser saved it."""
    phone.to_jobs()
    phone.tap("job")
    with phone.page.expect_download() as download:
        phone.tap("save-job-file")
    kept = folder / download.value.suggested_filename
    download.value.save_as(kept)
    return kept


def take(phone: Phone, file: Path) -> str:
    """Taken in from the list of jobs; what the phone says of it."""
    phone.to_jobs()
    phone.page.get_by_test_id("job-file").set_input_files(file)
    told = phone.page.get_by_test_id("job-file-told")
    expect(told).not_to_contain_text("Looking into the file", timeout=20_000)
    return told.inner_text()


def test_a_job_goes_by_file_to_a_phone_that_never_joined_with_room_plan_photo_and_story(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    picture = tmp_path / "picture.jpg"
    picture.write_bytes(jpeg(3).content)
    ana = new_phone()
    worked_hall(ana, service, picture)
    figure = ana.text(FIGURE)
    file = saved_job(ana, tmp_path)
    assert re.fullmatch(r"heron-court-\d{4}-\d\d-\d\d\.evenbed\.zip", file.name)
    ana.wait_for_text("job-file-saved", "1 photo")
    expect(ana.page.get_by_test_id("job-file-saved")).not_to_contain_text("history")
    ana.shot("job-file-saved")

    other = new_phone()
    other.open(service.address)
    other.wait_until_kept()
    other.lose_network()
    told = take(other, file)
    assert re.search(r"Taken in: \d+ new changes, 1 new photo", told)
    other.shot("job-file-taken")
    assert small_targets(other.page, THUMB_PX) == sticking_out(other.page) == []
    assert "Nothing in it is new" in take(other, file)
    other.tap("open-taken")
    other.tap("room")
    expect(other.page.get_by_test_id(FIGURE)).to_have_text(figure, timeout=PLAN_PATIENCE_MS)
    expect(other.page.get_by_test_id("photo-image")).to_have_count(1, timeout=PLAN_PATIENCE_MS)
    other.to_jobs()
    other.tap("job")
    other.tap("change-job")
    other.tap("job-history")
    other.wait_for_text("story-who", "From a file: Ana")
    other.shot("story-from-a-file")
    assert ana.complaints == other.complaints == []


def test_a_file_that_is_no_good_is_refused_in_words_and_nothing_of_it_is_kept(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    phone = new_phone(engine=False)
    phone.open(service.address)
    phone.wait_until_kept()
    phone.lose_network()
    file = tmp_path / "bad.zip"
    newer, orphan = good(), good()
    newer["evenbed_job"], orphan["history"][1]["fields"]["job_id"] = 2, "nowhere"
    for content, words in (
        (zipped(text(good()), ("../escape", b"x")), "has a name that no job file has: ../escape"),
        (zipped(text(newer)), "newer version of the app"),
        (zipped(text(orphan)), "another job"),
        (zipped(b"[" * 100_000_000), "larger than a job can be"),
        (zipped(b"[" * 1_000_000), "nested deeper"),
        (zipped(text(good()))[:-300], "cut off"),
    ):
        file.write_bytes(content)
        told = take(phone, file)
        assert "Nothing was taken from this file." in told
        assert words in told
    phone.shot("job-file-refused")
    phone.to_jobs()
    expect(phone.page.get_by_test_id("job")).to_have_count(0)
    assert phone.complaints == []
