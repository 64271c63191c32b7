"""What was done on the floor, as the room document takes it: what is half made or makes no sense is left out.

The same as the phone's `web/src/state/worked.ts`; `tests/test_rooms_agree.py` holds one against the other.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.rooms.telling import (
    Fields,
    Json,
    Row,
    given,
    in_order,
    is_moment,
    is_number,
    is_place,
    moment_ms,
    moments_in,
    parts_from,
    place_told,
)

SECTION_MOMENTS = ("mixed_at", "placed_at", "screeded_at", "channels_at")
SAME_PLACE = 1.0
"""mm within which two places are one: what two phones take from one plan is the same."""
LEAST_BATCH, LARGEST_BATCH = 0.01, 10


@dataclass(frozen=True)
class WorkedRows:
    """The records of work in one room."""

    placements: Sequence[Row]
    batches: Sequence[Row]
    rail_checks: Sequence[Row]
    entries: Sequence[Row]


@dataclass(frozen=True)
class _Placed:
    """What was told of one section: its place where that is known, else its id tells which one is meant."""

    section: str
    at: list[float] | None
    times: Json

    def is_of_one(self, other: "_Placed") -> bool:
        if self.at is None or other.at is None:
            return self.at is other.at and self.section == other.section
        return math.dist(self.at, other.at) <= SAME_PLACE


def worked_parts(rows: WorkedRows) -> Json:
    """The lists of what was done; those that hold nothing are left out, but for the placements."""
    entries = in_order(rows.entries, "at")
    lists = {
        "checks": parts_from(in_order(rows.rail_checks, "taken_at"), _check),
        "truings": parts_from(entries, _truing),
        "batches": parts_from(in_order(rows.batches, "mixed_at"), _batch),
        "stoppages": parts_from(entries, _stoppage),
    }
    return {"placements": _placements(rows.placements)} | {name: found for name, found in lists.items() if found}


def _placements(rows: Sequence[Row]) -> list[Json]:
    """One a section, also where two phones began it apart: of each moment the newer record's holds."""
    placed: list[_Placed] = []
    for row in rows:
        told = moments_in(row.fields, SECTION_MOMENTS)
        one = _Placed(row.fields.get("section") or "", place_told(row.fields.get("at")), told)
        known = next((n for n, other in enumerate(placed) if one.is_of_one(other)), None)
        if known is None:
            placed.append(one)
        else:
            placed[known] = _Placed(one.section, one.at, placed[known].times | told)
    return [({"section": p.section} if p.section else {}) | given({"at": p.at}) | p.times for p in placed]


def _check(row: Row) -> Json | None:
    told = row.fields
    rail, other, turned = told.get("rail"), told.get("rail_to"), told.get("reversed_off")
    lengths = {name: told.get(name) for name in ("from", "to", "length")}
    if not rail or not is_number(told.get("off")) or not all(map(_is_length_or_none, lengths.values())):
        return None
    where = {"rails": [rail, other]} if other and other != rail else {"rail": rail}
    read = {"off": told["off"], "reversed_off": turned if is_number(turned) else None, "level": told.get("level")}
    return {"id": row.id} | where | given(lengths | read) | moments_in(told, ["taken_at"])


def _is_length_or_none(value: object) -> bool:
    return value is None or (is_number(value) and value >= 0)


def _truing(row: Row) -> Json | None:
    told = row.fields
    if told.get("what") != "trued" or not told.get("rail") or not is_moment(told.get("at")):
        return None
    lie = told.get("lie")
    which = {"lie": lie} if is_number(lie) and lie == int(lie) and lie >= 1 else {}
    raised = {name: told[name] if is_number(told.get(name)) else 0 for name in ("from_raise", "to_raise")}
    return {"rail": told["rail"]} | which | raised | {"at": told["at"]}


def _batch(row: Row) -> Json | None:
    told = row.fields
    size = 1 if told.get("size") is None else told["size"]
    if not is_moment(told.get("mixed_at")) or not LEAST_BATCH <= size <= LARGEST_BATCH:
        return None
    where = given({"section": told.get("section"), "at": place_told(told.get("at"))})
    moments = moments_in(told, ["mixed_at", "placed_at", "thrown_at"])
    return {"id": row.id} | where | moments | {"size": size}


def _stoppage(row: Row) -> Json | None:
    start, end = row.fields.get("at"), row.fields.get("until")
    if row.fields.get("what") != "stopped" or not is_moment(start):
        return None
    if not end:
        return {"start": start}
    return {"start": start, "end": end} if is_moment(end) and moment_ms(end) >= moment_ms(start) else None


def whole_rails(room: Fields) -> Json:
    """The room's choices without what is half made. A list stays a list: no rails is not the proposed ones."""
    whole = dict(room)
    if room.get("rails.lines") is not None:
        whole["rails.lines"] = [line for line in room["rails.lines"] if _is_whole_line(line)]
    if room.get("rails.strips") is not None:
        whole["rails.strips"] = [strip for strip in room["rails.strips"] if _is_whole_strip(strip)]
    if not is_moment(room.get("filling.day_ends")):
        whole.pop("filling.day_ends", None)
    return whole


def _is_whole_line(line: Fields) -> bool:
    return is_place(line.get("from")) and is_place(line.get("to"))


def _is_whole_strip(strip: Fields) -> bool:
    return is_number(strip.get("thickness")) and is_number(strip.get("length"))
