"""A scan chosen in the office becomes readings, looked at before they are taken; without the office that is said."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.running import Service
from tests.scans.clouds import Scan, level, save_ply, wavy

from evenbed.scans.room import Room

pytestmark = pytest.mark.browser
FOOT = 304.8
WALLS = [("12", "left"), ("9", "left"), ("12", "left"), ("9", "left")]
HALL = Room((((0.0, 0.0), (12 * FOOT, 0.0), (12 * FOOT, 9 * FOOT), (0.0, 9 * FOOT)),))
SENT = r"sent \d+:\d\d [AP]M$"


@pytest.fixture(scope="module")
def joined(shared_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    """The office's wide window."""
    office: Phone = shared_phones(office=True)
    office.open(shared_service.address)
    office.join(shared_service.join_code(), "Ana")
    return office


@pytest.fixture
def office(joined: Phone) -> Iterator[Phone]:
    """In a new hall of twelve feet by nine that the service has, where scans come in."""
    joined.to_jobs()
    joined.begin_room("Mill house", "Mill End", "Hall")
    joined.walk(WALLS)
    joined.wait_for_text("save-line", SENT)
    joined.tap("back")
    joined.tap("readings-in-out")
    joined.tap("way-scan_in")
    yield joined
    joined.find_network()


def test_a_scan_is_read_looked_at_and_taken_and_one_undo_takes_it_back(office: Phone, tmp_path: Path) -> None:
    scan = Scan(HALL, wavy).add_floor(60_000).add_walls(4_000).add_strays(2_000)
    office.page.get_by_test_id("scan-file").set_input_files(save_ply(tmp_path / "hall.ply", scan.points, mm=1000.0))
    office.wait_for_text("scan-readings", r"^\d+ readings from \d+ points$")
    count = int(office.text("scan-readings").split()[0])
    assert count > 50
    expect(office.page.locator(".room-drawing .spot.read")).to_have_count(count)
    office.shot("seen-scan")
    office.wait_for_text("take-readings", rf"^Take {count} readings$")
    office.tap("take-readings")
    office.wait_for("figure-bed-volume-value")
    office.wait_for_text("step-levels", rf"{count} readings")
    office.wait_for_text("save-line", SENT)
    office.tap("undo")
    expect(office.page.get_by_test_id("figure-bed-volume-value")).to_have_count(0)


def test_a_scan_of_the_bed_tells_its_flatness_and_becomes_readings_of_the_bed(office: Phone, tmp_path: Path) -> None:
    scan = Scan(HALL, level, noise=0.5).add_floor(120_000)
    office.tap("scan-stage-bed")
    office.page.get_by_test_id("scan-file").set_input_files(save_ply(tmp_path / "bed.ply", scan.points, mm=1000.0))
    office.wait_for("flat-report")
    expect(office.page.get_by_test_id("flat-within")).to_have_count(2)
    office.shot("seen-scan-bed")
    count = int(office.text("scan-readings").split()[0])
    office.tap("take-readings")
    expect(office.page.get_by_test_id("bed-reading")).to_have_count(count)


def test_a_file_that_is_no_scan_is_refused_and_nothing_is_taken(office: Phone, tmp_path: Path) -> None:
    (tmp_path / "hall.ply").write_bytes(b"ply\nformat ascii 1.0\nelement vertex 3\nend_header\n")
    office.page.get_by_test_id("scan-file").set_input_files(tmp_path / "hall.ply")
    office.wait_for_text("scan-refused", r"Nothing was taken")
    expect(office.page.get_by_test_id("take-readings")).to_have_count(0)


def test_without_the_office_it_is_said_and_nothing_can_be_chosen(office: Phone) -> None:
    office.lose_network()
    office.wait_for_text("scan-obstacle", r"cannot be reached")
    expect(office.page.get_by_test_id("scan-file")).to_have_count(0)
