"""The server process: listens, says where, and stops within seconds when asked to."""

import socket

import uvicorn
from fastapi import FastAPI

from evenbed.settings import Settings

PATIENCE_S = 3
"""How long a stop waits for open streams; they end when the phone goes, and it comes back by itself."""


class _Server(uvicorn.Server):
    """Says its address once it listens."""

    def __init__(self, config: uvicorn.Config, address: str) -> None:
        super().__init__(config)
        self._address = address

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, then say so."""
        await super().startup(sockets)
        print(f"Evenbed is at {self._address} (stop with Ctrl-C)", flush=True)


def serve(app: FastAPI, settings: Settings) -> int:
    """Serve until stopped. Exits with status 1 and a message where the port is taken."""
    config = uvicorn.Config(
        app,
        host=settings.host,
        port=settings.port,
        log_level="warning",
        timeout_graceful_shutdown=PATIENCE_S,
        server_header=False,
    )
    with config.bind_socket() as listening:
        _Server(config, _address(listening)).run(sockets=[listening])
    return 0


def _address(listening: socket.socket) -> str:
    host, port = listening.getsockname()[:2]
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"
