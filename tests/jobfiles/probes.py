"""Values good and bad in every field of every kind of record, with what the service says of each."""

from typing import Any

from pydantic import ValidationError

from evenbed.wire.records import SHAPES
from tests.phones import uuid_text

LONG = "x" * 201
PROBES: tuple[Any, ...] = (
    *(None, True, False, 0, 1, 7, 1.5, -1, 1e12, 1.1e12, -2e12, "", "a", "own", LONG, "x" * 10_001),
    *("ñ" * 200, "😀" * 200, "😀" * 201, "\n", uuid_text(1), uuid_text(1).upper(), "a" * 64, "A" * 64, "image/png"),
    *("2026-05-04T08:30:00Z", "2026-05-04 08:30:00+02:00", "20260504T083000Z", "2026-W19-1T08:30Z", "2026-05-04"),
    *("2026-05-04T08:30:00", "2026-02-30T08:30:00Z", "2026-05-04T24:00:00Z", "2026-05-04T08:30:00Z\n"),
    *([], [1], [1, 2], [1, 2, 3], [[1, 2]], [[1, 2], [3, 4]], [[[1, 2], [3, 4]]], [None], ["a"], [1, "2"], [1e13, 0]),
    *([0] * 2_001, [0] * 20_001, [{}], [{"id": "a"}], [{"id": 5}], [{"wall": 1.5}], [{"length": 1, "gap": "2"}]),
    *([{"at": [1]}], [{"kind": "x" * 65}], [{"from": [0, 0], "to": [1, 1]}], [{"at": "soon"}], [{"deleted": 5}]),
    *({}, {"a": 1}, {"a": "b"}, {"a": ["b"]}, {LONG: "b"}, {"a": "x" * 10_001}, {"__proto__": {}}),
    *(
        {str(n): "" for n in range(2_001)},
        {"vertices": [[0, 0]]},
        {"vertices": [[0, 0, 0]]},
        {"walls": [{"turn": 9}]},
    ),
    *(
        {"walls": [5]},
        {"cutouts": [[[0, 0]]]},
        {"cutouts": [[0, 0]]},
        {"kind": "level", "height": 4},
        {"height": "4"},
    ),
    *({"through": [[1, 2, 3]]}, {"through": [[1, 2]]}, {"line": [[0, 0], [1, 1]]}, {"line": [[0, 0]]}),
    *({"holds": [{"at": [0, 0]}]}, {"holds": [{"at": [0]}]}, {"drain": None, "extra": {"deep": [1]}}),
)
NAMES = ("colour", "__proto__", "constructor", "toString", "rails.set_stations")
"""That no kind has."""


def is_kept(kind: str, name: str, value: Any) -> bool:
    """Whether the service keeps the value in the field."""
    try:
        SHAPES[kind].model_validate({name: value})
    except ValidationError as error:
        return all(one["type"] == "missing" and len(one["loc"]) == 1 for one in error.errors())
    return True


def probes() -> dict[str, Any]:
    """The values; by kind and field, at which places of theirs stand those that are kept; what each kind needs."""
    verdicts = {
        kind: {
            name: [place for place, value in enumerate(PROBES) if is_kept(kind, name, value)]
            for name in (*_names(kind), *NAMES)
        }
        for kind in SHAPES
    }
    return {"values": PROBES, "kept": verdicts, "needed": {kind: _needed(kind) for kind in SHAPES}}


def _names(kind: str) -> list[str]:
    return [field.alias or name for name, field in SHAPES[kind].model_fields.items()]


def _needed(kind: str) -> list[str]:
    return [field.alias or name for name, field in SHAPES[kind].model_fields.items() if field.is_required()]
