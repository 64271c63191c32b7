"""Beds and lay-outs that are kept change no answer, whatever was asked before."""

import json
import random
from typing import Any

import pytest
from tests.benchmarks.laid_room import AT_WORK, laid_room

from evenbed.engine import worked_bed, worked_floor, worked_layout
from evenbed.engine.bridge import answer_text
from evenbed.engine.filling import kept

ROOM = laid_room(readings=20)
LINES = [{"from": [200, y], "to": [4000, y]} for y in (200, 1700)]
CHANGES: dict[str, dict[str, Any]] = {
    "nothing": {},
    "a reading": {"readings": laid_room(moved=3.0, readings=20)["readings"]},
    "the top": {"bed": {"minimum_thickness": 40.0}},
    "the mix": {"mix": {"waste": 0.3}},
    "the prices": {"prices": {"cement_bag": 15.0, "sand": 60.0, "labour": {"hour": 40.0}}},
    "the rails": {"rails": {"lines": LINES}},
    "the straightedge": {"rails": {"straightedge": 1200.0}},
    "an impossible straightedge": {"rails": {"straightedge": 200.0, "bearing": 500.0}},
    "a doorway": {"openings": [{"id": "door", "wall": 1, "from": 200, "to": 1000, "exit": True}]},
    "the mixer": {"filling": {"mixer": [3000.0, 2500.0]}},
    "the day's end": {"filling": {"day_ends": AT_WORK.format(minute=50)}},
    "a check": {"checks": [{"rail": "A", "to": 600.0, "off": 2.0}]},
    "a placement": {"placements": [{"section": "S1", "placed_at": AT_WORK.format(minute=5)}]},
    "a batch": {"batches": [{"mixed_at": AT_WORK.format(minute=1)}]},
    "the weather": {"climate": [{"at": AT_WORK.format(minute=0), "bed": 8.0}]},
    "the curing": {"curing": {"working_time": 0.75}},
}
"""What may change between two questions."""


def answers_to(change: str) -> tuple[str, ...]:
    document = ROOM | CHANGES[change]
    clock = json.dumps({"document": document, "now": AT_WORK.format(minute=30)})
    asked = ("quick_plan", json.dumps(document)), ("bed_design", json.dumps(document)), ("fill_clock", clock)
    return tuple(answer_text(*one) for one in asked)


def forget() -> None:
    for module in (worked_floor, worked_bed, worked_layout, kept):
        module._kept.cache_clear()


@pytest.fixture(scope="module")
def fresh() -> dict[str, tuple[str, ...]]:
    """Each change's answers from an engine that was asked nothing before."""
    found = {}
    for change in CHANGES:
        forget()
        found[change] = answers_to(change)
    return found


def test_every_change_shows_in_an_answer(fresh: dict[str, tuple[str, ...]]) -> None:
    assert len(set(fresh.values())) == len(CHANGES)


@pytest.mark.parametrize("seed", range(3))
def test_answers_are_those_of_an_engine_asked_nothing_before(seed: int, fresh: dict[str, tuple[str, ...]]) -> None:
    order = random.Random(seed).choices(list(CHANGES), k=2 * len(CHANGES))
    assert [answers_to(change) == fresh[change] for change in order] == [True] * len(order)
