"""The phones' process and databases of both kinds."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from evenbed.access.codes import WORK
from tests.machine.bases import Bases, PostgresBases, SqliteBases
from tests.machine.pipe import Pipe
from tests.postgres.cluster import Cluster


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
