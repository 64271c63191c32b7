"""Who may look at a photo and who may send one; how a picture is served so that nothing in it can do harm."""

from typing import Any

import pytest
from tests.clients import Client, change
from tests.phones import uuid_text
from tests.pictures import JOB, Picture, drawn, jpeg, make_room, name_photo, path_of, saved, send_all, send_part

PICTURE = jpeg()
WAYS = ("", "/file", "/thumbnail")
OTHER_JOB, OTHER_ROOM = uuid_text(11), uuid_text(12)


@pytest.fixture
def phone(client: Client) -> Client:
    """A foreman's phone whose photo is complete."""
    joined = client.joined()
    make_room(joined)
    name_photo(joined, PICTURE)
    assert send_all(joined, PICTURE).json()["complete"]
    return joined


def person_of(phone: Client) -> str:
    """The id of the phone's person."""
    person: str = phone.send("GET", "/api/session").json()["person_id"]
    return person


def statuses(phone: Client, picture: Picture = PICTURE) -> list[int]:
    """What each way of looking answers."""
    return [phone.send("GET", path_of(picture, way)).status_code for way in WAYS]


def make_other_room(setter: Client) -> None:
    """A job and a room of the setter's own."""
    setter.push(
        change(1, "job", OTHER_JOB, {"name": "Birch"}, change_id=uuid_text(2001)),
        change(2, "room", OTHER_ROOM, {"job_id": OTHER_JOB, "name": "Bath"}, change_id=uuid_text(2002)),
    )


def name_in_other_room(setter: Client, picture: Picture) -> None:
    """The setter's own record that names the picture."""
    fields = picture.fields(OTHER_ROOM)
    reply = setter.push(change(3, "photo", uuid_text(99), fields, change_id=uuid_text(2003)))
    assert reply.json()["results"][0]["outcome"] == "applied"


def test_a_setter_sees_photos_of_assigned_jobs_only(phone: Client) -> None:
    setter = phone.joined(uuid_text(501), "Ben", "setter")
    assert statuses(setter) == [404, 404, 404]
    assert send_part(setter, PICTURE, 0, PICTURE.content).status_code == 404
    phone.push(change(4, "job", JOB, {"crew": [person_of(setter)]}))
    assert statuses(setter) == [200, 200, 200]
    phone.push(change(5, "job", JOB, {"crew": []}))
    assert statuses(setter) == [404, 404, 404]


def test_to_know_a_hash_is_not_to_have_seen_the_picture(phone: Client) -> None:
    setter = phone.joined(uuid_text(501), "Ben", "setter")
    make_other_room(setter)
    name_in_other_room(setter, PICTURE)
    assert setter.send("GET", path_of(PICTURE)).json() == {"size": PICTURE.size, "received": 0, "complete": False}
    assert statuses(setter) == [200, 404, 404]
    wrong = send_part(setter, PICTURE, 0, bytes(PICTURE.size))
    assert wrong.json()["code"] == "photo_damaged"
    assert statuses(phone) == [200, 200, 200]  # what others have is untouched
    assert send_all(setter, PICTURE).json()["complete"]
    assert statuses(setter) == [200, 200, 200]


def test_a_foreman_who_names_one_picture_in_two_jobs_sends_it_for_each(phone: Client) -> None:
    phone.push(change(4, "job", OTHER_JOB, {"name": "Birch"}), change(5, "room", OTHER_ROOM, {"job_id": OTHER_JOB}))
    name_photo(phone, PICTURE, 6, OTHER_ROOM)
    assert phone.send("GET", path_of(PICTURE)).json()["complete"] is False
    assert send_all(phone, PICTURE, 3_000).json()["complete"]


def test_a_viewer_looks_and_cannot_send(phone: Client) -> None:
    viewer = phone.joined(uuid_text(501), "Cy", "viewer")
    phone.push(change(4, "job", JOB, {"crew": [person_of(viewer)]}))
    assert statuses(viewer) == [200, 200, 200]
    reply = send_part(viewer, PICTURE, 0, PICTURE.content)
    assert (reply.status_code, reply.json()["code"]) == (403, "viewer_only_looks")


def test_without_a_token_and_after_removal_nothing_is_shown_or_taken(phone: Client, client: Client) -> None:
    helper = phone.joined(uuid_text(501), "Ben")
    held = {"If-None-Match": helper.send("GET", path_of(PICTURE, "/file")).headers["etag"]}
    assert helper.send("GET", path_of(PICTURE, "/file"), headers=held).status_code == 304
    phone.send("DELETE", f"/api/devices/{uuid_text(501)}")
    for way in WAYS:
        reply = helper.send("GET", path_of(PICTURE, way), headers=held)
        assert (reply.status_code, reply.json()["code"]) == (401, "device_removed")
        assert client.send("GET", path_of(PICTURE, way)).json()["code"] == "not_joined"
    assert send_part(helper, PICTURE, 0, PICTURE.content).json()["code"] == "device_removed"
    assert send_part(client, PICTURE, 0, PICTURE.content).json()["code"] == "not_joined"


def test_a_photo_that_no_record_names_or_whose_record_is_deleted_is_not_there(phone: Client) -> None:
    unnamed = jpeg(colour=200)
    assert statuses(phone, unnamed) == [404, 404, 404]
    assert send_part(phone, unnamed, 0, unnamed.content).status_code == 404
    phone.push(change(4, "photo", uuid_text(103), {"deleted": True}))
    assert statuses(phone) == [404, 404, 404]
    assert send_part(phone, PICTURE, 0, PICTURE.content).status_code == 404
    phone.push(change(5, "photo", uuid_text(103), {"deleted": False}))
    assert statuses(phone) == [200, 200, 200]  # undone: the bytes were kept


def test_an_address_that_is_no_hash_is_malformed(phone: Client) -> None:
    for name in ("x", "A" * 64, "0" * 63):
        assert phone.send("GET", f"/api/photos/{name}").json()["code"] == "malformed"


@pytest.mark.parametrize("way", ["/file", "/thumbnail"])
def test_a_browser_keeps_a_picture_for_itself_and_asks_at_every_use(phone: Client, way: str) -> None:
    first = phone.send("GET", path_of(PICTURE, way))
    assert first.headers["etag"] == f'"{PICTURE.hash}"'
    assert first.headers["cache-control"] == "private, no-cache"
    again = phone.send("GET", path_of(PICTURE, way), headers={"If-None-Match": f'"x", W/{first.headers["etag"]}'})
    assert (again.status_code, again.content) == (304, b"")
    assert phone.send("GET", path_of(PICTURE, way), headers={"If-None-Match": '"other"'}).content == first.content


PAGE = b"<html><body><script>document.body.textContent = 'it ran'</script></body></html>"
POLYGLOTS = {
    "in a comment": Picture(saved(drawn(), comment=PAGE)),
    "behind the picture": Picture(jpeg().content + PAGE),
}


@pytest.mark.parametrize("name", POLYGLOTS)
def test_a_page_hidden_in_a_picture_is_served_as_a_picture_and_nothing_else(phone: Client, name: str) -> None:
    picture = POLYGLOTS[name]
    name_photo(phone, picture, 4)
    assert send_all(phone, picture).json()["complete"]
    whole, small = (phone.send("GET", path_of(picture, way)) for way in ("/file", "/thumbnail"))
    assert PAGE in whole.content
    assert PAGE not in small.content
    for reply in (whole, small):
        assert safe_headers(reply.headers) == {
            "content-type": "image/jpeg",
            "x-content-type-options": "nosniff",
            "content-security-policy": "default-src 'none'; sandbox",
            "cross-origin-resource-policy": "same-origin",
            "content-disposition": f'inline; filename="{picture.hash[:12]}.jpeg"',
        }


def safe_headers(headers: Any) -> dict[str, str]:
    """Those that keep a picture from being anything else."""
    names = ("content-type", "x-content-type-options", "content-security-policy")
    return {name: headers[name] for name in (*names, "cross-origin-resource-policy", "content-disposition")}
