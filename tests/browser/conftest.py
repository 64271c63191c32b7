"""A service with its own data and fresh phones for each browser test.

Services come one after the other at the same port, so that phones which have been there before know the address. Two
cannot run at once, the second does not start: a file has a service for each test, or one for all, or the demo's.
"""

import shutil
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from itertools import count
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext
from tests.browser.levels import joined_phone
from tests.browser.phone import Phone
from tests.browser.profiles import copied, first_visit, keep_asleep, phone_of, profiled, unvisited
from tests.browser.running import Service, kept_port

LONGEST = (
    *("test_hands_and_eyes.py", "test_in_webkit.py", "test_histories_and_decisions.py", "test_people_and_devices.py"),
    *("test_in_spanish_and_metric.py", "test_without_a_network.py", "test_bad_input_on_the_phone.py"),
    *("test_fill_clock.py", "test_rails_layout.py", "test_rails_set_and_true.py", "test_levels_checks.py"),
    *("test_killed_tab.py", "test_design_joints.py", "test_design_quote.py", "test_design_bed.py"),
    "test_hand_over.py",
)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest files come first: two processes that take a file at a time then end together."""
    places = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: places.get(item.path.name, len(LONGEST)))


@pytest.fixture(scope="session")
def port() -> Iterator[int]:
    """Where the services of the tests listen, one after the other."""
    with kept_port() as kept:
        yield kept


@pytest.fixture(scope="session")
def visited(browser: Browser, port: int, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The profile of a phone that opened the app once; made before any service of the port starts."""
    return first_visit(browser, tmp_path_factory.mktemp("visited"), port)


@pytest.fixture
def service(tmp_path: Path, port: int, visited: Path) -> Iterator[Service]:
    """A running service over empty data."""
    assert visited.exists()
    running = Service(tmp_path, port)
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def shared_service(tmp_path_factory: pytest.TempPathFactory, port: int, visited: Path) -> Iterator[Service]:
    """A running service over empty data for all tests of a file, none of which asks for `service`."""
    assert visited.exists()
    running = Service(tmp_path_factory.mktemp("shared"), port)
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def demo_service(tmp_path_factory: pytest.TempPathFactory, port: int, visited: Path) -> Iterator[Service]:
    """A running service with the demo job, for tests that only look."""
    assert visited.exists()
    running = Service(tmp_path_factory.mktemp("demo"), port)
    running.command("demo")
    running.start()
    yield running
    running.stop()


@pytest.fixture
def new_phone(browser: Browser, visited: Path, tmp_path: Path) -> Iterator[Callable[..., Phone]]:
    """Makes phones (or, with `office=True`, wide windows) that have opened the app once and hold nothing of anybody.

    With `cold=True` they never heard of it: for tests of a first visit, of what the browser keeps, of updates. With
    `engine=False` their engine never wakes: for tests that look at no figure of a plan.
    """
    yield from _phones(browser, visited, tmp_path / "phones")


@pytest.fixture(scope="module")
def shared_phones(
    browser: Browser, visited: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Callable[..., Phone]]:
    """The same, for phones that all tests of a file may use: each test begins a job of its own, or only looks."""
    yield from _phones(browser, visited, tmp_path_factory.mktemp("phones"))


@pytest.fixture(scope="module")
def demo_phone(shared_phones: Callable[..., Phone], demo_service: Service) -> Phone:
    """A phone that holds the demo job, with the engine awake."""
    phone: Phone = shared_phones()
    phone.open_demo_room(demo_service)
    return phone


@pytest.fixture(scope="module")
def demo_office(shared_phones: Callable[..., Phone], demo_service: Service) -> Phone:
    """A wide window that holds the demo job, with the engine awake."""
    office: Phone = shared_phones(office=True)
    office.open_demo_room(demo_service)
    return office


def _phones(browser: Browser, visited: Path, folder: Path) -> Iterator[Callable[..., Phone]]:
    numbers = count(1)
    with ExitStack() as stack:

        def make(*, office: bool = False, cold: bool = False, engine: bool = True) -> Phone:
            context = unvisited(browser, office=office) if cold else visited_before(office)
            return stack.enter_context(phone_of(context if engine else keep_asleep(context)))

        def visited_before(office: bool) -> BrowserContext:
            profile = copied(visited, folder / str(next(numbers)))
            stack.callback(shutil.rmtree, profile)
            return profiled(browser, profile, office=office)

        yield make


@pytest.fixture(scope="module")
def joined(shared_service: Service, shared_phones: Callable[..., Phone]) -> Phone:
    """A phone in the office's books, with the engine awake."""
    return joined_phone(shared_service, shared_phones())


@pytest.fixture
def phone(joined: Phone) -> Iterator[Phone]:
    """Without a network, on the list of jobs; at the end it has complained of nothing."""
    joined.lose_network()
    joined.to_jobs()
    joined.complaints.clear()
    yield joined
    assert joined.complaints == []
