"""Single stories of phones and service, told step by step; every promise is proved at the end of each."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from evenbed.wire.supplies import COMPANYS
from tests.machine.base import A_MOMENT, FINE
from tests.machine.bases import CREW, Bases
from tests.machine.edits import Fields
from tests.machine.machine import PhonesAndOffice, machine_on
from tests.machine.network import Fault
from tests.machine.pipe import Pipe

ANA, BEN, CAL = range(3)
FIRST = "019df2e4-d900-7000-8000-000000000001"


@contextmanager
def story(bases: Bases, pipe: Pipe) -> Iterator[PhonesAndOffice]:
    """Three phones that have joined and hold the first job."""
    machine = machine_on(bases, pipe)()
    machine.begin()
    machine.everybody_syncs([ANA, BEN, CAL])
    yield machine
    machine.teardown()


def name_it(machine: PhonesAndOffice, n: int, name: str) -> None:
    """The first job gets another name on a phone; some time goes by before and after."""
    machine.time.pass_by(A_MOMENT)
    machine.write(n, 0, [{"kind": "job", "id": FIRST, "fields": {"name": name}}])
    machine.time.pass_by(A_MOMENT)


def name_of(machine: PhonesAndOffice) -> object:
    """The first job's name at the service."""
    return next(record.fields["name"] for record in machine.office.records() if record.id == FIRST)


@pytest.mark.parametrize("order", [[ANA, BEN, CAL], [BEN, ANA, CAL]])
def test_a_phone_that_was_away_before_the_backup_brings_nothing_old_back(
    bases: Bases, pipe: Pipe, order: list[int]
) -> None:
    with story(bases, pipe) as machine:
        name_it(machine, ANA, "newer")
        machine.sync(ANA, 0)
        machine.the_service_is_copied()
        machine.the_service_is_put_back(0)
        machine.everybody_syncs(order)
        machine.everybody_syncs(order)
        assert name_of(machine) == "newer"


def name_after_two_and_a_backup(bases: Bases, pipe: Pipe, order: list[int], by_cal: str, by_ana: str) -> object:
    """What the job is called once a service that two have named it in was put back, and everybody came twice."""
    with story(bases, pipe) as machine:
        machine.the_service_is_copied()
        for n, name in ((CAL, by_cal), (ANA, by_ana)):
            name_it(machine, n, name)
            machine.sync(n, 0)
        machine.the_service_is_put_back(0)
        machine.everybody_syncs(order)
        machine.everybody_syncs(order)
        return name_of(machine)


@pytest.mark.parametrize("order", [[ANA, BEN, CAL], [BEN, ANA, CAL]])
def test_what_was_newest_stands_again_after_the_service_went_back(bases: Bases, pipe: Pipe, order: list[int]) -> None:
    assert name_after_two_and_a_backup(bases, pipe, order, "new", "newest") == "newest"


@pytest.mark.parametrize("order", [[ANA, BEN, CAL], [CAL, ANA, BEN]])
def test_a_value_that_came_back_to_what_the_backup_has_stands_against_the_one_between(
    bases: Bases, pipe: Pipe, order: list[int]
) -> None:
    """The backup says "first" too, but from before: who holds the later "first" must say so again."""
    assert name_after_two_and_a_backup(bases, pipe, order, "between", "first") == "first"


def test_a_phone_of_the_first_version_that_was_away_brings_nothing_old_back(bases: Bases, pipe: Pipe) -> None:
    """It kept no moment with a record: it stood at the last exchange, and nothing says that it is newer."""
    with story(bases, pipe) as machine:
        machine.the_service_is_copied()
        machine.the_app_is_updated(BEN)
        name_it(machine, ANA, "newest")
        machine.sync(ANA, 0)
        machine.the_service_is_put_back(0)
        machine.everybody_syncs([ANA, BEN, CAL])
        assert name_of(machine) == "newest"


def test_what_is_held_for_one_database_outlives_the_next_going_back(bases: Bases, pipe: Pipe) -> None:
    """The battery ends between the pull from the restored service and the offer; then it is restored once more."""
    with story(bases, pipe) as machine:
        machine.the_service_is_copied()
        name_it(machine, BEN, "only Ben has it")
        machine.sync(BEN, 0)
        machine.the_service_is_put_back(0)
        for writes in range(40):
            machine.tool.plan_trouble(machine.phones[BEN], "dies", writes)
            machine.sync(BEN, 0)
            contents = machine.tool.contents(machine.phones[BEN])
            if contents["held"] and contents["records"]:
                break
        else:
            pytest.fail("The phone never died between pull and offer.")
        machine.the_service_is_put_back(0)
        machine.everybody_syncs([BEN, ANA, CAL])
        assert name_of(machine) == "only Ben has it"


def test_a_removed_phones_file_counts_once_whoever_brings_it(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        name_it(machine, BEN, "from the removed phone")
        machine.the_phone_leaves(BEN, by_itself=False)
        machine.unsent_changes_go_by_file(BEN, 2)
        machine.unsent_changes_go_by_file(BEN, 1)
        machine.everybody_syncs([ANA, CAL, BEN])
        machine.join(machine.phones[BEN], FINE)
        machine.everybody_syncs([BEN, ANA, CAL])
        entries = [entry for entry in machine.office.log() if entry.fields.get("name") == "from the removed phone"]
        assert len(entries) == 1
        assert name_of(machine) == "from the removed phone"


def test_a_setter_taken_off_a_job_holds_nothing_of_it_and_gets_it_back(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        for crew, expected in (([], False), ([CREW[BEN].id], True)):
            machine.write(ANA, 0, [{"kind": "job", "id": FIRST, "fields": {"crew": crew}}])
            machine.everybody_syncs([ANA, BEN, CAL])
            kept = {row["id"] for row in machine.tool.contents(machine.phones[BEN])["records"]}
            assert (FIRST in kept) == expected


def test_who_has_read_why_a_value_was_refused_is_not_asked_for_it_after_the_service_went_back(
    bases: Bases, pipe: Pipe
) -> None:
    with story(bases, pipe) as machine:
        machine.the_service_is_copied()
        machine.write(ANA, 0, [{"kind": "job", "id": FIRST, "fields": {"note": 5}}], is_sound=False)
        machine.the_service_is_put_back(0)
        machine.sync(ANA, 0)
        machine.a_refusal_is_dismissed(ANA, 0)
        assert machine.tool.contents(machine.phones[ANA])["refused"] == []


def test_the_same_steps_come_to_the_same_end_whatever_went_before(bases: Bases, pipe: Pipe) -> None:
    """What the machine counts goes on from run to run, and so does the phones' process: were anything decided by what
    the run before left, no run could be made again."""
    kind = machine_on(bases, pipe)
    ends = []
    for run in range(3):
        machine = kind()
        machine.begin()
        name_it(machine, BEN, "only Ben has it")
        machine.somebody_syncs()
        ends.append([(entry.change_id, entry.fields) for entry in machine.office.log()])
        for _more in range(run):
            name_it(machine, ANA, "another end")
        machine.teardown()
    assert ends[0] == ends[1] == ends[2]


def test_two_tabs_without_a_lock_between_them_are_as_safe_as_one(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        machine.the_app_is_opened(ANA, is_another=True)
        for number in range(6):
            name_it(machine, ANA, f"name {number}")
            line: list[Fault] = ["fine"] * (number % 3)
            machine.sync_over_a_bad_line(ANA, number % 2, [*line, "meanwhile"], "its other tab", BEN)
        assert name_of(machine) == "name 5"


def buy(machine: PhonesAndOffice, n: int, fields: Fields) -> None:
    """Prices or packages of the company, said on a phone; some time goes by before and after."""
    kind = next(iter(fields)).split(".")[0]
    machine.time.pass_by(A_MOMENT)
    machine.write(n, 0, [{"kind": kind, "id": COMPANYS[kind], "fields": fields}])
    machine.time.pass_by(A_MOMENT)


def kinds_on(machine: PhonesAndOffice, n: int) -> set[str]:
    """The company's kinds in a phone's storage."""
    kept = machine.tool.contents(machine.phones[n])["records"]
    return {row["kind"] for row in kept} & COMPANYS.keys()


def test_prices_come_to_a_phone_with_a_foremans_role_and_go_with_it(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        buy(machine, ANA, {"prices.cement_bag": 14})
        buy(machine, ANA, {"supplies.tile.waste": 0.15})
        for role, expected in (("setter", {"supplies"}), ("foreman", set(COMPANYS)), ("viewer", {"supplies"})):
            machine.a_role_changes(BEN, role)
            machine.everybody_syncs([ANA, BEN, CAL])
            assert kinds_on(machine, BEN) == expected


def test_what_a_setter_says_of_prices_is_refused_and_kept_where_it_was_said(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        buy(machine, ANA, {"prices.cement_bag": 14})
        buy(machine, BEN, {"prices.cement_bag": 9, "prices.tile_box": 30})
        machine.everybody_syncs([ANA, BEN, CAL])
        (refused,) = machine.tool.contents(machine.phones[BEN])["refused"]
        assert refused["fields"] == {"prices.cement_bag": 9, "prices.tile_box": 30}
        assert [r.fields for r in machine.office.records() if r.kind == "prices"] == [{"prices.cement_bag": 14}]


def test_prices_that_a_backup_lacks_come_back_from_a_foremans_phone_alone(bases: Bases, pipe: Pipe) -> None:
    with story(bases, pipe) as machine:
        buy(machine, ANA, {"prices.cement_bag": 14})
        machine.everybody_syncs([ANA, BEN, CAL])
        machine.the_service_is_copied()
        buy(machine, ANA, {"prices.cement_bag": 15, "prices.margin": 0.2})
        buy(machine, ANA, {"supplies.tile.waste": 0.15})
        machine.everybody_syncs([ANA, BEN, CAL])
        machine.the_service_is_put_back(0)
        machine.everybody_syncs([CAL, BEN])
        assert machine.tool.contents(machine.phones[BEN])["refused"] == []
        machine.everybody_syncs([ANA, BEN, CAL])
        told = {record.kind: record.fields for record in machine.office.records() if record.kind in COMPANYS}
        assert told["prices"] == {"prices.cement_bag": 15, "prices.margin": 0.2}
        assert told["supplies"] == {"supplies.tile.waste": 0.15}


def carry(machine: PhonesAndOffice, n: int, other: int, job_id: str) -> int:
    """A job as a file from one phone into another; how many changes were new there."""
    file = machine.tool.job_file(machine.phones[n], job_id)
    assert file is not None
    return len(machine.take_in(machine.phones[other], file))


@pytest.mark.parametrize("is_opened", [True, False])
def test_a_job_that_went_by_file_counts_once_whoever_sends_it_first(
    bases: Bases, pipe: Pipe, is_opened: bool
) -> None:
    with story(bases, pipe) as machine:
        if is_opened:
            machine.tool.open_job(machine.phones[ANA], FIRST)
            machine.sync(ANA, 0)
        name_it(machine, ANA, "only Ana has it")
        assert carry(machine, ANA, CAL, FIRST) == (3 if is_opened else 2)
        assert carry(machine, ANA, CAL, FIRST) == 0
        machine.everybody_syncs([CAL, ANA, BEN])
        entries = [entry for entry in machine.office.log() if entry.fields.get("name") == "only Ana has it"]
        assert len(entries) == 1
        assert name_of(machine) == "only Ana has it"


def test_what_a_phone_took_out_of_a_file_and_knew_itself_stands_once_in_its_own_file(
    bases: Bases, pipe: Pipe
) -> None:
    """Ana and Cal know the job as it stands and not its history: both tell the whole of it in the same words."""
    with story(bases, pipe) as machine:
        assert carry(machine, CAL, ANA, FIRST) == 1
        name_it(machine, ANA, "only Ana has it")
        assert carry(machine, ANA, BEN, FIRST) == 2
        machine.everybody_syncs([BEN, ANA, CAL])
        assert name_of(machine) == "only Ana has it"


def test_a_foremans_crew_stands_though_a_setter_brought_the_job_first(bases: Bases, pipe: Pipe) -> None:
    """A setter may not say who is assigned: that waits for the foreman's own phone."""
    with story(bases, pipe) as machine:
        job = machine.names.new()
        crew = [CREW[BEN].id, CREW[CAL].id]
        machine.write(ANA, 0, machine.job_edits(job, "new", crew))
        carry(machine, ANA, BEN, job)
        machine.everybody_syncs([BEN, ANA, CAL])
        assert next(record.fields for record in machine.office.records() if record.id == job) == {
            "name": "new",
            "crew": crew,
        }
