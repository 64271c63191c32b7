"""The dates of a room for calendar programs: its milestones' windows, and those that somebody let pass.

Made of the engine's answer to `waiting`, as the phone makes them (`web/src/state/roomDates.ts`). A date's uid is the
room's id with the milestone, so that it stays the same on every phone and in every feed, whatever the weather does.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from evenbed.rooms.telling import Json
from evenbed.rooms.words import said

LARGEST_SEQUENCE = 2_147_483_647
LONGEST_NAME = 150
LONGEST_PLACE = 500
FIRST_YEAR, LAST_YEAR = 1900, 9000
"""Beyond them no date is told: somebody's clock was wrong, and not every calendar has such years."""


@dataclass(frozen=True)
class Telling:
    """In whose language, and by which clock. An IANA zone that is not known here is told as UTC."""

    language: str
    zone: str

    def clock(self, at: str) -> str:
        """A moment by that clock, such as `2026-05-05 09:40`."""
        moment = datetime.fromisoformat(at).astimezone(zone_of(self.zone))
        return moment.replace(tzinfo=None).isoformat(sep=" ", timespec="minutes")


@dataclass(frozen=True)
class RoomNames:
    """How a room is found: its job, its own name, the job's address."""

    job: str
    room: str
    place: str


@dataclass(frozen=True)
class Newest:
    """The newest record that the dates rest on: the service's number of it, and when it was made."""

    sequence: int
    changed_at: str


def zone_of(name: str) -> tzinfo:
    """The zone of an IANA name; UTC where there is none of that name."""
    try:
        return ZoneInfo(name) if name else UTC
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return UTC


def dates_of_room(room_id: str, names: RoomNames, waiting: Json, telling: Telling, newest: Newest) -> list[Json]:
    """The dates as the engine's question `calendar` takes them, from its answer to `waiting`."""
    return [*_dates(room_id, names, waiting, telling, newest)]


def _dates(room_id: str, names: RoomNames, waiting: Json, telling: Telling, newest: Newest) -> Iterator[Json]:
    measured = [point["at"] for point in waiting["curve"] if point["measured"]]
    measured_until = max(map(datetime.fromisoformat, measured), default=None)
    for row in waiting["countdown"]:
        moments = [row["ticked"]["at"]] if row["ticked"] else [row["early"], row["likely"], row["late"]]
        if not all(at is None or _is_in_reach(at) for at in moments):
            continue
        told = _passed(row, names, telling) if row["ticked"] else _window(row, names, telling, measured_until)
        if told is not None:
            yield told | {
                "uid": f"{room_id}-{row['milestone']}@evenbed",
                "location": names.place[:LONGEST_PLACE],
                "sequence": min(newest.sequence, LARGEST_SEQUENCE),
                "changed_at": newest.changed_at,
            }


def _is_in_reach(at: str) -> bool:
    return FIRST_YEAR <= datetime.fromisoformat(at).year <= LAST_YEAR


def _window(row: Json, names: RoomNames, telling: Telling, measured_until: datetime | None) -> Json | None:
    """From early to late; None where no likely moment is known."""
    early, likely, late = row["early"], row["likely"], row["late"]
    if likely is None:
        return None
    moments = {name: telling.clock(at) for name, at in {"early": early or likely, "likely": likely}.items()}
    lines = [
        _say(telling, "dates.window_open", **moments)
        if late is None
        else _say(telling, "dates.window", **moments, late=telling.clock(late)),
        _say(telling, _basis(likely, measured_until)),
        _say(telling, "dates.no_test"),
        _say(telling, "dates.zone", zone=_zone_name(telling)),
    ]
    summary = _say(telling, f"dates.likely.{row['milestone']}", **_names(names))
    return _date(early or likely, late or likely, summary, lines, "tentative")


def _basis(likely: str, measured_until: datetime | None) -> str:
    if measured_until is None:
        return "dates.on_foretold"
    return "dates.on_measured" if measured_until >= datetime.fromisoformat(likely) else "dates.on_both"


def _passed(row: Json, names: RoomNames, telling: Telling) -> Json:
    """The moment at which somebody who had looked let it pass."""
    ticked = row["ticked"]
    by = ticked["by"][:LONGEST_NAME] or _say(telling, "dates.somebody")
    lines = [
        _say(telling, "dates.passed_at", at=telling.clock(ticked["at"]), by=by),
        _say(telling, f"dates.looked.{ticked['how']}"),
        _say(telling, "dates.zone", zone=_zone_name(telling)),
    ]
    summary = _say(telling, f"dates.passed.{row['milestone']}", by=by, **_names(names))
    return _date(ticked["at"], ticked["at"], summary, lines, "confirmed")


def _date(start: str, end: str, summary: str, lines: list[str], status: str) -> Json:
    return {"from": start, "to": end, "summary": summary, "description": "\n".join(lines), "status": status}


def _names(names: RoomNames) -> dict[str, str]:
    return {"job": names.job[:LONGEST_NAME], "room": names.room[:LONGEST_NAME]}


def _zone_name(telling: Telling) -> str:
    return "UTC" if zone_of(telling.zone) is UTC else telling.zone


def _say(telling: Telling, key: str, **values: str) -> str:
    return said(telling.language, key, **values)
