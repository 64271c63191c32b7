"""A real service in a process of its own, on a port of its own, that can be stopped and started again."""

import os
import socket
import time
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from multiprocessing.process import BaseProcess
from pathlib import Path
from secrets import randbelow

import httpx
from tests.forked import forked

from evenbed.access.joining import invite_foreman
from evenbed.settings import settings_from
from evenbed.store.work import Store

ROOT = Path(__file__).parents[2]
PATIENCE_S = 30.0
FIRST_KEPT, KEPT = 20_000, 12_000
"""Ports below those that the system gives to whoever asks for any."""


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@contextmanager
def kept_port() -> Iterator[int]:
    """A port for one service after the other, so that the app's address stays; no other run takes it meanwhile."""
    while True:
        port = FIRST_KEPT + randbelow(KEPT)
        with socket.socket() as sign, socket.socket() as probe:
            try:
                sign.bind(("127.0.0.2", port))
                probe.bind(("127.0.0.1", port))
            except OSError:
                continue
            probe.close()
            yield port
            return


@dataclass
class Service:
    """The service over one data folder, with more settings where a test needs them."""

    data: Path
    port: int
    settings: Mapping[str, str] = field(default_factory=dict)
    process: BaseProcess | None = None

    @property
    def address(self) -> str:
        """Where the app is."""
        return f"http://127.0.0.1:{self.port}"

    def command(self, *words: str) -> None:
        """Run `evenbed ...` over the same data. Raises RuntimeError with what it said where it failed."""
        process = forked(words, self._environment(), self._log)
        process.join(PATIENCE_S)
        if process.exitcode != 0:
            raise RuntimeError(self._log.read_text())

    def start(self) -> None:
        """Start and wait until it answers. Raises RuntimeError with what it said where it does not."""
        with httpx.Client() as client:
            if self._answers(client):
                raise RuntimeError(f"Another service answers at {self.address}.")
            self.process = forked(["serve"], self._environment(), self._log)
            patience = time.monotonic() + PATIENCE_S
            while not self._answers(client):
                if not self.process.is_alive() or time.monotonic() > patience:
                    raise RuntimeError(self._log.read_text())
                time.sleep(0.05)

    def stop(self) -> None:
        """Stop; nothing listens on the port afterwards."""
        if self.process is not None:
            self.process.terminate()
            self.process.join(PATIENCE_S)
            self.process.close()
            self.process = None

    def join_code(self) -> str:
        """A fresh join code, made as the command makes it but without another process."""
        with closing(Store(settings_from(self._environment()).database_url)) as store:
            return invite_foreman(store, datetime.now(UTC))

    def _answers(self, client: httpx.Client) -> bool:
        try:
            return client.get(f"{self.address}/api/health").status_code == 200
        except httpx.TransportError:
            return False

    @property
    def _log(self) -> Path:
        return self.data / "service.log"

    def _environment(self) -> dict[str, str]:
        told = {"EVENBED_DATA": str(self.data), "EVENBED_PORT": str(self.port), "EVENBED_POLL_INTERVAL_S": "0.1"}
        return {**os.environ, **told, **self.settings}
