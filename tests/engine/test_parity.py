"""The engine in CPython and in the phone's Python give one answer."""

import json
import math
import subprocess
from pathlib import Path
from typing import Any

import pytest
from tests.rooms import random_room
from tests.share import SHARE

from evenbed.engine.bridge import answer_text

WEB = Path(__file__).parents[2] / "web"
ROOMS = 210 if SHARE >= 1.0 else 105
WHOLE = 10  # of them asked with what is unknown, which takes ten times as long
RELATIVE = 1e-12  # sin, exp and pow may differ in the last bit between C libraries; a chain of them by a few
ABSOLUTE = 1e-9  # mm, m³, h: below anything a rod, a scale or a clock can tell
HAND_AREA = 1e-6  # mm, corners of hand areas only: where nearly parallel lines meet, a last bit grows a thousandfold


@pytest.fixture(scope="module")
def pairs() -> list[tuple[Any, Any]]:
    """For each document the plan from this Python and the plan from the phone's."""
    rooms = [("plan" if seed < WHOLE else "quick_plan", json.dumps(random_room(seed))) for seed in range(ROOMS)]
    asked = rooms + [("plan", bad) for bad in ('{"document": 1}', "no JSON", "[NaN]")]
    run = subprocess.run(
        ["node", "build/run_engine.mjs"],
        cwd=WEB,
        input="\n".join(f"{question}\t{document}" for question, document in asked),
        capture_output=True,
        text=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr
    theirs = run.stdout.splitlines()
    assert len(theirs) == len(asked)
    return [(json.loads(answer_text(*one)), json.loads(t)) for one, t in zip(asked, theirs, strict=True)]


def differences(mine: Any, theirs: Any, path: str = "") -> list[str]:
    """Paths at which two plans differ by more than the named tolerances."""
    if isinstance(mine, dict) and isinstance(theirs, dict) and mine.keys() == theirs.keys():
        return [d for k in mine for d in differences(mine[k], theirs[k], f"{path}.{k}")]
    if isinstance(mine, list) and isinstance(theirs, list) and len(mine) == len(theirs):
        return [
            d for n, (a, b) in enumerate(zip(mine, theirs, strict=True)) for d in differences(a, b, f"{path}[{n}]")
        ]
    if isinstance(mine, float) and isinstance(theirs, int | float):
        least = HAND_AREA if path.startswith(".hand_areas") else ABSOLUTE
        return [] if math.isclose(mine, theirs, rel_tol=RELATIVE, abs_tol=least) else [f"{path}: {mine} {theirs}"]
    return [] if mine == theirs else [f"{path}: {mine!r} {theirs!r}"]


@pytest.mark.pyodide
def test_over_random_rooms_both_pythons_give_the_same_plan(pairs: list[tuple[Any, Any]]) -> None:
    assert [d for mine, theirs in pairs for d in differences(mine, theirs)] == []


@pytest.mark.pyodide
def test_the_rooms_compared_are_real_plans_of_concave_rooms_with_cutouts(pairs: list[tuple[Any, Any]]) -> None:
    plans = [mine for mine, _ in pairs if "problems" not in mine]
    assert len(plans) >= 0.95 * ROOMS
    assert sum(p["surface"]["statistics"] is not None for p in plans) == WHOLE
    assert sum(bool(p["outline"]["cutouts"]) for p in plans) >= 0.24 * ROOMS


@pytest.mark.pyodide
def test_the_engine_carries_one_hash_in_both(pairs: list[tuple[Any, Any]]) -> None:
    hashes = {plan["engine"]["hash"] for pair in pairs for plan in pair if "engine" in plan}
    assert len(hashes) == 1


def test_a_difference_beyond_the_tolerance_is_seen() -> None:
    mine, theirs = {"volume": 1.0, "at": [1.0, 2.0]}, {"volume": 1.0, "at": [1.0, 2.0 + 1e-8]}
    assert differences(mine, theirs) == [".at[1]: 2.0 2.00000001"]
