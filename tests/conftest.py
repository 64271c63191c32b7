"""Both kinds of databases, and one Chromium, for every test that asks for them."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from playwright.sync_api import Browser, sync_playwright

from tests.browser.chromium import FLAGS, chromium_path
from tests.databases import KINDS, Database, Databases, PostgresDatabases, SqliteFiles
from tests.postgres.cluster import Cluster, running_cluster

settings.register_profile("ours", deadline=None)  # how long an example takes is up to what else the machine does
settings.load_profile("ours")

PLACES = {"browser": ("browser", "faults"), "pyodide": ("engine",)}
"""Where the steps of `make test` look for tests with these marks."""
FIGURES = "figures"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse a test that no step would run."""
    for item in items:
        for mark, folders in PLACES.items():
            if item.get_closest_marker(mark) and item.path.parent.name not in folders:
                raise pytest.UsageError(f"{item.nodeid}: {mark} tests are looked for in {folders} alone.")


@pytest.fixture
def figures(record_property: Callable[[str, object], None]) -> Callable[[str], None]:
    """Tells measured figures at the end of the run, whether the test passes or not, from whichever process."""
    return lambda text: record_property(FIGURES, text)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Every figure that a test told."""
    found = [one for group in terminalreporter.stats.values() for one in group if isinstance(one, pytest.TestReport)]
    calls = [one for one in found if one.when == "call"]
    told = [(one.nodeid, value) for one in calls for name, value in one.user_properties if name == FIGURES]
    if told:
        terminalreporter.section("figures")
    for nodeid, text in told:
        terminalreporter.write_line(f"{nodeid.rpartition('::')[2]}: {text}")


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """A PostgreSQL server for the whole run."""
    with running_cluster() as running:
        yield running


@pytest.fixture(scope="session")
def postgres(cluster: Cluster) -> PostgresDatabases:
    """Makes fresh databases on the server."""
    return PostgresDatabases(cluster)


@pytest.fixture(params=KINDS, scope="module")
def databases(request: pytest.FixtureRequest) -> Databases:
    """Makes fresh databases, first of the one kind, then of the other."""
    made: Databases = SqliteFiles() if request.param == "sqlite" else request.getfixturevalue("postgres")
    return made


@pytest.fixture
def database(databases: Databases, tmp_path: Path) -> Iterator[Database]:
    """A fresh database of either kind."""
    with databases.fresh(tmp_path) as fresh:
        yield fresh


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The installed Chromium, without a window."""
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=chromium_path(), args=list(FLAGS))
        yield running
        running.close()
