"""Headers that every reply carries: what a page may load, and that data is never kept by a cache."""

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY = "; ".join(
    (
        "default-src 'self'",
        "script-src 'self' 'wasm-unsafe-eval'",
        "worker-src 'self'",
        "img-src 'self' data: blob:",
        "object-src 'none'",
        "base-uri 'none'",
        "form-action 'self'",
        "frame-ancestors 'none'",
    )
)
ALWAYS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
}


class SafeHeaders:
    """Adds them to every reply; a header that a route has set stays."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Passes the request on."""

        async def send_safe(message: Message) -> None:
            if message["type"] == "http.response.start":
                _complete(MutableHeaders(scope=message))
            await send(message)

        await self.app(scope, receive, send_safe if scope["type"] == "http" else send)


def _complete(headers: MutableHeaders) -> None:
    for name, value in ALWAYS.items():
        headers.setdefault(name, value)
    headers.setdefault("Cache-Control", "no-store")
