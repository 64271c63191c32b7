"""Files that are damaged, hostile or newer: each refused with its reason, fast, and nothing of it kept."""

import json
import time
from contextlib import closing
from pathlib import Path
from random import Random

import pytest

from evenbed.jobfile.faults import SENTENCES, Fault, JobFileError
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
from evenbed.jobfile.shapes import JobShape
from evenbed.jobfile.taking import take_in
from evenbed.store.work import Store
from tests.jobfiles.hostile import good, text, write_all, zipped
from tests.stores import START, fresh_store

LONGEST_S = 20.0
"""To refuse the largest of them, on a slow machine with others at work."""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All of them."""
    made = tmp_path_factory.mktemp("hostile")
    write_all(made)
    return made


def why(store: Store, file: Path) -> Fault | None:
    """Why it is not taken; None where it would be."""
    try:
        with opened(file) as parts:
            looked_into = read(parts)
            with store.writing() as work:
                take_in(work, looked_into, parts, START, 1_000_000)
    except JobFileError as error:
        return error.fault
    return None


def test_each_is_refused_with_its_reason_and_the_good_ones_are_not(folder: Path, tmp_path: Path) -> None:
    expected = json.loads((folder / "expected.json").read_text())
    with fresh_store(tmp_path) as store, closing(store):
        for name, fault in expected.items():
            started = time.monotonic()
            assert (name, why(store, folder / f"{name}.zip")) == (name, fault)
            assert time.monotonic() - started < LONGEST_S, name
        assert _kept(store) == 0


def test_cut_off_anywhere_or_with_a_bit_turned_it_is_refused_or_the_same_as_it_was(tmp_path: Path) -> None:
    whole, file, draw = zipped(text(good())), tmp_path / "job.zip", Random(7)
    cut = [whole[: len(whole) * share // 50] for share in range(50)]
    places = [draw.randrange(len(whole)) for _ in range(300)]
    turned = [whole[:at] + bytes([whole[at] ^ 1 << draw.randrange(8)]) + whole[at + 1 :] for at in places]
    file.write_bytes(whole)
    contents = _contents_of(file)
    assert contents is not None
    assert [_contents_of(_filled(file, content)) for content in cut] == [None] * len(cut)
    told = [_contents_of(_filled(file, content)) for content in turned]
    assert all(one in (None, contents) for one in told)
    assert told.count(None) > len(told) // 2


def _filled(file: Path, content: bytes) -> Path:
    file.write_bytes(content)
    return file


def _contents_of(file: Path) -> JobShape | None:
    """None where it is refused, with its reason."""
    try:
        with opened(file) as parts:
            return read(parts).contents
    except JobFileError:
        return None


def test_every_reason_has_a_sentence_and_a_file(folder: Path) -> None:
    assert set(SENTENCES) == set(Fault)
    told = set(json.loads((folder / "expected.json").read_text()).values()) - {None}
    assert told == set(Fault)


def test_a_change_that_the_rules_refuse_leaves_nothing_of_the_file(tmp_path: Path) -> None:
    document, file = good(), tmp_path / "job.zip"
    document["history"][1]["fields"]["colour"] = "red"
    file.write_bytes(zipped(text(document)))
    with fresh_store(tmp_path) as store, closing(store):
        with opened(file) as parts, store.writing() as work, pytest.raises(JobFileError) as told:
            take_in(work, read(parts), parts, START, 1_000_000)
        assert told.value.fault == Fault.REFUSED
        assert _kept(store) == 0


def _kept(store: Store) -> int:
    with store.reading() as work:
        return len(list(work.archive.log())) + len(list(work.archive.records()))
