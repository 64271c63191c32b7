"""`python -m evenbed.scans`: one scan in a process of its own, so that nothing waits for it or shares its memory.

On standard input a `Task` as JSON, on standard output the lines that the wire's `scans` tells of.
"""

import errno
import os
import sys
from pathlib import Path

from pydantic import BaseModel

from evenbed.scans.faults import ScanError
from evenbed.scans.reducing import readings_from
from evenbed.scans.room import Room
from evenbed.scans.task import Task
from evenbed.wire.problems import Code, ProblemReply, reply_for
from evenbed.wire.scans import ScanProgress, Stage

LEAST_ADVANCE = 0.02
POLITE = 5  # whoever asks for something else goes before a scan


class _Teller:
    """Says how far it has come, a few dozen times at most."""

    def __init__(self) -> None:
        self._told: tuple[Stage, float] | None = None

    def __call__(self, stage: Stage, done: float) -> None:
        if self._told is None or self._told[0] != stage or done - self._told[1] >= LEAST_ADVANCE:
            self._told = stage, done
            _say(ScanProgress(stage=stage, done=min(1.0, done)))


def _say(line: BaseModel) -> None:
    sys.stdout.write(line.model_dump_json(exclude_none=isinstance(line, ProblemReply)) + "\n")
    sys.stdout.flush()


def main() -> None:
    """Read the task, say the lines. Only a mistake of ours ends it without a last one."""
    os.nice(POLITE)
    task = Task.model_validate_json(sys.stdin.buffer.read())
    try:
        _say(readings_from(Path(task.path), Room(task.rings), task.wishes, _Teller()))
    except ScanError as error:
        _say(reply_for(error.code, str(error), problems=[error.item]))
    except OSError as error:
        if error.errno != errno.ENOSPC:
            raise
        _say(reply_for(Code.STORAGE_FULL, "There is no room left on the service's disk to read the scan."))


if __name__ == "__main__":
    main()
