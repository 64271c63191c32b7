"""JSON Schema (2020-12) of the document and the plan, told from the same dataclasses that read and write them."""

from dataclasses import MISSING, fields, is_dataclass
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from evenbed.engine.document.fields import Facts
from evenbed.engine.document.reading import facts_of, key_of
from evenbed.engine.document.writing import json_from

Schema = dict[str, Any]
_SIMPLE: dict[Any, Schema] = {
    float: {"type": "number"},
    int: {"type": "integer"},
    str: {"type": "string"},
    bool: {"type": "boolean"},
    NoneType: {"type": "null"},
}


def schema_from(shape: type[Any], *, written: bool) -> Schema:
    """The schema of a dataclass, with every shape it uses under `$defs`.

    `written` is True for what the engine writes (every key is there) and False for what it reads (a key with a
    default may be missing or null, and keys nobody knows are allowed).
    """
    defs: dict[str, Schema] = {}
    _define(shape, defs, written)
    return {"$ref": f"#/$defs/{shape.__name__}", "$defs": defs}


def _define(shape: type[Any], defs: dict[str, Schema], written: bool) -> Schema:
    name = shape.__name__
    if name not in defs:
        defs[name] = {}
        defs[name] = _object_schema(shape, defs, written)
    return {"$ref": f"#/$defs/{name}"}


def _object_schema(shape: type[Any], defs: dict[str, Schema], written: bool) -> Schema:
    hints = get_type_hints(shape)
    properties = {}
    for one in fields(shape):
        schema = _with_facts(_schema(hints[one.name], facts_of(one), defs, written), facts_of(one))
        if one.default is not MISSING and not written:
            schema = schema | {"default": json_from(one.default)}
            schema = schema if one.default is None else {"anyOf": [schema, {"type": "null"}]}
        properties[key_of(one)] = schema
    needed = [key_of(one) for one in fields(shape) if written or one.default is MISSING]
    about = (shape.__doc__ or "").strip()
    return {"type": "object", "description": about, "properties": properties, "required": needed}


def _schema(hint: Any, facts: Facts, defs: dict[str, Schema], written: bool) -> Schema:
    origin = get_origin(hint)
    if origin in (UnionType, Union):
        return {"anyOf": [_schema(h, facts, defs, written) for h in get_args(hint)]}
    if origin is Literal:
        return {"enum": list(get_args(hint))}
    if origin is tuple:
        return _list_schema(get_args(hint), facts, defs, written)
    if origin is dict:
        return {"type": "object", "additionalProperties": _schema(get_args(hint)[1], facts, defs, written)}
    if is_dataclass(hint):
        return _define(hint, defs, written)  # type: ignore[arg-type]
    return _bounded(dict(_SIMPLE[hint]), facts, written)


def _list_schema(hints: tuple[Any, ...], facts: Facts, defs: dict[str, Schema], written: bool) -> Schema:
    if hints[-1] is Ellipsis:
        return {"type": "array", "items": _schema(hints[0], facts, defs, written)}
    items = [_schema(h, facts, defs, written) for h in hints]
    return {"type": "array", "prefixItems": items, "items": False, "minItems": len(items), "maxItems": len(items)}


def _bounded(schema: Schema, facts: Facts, written: bool) -> Schema:
    """The schema with its range. Ranges are for what people give: an answer may pass them, but not below nothing."""
    if schema["type"] in ("number", "integer"):
        bounds = {"minimum": facts.low, "maximum": facts.high}
        schema |= {k: v for k, v in bounds.items() if v is not None and (not written or (k, v) == ("minimum", 0))}
    if facts.is_time and schema["type"] == "string":
        schema["format"] = "date-time"
    return schema


def _with_facts(schema: Schema, facts: Facts) -> Schema:
    about = f"{facts.about} ({facts.unit})" if facts.unit else facts.about
    return schema | {"description": about} if about else schema
