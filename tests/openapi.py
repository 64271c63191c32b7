"""The service's OpenAPI description as a source of requests, good and bad, and a judge of every answer.

Schemathesis (schemathesis.io) makes the requests and judges; it knows of the service what the description says. Where
a good request needs more than a shape (an id that is there, a number that comes next) it is told here.
"""

import asyncio
import json
from copy import deepcopy
from functools import cache
from typing import Any

import httpx
from fastapi import FastAPI
from hypothesis import strategies as st
from schemathesis import Case, GenerationMode, openapi
from schemathesis.checks import CheckFunction, not_a_server_error
from schemathesis.config import GenerationConfig
from schemathesis.core.result import Ok
from schemathesis.schemas import APIOperation, BaseSchema
from schemathesis.specs.openapi import checks as judged

from evenbed.app import create_app
from evenbed.settings import Settings
from evenbed.sync.jobs import PARENTS
from evenbed.wire.protocol import PROTOCOL, SCHEMA
from evenbed.wire.records import SHAPES
from evenbed.wire.supplies import COMPANYS
from tests.askers import RECORDS
from tests.clients import Client
from tests.jobfiles.hostile import good, text, zipped

ADDRESS = "http://evenbed.test"
GOOD, BAD = GenerationMode.POSITIVE, GenerationMode.NEGATIVE
ALWAYS: list[CheckFunction] = [
    not_a_server_error,
    judged.status_code_conformance,
    judged.content_type_conformance,
    judged.response_headers_conformance,
    judged.response_schema_conformance,
    judged.unsupported_method,
    judged.allow_header_conformance,
]
BY_MODE: dict[GenerationMode, list[CheckFunction]] = {
    GOOD: [*ALWAYS, judged.positive_data_acceptance],
    BAD: [*ALWAYS, judged.negative_data_rejection, judged.missing_required_header],
}
NO_FAULT = {
    ("POST /api/push", "update_needed"),
    ("POST /api/plan", "bad_document"),
    ("POST /api/levels", "bad_document"),
    ("PUT /api/photos/{hash}", "photo_differs"),
    ("POST /api/jobs/file", "job_file_not_taken"),
}
"""Refusals of requests in the agreed shape: a phone may be newer than the service, a room need not be buildable, a
picture has one size, and not all bytes are a job file."""
JOB_FILE = "POST /api/jobs/file"
KNOWN = {**RECORDS, **COMPANYS}
AnyCase = Case[Any]
Operation = APIOperation[Any, Any, Any, Any]


@cache
def description() -> dict[str, Any]:
    """What the service says of itself."""
    described: dict[str, Any] = create_app(Settings()).openapi()
    return described


@cache
def _schema() -> BaseSchema:
    return openapi.from_dict(description())


@cache
def operations() -> dict[str, Operation]:
    """Every route by its method and path."""
    return _operations_of(_schema())


def _operations_of(schema: BaseSchema) -> dict[str, Operation]:
    found = [result.ok() for result in schema.get_all_operations() if isinstance(result, Ok)]
    return {operation.label: operation for operation in found}


@cache
def boundary_cases(label: str) -> tuple[AnyCase, ...]:
    """Requests at and beyond every limit that the description tells."""
    modes, config = [GOOD, BAD], GenerationConfig(deterministic=True)
    return tuple(_schema().iter_coverage_cases(operations()[label], generation_modes=modes, generation_config=config))


def good_cases(label: str, about: dict[str, str]) -> st.SearchStrategy[AnyCase]:
    """Requests in the agreed shape. Half of them are about somebody or something that is there."""
    drawn = operations()[label].as_strategy(generation_mode=GOOD)
    return st.tuples(drawn, st.booleans()).map(lambda one: _pointed(one[0], about) if one[1] else one[0])


def bad_cases(label: str) -> st.SearchStrategy[AnyCase]:
    """Requests of which something is not in the agreed shape."""
    return operations()[label].as_strategy(generation_mode=BAD)


def _pointed(case: AnyCase, about: dict[str, str]) -> AnyCase:
    if case.operation.label == JOB_FILE:
        case.body = zipped(text(good()))
    for told in (case.path_parameters, case.query):
        told |= {name: about[name] for name in told if name in about}
    if "record_id" in case.path_parameters:
        case.path_parameters["record_id"] = KNOWN[case.path_parameters["kind"]]
    return case


@cache
def _push() -> Operation:
    """The push, described closer: every change has a kind that there is, and the fields of that kind."""
    closer = deepcopy(description())
    shapes = closer["components"]["schemas"]
    shapes["Change"] = {
        "anyOf": [_change_of(kind, shape.__name__, shapes["Change"]) for kind, shape in SHAPES.items()]
    }
    return _operations_of(openapi.from_dict(closer))["POST /api/push"]


def _change_of(kind: str, shape: str, change: dict[str, Any]) -> dict[str, Any]:
    closer = {"kind": {"const": kind}, "fields": {"$ref": f"#/components/schemas/{shape}"}}
    return change | {"properties": change["properties"] | closer}


def good_pushes() -> st.SearchStrategy[AnyCase]:
    """Pushes in the agreed shape and of the versions that the service knows. Their numbers are still to be set."""
    return st.tuples(_push().as_strategy(generation_mode=GOOD), st.booleans()).map(lambda one: _aimed(*one))


def _aimed(case: AnyCase, is_there: bool) -> AnyCase:
    body: Any = case.body
    body |= {"protocol": PROTOCOL, "changes": [_aimed_change(change, is_there) for change in body["changes"]]}
    return case


def _aimed_change(change: dict[str, Any], is_there: bool) -> dict[str, Any]:
    """The change, of a record or below a parent that is there where it is to be so."""
    known = {"schema": SCHEMA}
    if not is_there or change["kind"] not in KNOWN:
        return change | known
    parents = {name: RECORDS[parent] for parent, name in PARENTS.values() if name in change["fields"]}
    return change | known | {"record_id": KNOWN[change["kind"]], "fields": change["fields"] | parents}


async def _sent(app: FastAPI, request: httpx.Request) -> httpx.Response:
    transport = httpx.ASGITransport(app, raise_app_exceptions=False)
    async with httpx.AsyncClient(transport=transport) as client:
        return await client.send(request)


def answered(client: Client, case: AnyCase) -> httpx.Response:
    """The answer to a request, sent with the client's token and judged by the description.

    Raises schemathesis' FailureGroup, with the request as a command, where it is not what was promised.
    """
    told = case.as_transport_kwargs(base_url=ADDRESS, headers=client.headers)
    response = asyncio.run(_sent(client.app, request_from(told)))
    mode = case.meta.generation.mode if case.meta else GOOD
    checks = BY_MODE[mode]
    if (case.operation.label, _code_in(response)) in NO_FAULT:
        checks = [check for check in checks if check is not judged.positive_data_acceptance]
    case.validate_response(response, checks=checks)
    return response


def _code_in(response: httpx.Response) -> str | None:
    return response.json()["code"] if response.headers.get("content-type") == "application/problem+json" else None


def request_from(told: dict[str, Any]) -> httpx.Request:
    """The request as it goes over the wire: JSON may hold anything that JSON can, half characters too."""
    headers = {name: value for name, value in told["headers"].items() if value is not None}
    body: Any = json.dumps(told["json"]).encode() if "json" in told else told.get("data")
    form, content = (body, None) if isinstance(body, dict) else (None, body)
    files, cookies, query = told.get("files"), told.get("cookies"), told.get("params") or None
    return httpx.Request(
        told["method"],
        told["url"],
        params=query,
        headers=headers,
        cookies=cookies,
        files=files,
        data=form,
        content=content,
    )
