"""Phones that are the app's own code, and the real service, through everything that may go wrong, then quiet."""

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from evenbed.access.codes import WORK
from tests.machine.bases import Bases, PostgresBases, SqliteBases
from tests.machine.machine import PhonesAndOffice
from tests.machine.pipe import Pipe
from tests.postgres.cluster import Cluster

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


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
    """So many runs of so many steps; how often each kind of step was made."""
    made: Counter[str] = Counter()
    machine = type("Machine", (PhonesAndOffice,), {"bases": bases, "pipe": pipe, "steps": made})
    how = settings(
        max_examples=examples,
        stateful_step_count=steps,
        deadline=None,
        derandomize=True,
        suppress_health_check=SLOW,
        database=None,
        phases=[Phase.generate],
    )
    run_state_machine_as_test(machine, settings=how)
    print(f"{sum(made.values())} steps: {dict(made.most_common())}")
    return made


def test_every_promise_holds_after_quiet(pipe: Pipe, bases: Bases) -> None:
    made = run(pipe, bases, examples=15, steps=60)
    assert sum(made.values()) >= 1000
