"""A company at work: a running service, phones that have joined it, and what must hold whatever happens to it."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from tests.faults.callers import Caller, callers_at, is_same
from tests.faults.killable import Killable, running
from tests.phones import uuid_text
from tests.stores import join_device

from evenbed.store.work import Store
from evenbed.sync.proof import differences

SEED = 20260504


@contextmanager
def company(url: str, folder: Path, phones: int) -> Iterator[tuple[Killable, list[Caller]]]:
    """A running service and phones that have joined it, with a job and a room begun."""
    with closing(Store(url)) as store:
        tokens = {uuid_text(500 + n): join_device(store, uuid_text(500 + n))[1] for n in range(phones)}
    with running(url, folder) as service, callers_at(service.address, tokens, SEED) as callers:
        callers[0].begin()
        yield service, callers


def acknowledged(callers: list[Caller]) -> dict[str, int]:
    """Every change that the service said it has, with the number it said."""
    return {change_id: number for caller in callers for change_id, number in list(caller.acknowledged.items())}


def check_kept(url: str, told: dict[str, int]) -> None:
    """What was acknowledged is kept under the number that was said, nothing twice, and the records follow from it."""
    with closing(Store(url)) as store, store.reading() as work:
        log = list(work.archive.log())
        _, wrong = differences(log, work.archive.records(), work.archive.assignments())
        latest = work.archive.latest()
    kept = {entry.change_id: entry.sequence for entry in log}
    assert told.items() <= kept.items()
    assert [entry.sequence for entry in log] == list(range(1, latest + 1))
    assert len(kept) == len(log)
    assert wrong == []


def check_all_is_everywhere(url: str, callers: list[Caller]) -> None:
    """Every change that any phone made counts once, and every phone pulls what the service keeps."""
    check_kept(url, acknowledged(callers))
    with closing(Store(url)) as store, store.reading() as work:
        assert sorted(entry.change_id for entry in work.archive.log()) == sorted(made(callers))
        kept = {record.id: record for record in work.archive.records()}
    for caller in callers:
        pulled = caller.pull_all()
        assert pulled.keys() == kept.keys()
        assert all(is_same(pulled[key], kept[key]) for key in kept)


def made(callers: list[Caller]) -> list[str]:
    """Every change that any phone made."""
    return [change_id for caller in callers for change_id in caller.made]


def statuses(callers: list[Caller]) -> set[int]:
    """Every status that any phone heard."""
    return {status for caller in callers for status in caller.replies}
