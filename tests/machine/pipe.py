"""The phones: one Node process with the app's own storage and sync, bundled once, spoken to in lines of JSON."""

import json
import os
import select
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

PATIENCE_S = 20.0
WEB = Path(__file__).resolve().parents[2] / "web"


class PhoneError(Exception):
    """A command that the phone could not carry out; `reason` is the word of its storage, if it was that."""

    def __init__(self, message: str, reason: str | None) -> None:
        self.reason = reason
        super().__init__(message)


@dataclass(frozen=True)
class Question:
    """A request that a tab of a phone makes."""

    tab: str
    method: str
    path: str
    body: str | None


@dataclass(frozen=True)
class Answer:
    """A reply as it comes over the network."""

    status: int
    body: str
    type: str = "application/json"


Network = Callable[[Question], Answer | None]
"""Answers a phone's request; None where no answer comes."""
Clock = Callable[[], int]
"""What the phone's own clock shows, in ms since 1970."""


def no_network(question: Question) -> Answer | None:
    """For commands during which a phone asks nothing."""
    raise AssertionError(f"{question.method} {question.path} was not expected here.")


class Pipe:
    """One process of phones. Commands may be given while the answer to a question is being thought about."""

    def __init__(self, folder: Path) -> None:
        subprocess.run(["node", "build/phones.mjs", str(folder)], cwd=WEB, check=True)
        command = ["node", str(folder / "main.js")]
        self._node = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=0)
        self._unread = b""
        self._commands = 0
        self._outcomes: dict[int, dict[str, Any]] = {}
        self.complaints: list[str] = []
        """What the phones' code reported as errors of its own since this was emptied."""
        self.is_dead = False
        """Whether the phone of the last command has no battery left."""

    def call(self, do: str, clock: Clock, network: Network = no_network, **told: Any) -> Any:
        """Carry out one command; its result. Raises PhoneError."""
        self._commands += 1
        number = self._commands
        self._send({"id": number, "do": do, "now": clock(), "disk": "", "tab": ""} | told)
        while number not in self._outcomes:
            line = self._read()
            if "ask" in line:
                self._answer(line, clock, network)
            else:
                self._outcomes[line["id"]] = line
        return self._outcome(self._outcomes.pop(number))

    def _answer(self, line: dict[str, Any], clock: Clock, network: Network) -> None:
        answer = network(Question(line["tab"], line["method"], line["path"], line["body"]))
        reply = {"status": answer.status, "type": answer.type, "body": answer.body} if answer else None
        self._send({"answer": line["ask"], "reply": reply, "now": clock()})

    def _outcome(self, line: dict[str, Any]) -> Any:
        self.complaints += line["complaints"]
        self.is_dead = line["dead"]
        if "error" in line:
            raise PhoneError(line["error"], line["reason"])
        return line["result"]

    def _send(self, line: dict[str, Any]) -> None:
        assert self._node.stdin is not None
        self._node.stdin.write(json.dumps(line).encode() + b"\n")

    def _read(self) -> dict[str, Any]:
        while b"\n" not in self._unread:
            self._unread += self._more()
        text, _, self._unread = self._unread.partition(b"\n")
        line: dict[str, Any] = json.loads(text)
        return line

    def _more(self) -> bytes:
        assert self._node.stdout is not None
        ready, _, _ = select.select([self._node.stdout], [], [], PATIENCE_S)
        assert ready, "The phones do not answer."
        more = os.read(self._node.stdout.fileno(), 1 << 20)
        assert more, "The phones' process has ended."
        return more

    def close(self) -> None:
        """End the process."""
        assert self._node.stdin is not None
        assert self._node.stdout is not None
        self._node.stdin.close()
        self._node.terminate()
        self._node.wait()
        self._node.stdout.close()
