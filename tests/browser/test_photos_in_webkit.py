"""A photo in the browser engine of iPhones: made small, upright and bare there too, kept, and sent."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import httpx
import pytest
from PIL import Image
from selenium.webdriver.common.by import By
from tests.browser.records import pulled_records
from tests.browser.running import Service
from tests.browser.webkit import webkit
from tests.browser.webkit_phone import WebKitPhone
from tests.pictures import position, saved

from evenbed.pictures import EXIF_MARK

pytestmark = [
    pytest.mark.browser,
    # Selenium's class for this browser calls another of Selenium's in a way that it means to give up.
    pytest.mark.filterwarnings("ignore:setting remote_server_addr in RemoteConnection:DeprecationWarning"),
]
SQUARE = [("8", "left"), ("8", "left"), ("8", "left"), ("8", "left")]
SHOWN = """
const image = document.querySelector('[data-testid="photo-image"]');
return image !== null && image.naturalWidth < image.naturalHeight;
"""


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[WebKitPhone]:
    """A tab in WebKit."""
    with webkit(tmp_path / "browser") as driver:
        yield WebKitPhone(driver)


@pytest.fixture
def camera_file(tmp_path: Path) -> Path:
    """A picture lying on its side, with the place in its Exif (JEITA CP-3451)."""
    exif = Image.Exif()
    exif.load(position())
    exif[0x0112] = 6
    file = tmp_path / "from the camera.jpg"
    file.write_bytes(saved(Image.effect_noise((2600, 1800), 20).convert("RGB"), exif=exif, quality=90))
    return file


def held_by(service: Service, code: str) -> list[bytes]:
    """The pictures that the service holds, as a program that joins with the code gets them."""
    told = {"code": code, "device_id": "01a20000-0000-7000-8000-00000000c0df", "device_name": "test", "person": "P"}
    with httpx.Client(base_url=service.address) as client:
        token = client.post("/api/join", json=told).raise_for_status().json()["token"]
        headers = {"Authorization": f"Bearer {token}"}
        photos = [r["fields"]["hash"] for r in pulled_records(service) if r["kind"] == "photo"]
        replies = [client.get(f"/api/photos/{one}/file", headers=headers).raise_for_status() for one in photos]
        return [reply.content for reply in replies]


def test_a_photo_is_made_small_upright_and_bare_in_webkit_and_sent_once_the_phone_has_joined(
    service: Service, phone: WebKitPhone, camera_file: Path
) -> None:
    phone.open(service.address)
    phone.begin_room("Alder Court", "Mill End", "Hall")
    phone.walk(SQUARE)
    phone.open(service.address)
    phone.tap("job")
    phone.tap("room")
    phone.wait_for("photos")
    phone.driver.find_element(By.CSS_SELECTOR, '[data-testid="choose-photo"]').send_keys(str(camera_file))
    phone.wait_for("photo-image")
    phone.until("an upright thumbnail", lambda: phone.driver.execute_script(SHOWN))
    phone.wait_for_text("photos-waiting", "1 photo waiting")
    phone.join(service.join_code(), "Ana")
    phone.until("photo sent", lambda: not phone.shown("photos-waiting"))
    [held] = held_by(service, service.join_code())
    with Image.open(BytesIO(held)) as picture:
        picture.load()
        assert (picture.format, max(picture.size), picture.width < picture.height) == ("JPEG", 2048, True)
        assert not picture.getexif()
    assert EXIF_MARK not in held
    assert phone.complaints() == []
