"""`python -m tests.faults.cramped BYTES serve ...` runs an `evenbed` command that may not make any file longer."""

import resource
import sys

from evenbed.cli import main


def cramp(pid: int, longest: int) -> None:
    """From now on the process (0: this one) can make no file longer than so many bytes: to it the disk is full."""
    _, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.prlimit(pid, resource.RLIMIT_FSIZE, (longest, hard))


def make_room(pid: int) -> None:
    """As before."""
    _, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.prlimit(pid, resource.RLIMIT_FSIZE, (hard, hard))


if __name__ == "__main__":
    cramp(0, int(sys.argv[1]))
    sys.exit(main(sys.argv[2:]))
