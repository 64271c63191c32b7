"""Phones that are the app's own code, and the real service, through everything that may go wrong, then quiet."""

import os
from collections.abc import Callable
from math import ceil
from typing import Any

import pytest
from hypothesis import HealthCheck, seed, settings
from hypothesis.stateful import run_state_machine_as_test

from evenbed.wire.refusals import Reason
from tests.machine.bases import Bases
from tests.machine.machine import PhonesAndOffice, machine_on
from tests.machine.pipe import Pipe

RUNS = int(os.environ.get("EVENBED_MACHINE_RUNS", "8"))
STEPS = 80
PROMISED = (RUNS - 1) * STEPS * 9 // 10
MOST_TIMES = 6
MANY_RUNS = 100
SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
HOW: dict[str, Any] = {"deadline": None, "derandomize": True, "database": None, "suppress_health_check": SLOW}
MET_SOON = {"applied", "already_applied", "not_joined", "device_removed", "gap"}
MET_LATER = {"conflict", "device_forked", "viewer_only_looks"} | {
    reason.value for reason in (Reason.FOREMAN_ONLY, Reason.NOT_ASSIGNED, Reason.UNKNOWN_PARENT, Reason.BAD_VALUE)
}
"""What a run must have come upon; without these it would have proved little."""


def run(machine: type[PhonesAndOffice], runs: int) -> None:
    """So many runs, each to its proof."""
    run_state_machine_as_test(machine, settings=settings(max_examples=runs, stateful_step_count=STEPS, **HOW))


@pytest.mark.deep
def test_every_promise_holds_after_quiet(pipe: Pipe, bases: Bases, figures: Callable[[str], None]) -> None:
    """The same runs each time, `EVENBED_MACHINE_RUNS` of 80 steps each; the steps really made are counted.

    A run that Hypothesis makes out of parts of another may end at any step, and how many do is luck: what is missing
    is made up for, each time from a seed of its own.
    """
    machine = machine_on(bases, pipe)
    run(machine, RUNS)
    for time in range(1, MOST_TIMES):
        missing = PROMISED - machine.steps.total()
        if missing > 0:
            run(seed(time)(machine), 1 + ceil(missing / STEPS))
    made = machine.steps.total()
    figures(f"{made} steps: {dict(machine.steps.most_common())}, met: {dict(machine.met.most_common())}")
    assert made >= PROMISED
    assert machine.met.keys() >= (MET_SOON | MET_LATER if RUNS >= MANY_RUNS else MET_SOON)
