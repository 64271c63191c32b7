"""The bed alone, as the screen on which its height moves asks for it, is the bed of the whole plan."""

import json
from typing import Any

import pytest
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
    assert {path for path in told if path.startswith("bed.")} >= {"bed.thickness.min", "bed.volume", "bed.top[0]"}
    assert [caution for caution in whole["cautions"] if caution in cautions] == cautions
