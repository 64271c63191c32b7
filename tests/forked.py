"""`evenbed` commands in processes of their own that begin within a moment.

Each is a fork of one process that has read the code and done nothing else: what runs is the command, and a start
costs a fifth of what it costs from nothing.
"""

import os
import sys
from collections.abc import Mapping, Sequence
from multiprocessing import get_context
from multiprocessing.process import BaseProcess
from pathlib import Path

from evenbed.cli import main


def forked(words: Sequence[str], environment: Mapping[str, str], log: Path) -> BaseProcess:
    """The command, running with this environment and no other; what it says goes to the end of the log."""
    forks = get_context("forkserver")
    forks.set_forkserver_preload(["evenbed.cli"])
    process = forks.Process(target=_run, args=(list(words), dict(environment), str(log)))
    process.start()
    return process


def _run(words: list[str], environment: dict[str, str], log: str) -> None:
    file = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    os.dup2(file, 1)
    os.dup2(file, 2)
    os.environ.clear()
    os.environ.update(environment)
    sys.exit(main(words))
