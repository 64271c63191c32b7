"""Bodies at the door: not too large, JSON and declared as JSON, and nothing in them that could not be sent back."""

import json
import re
from collections.abc import Callable, Coroutine, Mapping
from typing import Any

from fastapi import Request, Response
from fastapi.routing import APIRoute
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from evenbed.api.problems import ProblemError, problem_reply
from evenbed.wire.problems import Code

Handler = Callable[[Request], Coroutine[Any, Any, Response]]


class BodyLimit:
    """Refuses bodies beyond a number of bytes, announced or not, with a problem that says the limit.

    `larger` has the limits of addresses that take more, by a pattern of the whole address.
    """

    def __init__(self, app: ASGIApp, limit: int, larger: Mapping[str, int]) -> None:
        self.app = app
        self.limit = limit
        self.larger = larger

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Passes the request on, counting."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
        elif _announced(scope) > (limit := self._limit_of(scope["path"])):
            await problem_reply(Code.TOO_LARGE, _detail(limit))(scope, receive, send)
        else:
            await self.app(scope, _counting(receive, limit), send)

    def _limit_of(self, path: str) -> int:
        return next((most for pattern, most in self.larger.items() if re.fullmatch(pattern, path)), self.limit)


def _detail(limit: int) -> str:
    return f"At most {limit} bytes are taken. Send in smaller parts."


def _counting(receive: Receive, limit: int) -> Receive:
    got = 0

    async def counted() -> Message:
        nonlocal got
        message = await receive()
        got += len(message.get("body", b""))
        if got > limit:
            raise ProblemError(Code.TOO_LARGE, _detail(limit))
        return message

    return counted


def _announced(scope: Scope) -> int:
    length = dict(scope["headers"]).get(b"content-length", b"0")
    return int(length) if length.isdigit() else 0


class JsonRequest(Request):
    """A request whose JSON is read strictly."""

    async def json(self) -> Any:
        """The parsed body. NaN, infinities, lone surrogates and endless nesting are no JSON that can be kept."""
        body = await self.body()
        try:
            parsed = json.loads(body)
            json.dumps(parsed, allow_nan=False, ensure_ascii=False).encode()
        except (ValueError, RecursionError) as error:
            raise ProblemError(Code.NOT_JSON, f"The body cannot be read as JSON: {error}.") from None
        return parsed


WITH_BODY = ("POST", "PUT", "PATCH")


class JsonRoute(APIRoute):
    """A route whose body must be declared as application/json.

    A page of another origin cannot send that type, nor the method DELETE, without asking first, so a device's cookie
    is no use to it.
    """

    def get_route_handler(self) -> Handler:
        """The framework's handler behind our door."""
        inner = super().get_route_handler()

        async def handle(request: Request) -> Response:
            if request.method in WITH_BODY and not _is_json(request):
                raise ProblemError(Code.JSON_REQUIRED, "Send the header Content-Type: application/json.")
            return await inner(JsonRequest(request.scope, request.receive))

        return handle


def _is_json(request: Request) -> bool:
    return request.headers.get("content-type", "").partition(";")[0].strip().lower() == "application/json"
