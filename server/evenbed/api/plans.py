"""Plans and levels of documents. They need no device: they store nothing and tell nothing that was stored."""

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


def _content(shape: str) -> dict[str, Any]:
    return {"application/json": {"schema": {"$ref": f"#/components/schemas/{shape}"}}}


def _request(shape: str) -> dict[str, Any]:
    return {"requestBody": {"required": True, "content": _content(shape)}}


def _replies(about: str, shape: str) -> dict[int | str, dict[str, Any]]:
    return {200: {"description": about, "content": _content(shape)}, **declared(Code.BAD_DOCUMENT, Code.TOO_LARGE)}


@router.post(
    "/plan",
    operation_id="plan",
    response_class=Response,
    openapi_extra=_request("Document"),
    responses=_replies("The plan", "Plan"),
)
async def plan(request: Request) -> Response:
    """The plan of the room document in the body, or every problem that keeps it from having one."""
    return await _answered("plan", request)


@router.post(
    "/levels",
    operation_id="levels",
    response_class=Response,
    openapi_extra=_request("LevelsDocument"),
    responses=_replies("The levels", "LevelsReport"),
)
async def levels(request: Request) -> Response:
    """The adjusted levels of the document in the body: heights, standard errors, misfits. No outline is needed."""
    return await _answered("levels", request)


async def _answered(question: str, request: Request) -> Response:
    answer = await run_in_threadpool(answer_from_bytes, question, await request.body())
    problems = json.loads(answer).get("problems")
    if problems is None:
        return Response(answer, media_type="application/json")
    return _refusal([ProblemItem.model_validate(problem) for problem in problems])


def answer_from_bytes(question: str, body: bytes) -> bytes:
    """The engine's answer to a document as it arrived, as JSON in UTF-8. Never raises: what is no text is a problem.

    Half a character (a lone surrogate) that a document smuggles in as an escape leaves as a question mark.
    """
    try:
        text = body.decode("utf-8-sig")  # some editors write a mark in front; RFC 8259 lets a reader pass over it
    except UnicodeDecodeError as error:
        return problem_answer("not_json", f"it is not UTF-8 at byte {error.start}")
    return answer_text(question, text).encode("utf-8", "replace")


def problem_answer(code: str, why: str) -> bytes:
    """The engine's kind of answer for a document that never reached it."""
    return json.dumps({"problems": [asdict(problem_at("", code, why=why))]}).encode()


def _refusal(problems: list[ProblemItem]) -> Response:
    detail = "; ".join(f"{p.path}: {p.message}" if p.path else p.message for p in problems[:3])
    return problem_reply(Code.BAD_DOCUMENT, detail, problems=problems)
