"""The service killed in the midst of a photo: every part it acknowledged is there, and the photo goes on from it."""

import random
import threading
from pathlib import Path
from typing import Any

import httpx
from PIL import Image
from tests.clients import change
from tests.databases import Database
from tests.faults.company import SEED
from tests.faults.killable import Killable, running
from tests.phones import uuid_text
from tests.pictures import JOB, ROOM, Picture, path_of, saved
from tests.stores import START, join_device

from evenbed.store.work import Store

KILLS, PART = 8, 16_384
LONGEST_WAIT_S = 0.12  # some parts long: the blow falls before, in and after one


def large_picture() -> Picture:
    """Some forty parts."""
    return Picture(saved(Image.effect_noise((1200, 900), 60).convert("RGB"), quality=95), width=1200, height=900)


def begin(client: httpx.Client, picture: Picture) -> None:
    """A room and a record that names the picture."""
    changes = [
        change(1, "job", JOB, {"name": "Alder"}),
        change(2, "room", ROOM, {"job_id": JOB, "name": "Hall"}),
        change(3, "photo", uuid_text(103), picture.fields()),
    ]
    told = {"protocol": 1, "changes": changes, "device_time": START.isoformat()}
    results = client.post("/api/push", json=told).raise_for_status().json()["results"]
    assert [one["outcome"] for one in results] == ["applied"] * 3


def send_on(client: httpx.Client, picture: Picture, state: dict[str, Any]) -> dict[str, Any]:
    """Part after part until it is complete or nobody answers; what was last acknowledged."""
    headers = {"Content-Type": "application/octet-stream"}
    while not state["complete"]:
        offset = state["received"]
        told = {"offset": offset, "size": picture.size}
        content = picture.content[offset : offset + PART]
        try:
            reply = client.put(path_of(picture), params=told, content=content, headers=headers)
        except httpx.TransportError:
            return state
        state = reply.raise_for_status().json()
    return state


def kill_within(service: Killable, wait_s: float) -> threading.Timer:
    """The blow falls after so long."""
    timer = threading.Timer(wait_s, service.kill)
    timer.start()
    return timer


def test_a_photo_goes_on_from_every_acknowledged_part_however_often_the_service_is_killed(
    database: Database, tmp_path: Path
) -> None:
    picture, dice = large_picture(), random.Random(SEED)
    assert picture.size > KILLS * 3 * PART
    store = Store(database.url)
    token = join_device(store, uuid_text(500))[1]
    store.close()
    with running(database.url, tmp_path) as service:
        headers = {"Authorization": f"Bearer {token}"}
        with httpx.Client(base_url=service.address, headers=headers, timeout=30) as client:
            begin(client, picture)
            state: dict[str, Any] = client.get(path_of(picture)).raise_for_status().json()
            cut_off = 0
            for _ in range(KILLS):
                blow = kill_within(service, dice.uniform(0, LONGEST_WAIT_S))
                state = send_on(client, picture, state)
                blow.join()
                cut_off += not state["complete"]
                service.start()
                found = client.get(path_of(picture)).raise_for_status().json()
                assert state["received"] <= found["received"] <= min(picture.size, state["received"] + PART)
                state = found
            assert cut_off > 0
            assert send_on(client, picture, state)["complete"]
            assert client.get(path_of(picture, "/file")).content == picture.content
