"""The OpenAPI description: routes, the engine's questions and answers, the records' fields, every error's problem."""

from collections.abc import Iterable
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic.json_schema import models_json_schema

from evenbed.engine.contract import QUESTION_SHAPES, answer_schema, asked_schema
from evenbed.wire.exchange import LatestEvent
from evenbed.wire.problems import ProblemReply
from evenbed.wire.records import SHAPES
from evenbed.wire.scans import ScanItem, ScanProgress, ScanReply

Schema = dict[str, Any]
ABOUT = (
    "Evenbed: levels, bed, rails, material and readiness of mortar beds for tile. Lengths are mm, areas m², volumes "
    "m³, masses kg, temperatures °C, times ISO 8601 with offset. Errors are application/problem+json with a `code`."
)


def description_of(app: FastAPI) -> Schema:
    """The whole description. Raises ValueError where two shapes share a name and differ."""
    description = get_openapi(title="Evenbed", version=app.version, description=ABOUT, routes=app.routes)
    schemas = description.setdefault("components", {}).setdefault("schemas", {})
    for question in QUESTION_SHAPES:
        _add(schemas, _engine_shapes(asked_schema(question)).items())
        _add(schemas, _engine_shapes(answer_schema(question)).items())
    _add(schemas, _wire_shapes().items())
    return description


def _add(schemas: Schema, more: Iterable[tuple[str, Schema]]) -> None:
    for name, schema in more:
        if schemas.setdefault(name, schema) != schema:
            raise ValueError(f"Two shapes are named {name}: one of them needs another name.")


def _engine_shapes(schema: Schema) -> Schema:
    shapes: Schema = _moved(schema["$defs"])
    return shapes


def _moved(schema: Any) -> Any:
    """The same schema with its references pointing to where OpenAPI keeps shapes."""
    if isinstance(schema, list):
        return [_moved(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    return {key: _reference(part) if key == "$ref" else _moved(part) for key, part in schema.items()}


def _reference(old: str) -> str:
    return old.replace("#/$defs/", "#/components/schemas/")


def _wire_shapes() -> Schema:
    """What travels without being a route's body: the fields of every kind, the problem, what streams tell."""
    told = (ProblemReply, LatestEvent, ScanProgress, ScanReply, ScanItem)
    shapes = [(shape, "validation") for shape in (*SHAPES.values(), *told)]
    _, definitions = models_json_schema(shapes, ref_template="#/components/schemas/{model}")  # type: ignore[arg-type]
    found: Schema = definitions["$defs"]
    return found
