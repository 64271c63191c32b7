"""Photos: taken without a network, sent in parts that go on where they stopped, seen by others, told no place."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from PIL import Image
from playwright.sync_api import Route, expect
from tests.browser.phone import PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service
from tests.pictures import XMP, position, saved

from evenbed.pictures import EXIF_MARK, XMP_POSITIONS

pytestmark = pytest.mark.browser

SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
PARTS = re.compile(r"/api/photos/[0-9a-f]{64}\?")


@pytest.fixture
def camera_file(tmp_path: Path) -> Path:
    """A picture as a phone's camera writes it: lying on its side, with the place in Exif and in XMP."""
    picture = Image.effect_noise((2600, 1800), 40).convert("RGB")
    picture.paste((200, 30, 30), (0, 0, 2600, 300))  # stands at the right once the picture is upright
    exif = Image.Exif()
    exif.load(position())
    exif[0x0112] = 6  # its top is at the right (JEITA CP-3451, 4.6.4, Orientation)
    file = tmp_path / "from the camera.jpg"
    file.write_bytes(saved(picture, exif=exif, xmp=XMP.encode(), quality=92))
    return file


@dataclass
class Uploads:
    """What goes by on the way of photos: the offset and the length of every part, and what happens before one."""

    before: Callable[[int], None] = lambda _number: None
    parts: list[tuple[int, int]] = field(default_factory=list)
    held: list[Route] = field(default_factory=list)
    holding: bool = False

    def watch(self, phone: Phone) -> "Uploads":
        """From now on, on this phone."""
        phone.context.route(PARTS, self._seen)
        return self

    def _seen(self, route: Route) -> None:
        if route.request.method == "PUT":
            offset = int(parse_qs(urlsplit(route.request.url).query)["offset"][0])
            self.before(len(self.parts))
            self.parts.append((offset, len(route.request.post_data_buffer or b"")))
            if self.holding:
                self.held.append(route)
                return
        route.continue_()


def joined_with_room(phone: Phone, service: Service) -> Phone:
    """A phone in the office's books, on the screen of a new room."""
    phone.open(service.address)
    phone.join(service.join_code(), "Ana")
    phone.begin_room("Alder Court", "Mill End", "Hall")
    phone.walk(SQUARE)
    phone.home()
    phone.open_room("Hall")
    return phone


def take_photo(phone: Phone, file: Path, count: int = 1) -> None:
    """By the gallery's button, which a program can press too."""
    phone.page.get_by_test_id("choose-photo").set_input_files(file)
    expect(phone.page.get_by_test_id("photo-image")).to_have_count(count, timeout=PLAN_PATIENCE_MS)


def wait_until_sent(phone: Phone) -> None:
    """Nothing of a photo waits any more."""
    expect(phone.page.get_by_test_id("photos-waiting")).to_have_count(0, timeout=60_000)


def pictures_at(phone: Phone, service: Service) -> list[bytes]:
    """What the service holds, asked for with this phone's cookie."""
    records = phone.page.request.get(f"{service.address}/api/pull?after=0").json()["records"]
    hashes = [record["fields"]["hash"] for record in records if record["kind"] == "photo"]
    replies = [phone.page.request.get(f"{service.address}/api/photos/{one}/file") for one in hashes]
    assert all(reply.ok for reply in replies)
    return [reply.body() for reply in replies]


def test_a_photo_taken_offline_is_shown_at_once_and_seen_by_others_once_there_is_a_network(
    service: Service, new_phone: Callable[..., Phone], camera_file: Path
) -> None:
    ana = joined_with_room(new_phone(engine=False), service)
    ana.wait_until_kept()
    ana.lose_network()
    take_photo(ana, camera_file)
    expect(ana.page.get_by_test_id("photo-mark")).to_have_text("Waiting")
    ana.wait_for_text("photos-waiting", "1 photo waiting")
    ana.page.get_by_test_id("photos").scroll_into_view_if_needed()
    ana.shot("photo-waiting")
    ana.new_tab()
    ana.open(service.address)  # the app was closed: it is all still here
    ana.open_room("Hall")
    expect(ana.page.get_by_test_id("photo-image")).to_have_count(1)
    ana.find_network()
    wait_until_sent(ana)
    expect(ana.page.get_by_test_id("photo-mark")).to_have_count(0)
    ana.tap("photo")
    ana.wait_for("photo-whole")
    ana.fill("photo-note", "Crack along the north wall")
    ana.shot("photo-open")
    ana.tap("keep-photo-note")

    office = new_phone(office=True, engine=False)
    office.open(service.address)
    office.join(service.join_code(), "Foreman")
    office.open_room("Hall")
    expect(office.page.get_by_test_id("photo-image")).to_have_count(1, timeout=PLAN_PATIENCE_MS)
    office.shot("photos-office")
    office.tap("photo")
    office.wait_for("photo-whole")
    expect(office.page.get_by_test_id("photo-note")).to_have_value("Crack along the north wall")
    office.shot("photo-open-office")
    office.lose_network()  # once looked at it is here
    office.tap("photo-sheet-close")
    office.tap("photo")
    office.wait_for("photo-whole")
    assert ana.complaints == office.complaints == []


def test_the_place_is_in_the_cameras_file_and_nowhere_in_what_the_service_holds(
    service: Service, new_phone: Callable[..., Phone], camera_file: Path
) -> None:
    source = camera_file.read_bytes()
    assert EXIF_MARK in source
    assert XMP_POSITIONS[0] in source
    ana = joined_with_room(new_phone(engine=False), service)
    take_photo(ana, camera_file)
    wait_until_sent(ana)
    [held] = pictures_at(ana, service)
    assert EXIF_MARK not in held
    assert not any(mark in held for mark in XMP_POSITIONS)
    with Image.open(BytesIO(held)) as picture:
        picture.load()
        assert picture.format == "JPEG"
        assert not picture.getexif()
        assert not {"exif", "xmp", "comment", "photoshop"} & picture.info.keys()
        width, height = picture.size
        assert (max(width, height), width < height) == (2048, True)  # small, and upright
        right, left = picture.getpixel((width - 40, height // 2)), picture.getpixel((40, height // 2))
        assert isinstance(right, tuple)
        assert isinstance(left, tuple)
        assert right[0] - right[1] > 100 > abs(left[0] - left[1])
    assert len(held) < 1_000_000


def test_an_upload_that_was_cut_off_by_the_service_stopping_goes_on_where_it_stood(
    service: Service, new_phone: Callable[..., Phone], camera_file: Path
) -> None:
    ana = joined_with_room(new_phone(engine=False), service)
    uploads = Uploads(before=lambda number: service.stop() if number == 2 else None).watch(ana)
    take_photo(ana, camera_file)
    ana.wait_for_text("photos-waiting", "1 photo waiting")
    while len(uploads.parts) < 3:
        ana.page.wait_for_timeout(100)
    kept, began = sum(length for _, length in uploads.parts[:2]), len(uploads.parts)
    uploads.before = lambda _number: None
    service.start()
    wait_until_sent(ana)
    again = uploads.parts[began:]
    assert again[0][0] == kept > 0  # on from what the service had kept, not from the first byte
    assert [offset for offset, _ in again] == [kept + sum(n for _, n in again[:i]) for i in range(len(again))]
    [held] = pictures_at(ana, service)
    assert kept + sum(length for _, length in again) == len(held)  # every byte that counted came once
    assert ana.complaints == []


def test_a_reading_saved_in_mid_upload_is_at_the_office_before_the_photo_is(
    service: Service, new_phone: Callable[..., Phone], camera_file: Path
) -> None:
    ana = joined_with_room(new_phone(engine=False), service)
    uploads = Uploads(holding=True).watch(ana)
    take_photo(ana, camera_file)
    while not uploads.held:
        ana.page.wait_for_timeout(50)
    ana.go_to("levels")
    ana.read([("40", 3)])
    while not readings_at(ana, service):
        ana.page.wait_for_timeout(50)
    assert len(uploads.parts) == 1  # the reading is there; of the photo not even the first part is
    uploads.holding = False
    for route in uploads.held:
        route.continue_()
    wait_until_sent(ana)
    assert pictures_at(ana, service)


def readings_at(phone: Phone, service: Service) -> int:
    """How many readings the service has."""
    records = phone.page.request.get(f"{service.address}/api/pull?after=0").json()["records"]
    return sum(record["kind"] == "reading" for record in records)


def test_a_photo_of_a_reading_is_on_its_sheet_and_a_deleted_one_comes_back_by_undo(
    service: Service, new_phone: Callable[..., Phone], camera_file: Path
) -> None:
    ana = joined_with_room(new_phone(engine=False), service)
    take_photo(ana, camera_file)
    ana.go_to("levels")
    ana.read([("40", 3)])
    ana.tap("last-reading")
    sheet = ana.page.get_by_test_id("reading")
    expect(sheet.get_by_test_id("photo")).to_have_count(0)
    sheet.get_by_test_id("choose-photo").set_input_files(camera_file)
    expect(sheet.get_by_test_id("photo-image")).to_have_count(1, timeout=PLAN_PATIENCE_MS)
    ana.shot("photo-of-reading")
    ana.tap("reading-close")
    ana.home()
    ana.open_room("Hall")
    expect(ana.page.get_by_test_id("photo-image")).to_have_count(2)
    ana.page.get_by_test_id("photo").first.click()
    ana.tap("delete-photo")
    expect(ana.page.get_by_test_id("photo")).to_have_count(1)
    ana.tap("undo")
    expect(ana.page.get_by_test_id("photo-image")).to_have_count(2)
    assert ana.complaints == []


def test_a_file_that_is_no_picture_is_told_and_nothing_is_kept(
    service: Service, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    file = tmp_path / "no picture.jpg"
    file.write_bytes(b"<html>not a picture</html>")
    ana = joined_with_room(new_phone(engine=False), service)
    ana.page.get_by_test_id("choose-photo").set_input_files(file)
    ana.wait_for("no-picture")
    expect(ana.page.get_by_test_id("photo")).to_have_count(0)
    ana.shot("photo-no-picture")
    assert ana.complaints == []
