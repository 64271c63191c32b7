"""The service killed without a warning at any moment: what was acknowledged is there, and nothing is there twice."""

import random
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from tests.databases import Database
from tests.faults.callers import Caller, all_at_work, callers_at, is_same
from tests.faults.killable import Killable, running
from tests.phones import uuid_text
from tests.postgres.cluster import Cluster, running_cluster
from tests.stores import found_database, join_device

from evenbed.store.work import Store
from evenbed.sync.replay import differences

SEED = 20260504
PHONES, PUSHES, KILLS, CRASHES = 4, 200, 15, 4
LONGEST_WAIT_S = 0.02  # some pushes long: the blow falls before, in and after one
LOOK_S = 0.0005


@contextmanager
def company(url: str, folder: Path) -> Iterator[tuple[Killable, list[Caller]]]:
    """A running service and phones that have joined it, with a job and a room begun."""
    with closing(Store(url)) as store:
        tokens = {uuid_text(500 + n): join_device(store, uuid_text(500 + n))[1] for n in range(PHONES)}
    with running(url, folder) as service, callers_at(service.address, tokens, SEED) as callers:
        callers[0].begin()
        yield service, callers


def strike(
    callers: list[Caller], blows: int, blow: Callable[[], None], check: Callable[[dict[str, int]], None]
) -> None:
    """While the phones push, let so many blows fall, each at a moment of chance; look at what is kept after each."""
    dice = random.Random(SEED)
    moments = sorted(dice.sample(range(PUSHES), blows))
    with all_at_work(callers, PUSHES) as working:
        for moment in moments:
            while pushed(callers) < moment and not any(one.done() and one.exception() for one in working):
                time.sleep(LOOK_S)
            time.sleep(dice.uniform(0, LONGEST_WAIT_S))
            before = acknowledged(callers)
            blow()
            check(before)


def pushed(callers: list[Caller]) -> int:
    return sum(caller.pushes for caller in callers)


def acknowledged(callers: list[Caller]) -> dict[str, int]:
    return {change_id: number for caller in callers for change_id, number in list(caller.acknowledged.items())}


def check_kept(url: str, told: dict[str, int]) -> None:
    """What was acknowledged is kept under the number that was said, nothing twice, and the records follow from it."""
    with closing(Store(url)) as store, store.reading() as work:
        log = list(work.archive.log())
        _, wrong = differences(log, work.archive.records())
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
    return [change_id for caller in callers for change_id in caller.made]


def statuses(callers: list[Caller]) -> set[int]:
    return {status for caller in callers for status in caller.replies}


def test_a_service_killed_over_and_over_in_the_midst_of_pushes_keeps_what_it_acknowledged_and_counts_it_once(
    database: Database, tmp_path: Path
) -> None:
    with company(database.url, tmp_path) as (service, callers):

        def kill_and_start() -> None:
            service.kill()
            service.start()

        strike(callers, KILLS, kill_and_start, lambda told: check_kept(database.url, told))
        check_all_is_everywhere(database.url, callers)
        assert pushed(callers) == PUSHES + 1
        assert statuses(callers) == {200}
        assert sum(caller.unanswered for caller in callers) >= KILLS


def test_a_postgresql_that_crashes_in_the_midst_of_pushes_keeps_what_the_service_acknowledged(tmp_path: Path) -> None:
    with running_cluster(durable=True) as cluster:
        url = cluster.create()
        found_database(url)
        with company(url, tmp_path) as (_, callers):
            strike(callers, CRASHES, lambda: crash(cluster), lambda told: check_kept(url, told))
            check_all_is_everywhere(url, callers)
            assert statuses(callers) == {200, 503}


def crash(cluster: Cluster) -> None:
    """All of its processes end at once, nothing is written any more; it makes itself good at the next start."""
    cluster.stop(signal.SIGQUIT)
    cluster.start()
