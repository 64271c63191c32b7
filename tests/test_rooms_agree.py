"""The service composes the very room document that the phone composes of the same records, and the same dates."""

import json
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenbed.engine.document.waiting import Milestone, TickHow
from evenbed.rooms.dates import Newest, RoomNames, Telling, dates_of_room
from evenbed.rooms.document import document_from_records
from evenbed.rooms.telling import Row
from evenbed.wire.records import SHAPES
from evenbed.wire.supplies import COMPANYS
from tests.any_records import IDS, ROOMS, any_rooms, taken
from tests.documents import Json
from tests.share import share_of

WEB = Path(__file__).parents[1] / "web"
ROOM = ROOMS[0]


class Phone:
    """The app's own composing of documents, in one Node process."""

    def __init__(self, node: "subprocess.Popen[str]") -> None:
        self._node = node

    def document(self, room: str, rows: list[Row]) -> Json | None:
        document: Json | None = self._asked(room=room, rows=[vars(row) for row in rows])
        return document

    def dates(self, names: RoomNames, waiting: Json, telling: Telling, newest: Newest) -> list[Json]:
        made = {"sequence": newest.sequence, "changedAt": newest.changed_at}
        told = {"language": telling.language, "zone": telling.zone}
        dates: list[Json] = self._asked(room=ROOM, names=vars(names), waiting=waiting, made=made, **told)
        return dates

    def _asked(self, **asked: Any) -> Any:
        assert self._node.stdin is not None
        assert self._node.stdout is not None
        self._node.stdin.write(json.dumps(asked) + "\n")
        self._node.stdin.flush()
        return json.loads(self._node.stdout.readline())


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    folder = tmp_path_factory.mktemp("rooms")
    subprocess.run(["node", "build/phones.mjs", str(folder), "rooms"], cwd=WEB, check=True)
    command = ["node", str(folder / "main.js")]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as node:
        yield Phone(node)


def composed(room_id: str, rows: list[Row]) -> Json | None:
    """The service's document of a room."""
    room = next(row for row in rows if row.kind == "room" and row.id == room_id)
    company = {row.kind: row.fields for row in rows if row.kind in ("supplies", "prices") and not row.is_deleted}
    return document_from_records(room, rows, company.get("supplies"), company.get("prices"))


@given(rows=any_rooms())
@settings(max_examples=share_of(2000), deadline=None)
def test_phone_and_service_compose_one_document(phone: Phone, rows: list[Row]) -> None:
    for room in ROOMS:
        assert composed(room, rows) == phone.document(room, rows)


@pytest.mark.parametrize("kind", [kind for kind in SHAPES if kind not in ("job", "photo", "sign_off")])
def test_every_value_of_every_field_comes_to_the_same_in_both(phone: Phone, kind: str) -> None:
    room = Row("room", ROOM, {"job_id": taken("room")["job_id"][0], "outline": {}})
    record_id = {"room": ROOM, **COMPANYS}.get(kind, IDS[0])
    for name, values in taken(kind).items():
        for value in values:
            told = good(kind) | {name: value}
            record = Row(kind, record_id, told)
            rows = [record] if kind == "room" else [room, record]
            document = composed(ROOM, rows)
            assert document == phone.document(ROOM, rows), told
            assert document is not None or (kind == "room" and value is None and name == "outline")


AT = "2026-05-04T08:30:00-05:00"
LATER = "2026-05-04T15:30:00-05:00"
GOOD: dict[str, Json] = {
    "room": {"outline": {}},
    "placement": {"section": "s1", "placed_at": AT},
    "batch": {"mixed_at": AT},
    "rail_check": {"rail": "r1", "off": 1.5, "rail_to": "r2", "from": 0, "to": 9},
    "entry": {"what": "trued", "rail": "r1", "at": AT, "code": "tile", "place": [1, 2]},
    "climate": {"at": AT, "air": 20},
    "reading": {"down": 12, "at": [1, 2]},
    "gap": {"from": [0, 0], "to": [2000, 0], "gap": 3, "passed_over": True},
    "height_line": {"heights": [0, 1, 2], "spacing": 300},
    "temperature_log": {"start": AT, "seconds": [0, 60], "celsius": [20, 21]},
    "forecast_day": {"low": 5, "high": 20, "low_at": AT, "high_at": LATER},
}


def good(kind: str) -> Json:
    """A record that is whole and in the room."""
    owner: Json = {"job_id": taken("room")["job_id"][0]} if kind in ("room", "forecast_day") else {"room_id": ROOM}
    return ({} if kind in COMPANYS else owner) | GOOD.get(kind, {})


def test_a_room_without_an_outline_has_no_document(phone: Phone) -> None:
    rows = [Row("room", ROOM, {"job_id": "x"})]
    assert composed(ROOM, rows) is None
    assert phone.document(ROOM, rows) is None


def test_what_is_whole_comes_into_the_document_and_what_is_of_another_room_does_not() -> None:
    kinds = [kind for kind in GOOD if kind != "room"]
    own = [Row(kind, IDS[n], good(kind)) for n, kind in enumerate(kinds)]
    others = [Row(row.kind, row.id + "x", {**row.fields, "room_id": ROOMS[1], "job_id": "y"}) for row in own]
    document = composed(ROOM, [Row("room", ROOM, good("room")), *others, *own])
    assert document is not None
    lists = (
        "placements",
        "batches",
        "checks",
        "truings",
        "climate",
        "readings",
        "gaps",
        "height_lines",
        "logs",
        "forecast",
    )
    assert {name: len(document.get(name, ())) for name in lists} == dict.fromkeys(lists, 1)


MOMENT = st.sampled_from(
    [
        "2026-03-29T00:59:59Z",
        "2026-03-29T01:00:00+00:00",
        "2026-11-01T01:30:00-05:00",
        "2027-01-01T04:59:30.250+05:45",
    ]
) | st.datetimes(timezones=st.just(UTC)).map(datetime.isoformat)
NAMES = st.sampled_from(["", "Maple house", "A. B.", "{room}", "ñ" * 400, "👷🏽" * 300, "a\nb"])
ROW = st.fixed_dictionaries(
    {
        "milestone": st.sampled_from(get_args(Milestone)),
        **{name: st.none() | MOMENT for name in ("early", "likely", "late")},
        "ticked": st.none()
        | st.fixed_dictionaries({"at": MOMENT, "by": NAMES, "how": st.sampled_from(get_args(TickHow))}),
    }
)
WAITING = st.fixed_dictionaries(
    {
        "countdown": st.lists(ROW, max_size=5),
        "curve": st.lists(st.fixed_dictionaries({"at": MOMENT, "measured": st.booleans()}), max_size=4),
    }
)
ZONES = ["UTC", "America/Chicago", "Europe/Madrid", "Asia/Kathmandu", "Pacific/Chatham"]


@given(
    waiting=WAITING,
    names=st.builds(RoomNames, NAMES, NAMES, NAMES),
    telling=st.builds(Telling, st.sampled_from(["en", "es"]), st.sampled_from(ZONES)),
)
@settings(max_examples=share_of(2000), deadline=None)
def test_feed_and_phone_tell_a_room_s_dates_in_the_same_words(
    phone: Phone, waiting: Json, names: RoomNames, telling: Telling
) -> None:
    newest = Newest(41, "2026-05-04T22:00:00+00:00")
    mine = dates_of_room(ROOM, names, waiting, telling, newest)
    assert mine == phone.dates(names, waiting, telling, newest)


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_sentence_of_a_date_is_said(language: str) -> None:
    at = "2026-05-05T14:00:00+00:00"
    for milestone in get_args(Milestone):
        for how in (None, *get_args(TickHow)):
            ticked = how and {"at": at, "by": "Ana", "how": how}
            row = {"milestone": milestone, "early": at, "likely": at, "late": at, "ticked": ticked}
            waiting = {"countdown": [row], "curve": []}
            (date,) = dates_of_room(ROOM, RoomNames("A", "B", ""), waiting, Telling(language, "UTC"), Newest(1, at))
            assert "{" not in date["summary"] + date["description"]
            assert ("Ana" in date["summary"]) == (how is not None)
