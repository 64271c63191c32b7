"""The composed plan: its parts agree with each other, over invented rooms."""

import json
import math
from functools import cache
from typing import Any

import pytest
from tests.rooms import random_room
from tests.share import share_of

from evenbed.engine.bridge import answer_text

SEEDS = range(60)
WHOLE = range(share_of(15))  # asked for what is unknown too, which takes ten times as long and changes nothing else
RELATIVE = 1e-9  # the contract's tolerance for volumes
SHIM = 1e-9  # mm


@cache
def plan_of(seed: int, question: str = "quick_plan") -> dict[str, Any]:
    plan: dict[str, Any] = json.loads(answer_text(question, json.dumps(random_room(seed))))
    assert "problems" not in plan, plan
    return plan


@pytest.mark.parametrize("seed", SEEDS)
def test_the_sections_volumes_add_up_to_the_beds(seed: int) -> None:
    plan = plan_of(seed)
    total = math.fsum(s["volume"] for s in plan["sections"])
    assert math.isclose(total, plan["bed"]["volume"], rel_tol=RELATIVE)


@pytest.mark.parametrize("seed", SEEDS)
def test_sections_come_in_the_order_they_are_filled(seed: int) -> None:
    assert [s["order"] for s in plan_of(seed)["sections"]] == list(range(1, len(plan_of(seed)["sections"]) + 1))


@pytest.mark.parametrize("seed", SEEDS)
def test_every_shim_is_top_less_strip_less_subfloor_and_lies_under_the_top(seed: int) -> None:
    plan, strip = plan_of(seed), 25.4
    facet = plan["bed"]["top"][0]
    for station in (s for rail in plan["rails"] for s in rail["stations"]):
        x, y = station["at"]
        assert math.isclose(station["top"], facet["a"] + facet["b"] * x + facet["c"] * y, abs_tol=SHIM)
        assert math.isclose(station["shim"], station["top"] - strip - station["subfloor"], abs_tol=SHIM)


@pytest.mark.parametrize("seed", SEEDS)
def test_no_subfloor_under_a_station_stands_above_the_high_spot_or_below_the_low_one(seed: int) -> None:
    plan = plan_of(seed)
    low, high = plan["surface"]["lowest"]["z"], plan["surface"]["highest"]["z"]
    for station in (s for rail in plan["rails"] for s in rail["stations"]):
        assert low - SHIM <= station["subfloor"] <= high + SHIM


@pytest.mark.parametrize("seed", SEEDS)
def test_a_lowest_level_top_is_exactly_the_minimum_over_the_high_spot(seed: int) -> None:
    bed, surface = plan_of(seed)["bed"], plan_of(seed)["surface"]
    assert bed["top"][0]["a"] == surface["highest"]["z"] + bed["minimum_thickness"]
    assert math.isclose(bed["thickness"]["min"], bed["minimum_thickness"], abs_tol=SHIM)


@pytest.mark.parametrize(("question", "seed"), [*(("quick_plan", n) for n in SEEDS), *(("plan", n) for n in WHOLE)])
def test_every_explained_figure_is_in_the_plan(question: str, seed: int) -> None:
    plan = plan_of(seed, question)
    assert plan["explanations"].keys() >= {"bed.volume", "bed.top[0]", "bed.load.max", "materials[0]", "readiness[0]"}
    for path in plan["explanations"]:
        assert isinstance(found(plan, path), int | float | str | dict | list), path


def found(plan: Any, path: str) -> Any:
    """The value at a path such as `rails[0].stations[2].shim`."""
    for part in path.replace("[", ".[").split("."):
        plan = plan[int(part[1:-1])] if part.startswith("[") else plan[part]
    return plan
