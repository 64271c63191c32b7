"""What was done on the demo's floors, as records: from a room document's lists, and from what a document lacks."""

from collections.abc import Iterator
from typing import Any

from evenbed.wire.exchange import FieldValues

Described = tuple[str, FieldValues]
"""A kind and its fields."""


def floor_records(told: dict[str, Any], room_id: str) -> Iterator[Described]:
    """Stations, checks, batches and the day book of one room, in the order of the work."""
    for kind, fields in (*_of_rails(told), *_of_filling(told)):
        yield kind, {"room_id": room_id, **fields}


def check_records(told: dict[str, Any], room_id: str) -> Iterator[Described]:
    """What was read of one room's finished bed, and the gaps measured under a straightedge."""
    for reading in told.get("bed_readings", []):
        yield "reading", {"room_id": room_id, "stage": "bed"} | reading
    for gap in told.get("gaps", []):
        yield "gap", {"room_id": room_id} | gap


def _of_rails(told: dict[str, Any]) -> Iterator[Described]:
    for station in told.get("stations", []):
        yield "station", station
    for check in told.get("checks", []):
        across = check.get("rails")
        where = {"rail": across[0], "rail_to": across[1]} if across else {}
        yield "rail_check", where | {name: value for name, value in check.items() if name not in ("id", "rails")}
    for truing in told.get("truings", []):
        yield "entry", {"what": "trued"} | truing


def _of_filling(told: dict[str, Any]) -> Iterator[Described]:
    for batch in told.get("batches", []):
        yield "batch", {name: value for name, value in batch.items() if name != "id"}
    for stoppage in told.get("stoppages", []):
        yield "entry", {"what": "stopped", "at": stoppage["start"]} | _given(until=stoppage.get("end"))
    for entry in told.get("entries", []):
        yield "entry", entry


def _given(**fields: str | None) -> dict[str, str]:
    return {name: value for name, value in fields.items() if value is not None}
