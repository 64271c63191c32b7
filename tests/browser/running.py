"""A real service in a process of its own, on a port of its own, that can be stopped and started again."""

import os
import socket
import subprocess
import sys
import time
from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

import httpx

from evenbed.access.joining import invite_foreman
from evenbed.settings import settings_from
from evenbed.store.work import Store

ROOT = Path(__file__).parents[2]
PATIENCE_S = 30.0


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


@dataclass
class Service:
    """The service over one data folder, with more settings where a test needs them."""

    data: Path
    port: int
    settings: Mapping[str, str] = field(default_factory=dict)
    process: "subprocess.Popen[bytes] | None" = None

    @property
    def address(self) -> str:
        """Where the app is."""
        return f"http://127.0.0.1:{self.port}"

    def command(self, *words: str) -> str:
        """Run `evenbed ...` over the same data; what it printed."""
        run = subprocess.run(self._line(*words), env=self._environment(), capture_output=True, text=True, check=True)
        return run.stdout

    def start(self) -> None:
        """Start and wait until it answers. Raises TimeoutError where it does not."""
        with (self.data / "service.log").open("ab") as log:
            self.process = subprocess.Popen(self._line("serve"), env=self._environment(), stdout=log, stderr=log)
        patience = time.monotonic() + PATIENCE_S
        with httpx.Client() as client:
            while not self._answers(client):
                if time.monotonic() > patience:
                    raise TimeoutError((self.data / "service.log").read_text())
                time.sleep(0.1)

    def stop(self) -> None:
        """Stop; nothing listens on the port afterwards."""
        if self.process is not None:
            self.process.terminate()
            self.process.wait(timeout=PATIENCE_S)
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

    def _line(self, *words: str) -> list[str]:
        return [sys.executable, "-m", "evenbed", *words]

    def _environment(self) -> dict[str, str]:
        told = {"EVENBED_DATA": str(self.data), "EVENBED_PORT": str(self.port), "EVENBED_POLL_INTERVAL_S": "0.1"}
        return {**os.environ, **told, **self.settings}
