"""The plan of a room document. It needs no device: it stores nothing and tells nothing that was stored."""

import json
from typing import Any

from fastapi import APIRouter, Request, Response
from fastapi.concurrency import run_in_threadpool

from evenbed.api.problems import declared, problem_reply
from evenbed.engine.bridge import plan_text
from evenbed.engine.problems import PROBLEMS
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
    body = await request.body()
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        return _refusal([_not_text(error)])
    answer = await run_in_threadpool(plan_text, text)
    problems = json.loads(answer).get("problems")
    if problems is None:
        return Response(answer, media_type="application/json")
    return _refusal([ProblemItem.model_validate(problem) for problem in problems])


def _refusal(problems: list[ProblemItem]) -> Response:
    detail = "; ".join(f"{p.path}: {p.message}" if p.path else p.message for p in problems[:3])
    return problem_reply(Code.BAD_DOCUMENT, detail, problems=problems)


def _not_text(error: UnicodeDecodeError) -> ProblemItem:
    why = f"it is not UTF-8 at byte {error.start}"
    return ProblemItem(path="", code="not_json", message=PROBLEMS["not_json"].format(why=why), values={"why": why})
