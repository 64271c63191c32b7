"""Frozen dataclasses to plain JSON values, under the names the contract fixes."""

from dataclasses import fields, is_dataclass
from functools import cache
from types import NoneType
from typing import Any

from evenbed.engine.document.reading import key_of

PLAIN = frozenset({float, int, str, bool, NoneType})


def json_from(value: Any) -> Any:
    """Plain JSON (dicts, lists, numbers, texts, null) from a dataclass, tuple, mapping or simple value.

    A field's key is its name, or the one its facts give. Raises TypeError for anything JSON has no word for.
    """
    kind = type(value)
    if kind in PLAIN:
        return value
    if kind in (tuple, list):
        return [json_from(v) for v in value]
    if kind is dict:
        return {str(k): json_from(v) for k, v in value.items()}
    if is_dataclass(kind):
        return {key: json_from(getattr(value, name)) for key, name in _members_of(kind)}
    raise TypeError(f"JSON has no word for {kind.__name__}.")


@cache
def _members_of(shape: type[Any]) -> tuple[tuple[str, str], ...]:
    """JSON key and attribute name of each field of one dataclass."""
    return tuple((key_of(one), one.name) for one in fields(shape))
