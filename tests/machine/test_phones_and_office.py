"""Phones that are the app's own code, and the real service, through everything that may go wrong, then quiet."""

from collections import Counter

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.machine.bases import Bases
from tests.machine.machine import machine_on
from tests.machine.pipe import Pipe

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
SHARE, SHARE_STEPS = 20, 60
DEEP, DEEP_STEPS = 125, 100
MET_SOON = {"applied", "already_applied", "foreman_only", "not_joined", "device_removed", "viewer_only_looks"}
OTHERS = {"gap", "device_forked", "conflict", "not_assigned", "unknown_parent", "bad_value", "reading_is_final"}
"""What a run must have come upon; without these it would have proved little."""


def run(pipe: Pipe, bases: Bases, examples: int, steps: int) -> Counter[str]:
    """So many runs of so many steps, the same ones each time. What the phones came upon, and `steps`."""
    machine = machine_on(bases, pipe)
    how = settings(
        max_examples=examples,
        stateful_step_count=steps,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=SLOW,
    )
    run_state_machine_as_test(machine, settings=how)
    made, met = machine.steps, machine.met
    print(f"\n{made.total()} steps: {dict(made.most_common())}\nmet: {dict(met.most_common())}")
    return met + Counter(steps=made.total())


def test_every_promise_holds_after_quiet(pipe: Pipe, bases: Bases) -> None:
    met = run(pipe, bases, SHARE, SHARE_STEPS)
    assert met["steps"] >= 600
    assert met.keys() >= MET_SOON


@pytest.mark.deep
def test_every_promise_holds_after_ten_thousand_steps(pipe: Pipe, bases: Bases) -> None:
    met = run(pipe, bases, DEEP, DEEP_STEPS)
    assert met["steps"] >= 10_000
    assert met.keys() >= MET_SOON | OTHERS
