"""The plan of a room document. It needs no device: it stores nothing and tells nothing that was stored."""

import json
from dataclasses import asdict
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.concurrency import run_in_threadpool

from evenbed.api.problems import declared, problem_reply
from evenbed.engine.bridge import answer_text
from evenbed.engine.problems import problem_at
from evenbed.wire.problems import Code, ProblemItem

router = APIRouter(prefix="/api", tags=["plan"])
REQUEST = {
    "requestBody": {
        "required": True,
        "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Document"}}},
    }
}
REPLY: dict[int | str, dict[str, Any]] = {
    200: {
        "description": "The plan",
        "content": {"application/json": {"schema": {"$ref": "#/components/schemas/Plan"}}},
    }
}


@router.post(
    "/plan",
    operation_id="plan",
    response_class=Response,
    openapi_extra=REQUEST,
    responses={**REPLY, **declared(Code.BAD_DOCUMENT, Code.TOO_LARGE)},
)
async def plan(request: Request) -> Response:
    """The plan of the room document in the body, or every problem that keeps it from having one."""
    answer = await run_in_threadpool(answer_from_bytes, await request.body())
    problems = json.loads(answer).get("problems")
    if problems is None:
        return Response(answer, media_type="application/json")
    return _refusal([ProblemItem.model_validate(problem) for problem in problems])


def answer_from_bytes(body: bytes) -> bytes:
    """The engine's answer to a document as it arrived, as JSON in UTF-8. Never raises: what is no text is a problem.

    Half a character (a lone surrogate) that a document smuggles in as an escape leaves as a question mark.
    """
    try:
        text = body.decode("utf-8-sig")  # some editors write a mark in front; RFC 8259 lets a reader pass over it
    except UnicodeDecodeError as error:
        return problem_answer("not_json", f"it is not UTF-8 at byte {error.start}")
    return answer_text("plan", text).encode("utf-8", "replace")


def problem_answer(code: str, why: str) -> bytes:
    """The engine's kind of answer for a document that never reached it."""
    return json.dumps({"problems": [asdict(problem_at("", code, why=why))]}).encode()


def _refusal(problems: list[ProblemItem]) -> Response:
    detail = "; ".join(f"{p.path}: {p.message}" if p.path else p.message for p in problems[:3])
    return problem_reply(Code.BAD_DOCUMENT, detail, problems=problems)
