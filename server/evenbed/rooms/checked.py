"""What was measured on the finished bed and of the weather, and who let what pass, as the room document takes it.

The same as the phone's `web/src/state/checked.ts`; `tests/test_rooms_agree.py` holds one against the other.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from evenbed.rooms.telling import (
    Json,
    Row,
    given,
    in_order,
    is_between,
    is_moment,
    is_number,
    moment_ms,
    moments_in,
    parts_from,
    place_told,
)

LARGEST_GAP = 500
NEAREST, FARTHEST = 10, 5_000
"""mm from one height to the next."""
COLDEST, WARMEST_AIR, WARMEST_LOGGED = -60, 60, 100
LONGEST_S = 1e9
STRONGEST_WIND = 400
TOUCHES = {"rubbed": "rub", "filled_up": "fill"}
MILESTONES = ("walk", "tile", "grout", "light_traffic", "heavy_traffic")
WAYS = ("scratch", "sounding", "thumb", "foot", "moisture_test", "other")


@dataclass(frozen=True)
class CheckedRows:
    """The records of the finished bed in one room, and its job's forecast."""

    entries: Sequence[Row]
    gaps: Sequence[Row]
    height_lines: Sequence[Row]
    temperature_logs: Sequence[Row]
    forecast: Sequence[Row]


def checked_parts(rows: CheckedRows) -> Json:
    """The lists of what was measured and let pass; those that hold nothing are left out."""
    entries = in_order(rows.entries, "at")
    lists = {
        "gaps": parts_from(rows.gaps, _gap),
        "height_lines": parts_from(rows.height_lines, _line),
        "touches": parts_from(entries, _touch),
        "logs": parts_from(rows.temperature_logs, _log),
        "forecast": parts_from(_last_of_each_day(rows.forecast), _day),
        "ticks": parts_from(entries, _tick),
    }
    return {name: found for name, found in lists.items() if found}


def _gap(row: Row) -> Json | None:
    start, end, gap = place_told(row.fields.get("from")), place_told(row.fields.get("to")), row.fields.get("gap")
    if start is None or end is None or not is_between(gap, 0, LARGEST_GAP):
        return None
    at = given({"at": place_told(row.fields.get("at"))})
    passed = {"passed_over": True} if row.fields.get("passed_over") is True else {}
    return {"id": row.id, "from": start, "to": end, "gap": gap} | at | passed | moments_in(row.fields, ["taken_at"])


def _line(row: Row) -> Json | None:
    heights, spacing = row.fields.get("heights"), row.fields.get("spacing")
    if not isinstance(heights, list) or not all(map(is_number, heights)):
        return None
    if spacing is not None and not is_between(spacing, NEAREST, FARTHEST):
        return None
    ends = {name: place_told(row.fields.get(name)) for name in ("from", "to")}
    told = given({"spacing": spacing} | ends)
    return {"id": row.id, "heights": heights} | told | moments_in(row.fields, ["taken_at"])


def _touch(row: Row) -> Json | None:
    way, at = TOUCHES.get(row.fields.get("what", "")), place_told(row.fields.get("place"))
    if way is None or at is None or not is_moment(row.fields.get("at")):
        return None
    return {"at": at, "way": way, "done_at": row.fields["at"]}


def _log(row: Row) -> Json | None:
    start, where = row.fields.get("start"), row.fields.get("where")
    seconds, celsius = row.fields.get("seconds") or [], row.fields.get("celsius") or []
    if not is_moment(start) or not seconds or len(seconds) != len(celsius):
        return None
    is_rising = all(is_between(second, 0, LONGEST_S) for second in seconds) and all(
        later > earlier for earlier, later in pairwise(seconds)
    )
    if not is_rising or not all(is_between(one, COLDEST, WARMEST_LOGGED) for one in celsius):
        return None
    told = {"id": row.id, "start": start, "seconds": seconds, "celsius": celsius}
    return told | ({"where": where} if where else {})


def _last_of_each_day(rows: Iterable[Row]) -> list[Row]:
    """Of a day that was told again, as by a newer forecast, the later record. Days are told by when it is warmest."""
    last = {(row.fields.get("high_at") or "")[: len("2026-01-01")]: row for row in rows}
    return sorted(last.values(), key=lambda row: moment_ms(row.fields.get("high_at")))


def _day(row: Row) -> Json | None:
    told = row.fields
    low, high, low_at, high_at = (told.get(name) for name in ("low", "high", "low_at", "high_at"))
    if not is_moment(low_at) or not is_moment(high_at) or moment_ms(low_at) == moment_ms(high_at):
        return None
    if not is_between(low, COLDEST, WARMEST_AIR) or not is_between(high, COLDEST, WARMEST_AIR) or told["low"] > high:
        return None
    limits = {"humidity": 100, "wind": STRONGEST_WIND}
    air = {name: told[name] for name, most in limits.items() if is_between(told.get(name), 0, most)}
    return {"id": row.id, "low": low, "high": high, "low_at": low_at, "high_at": high_at} | air


def _tick(row: Row) -> Json | None:
    told = row.fields
    if told.get("what") != "milestone" or told.get("code") not in MILESTONES or not is_moment(told.get("at")):
        return None
    by, how = told.get("by"), told.get("how")
    named = {"by": by} if by else {}
    return {"milestone": told["code"], "at": told["at"]} | named | {"how": how if how in WAYS else "other"}
