"""Which edit stands, and that the other one is never lost."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st
from tests.stores import START

from evenbed.sync.clocks import OLDEST, corrected_times
from evenbed.sync.merge import merge
from evenbed.sync.model import Author, Edit, Effect, Record

ANA, BEN, EVA = (
    Author(device, person.lower(), person) for device, person in (("a", "Ana"), ("b", "Ben"), ("e", "Eva"))
)
JOB = "019df2e4-d900-7000-8000-000000000001"


def edit(sequence: int, author: Author, minute: int, seen: int = 0, **fields: object) -> Edit:
    """An edit of the job, so many minutes after the start."""
    return Edit(sequence, author, START + timedelta(minutes=minute), "job", JOB, JOB, fields, seen)  # type: ignore[arg-type]


def merged(*edits: Edit) -> tuple[Record, list[Effect]]:
    """The record after all edits in their order of arrival, and what each did."""
    record, effects = merge(None, edits[0])
    done = [effects]
    for one in edits[1:]:
        record, effect = merge(record, one)
        done.append(effect)
    return record, done


def test_the_first_edit_makes_the_record() -> None:
    record, effects = merged(edit(1, ANA, 0, name="Alder"))
    assert record.fields == {"name": "Alder"}
    assert (record.created_by, record.changed_by, record.sequence) == ("Ana", "Ana", 1)
    assert effects == [Effect()]


def test_different_fields_merge_without_a_word() -> None:
    record, effects = merged(edit(1, ANA, 0, name="Alder"), edit(2, BEN, 1, note="dog"), edit(3, ANA, 2, place="x"))
    assert record.fields == {"name": "Alder", "note": "dog", "place": "x"}
    assert effects[1:] == [Effect(), Effect()]


def test_an_edit_that_had_seen_the_value_stands_whatever_its_clock_says() -> None:
    record, effects = merged(edit(1, ANA, 60, name="Alder"), edit(2, BEN, 0, seen=1, name="Birch"))
    assert record.fields == {"name": "Birch"}
    assert effects[1] == Effect(replaced={"name": "Alder"})


def test_the_later_of_two_unseen_edits_stands_when_it_arrives_last() -> None:
    record, effects = merged(edit(1, ANA, 0, name="Alder"), edit(2, BEN, 1, name="Birch"))
    assert record.fields == {"name": "Birch"}
    assert effects[1] == Effect(replaced={"name": "Alder"}, concurrent=("name",))


def test_the_later_of_two_unseen_edits_stands_when_it_arrives_first() -> None:
    record, effects = merged(edit(1, ANA, 5, name="Alder"), edit(2, BEN, 1, name="Birch"))
    assert record.fields == {"name": "Alder"}
    assert effects[1] == Effect(concurrent=("name",), overruled=("name",))
    assert (record.sequence, record.changed_by) == (2, "Ana")


def test_at_the_same_moment_the_later_arrival_stands() -> None:
    record, _ = merged(edit(1, ANA, 5, name="Alder"), edit(2, BEN, 5, name="Birch"))
    assert record.fields == {"name": "Birch"}


def test_the_same_value_twice_is_no_conflict() -> None:
    _, effects = merged(edit(1, ANA, 0, name="Alder"), edit(2, BEN, 1, name="Alder"))
    assert effects[1] == Effect()


def test_true_and_one_are_different_values() -> None:
    _, effects = merged(edit(1, ANA, 0, outline={"x": True}), edit(2, BEN, 1, seen=1, outline={"x": 1}))
    assert effects[1].replaced == {"outline": {"x": True}}


def test_a_number_the_service_has_not_given_yet_counts_as_unseen() -> None:
    record, effects = merged(edit(1, ANA, 9, name="Alder"), edit(2, BEN, 0, seen=77, name="Birch"))
    assert effects[1].overruled == ("name",)
    assert record.fields == {"name": "Alder"}


def test_a_value_that_was_knowingly_replaced_does_not_come_back_from_a_third_phone() -> None:
    record, _ = merged(
        edit(1, ANA, 10, name="Alder"), edit(2, BEN, 3, seen=1, name="Birch"), edit(3, EVA, 7, name="Cedar")
    )
    assert record.fields == {"name": "Birch"}


def test_a_delete_is_undone_by_another_change() -> None:
    record, effects = merged(
        edit(1, ANA, 0, name="Alder"), edit(2, ANA, 1, deleted=True), edit(3, BEN, 2, seen=2, deleted=False)
    )
    assert record.fields == {"name": "Alder", "deleted": False}
    assert effects[2].replaced == {"deleted": True}


@given(st.permutations(range(6)))
def test_of_edits_that_knew_nothing_of_each_other_the_last_made_stands_in_any_order_of_arrival(
    order: list[int],
) -> None:
    edits = [edit(n + 1, Author(f"d{made}", "x", "x"), made, name=f"value {made}") for n, made in enumerate(order)]
    record, effects = merged(*edits)
    assert record.fields == {"name": "value 5"}
    replaced = {effect.replaced["name"] for effect in effects if effect.replaced}
    overruled = {one.fields["name"] for one, effect in zip(edits, effects, strict=True) if effect.overruled}
    assert replaced | overruled == {f"value {made}" for made in range(5)}


def corrected(
    edits: list[datetime], push: datetime, received_at: datetime, previous: datetime | None = None
) -> list[datetime]:
    return corrected_times([edit.isoformat() for edit in edits], push.isoformat(), received_at, previous)


@given(st.integers(-(10**6), 10**6), st.lists(st.integers(0, 10**6), max_size=5), st.integers(0, 10**6))
def test_a_wrong_clock_changes_nothing(offset_s: int, ages_s: list[int], received_s: int) -> None:
    received_at, wrong = START + timedelta(seconds=received_s), timedelta(seconds=offset_s)
    made = [received_at - timedelta(seconds=age) for age in sorted(ages_s, reverse=True)]
    assert corrected([at + wrong for at in made], received_at + wrong, received_at) == made


def test_an_edit_from_the_future_counts_from_its_arrival() -> None:
    assert corrected([START + timedelta(days=400)], START, START) == [START]


@given(st.integers(1, 10**6))
def test_a_clock_that_was_set_misleads_about_no_edit_made_since(ahead_s: int) -> None:
    first, second = START + timedelta(seconds=ahead_s), START - timedelta(days=19)
    assert corrected([first, second], START, START) == [START, second]


def test_what_another_device_made_earlier_is_dated_by_itself() -> None:
    own, from_a_file = START - timedelta(days=1), START - timedelta(days=9)
    assert corrected([own, from_a_file], START, START, previous=own) == [own, from_a_file]


@given(st.integers(11, 2000))
def test_an_edit_by_a_clock_that_had_lost_its_time_counts_as_made_right_after_the_one_before_it(years: int) -> None:
    day_ago, lost = START - timedelta(days=1), START - timedelta(days=365 * years)
    assert corrected([day_ago, lost, START], START, START) == [day_ago, day_ago, START]
    assert corrected([lost], START, START, previous=day_ago) == [day_ago]


@given(st.lists(st.datetimes(timezones=st.just(UTC)), max_size=6), st.datetimes(timezones=st.just(UTC)))
def test_no_edit_is_dated_after_its_arrival_nor_ten_years_back(edits: list[datetime], push: datetime) -> None:
    times = corrected(edits, push, START)
    assert len(times) == len(edits)
    assert all(START - OLDEST <= time <= START for time in times)


def test_absurd_clocks_do_not_break_the_arithmetic() -> None:
    first, last = "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-12:00"
    assert corrected_times([first], last, START, None) == [START - OLDEST]
    assert corrected_times([last], first, START, None) == [START]
