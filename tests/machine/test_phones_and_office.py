"""Phones that are the app's own code, and the real service, through everything that may go wrong, then quiet."""

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import run_state_machine_as_test

from evenbed.access.codes import WORK
from tests.machine.bases import Bases, PostgresBases, SqliteBases
from tests.machine.machine import PhonesAndOffice
from tests.machine.pipe import Pipe
from tests.postgres.cluster import Cluster

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
SHARE, SHARE_STEPS = 20, 60
DEEP, DEEP_STEPS = 125, 100
MET_SOON = {"applied", "already_applied", "foreman_only", "not_joined", "device_removed", "viewer_only_looks"}
OTHERS = {"gap", "device_forked", "conflict", "not_assigned", "unknown_parent", "bad_value", "reading_is_final"}
"""What a run must have come upon; without these it would have proved little."""


@pytest.fixture(scope="session")
def pipe(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Pipe]:
    """The phones' process."""
    pipe = Pipe(tmp_path_factory.mktemp("phones"))
    yield pipe
    pipe.close()


@pytest.fixture(autouse=True)
def quick_codes(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody guesses join codes here: looking one up need not be slow."""
    monkeypatch.setitem(WORK, "n", 2)


@pytest.fixture(params=["sqlite", "postgresql"])
def bases(request: pytest.FixtureRequest, tmp_path: Path) -> Bases:
    """Databases of either kind."""
    if request.param == "sqlite":
        return SqliteBases(tmp_path)
    cluster: Cluster = request.getfixturevalue("cluster")
    return PostgresBases(cluster)


def run(pipe: Pipe, bases: Bases, examples: int, steps: int) -> Counter[str]:
    """So many runs of so many steps, the same ones each time. What the phones came upon, and `steps`."""
    made: Counter[str] = Counter()
    met: Counter[str] = Counter()
    told = {"bases": bases, "pipe": pipe, "steps": made, "met": met}
    how = settings(
        max_examples=examples,
        stateful_step_count=steps,
        deadline=None,
        derandomize=True,
        database=None,
        suppress_health_check=SLOW,
    )
    run_state_machine_as_test(type("Machine", (PhonesAndOffice,), told), settings=how)
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
