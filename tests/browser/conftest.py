"""A service with its own data and fresh phones for each browser test."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, ConsoleMessage, ViewportSize
from tests.browser.phone import Phone
from tests.browser.running import Service, free_port

PHONE: ViewportSize = {"width": 360, "height": 740}
OFFICE: ViewportSize = {"width": 1440, "height": 900}


@pytest.fixture
def service(tmp_path: Path) -> Iterator[Service]:
    """A running service over empty data."""
    running = Service(tmp_path, free_port())
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def demo_service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    """A running service with the demo job, for tests that only look."""
    running = Service(tmp_path_factory.mktemp("demo"), free_port())
    running.command("demo")
    running.start()
    yield running
    running.stop()


@pytest.fixture
def new_phone(browser: Browser) -> Iterator[Callable[..., Phone]]:
    """Makes phones (or, with `office=True`, wide windows), each with a storage of its own."""
    yield from _phones(browser)


@pytest.fixture(scope="module")
def shared_phones(browser: Browser) -> Iterator[Callable[..., Phone]]:
    """The same, for phones that all tests of a file may use: each test begins a job of its own, or only looks."""
    yield from _phones(browser)


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


def _phones(browser: Browser) -> Iterator[Callable[..., Phone]]:
    phones: list[Phone] = []

    def make(*, office: bool = False) -> Phone:
        phones.append(_phone(browser, office=office))
        return phones[-1]

    yield make
    for phone in phones:
        phone.context.close()


def _phone(browser: Browser, *, office: bool) -> Phone:
    size = OFFICE if office else PHONE
    context = browser.new_context(viewport=size, has_touch=not office, is_mobile=not office, locale="en-US")
    phone = Phone(context, context.new_page(), [])
    context.on("weberror", lambda error: phone.complaints.append(str(error.error)))
    context.on("console", lambda message: _note(phone, message))
    return phone


def _note(phone: Phone, message: ConsoleMessage) -> None:
    """Failed requests are what a lost network looks like; anything else on the console is a fault."""
    if message.type == "error" and "Failed to load resource" not in message.text:
        phone.complaints.append(message.text)
