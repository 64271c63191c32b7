"""The one place where errors become replies: RFC 9457, application/problem+json, each with a stable code."""

import json
import logging
from collections.abc import Callable, Sequence
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.routing import APIRoute
from pydantic_core import ErrorDetails
from starlette.exceptions import HTTPException

from evenbed.access.calendars import NoCalendarError
from evenbed.access.joining import (
    DeviceRemovedError,
    DeviceTakenError,
    NameNeededError,
    NotJoinedError,
    WrongCodeError,
)
from evenbed.access.people import LastForemanError, UnknownDeviceError, UnknownPersonError
from evenbed.access.rights import ForemanOnlyError, ViewerOnlyLooksError
from evenbed.access.tries import TooManyTriesError
from evenbed.jobfile.faults import JobFileError
from evenbed.jobfile.making import UnknownJobError
from evenbed.store.faults import StoreBusyError, StoreFailedError, StoreFullError, StoreGoneError
from evenbed.sync.accept import DeviceForkedError, GapError, UpdateNeededError
from evenbed.wire.problems import ABOUT, Code, ProblemItem, reply_for

MEDIA_TYPE = "application/problem+json"
BUSY_WAIT_S = 2
CALENDARS = "/calendar/"
"""Behind it stands a person's secret."""
_LOG = logging.getLogger("evenbed")
_CODES_BY_STATUS = {400: Code.NOT_JSON, 404: Code.NOT_FOUND, 405: Code.METHOD_NOT_ALLOWED, 413: Code.TOO_LARGE}


class ProblemError(HTTPException):
    """A refusal decided in the web's own room. `expected` belongs to `photo_gap`, `retry_after` (s) to `busy`."""

    def __init__(self, code: Code, detail: str, expected: int | None = None, retry_after: int | None = None) -> None:
        self.code = code
        self.expected = expected
        self.retry_after = retry_after
        super().__init__(ABOUT[code].status, detail, {"Retry-After": str(retry_after)} if retry_after else None)


def problem_reply(code: Code, detail: str | None = None, **extra: Any) -> Response:
    """The reply for a code. `extra` are the members of `ProblemReply` that belong to it."""
    reply = reply_for(code, detail, **extra)
    body = json.dumps(reply.model_dump(mode="json", exclude_none=True))
    return Response(body, reply.status, media_type=MEDIA_TYPE)


def declared(*codes: Code) -> dict[int | str, dict[str, Any]]:
    """How a route tells in its description which codes it may answer with."""
    by_status: dict[int | str, list[Code]] = {}
    for code in (*codes, Code.INTERNAL):
        by_status.setdefault(ABOUT[code].status, []).append(code)
    return {status: _declaration(same) for status, same in by_status.items()}


def _declaration(codes: Sequence[Code]) -> dict[str, Any]:
    titles = "; ".join(f"`{code}`: {ABOUT[code].title}" for code in codes)
    schema = {"$ref": "#/components/schemas/ProblemReply"}
    return {"description": titles, "content": {MEDIA_TYPE: {"schema": schema}}}


def install(app: FastAPI, routes: Sequence[APIRoute]) -> None:
    """Put every error of ours, and those of the framework, into the one shape."""
    plain: dict[type[Exception], Code] = {
        WrongCodeError: Code.WRONG_CODE,
        NameNeededError: Code.NAME_NEEDED,
        DeviceTakenError: Code.DEVICE_TAKEN,
        ForemanOnlyError: Code.FOREMAN_ONLY,
        ViewerOnlyLooksError: Code.VIEWER_ONLY_LOOKS,
        LastForemanError: Code.LAST_FOREMAN,
        UnknownPersonError: Code.NOT_FOUND,
        UnknownDeviceError: Code.NOT_FOUND,
        NoCalendarError: Code.NOT_FOUND,
        UnknownJobError: Code.NOT_FOUND,
        DeviceForkedError: Code.DEVICE_FORKED,
        UpdateNeededError: Code.UPDATE_NEEDED,
    }
    for kind, code in plain.items():
        app.add_exception_handler(kind, _saying(code))
    for kind, code in {StoreFullError: Code.STORAGE_FULL, StoreFailedError: Code.STORAGE_FAILED}.items():
        app.add_exception_handler(kind, _logged(code))
    app.add_exception_handler(NotJoinedError, _no_entry(Code.NOT_JOINED))
    app.add_exception_handler(DeviceRemovedError, _no_entry(Code.DEVICE_REMOVED))
    app.add_exception_handler(StoreBusyError, _busy)
    app.add_exception_handler(StoreGoneError, _gone)
    app.add_exception_handler(GapError, _gap)
    app.add_exception_handler(TooManyTriesError, _too_many_tries)
    app.add_exception_handler(JobFileError, _not_taken)
    app.add_exception_handler(RequestValidationError, _malformed)
    app.add_exception_handler(HTTPException, _refusing(routes))
    app.add_exception_handler(Exception, _internal)


Handler = Callable[[Request, Exception], Response]


def _saying(code: Code) -> Handler:
    return lambda _request, error: problem_reply(code, str(error))


def _logged(code: Code) -> Handler:
    def handle(request: Request, error: Exception) -> Response:
        _LOG.error("%s %s: %s", request.method, _address(request), error)
        return problem_reply(code, str(error))

    return handle


def _address(request: Request) -> str:
    """What a log may tell of an address: one with a secret in it is told without."""
    path = request.url.path
    return CALENDARS if path.startswith(CALENDARS) else path


def _no_entry(code: Code) -> Handler:
    def handle(_request: Request, error: Exception) -> Response:
        reply = problem_reply(code, str(error))
        reply.headers["WWW-Authenticate"] = "Bearer"
        return reply

    return handle


def _busy(_request: Request, error: Exception) -> Response:
    return _with_wait(problem_reply(Code.BUSY, str(error), retry_after=BUSY_WAIT_S), BUSY_WAIT_S)


def _gone(request: Request, error: Exception) -> Response:
    """Where the database is and who opens it goes to the log, not to whoever asks."""
    _LOG.error("%s %s: %s", request.method, _address(request), error)
    said = "The service cannot reach its database now. Sending again is safe: a change counts once."
    return _with_wait(problem_reply(Code.BUSY, said, retry_after=BUSY_WAIT_S), BUSY_WAIT_S)


def _gap(_request: Request, error: Exception) -> Response:
    assert isinstance(error, GapError)
    return problem_reply(Code.GAP, str(error), expected=error.expected)


def _not_taken(_request: Request, error: Exception) -> Response:
    """Why, and where in the file."""
    assert isinstance(error, JobFileError)
    item = ProblemItem(path=error.where, code=error.fault, message=str(error))
    return problem_reply(Code.JOB_FILE_NOT_TAKEN, str(error), problems=[item])


def _too_many_tries(_request: Request, error: Exception) -> Response:
    assert isinstance(error, TooManyTriesError)
    return _with_wait(problem_reply(Code.TOO_MANY_TRIES, str(error), retry_after=error.wait_s), error.wait_s)


def _with_wait(reply: Response, wait_s: int) -> Response:
    reply.headers["Retry-After"] = str(wait_s)
    return reply


def _malformed(_request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    return problem_reply(Code.MALFORMED, problems=[_item_from(one) for one in error.errors()])


def _item_from(error: ErrorDetails) -> ProblemItem:
    _where, *steps = error["loc"]
    path = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in steps)
    return ProblemItem(path=path.lstrip("."), code=error["type"], message=error["msg"])


def _refusing(routes: Sequence[APIRoute]) -> Handler:
    def handle(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        reply = _refusal_from(error)
        if reply.status_code == ABOUT[Code.METHOD_NOT_ALLOWED].status:
            reply.headers["Allow"] = _methods_at(request.url.path, routes) or reply.headers["Allow"]
        return reply

    return handle


def _refusal_from(error: HTTPException) -> Response:
    if isinstance(error, ProblemError):
        reply = problem_reply(error.code, error.detail, expected=error.expected, retry_after=error.retry_after)
    else:
        reply = problem_reply(_CODES_BY_STATUS[error.status_code], error.detail)
    reply.headers.update(error.headers or {})
    return reply


def _methods_at(path: str, routes: Sequence[APIRoute]) -> str:
    """Every method of an address: the framework names those of the first route there alone."""
    there = (route.methods or () for route in routes if route.path_regex.match(path))
    return ", ".join(sorted(set().union(*there)))


def _internal(_request: Request, _error: Exception) -> Response:
    """The error itself goes to the log (the server writes it there), never to the reply."""
    return problem_reply(Code.INTERNAL, "The mistake is ours and has been logged. Nothing was stored; send again.")


STORE_CODES = (Code.BUSY, Code.STORAGE_FULL, Code.STORAGE_FAILED)
"""What any route that touches the database may answer."""

ENTRY_CODES = (Code.NOT_JOINED, Code.DEVICE_REMOVED)
"""What any route for joined devices may answer."""

BODY_CODES = (Code.MALFORMED, Code.NOT_JSON, Code.JSON_REQUIRED, Code.TOO_LARGE)
"""What any route with a body may answer before it looks at what is in it."""
