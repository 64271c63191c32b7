"""The service killed without a warning at any moment: what was acknowledged is there, and nothing is there twice."""

import os
import random
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.databases import Database
from tests.faults.callers import Caller, all_at_work
from tests.faults.company import SEED, acknowledged, check_all_is_everywhere, check_kept, company, statuses
from tests.postgres.cluster import Cluster, running_cluster
from tests.stores import found_database

PHONES, PUSHES, CRASHES = 4, 200, 4
POSTGRES_PUSHES = int(os.environ.get("EVENBED_POSTGRES_PUSHES", "80"))
"""`make deep` makes as many there as on SQLite."""
PUSHES_A_KILL = 13
LONGEST_WAIT_S = 0.02  # some pushes long: the blow falls before, in and after one
LOOK_S = 0.0005


def strike(
    callers: list[Caller], pushes: int, blows: int, blow: Callable[[], None], check: Callable[[dict[str, int]], None]
) -> None:
    """During so many pushes let so many blows fall, each at a moment of chance; look at what is kept after each."""
    dice = random.Random(SEED)
    moments = sorted(dice.sample(range(pushes), blows))
    with all_at_work(callers, pushes) as working:
        for moment in moments:
            while pushed(callers) < moment and not any(one.done() and one.exception() for one in working):
                time.sleep(LOOK_S)
            time.sleep(dice.uniform(0, LONGEST_WAIT_S))
            before = acknowledged(callers)
            blow()
            check(before)


def pushed(callers: list[Caller]) -> int:
    return sum(caller.pushes for caller in callers)


@pytest.mark.deep
def test_a_service_killed_over_and_over_in_the_midst_of_pushes_keeps_what_it_acknowledged_and_counts_it_once(
    database: Database, tmp_path: Path
) -> None:
    pushes = PUSHES if database.url.startswith("sqlite") else POSTGRES_PUSHES
    kills = pushes // PUSHES_A_KILL
    with company(database.url, tmp_path, PHONES) as (service, callers):

        def kill_and_start() -> None:
            service.kill()
            service.start()

        strike(callers, pushes, kills, kill_and_start, lambda told: check_kept(database.url, told))
        check_all_is_everywhere(database.url, callers)
        assert pushed(callers) == pushes + 1
        assert statuses(callers) == {200}
        assert sum(caller.unanswered for caller in callers) >= kills


def test_a_postgresql_that_crashes_in_the_midst_of_pushes_keeps_what_the_service_acknowledged(tmp_path: Path) -> None:
    with running_cluster(durable=True) as cluster:
        url = cluster.create()
        found_database(url)
        with company(url, tmp_path, PHONES) as (_, callers):
            strike(callers, PUSHES, CRASHES, lambda: crash(cluster), lambda told: check_kept(url, told))
            check_all_is_everywhere(url, callers)
            assert statuses(callers) == {200, 503}


def crash(cluster: Cluster) -> None:
    """All of its processes end at once, nothing is written any more; it makes itself good at the next start."""
    cluster.stop(signal.SIGQUIT)
    cluster.start()
