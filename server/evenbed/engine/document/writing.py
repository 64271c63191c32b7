"""Frozen dataclasses to plain JSON values, under the names the contract fixes."""

from dataclasses import fields, is_dataclass
from typing import Any

from evenbed.engine.document.reading import key_of


def json_from(value: Any) -> Any:
    """Plain JSON (dicts, lists, numbers, texts, null) from a dataclass, tuple, mapping or simple value.

    A field's key is its name, or the one its facts give. Raises TypeError for anything JSON has no word for.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return {key_of(one): json_from(getattr(value, one.name)) for one in fields(value)}
    if isinstance(value, tuple | list):
        return [json_from(v) for v in value]
    if isinstance(value, dict):
        return {str(k): json_from(v) for k, v in value.items()}
    if value is None or isinstance(value, bool | int | float | str):
        return value
    raise TypeError(f"JSON has no word for {type(value).__name__}.")
