"""The bed alone, as the screen on which its height moves asks for it, is the bed of the whole plan."""

import json
from typing import Any

import pytest
from tests.benchmarks.floors import read_floor
from tests.rooms import random_room

from evenbed.engine.bridge import answer_text

SEEDS = range(20)


def asked(question: str, seed: int) -> Any:
    return json.loads(answer_text(question, json.dumps(random_room(seed))))


@pytest.mark.parametrize("seed", SEEDS)
def test_the_bed_alone_is_that_of_the_whole_plan(seed: int) -> None:
    alone, whole = asked("bed_design", seed), asked("quick_plan", seed)
    assert alone["bed"]["volume"] > 0.0
    told, cautions = alone.pop("explanations"), alone.pop("cautions")
    assert alone == {key: whole[key] for key in alone}
    assert told.items() <= whole["explanations"].items()
    assert {path for path in whole["explanations"] if path.startswith("bed.")} <= told.keys()
    assert [caution for caution in whole["cautions"] if caution["where"].startswith("bed.")] == cautions


def under(seed: int, height: float) -> str:
    room = random_room(seed) | {"bed": {"top": {"kind": "level", "height": height}}}
    return answer_text("bed_design", json.dumps(room))


def test_a_floor_that_was_kept_gives_the_very_answer_of_one_worked_out_afresh() -> None:
    kept = [under(0, height) for height in (20.0, 25.0, 20.0)]
    assert kept[0] == kept[2] != kept[1]
    others = [under(seed, 20.0) for seed in range(1, 4)]
    assert len({*others}) == 3
    assert [under(0, height) for height in (25.0, 20.0)] == [kept[1], kept[0]]


def test_floors_that_differ_in_one_reading_are_told_apart() -> None:
    lower = random_room(0) | {"bed": {"top": {"kind": "level", "height": 20.0}}}
    lower["readings"][0]["down"] += 1.0
    assert json.loads(answer_text("bed_design", json.dumps(lower)))["bed"]["volume"] > volume_of(under(0, 20.0))


def volume_of(text: str) -> float:
    volume: float = json.loads(text)["bed"]["volume"]
    return volume


@pytest.mark.parametrize("question", ["levels", "bed_design"])
def test_nought_is_nought_whatever_its_sign(question: str) -> None:
    text = json.dumps(read_floor(8))
    negative = text.replace("[0.0, 0.0]", "[-0.0, -0.0]")
    assert negative != text
    assert answer_text(question, negative) == answer_text(question, text)
