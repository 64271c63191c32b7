"""A little HTTP server that foretells whatever it is told to, well or badly."""

import json
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer

from tests.documents import Json

POLLED_S = 0.02
"""How soon it hears that it is to stop."""
Say = Callable[[BaseHTTPRequestHandler], None]
GOOD: Json = {
    "latitude": 41.88,
    "utc_offset_seconds": -18000,
    "daily_units": {"time": "iso8601", "temperature_2m_min": "°C", "temperature_2m_max": "°C"},
    "daily": {
        "time": ["2026-05-04", "2026-05-05", "2026-05-06"],
        "temperature_2m_min": [4.5, 6, None],
        "temperature_2m_max": [17.0, 21.5, 20],
    },
}


def hours_of(day: str, celsius: list[float]) -> Json:
    """A day's hours, with a wind and a humidity that tell the hour."""
    hours = range(len(celsius))
    return {
        "time": [f"{day}T{hour:02}:00" for hour in hours],
        "temperature_2m": celsius,
        "relative_humidity_2m": [50 + hour for hour in hours],
        "wind_speed_10m": [10.0 + hour for hour in hours],
    }


@dataclass
class Foreteller:
    """Says one thing to everybody, and keeps what it was asked."""

    say: Say
    asked: list[str] = field(default_factory=list)
    port: int = 0

    @property
    def address(self) -> str:
        """As the setting takes it."""
        return f"http://127.0.0.1:{self.port}/v1?latitude={{latitude}}&longitude={{longitude}}&timezone=auto"


def says(answer: object, status: int = 200) -> Say:
    """An answer in JSON, or bytes as they are."""
    content = answer if isinstance(answer, bytes) else json.dumps(answer).encode()

    def say(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(status)
        handler.send_header("Content-Length", str(len(content)))
        handler.end_headers()
        handler.wfile.write(content)

    return say


def says_nothing(seconds: float) -> Say:
    """It takes its time and then goes."""

    def say(_handler: BaseHTTPRequestHandler) -> None:
        time.sleep(seconds)

    return say


def says_drop_by_drop(handler: BaseHTTPRequestHandler) -> None:
    """Byte by byte, so that something always comes before anybody loses patience."""
    handler.send_response(200)
    handler.end_headers()
    for _ in range(200):
        handler.wfile.write(b" ")
        handler.wfile.flush()
        time.sleep(0.05)


def says_without_end(handler: BaseHTTPRequestHandler) -> None:
    """More than anybody takes."""
    handler.send_response(200)
    handler.end_headers()
    for _ in range(1000):
        handler.wfile.write(b" " * 65_536)


def breaks_off(handler: BaseHTTPRequestHandler) -> None:
    """Less than it promised."""
    handler.send_response(200)
    handler.send_header("Content-Length", "1000")
    handler.end_headers()
    handler.wfile.write(b'{"daily": ')


def sends_elsewhere(handler: BaseHTTPRequestHandler) -> None:
    """To an address that nobody set."""
    handler.send_response(302)
    handler.send_header("Location", "http://127.0.0.1:1/inside")
    handler.send_header("Content-Length", "0")
    handler.end_headers()


@contextmanager
def foreteller(say: Say) -> Iterator[Foreteller]:
    """A server of its own on this machine."""
    told = Foreteller(say)

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            told.asked.append(self.path)
            try:
                told.say(self)
            except OSError:
                self.close_connection = True  # whoever asked has gone

        def log_message(self, *_: object) -> None:
            """Says nothing."""

    with ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        server.daemon_threads = True
        told.port = server.server_port
        thread = threading.Thread(target=server.serve_forever, args=(POLLED_S,), daemon=True)
        thread.start()
        try:
            yield told
        finally:
            server.shutdown()
            thread.join()
