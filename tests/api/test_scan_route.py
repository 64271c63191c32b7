"""A scan over HTTP: who sends a file gets lines of progress and the readings, and nothing of it stays behind."""

import asyncio
import json
import tempfile
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import httpx
import pytest
from tests.clients import Client, change, service
from tests.phones import uuid_text
from tests.scans.clouds import ROOM, errors, furnished, save_ply, save_xyz, wavy
from tests.streams import Stream, listening

from evenbed.api import receiving
from evenbed.api.scanning import MOST_AT_ONCE
from evenbed.scans.task import Task
from evenbed.scans.wishes import Wishes
from evenbed.wire.scans import ScanProgress, ScanReply

JOB, WITH_OUTLINE, WITHOUT, GONE = (uuid_text(n) for n in range(1, 5))
OUTLINE = {"vertices": [list(p) for p in ROOM.rings[0]], "cutouts": [[list(p) for p in ROOM.rings[1]]]}
LIMITS = {
    "flatness.standard": "own",
    "flatness.own": [{"length": 2000.0, "gap": 3.0}, {"length": 500.0, "gap": 1.5}],
    "bed.covering.longest_edge": 600.0,
}
OCTETS = {"Content-Type": "application/octet-stream"}
POINTS = furnished(1, points=150_000).points


@pytest.fixture
def phone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Client]:
    """A phone of a company with rooms, whose service keeps what it must in a folder of its own."""
    (tmp_path / "passing").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "passing"))
    with service(tmp_path, scan_limit=20_000_000) as client:
        phone = client.joined()
        rooms: dict[str, dict[str, Any]] = {
            WITH_OUTLINE: {"outline": OUTLINE} | LIMITS,
            WITHOUT: {},
            GONE: {"outline": OUTLINE, "deleted": True},
        }
        changes = [change(1, "job", JOB, {"name": "Mill Lane"})]
        changes += [change(n, "room", key, {"job_id": JOB} | told) for n, (key, told) in enumerate(rooms.items(), 2)]
        assert {one["outcome"] for one in phone.push(*changes).json()["results"]} == {"applied"}
        yield phone
        assert list((tmp_path / "passing").glob("evenbed-scan-*")) == []


def sent(phone: Client, content: Any, room: str = WITH_OUTLINE, **params: Any) -> httpx.Response:
    """The reply to a scan."""
    return phone.send("POST", f"/api/rooms/{room}/scan", content=content, headers=OCTETS, params=params)


def lines_of(reply: httpx.Response) -> list[dict[str, Any]]:
    """The lines that were said."""
    assert reply.status_code == 200
    assert reply.headers["content-type"] == "application/x-ndjson"
    return [json.loads(line) for line in reply.text.splitlines()]


def test_a_file_becomes_readings_with_progress_on_the_way(phone: Client, tmp_path: Path) -> None:
    file = save_ply(tmp_path / "scan.ply", POINTS, 1000.0)
    *progress, last = lines_of(sent(phone, file.read_bytes()))
    assert {ScanProgress.model_validate(line).stage for line in progress} == {"placing", "reducing"}
    reply = ScanReply.model_validate(last)
    assert reply.report.unit == "m"
    assert abs(errors(reply, wavy)).max() < 1.5


def test_nothing_is_stored(phone: Client, tmp_path: Path) -> None:
    before = phone.pull()["records"]
    lines_of(sent(phone, save_xyz(tmp_path / "scan.xyz", POINTS).read_bytes(), unit="mm"))
    assert phone.pull()["records"] == before


def test_wishes_are_heeded(phone: Client, tmp_path: Path) -> None:
    content = save_xyz(tmp_path / "scan.xyz", POINTS).read_bytes()
    wishes: dict[str, Any] = {"unit": "mm", "cell": 700, "minimum_points": 50, "placing": "two_points"}
    places = {"in_scan": [0, 0, 6000, 0], "in_room": [0, 0, 6000, 0]}
    report = lines_of(sent(phone, content, **(wishes | places)))[-1]["report"]
    assert (report["unit_from"], report["two_points_off"]) == ("chosen", 0.0)
    assert report["cell"] == pytest.approx(700, rel=0.1)


def test_a_scan_of_the_bed_is_held_against_the_rooms_own_limits_or_those_asked_for(
    phone: Client, tmp_path: Path
) -> None:
    content = save_xyz(tmp_path / "scan.xyz", POINTS).read_bytes()
    own = ScanReply.model_validate(lines_of(sent(phone, content, unit="mm", stage="bed"))[-1])
    assert own.report.stage == "bed"
    assert own.flatness is not None
    assert own.flatness.standard == "own"
    assert [(one.length, one.limit) for one in own.flatness.checks] == [(2000.0, 3.0), (500.0, 1.5)]
    asked = lines_of(sent(phone, content, unit="mm", stage="bed", standard="ansi_a108_02", longest_edge=300))[-1]
    assert [one["code"] for one in asked["flatness"]["checks"]] == ["ansi_small_long", "ansi_small_short"]
    kept = lines_of(sent(phone, content, unit="mm", stage="bed", standard="ansi_a108_02"))[-1]
    assert [one["code"] for one in kept["flatness"]["checks"]] == ["ansi_large_long", "ansi_large_short"]


@pytest.mark.parametrize(
    ("room", "content", "params", "status", "code"),
    [
        (WITHOUT, b"1 2 3\n", {}, 422, "bad_document"),
        (GONE, b"1 2 3\n", {}, 404, "not_found"),
        (uuid_text(99), b"1 2 3\n", {}, 404, "not_found"),
        ("nonsense", b"1 2 3\n", {}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"unit": "cubits"}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"cell": 1}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"cell": "nan"}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"placing": "two_points"}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"in_scan": [1, 2]}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"stage": "ceiling"}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"stage": "bed", "standard": "the_best"}, 422, "malformed"),
        (WITH_OUTLINE, b"1 2 3\n", {"stage": "bed", "longest_edge": 0}, 422, "malformed"),
        (WITH_OUTLINE, bytes(20_000_001), {}, 413, "too_large"),
    ],
)
def test_what_cannot_be_begun_is_refused_at_once(
    phone: Client, room: str, content: bytes, params: dict[str, Any], status: int, code: str
) -> None:
    reply = sent(phone, content, room, **params)
    assert (reply.status_code, reply.json()["code"]) == (status, code)


def test_only_octets_are_taken_so_that_no_other_page_can_send_them(phone: Client) -> None:
    others: tuple[dict[str, str], ...] = ({}, {"Content-Type": "text/plain"}, {"Content-Type": "application/json"})
    for kind in others:
        reply = phone.send("POST", f"/api/rooms/{WITH_OUTLINE}/scan", content=b"1 2 3\n", headers=kind)
        assert reply.json()["code"] == "octets_required"


@pytest.mark.parametrize(
    ("content", "code", "item", "path"),
    [
        (b"", "scan_unreadable", "scan_empty", ""),
        (b"1 2 3\n1 two 3\n", "scan_unreadable", "scan_not_a_number", "line 2"),
        (b"PK\x03\x04", "scan_unreadable", "scan_packed", ""),
        (b"9e9 9e9 1\n" * 10, "scan_misses_floor", "scan_no_floor", ""),
    ],
)
def test_a_bad_scan_ends_in_a_problem_with_its_place(
    phone: Client, content: bytes, code: str, item: str, path: str
) -> None:
    problem = lines_of(sent(phone, content, unit="mm"))[-1]
    assert problem["code"] == code
    assert [(one["code"], one["path"]) for one in problem["problems"]] == [(item, path)]
    assert problem["detail"]


def test_a_body_that_grows_beyond_the_limit_unannounced_is_refused(phone: Client) -> None:
    async def endless() -> AsyncIterator[bytes]:
        for _ in range(21):
            yield bytes(1_000_000)

    reply = sent(phone, endless())
    assert (reply.status_code, reply.json()["code"]) == (413, "too_large")


def test_other_bodies_keep_their_smaller_limit(phone: Client) -> None:
    assert phone.send("POST", "/api/plan", content=bytes(8_000_001)).status_code == 413


def test_a_sender_that_falls_silent_is_not_waited_for(phone: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(receiving, "SILENCE_S", 0.1)

    async def stuck() -> AsyncIterator[bytes]:
        yield b"1 2 3\n"
        await asyncio.sleep(5)

    reply = sent(phone, stuck())
    assert (reply.status_code, reply.json()["code"]) == (422, "scan_unreadable")


def test_more_scans_than_there_are_places_are_told_when_to_come_again(phone: Client) -> None:
    with ExitStack() as held:
        assert all(held.enter_context(phone.app.state.service.scanning.places.place()) for _ in range(MOST_AT_ONCE))
        reply = sent(phone, b"1 2 3\n")
    assert (reply.status_code, reply.json()["code"]) == (503, "busy")
    assert int(reply.headers["Retry-After"]) == reply.json()["retry_after"] > 0
    assert sent(phone, b"1 2 3\n").status_code == 200


def test_scans_wait_for_each_other_and_others_for_none_of_them(phone: Client, tmp_path: Path) -> None:
    file = save_xyz(tmp_path / "scan.xyz", furnished(2, points=300_000).points)
    task = Task(path=str(file), rings=ROOM.rings, wishes=Wishes("mm"))

    async def two_and_health() -> tuple[list[bytes], list[bytes], float]:
        async def read() -> list[bytes]:
            return [line async for line in phone.app.state.service.scanning.lines(task)]

        both = asyncio.gather(read(), read())
        await asyncio.sleep(0.5)
        waits = []
        while not both.done():
            start = time.perf_counter()
            assert (await phone._send("GET", "/api/health", {})).status_code == 200
            waits.append(time.perf_counter() - start)
            await asyncio.sleep(0.02)
        return *(await both), sorted(waits)[len(waits) // 2]

    first, second, wait = asyncio.run(two_and_health())
    assert first[-1] == second[-1]
    assert b"waiting" in second[0] or b"waiting" in first[0]
    assert wait < 0.25


async def left_in_the_middle(phone: Client, content: bytes) -> Stream:
    """A scan whose sender goes as soon as the first line comes."""
    path = f"/api/rooms/{WITH_OUTLINE}/scan"
    async with listening(phone.app, phone.headers | OCTETS, path, content) as stream:
        await stream.until(lambda it: bool(it.body))
    return stream


def test_who_goes_away_leaves_no_file_no_process_and_no_turn_taken(phone: Client, tmp_path: Path) -> None:
    content = save_xyz(tmp_path / "scan.xyz", furnished(2, points=300_000).points).read_bytes()
    stream = asyncio.run(left_in_the_middle(phone, content))
    assert stream.status == 200
    assert b'"readings"' not in stream.body
    assert list((tmp_path / "passing").glob("evenbed-scan-*")) == []
    start = time.perf_counter()
    assert "waiting" not in {line.get("stage") for line in lines_of(sent(phone, b"1 2 3\n", unit="mm"))}
    assert time.perf_counter() - start < 20


def test_a_process_that_dies_ends_in_a_problem_that_blames_us(
    phone: Client, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    task = Task(path=str(tmp_path / "gone.xyz"), rings=ROOM.rings, wishes=Wishes("mm"))

    async def read() -> list[bytes]:
        return [line async for line in phone.app.state.service.scanning.lines(task)]

    last = json.loads(asyncio.run(read())[-1])
    assert (last["code"], last["status"]) == ("internal", 500)
    assert "gone.xyz" not in json.dumps(last)
    assert "gone.xyz" in capfd.readouterr().err
