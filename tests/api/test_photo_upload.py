"""Photos arrive in parts, whatever is repeated, lost or sent by another device; a bad one never becomes complete."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from sqlmodel import select, update
from tests.clients import Client, service
from tests.phones import uuid_text
from tests.pictures import (
    Picture,
    jpeg,
    make_room,
    name_photo,
    path_of,
    png,
    png_bomb,
    position,
    send_all,
    send_part,
)
from tests.share import share_of
from tests.stores import START

from evenbed.store.tables import PhotoPartRow, PhotoRow
from evenbed.store.times import text_from_moment

PICTURE = jpeg()
HALF = PICTURE.size // 2


@dataclass
class Company:
    """A service that many examples share: each has a picture of its own."""

    phone: Client
    pictures: int = 0

    def next_picture(self) -> Picture:
        """A picture that nobody has sent yet, and that a record names."""
        self.pictures += 1
        picture = jpeg(comment=f"number {self.pictures:06}")
        name_photo(self.phone, picture, 2 + self.pictures)
        return picture


@pytest.fixture(scope="module")
def company(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Company]:
    """One for all examples of this file."""
    with service(tmp_path_factory.mktemp("company")) as client:
        phone = client.joined()
        make_room(phone)
        yield Company(phone)


@pytest.fixture
def room(phone: Client) -> Client:
    """A phone with a room, and a record that names the picture."""
    make_room(phone)
    name_photo(phone, PICTURE)
    return phone


def file_of(phone: Client, picture: Picture) -> bytes:
    """The picture as the service gives it."""
    reply = phone.send("GET", path_of(picture, "/file"))
    assert reply.status_code == 200, reply.text
    return reply.content


def state_of(phone: Client, picture: Picture) -> tuple[int, int, bool]:
    """Size, received, complete."""
    told = phone.send("GET", path_of(picture)).json()
    return told["size"], told["received"], told["complete"]


def rows_left(phone: Client) -> tuple[int, int]:
    """How many photos and parts the service keeps."""
    with phone.store.reading() as work:
        session = work._session
        return len(session.exec(select(PhotoRow.hash)).all()), len(session.exec(select(PhotoPartRow.hash)).all())


def test_a_photo_sent_in_parts_is_the_same_photo(room: Client) -> None:
    assert state_of(room, PICTURE) == (PICTURE.size, 0, False)
    assert send_all(room, PICTURE, 4_000).json() == {"size": PICTURE.size, "received": PICTURE.size, "complete": True}
    assert file_of(room, PICTURE) == PICTURE.content
    with Image.open(BytesIO(room.send("GET", path_of(PICTURE, "/thumbnail")).content)) as small:
        assert small.size == (320, 240)
    assert rows_left(room) == (1, 0)


def test_a_part_sent_again_after_a_lost_reply_counts_once(room: Client) -> None:
    first = send_part(room, PICTURE, 0, PICTURE.content[:HALF])
    again = send_part(room, PICTURE, 0, PICTURE.content[:HALF])
    assert first.json() == again.json() == {"size": PICTURE.size, "received": HALF, "complete": False}
    last = send_part(room, PICTURE, HALF, PICTURE.content[HALF:])
    assert last.json()["complete"]
    assert send_part(room, PICTURE, HALF, PICTURE.content[HALF:]).json() == last.json()


def test_a_gap_is_refused_and_says_where_to_go_on(room: Client) -> None:
    send_part(room, PICTURE, 0, PICTURE.content[:100])
    reply = send_part(room, PICTURE, 200, PICTURE.content[200:300])
    assert (reply.status_code, reply.json()["code"], reply.json()["expected"]) == (409, "photo_gap", 100)


def test_another_device_goes_on_where_the_first_stopped(room: Client) -> None:
    send_part(room, PICTURE, 0, PICTURE.content[:HALF])
    other = room.joined(uuid_text(501), "Ben")
    assert state_of(other, PICTURE) == (PICTURE.size, HALF, False)
    assert send_part(other, PICTURE, HALF, PICTURE.content[HALF:]).json()["complete"]
    assert file_of(room, PICTURE) == PICTURE.content


@settings(max_examples=share_of(25), deadline=None)
@given(data=st.data())
def test_any_split_with_repeats_and_restarts_yields_the_same_photo(company: Company, data: st.DataObject) -> None:
    phone, picture = company.phone, company.next_picture()
    received = 0
    while received < picture.size:
        offset = data.draw(st.integers(0, received) if data.draw(st.booleans()) else st.just(received))
        left = picture.size - offset
        length = left - data.draw(st.integers(0, left - 1))
        reply = send_part(phone, picture, offset, picture.content[offset : offset + length])
        assert reply.status_code == 200, reply.text
        assert reply.json()["received"] == max(received, offset + length if offset == received else 0)
        received = reply.json()["received"]
        assert reply.json() == phone.send("GET", path_of(picture)).json()
    assert file_of(phone, picture) == picture.content


@settings(max_examples=share_of(25), deadline=None)
@given(data=st.data())
def test_wrong_bytes_never_become_complete_and_right_ones_still_can(company: Company, data: st.DataObject) -> None:
    phone, picture = company.phone, company.next_picture()
    wrong = bytearray(picture.content)
    wrong[data.draw(st.integers(0, picture.size - 1))] ^= data.draw(st.integers(1, 255))
    cut = data.draw(st.integers(1, picture.size - 1))
    send_part(phone, picture, 0, bytes(wrong[:cut]))
    reply = send_part(phone, picture, cut, bytes(wrong[cut:]))
    assert (reply.status_code, reply.json()["code"]) == (422, "photo_damaged")
    assert phone.send("GET", path_of(picture, "/file")).status_code == 404
    assert state_of(phone, picture) == (picture.size, 0, False)
    assert send_all(phone, picture, 5_000).json()["complete"]


BAD = {
    "photo_has_position": jpeg(exif=position()),
    "photo_unknown_type": Picture(b"<html>no picture</html>"),
    "photo_too_large": Picture(png_bomb(8_000), "image/png", 8_000, 8_000),
    "photo_differs": Picture(png().content, "image/jpeg"),
    "photo_damaged": Picture(PICTURE.content[:-300]),
}


@pytest.mark.parametrize("code", BAD)
def test_a_bad_picture_is_let_go_of_and_the_code_says_why(phone: Client, code: str) -> None:
    make_room(phone)
    name_photo(phone, BAD[code])
    reply = send_all(phone, BAD[code], 7_000)
    assert (reply.status_code, reply.json()["code"]) == (422, code)
    assert state_of(phone, BAD[code]) == (BAD[code].size, 0, False)
    assert rows_left(phone) == (0, 0)
    assert phone.send("GET", path_of(BAD[code], "/thumbnail")).status_code == 404


def test_a_photo_that_was_bad_may_be_sent_well_from_its_first_byte(room: Client) -> None:
    send_part(room, PICTURE, 0, b"x" * HALF)
    assert send_part(room, PICTURE, HALF, PICTURE.content[HALF:]).json()["code"] == "photo_damaged"
    assert send_part(room, PICTURE, HALF, PICTURE.content[HALF:]).json()["expected"] == 0
    assert send_all(room, PICTURE).json()["complete"]


def test_a_size_that_is_not_the_records_and_bytes_beyond_it_are_refused(room: Client) -> None:
    for offset, content, size in (
        (0, PICTURE.content[:10], PICTURE.size + 1),
        (0, PICTURE.content + b"x", PICTURE.size),
        (0, b"", PICTURE.size),
    ):
        reply = send_part(room, PICTURE, offset, content, size)
        assert (reply.status_code, reply.json()["code"]) == (422, "photo_differs")
    assert rows_left(room) == (0, 0)


def test_a_part_is_declared_as_octets_and_no_larger_than_agreed(room: Client) -> None:
    told = {"params": {"offset": 0, "size": PICTURE.size}, "content": b"x"}
    for declared in ({}, {"Content-Type": "text/plain"}, {"Content-Type": "application/json"}):
        reply = room.send("PUT", path_of(PICTURE), headers=declared, **told)
        assert (reply.status_code, reply.json()["code"]) == (415, "octets_required")
    large = send_part(room, PICTURE, 0, bytes(262_145))
    assert (large.status_code, large.json()["code"]) == (413, "too_large")


def test_parts_that_nobody_went_on_sending_are_forgotten_when_another_photo_begins(room: Client) -> None:
    send_part(room, PICTURE, 0, PICTURE.content[:HALF])
    with room.store.writing() as work:
        long_ago = update(PhotoRow).values(begun_at=text_from_moment(START - timedelta(days=400)))
        work._session.exec(long_ago)
        work.commit()
    other = jpeg(colour=200)
    name_photo(room, other, 4)
    send_part(room, other, 0, other.content[:100])
    assert rows_left(room) == (1, 1)
    assert state_of(room, PICTURE) == (PICTURE.size, 0, False)
