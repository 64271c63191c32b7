"""The server process: listens, says where, and stops within seconds when asked to."""

import socket

import uvicorn
from fastapi import FastAPI

from evenbed.settings import Settings, SettingsError

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
    """Serve until stopped. Raises SettingsError where nothing can listen: the port is taken, the host strange."""
    config = uvicorn.Config(
        app,
        log_level="warning",
        timeout_graceful_shutdown=PATIENCE_S,
        server_header=False,
    )
    with _listening(settings.host, settings.port) as listening:
        _Server(config, _address(listening)).run(sockets=[listening])
    return 0


def _listening(host: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host, port), family=family)
    except OSError as error:
        why = str(error.strerror).partition(" (")[0]
        raise SettingsError(f"Nothing can listen at {host}, port {port}: {why}. Choose --host and --port.") from error


def _address(listening: socket.socket) -> str:
    host, port = listening.getsockname()[:2]
    return f"http://[{host}]:{port}" if ":" in host else f"http://{host}:{port}"
