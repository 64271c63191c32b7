"""The processes of a Chromium that was started over a folder of its own, so that they can be killed one by one."""

import os
import signal
import time
from pathlib import Path

PATIENCE_S = 20.0
LOOK_S = 0.02


def main_process(profile: Path) -> int:
    """The browser's own process. Raises StopIteration where it does not run."""
    flag = f"--user-data-dir={profile}"
    return next(pid for pid, words in _running() if flag in words and not _kind(words))


def page_process(profile: Path) -> int:
    """The process that runs its page: of those that run pages the one that has worked most. Another one waits for the
    next tab, which would never open if it were gone. Raises ValueError where there is none."""
    family = _descendants(main_process(profile))
    return max((pid for pid, words in _running() if pid in family and _kind(words) == "renderer"), key=_worked)


def kill(*pids: int) -> None:
    """End them as the system does when memory runs out; returns when they are gone."""
    for pid in pids:
        os.kill(pid, signal.SIGKILL)
    patience = time.monotonic() + PATIENCE_S
    while any(_state(pid) not in "ZX" for pid in pids):
        if time.monotonic() > patience:
            raise TimeoutError(f"Of {pids} some are still there.")
        time.sleep(LOOK_S)


def _running() -> list[tuple[int, list[str]]]:
    return [(int(folder.name), _words(folder)) for folder in Path("/proc").glob("[0-9]*")]


def _words(folder: Path) -> list[str]:
    """Its command line; a Chromium's helper writes its own anew, with spaces between the words."""
    try:
        return (folder / "cmdline").read_text().replace("\0", " ").split()
    except OSError:  # it has just ended
        return []


def _kind(words: list[str]) -> str:
    return next((word.removeprefix("--type=") for word in words if word.startswith("--type=")), "")


def _stat(pid: int) -> list[str]:
    try:
        return (Path("/proc") / str(pid) / "stat").read_text().rpartition(")")[2].split()
    except OSError:
        return ["X", "0"]


def _state(pid: int) -> str:
    return _stat(pid)[0]


def _worked(pid: int) -> int:
    """Its time on the processor, in ticks of the system's clock; proc(5), fields 14 and 15."""
    user, system = (_stat(pid) + ["0"] * 13)[11:13]
    return int(user) + int(system)


def _descendants(pid: int) -> set[int]:
    parents = {one: int(_stat(one)[1]) for one, _ in _running()}
    family = {pid}
    while new := {one for one, parent in parents.items() if parent in family} - family:
        family |= new
    return family
