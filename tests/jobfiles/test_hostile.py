"""Files that are damaged, hostile or newer: each refused with its reason, fast, and nothing of it kept."""

import json
import time
from contextlib import closing
from pathlib import Path

import pytest

from evenbed.jobfile.faults import SENTENCES, Fault, JobFileError
from evenbed.jobfile.parts import opened
from evenbed.jobfile.reading import read
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


def why(file: Path) -> Fault | None:
    """Why it is not taken; None where it is."""
    try:
        with opened(file) as parts:
            read(parts)
    except JobFileError as error:
        return error.fault
    return None


def test_each_is_refused_with_its_reason_and_the_good_ones_are_not(folder: Path) -> None:
    expected = json.loads((folder / "expected.json").read_text())
    for name, fault in expected.items():
        started = time.monotonic()
        assert (name, why(folder / f"{name}.zip")) == (name, fault)
        assert time.monotonic() - started < LONGEST_S, name


def test_every_reason_has_a_sentence_and_a_file(folder: Path) -> None:
    assert set(SENTENCES) == set(Fault)
    told = set(json.loads((folder / "expected.json").read_text()).values()) - {None}
    assert told == set(Fault) - {Fault.REFUSED}


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
