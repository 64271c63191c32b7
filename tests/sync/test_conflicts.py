"""What waits for a decision: whatever lost without its loss being known, for as long as nobody has decided."""

from dataclasses import dataclass, replace
from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st
from pydantic import JsonValue
from tests.stores import START

from evenbed.sync.merge import merge
from evenbed.sync.model import Author, Conflict, Edit, Record

JOB = "019df2e4-d900-7000-8000-000000000001"
DEVICES = "abcd"
VALUES = ("Alder", "Birch", "Cedar", None, 1, True)


@dataclass(frozen=True)
class Said:
    """One edit of the job's name: on which device, at which minute, and how much of what came before was known."""

    device: str
    minute: int
    value: object
    seen: int = 0

    def as_edit(self, sequence: int) -> Edit:
        """As the service's change `sequence`."""
        author = Author(self.device, f"person {self.device}", self.device.upper())
        at = START + timedelta(minutes=self.minute)
        return Edit(sequence, author, at, "job", JOB, JOB, {"name": self.value}, self.seen)  # type: ignore[dict-item]


def sayings(seen: st.SearchStrategy[int]) -> st.SearchStrategy[Said]:
    """Any edit."""
    return st.builds(Said, st.sampled_from(DEVICES), st.integers(0, 9), st.sampled_from(VALUES), seen)


runs = st.lists(sayings(st.integers(0, 12)), min_size=1, max_size=12)


def merged(run: list[Said], record: Record | None = None) -> Record:
    """The record after the edits, numbered from the record's own number on."""
    for said in run:
        record, _ = merge(record, said.as_edit(record.sequence + 1 if record else 1))
    assert record is not None
    return record


def waiting(record: Record) -> tuple[Conflict, ...]:
    """What waits about the name."""
    return record.conflicts.get("name", ())


def told(value: object) -> str:
    """The value, told apart as JSON does it: 1 is not true."""
    return repr(value)


def knew(later: Said, number: int, earlier: Said, sequence: int) -> bool:
    """Whether the later edit, numbered `number`, was made knowing of the earlier one."""
    return later.device == earlier.device or sequence <= later.seen < number


@given(runs)
def test_a_value_nobody_knowingly_replaced_stands_or_waits(run: list[Said]) -> None:
    record, numbered = merged(run), list(enumerate(run, start=1))
    there = {told(record.fields["name"])} | {told(lost.value) for lost in waiting(record)}
    for sequence, said in numbered:
        same = [(n, one) for n, one in numbered if told(one.value) == told(said.value)]
        decided = any(knew(later, n, one, m) for n, later in numbered if n > sequence for m, one in same if m < n)
        assert decided or told(said.value) in there


@given(runs)
def test_what_waits_was_really_said_by_whom_it_names_and_does_not_stand(run: list[Said]) -> None:
    record = merged(run)
    for lost in waiting(record):
        assert told(lost.value) != told(record.fields["name"])
        assert (lost.device_id, told(lost.value)) in {(said.device, told(said.value)) for said in run}
        assert 1 < lost.sequence <= record.sequence


@given(runs, st.integers(0, 12), st.sampled_from(VALUES))
def test_an_edit_closes_exactly_what_its_author_had_seen_and_adds_at_most_one(
    run: list[Said], seen: int, value: object
) -> None:
    before = merged(run)
    seen = min(seen, before.sequence)
    after = merged([Said("z", 99, value, seen)], before)
    kept = [lost for lost in waiting(before) if lost.sequence > seen and told(lost.value) != told(value)]
    had_seen_the_standing = before.stamps["name"].sequence <= seen
    is_same = told(before.fields["name"]) == told(value)
    added = [] if had_seen_the_standing or is_same else [told(before.fields["name"])]
    assert list(waiting(after))[: len(kept)] == kept
    assert [told(lost.value) for lost in waiting(after)[len(kept) :]] == added


@given(runs, st.data())
def test_one_tap_by_somebody_who_saw_everything_leaves_nothing_waiting(run: list[Said], data: st.DataObject) -> None:
    record = merged(run)
    values = [record.fields["name"], *(lost.value for lost in waiting(record))]
    chosen = data.draw(st.sampled_from(values))
    decided = merged([Said("z", 0, chosen, record.sequence)], record)
    assert (told(decided.fields["name"]), decided.conflicts) == (told(chosen), {})


@given(st.lists(sayings(st.just(0)), min_size=1, max_size=4, unique_by=lambda said: said.device), st.data())
def test_in_any_order_of_arrival_the_same_stands_and_the_same_waits(run: list[Said], data: st.DataObject) -> None:
    apart = [replace(said, minute=minute) for minute, said in enumerate(run)]
    record = merged(data.draw(st.permutations(apart)))
    standing = told(apart[-1].value)
    assert told(record.fields["name"]) == standing
    assert {told(lost.value) for lost in waiting(record)} == {told(said.value) for said in apart} - {standing}


@given(st.lists(st.sampled_from(VALUES), min_size=1, max_size=6))
def test_of_one_phones_own_chain_that_was_overruled_the_last_link_waits(values: list[object]) -> None:
    chain = [Said("a", minute, value) for minute, value in enumerate(values)]
    record = merged([Said("b", 50, "Elder"), *chain])
    assert record.fields["name"] == "Elder"
    assert [told(lost.value) for lost in waiting(record)] == [told(values[-1])]


@given(runs, st.data())
def test_who_pulls_a_record_and_says_its_number_knows_all_of_it_whatever_else_they_may_see(
    run: list[Said], data: st.DataObject
) -> None:
    """A phone that says, as `seen`, the number of the record it shows: later edits are met, earlier ones known."""
    shown = merged(run[: data.draw(st.integers(1, len(run)))])
    record = merged(run[shown.sequence :], shown)
    _, effect = merge(record, Said("z", 99, "Elder", shown.sequence).as_edit(record.sequence + 1))
    assert bool(effect.concurrent) == (record.stamps["name"].sequence > shown.sequence)


def test_what_only_repeats_a_value_as_it_was_typed_asks_for_no_decision_of_its_own() -> None:
    def edit(sequence: int, device: str, thickness: float, text: str) -> Edit:
        fields = {"bed.minimum_thickness": thickness, "typed": {"bed.minimum_thickness": text}}
        author = Author(device, f"person {device}", device.upper())
        return Edit(sequence, author, START, "room", JOB, JOB, fields, 0)  # type: ignore[arg-type]

    record, _ = merge(None, edit(1, "a", 31.75, "1 1/4 in"))
    record, effect = merge(record, edit(2, "b", 38.1, "1 1/2 in"))
    assert set(record.conflicts) == {"bed.minimum_thickness"}
    assert effect.replaced["typed"] == {"bed.minimum_thickness": "1 1/4 in"}


def test_a_station_set_anew_on_two_phones_asks_about_its_height_and_not_when_it_was_set() -> None:
    def edit(sequence: int, device: str, shim: float) -> Edit:
        fields: dict[str, JsonValue] = {"shim": shim, "set_at": f"2026-05-04T08:0{sequence}:00Z"}
        author = Author(device, f"person {device}", device.upper())
        return Edit(sequence, author, START, "station", JOB, JOB, fields, 0)

    record, _ = merge(None, edit(1, "a", 6.0))
    record, _ = merge(record, edit(2, "b", 9.5))
    assert set(record.conflicts) == {"shim"}
