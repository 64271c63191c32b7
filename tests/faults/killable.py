"""A service in a process of its own that can be killed as by a power cut and is back within a moment."""

import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing.process import BaseProcess
from pathlib import Path

import httpx
from tests.browser.running import free_port
from tests.forked import forked

PATIENCE_S = 60.0
LOOK_S = 0.01


@dataclass
class Killable:
    """The service over one database, always at the same port. `log` takes what it says."""

    url: str
    log: Path
    port: int
    process: BaseProcess | None = None

    @property
    def address(self) -> str:
        """Where it answers."""
        return f"http://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Start and wait until it answers. Raises TimeoutError with what it said where it does not."""
        words = ["serve", "--port", str(self.port), "--database", self.url]
        self.process = forked(words, os.environ, self.log)
        patience = time.monotonic() + PATIENCE_S
        while not self.answers():
            if time.monotonic() > patience:
                raise TimeoutError(self.log.read_text())
            time.sleep(LOOK_S)

    def answers(self) -> bool:
        """True where the service says that it is well."""
        try:
            return httpx.get(f"{self.address}/api/health").status_code == 200
        except httpx.TransportError:
            return False

    def kill(self) -> None:
        """End it without a warning, as a power cut would as far as a process can tell."""
        assert self.process is not None
        self.process.kill()
        self.process.join(PATIENCE_S)
        self.process.close()
        self.process = None


@contextmanager
def running(url: str, folder: Path) -> Iterator[Killable]:
    """A running service over the database, killed at the end."""
    service = Killable(url, folder / "service.log", free_port())
    service.start()
    try:
        yield service
    finally:
        if service.process is not None:
            service.kill()
