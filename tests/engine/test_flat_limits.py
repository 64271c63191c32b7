"""Which limits hold on a bed, how far its readings tell, and what gaps measured with a wedge come to against them."""

import math

import pytest
from tests.checked_bed import checked_room, over_grid, rectangle
from tests.documents import Json, Spot, answer_to, plan_of

from evenbed.engine.document.flatness import FlatnessDesign
from evenbed.engine.flatness.standards import limits_of

ROOM = rectangle(4000.0, 3000.0)


def flat(x: float, y: float) -> float:
    return 0.0 * x * y


def flatness_of(room: Json) -> Json:
    found: Json = plan_of(room, "plan")["flatness"]
    assert found is not None
    return found


def checked(built: list[Spot], **more: Json | list[Json]) -> Json:
    return flatness_of(checked_room(ROOM, built, **more))


def codes_of(room: Json) -> set[str]:
    return {caution["code"] for caution in plan_of(room, "plan")["cautions"]}


@pytest.mark.parametrize(
    ("width", "depth", "spans"),
    [(6000.0, 5000.0, [7810, 4000, 2000, 1000, 100]), (3000.0, 2000.0, [3605, 2000, 1000, 100]), (60.0, 50.0, [100])],
)
def test_din_spans_that_fit_the_room_are_laid_and_the_longest_of_all(
    width: float, depth: float, spans: list[float]
) -> None:
    """By hand: corner to corner 7810, 3605 and 78 mm."""
    limits = limits_of(FlatnessDesign("din_18202_3"), 300.0).fitting(math.hypot(width, depth))
    assert [row.length for row in limits.rows] == spans


def test_a_bed_that_sags_between_two_spans_of_din_18202_is_beyond_its_limit() -> None:
    """By hand: 12 mm in 3.6 m, row 3. Under 4 m 10 mm may be open, and 4 m fit nowhere; under 1 m 1 mm is."""
    room = checked_room(
        rectangle(3600.0, 900.0),
        over_grid(3600, 900, 300, lambda x, _y: 12.0 * (x / 1800.0 - 1.0) ** 2),
        flatness={"standard": "din_18202_3"},
    )
    whole, usual, short, _ = flatness_of(room)["checks"]
    assert (whole["length"], whole["limit"], whole["verdict"]) == (3710.0, 9.0, "beyond")
    assert (usual["limit"], usual["gap"]["gap"], usual["verdict"]) == (
        6.0,
        pytest.approx(12 / 3.24, abs=0.1),
        "within",
    )
    assert (short["limit"], short["verdict"]) == (4.0, "within")


def test_a_straightedge_longer_than_the_room_keeps_its_limit_and_is_told() -> None:
    room = checked_room(rectangle(1200.0, 900.0), over_grid(1200, 900, 100, flat))
    assert flatness_of(room)["checks"][0]["limit"] == 6.35
    assert "flatness_longer" in codes_of(room)


def test_a_gap_over_the_limit_of_a_longer_straightedge_is_over_it_whatever_a_shorter_one_allows() -> None:
    """4 mm under 800 mm are open under 2 m too, where 3 are allowed."""
    own = {"standard": "own", "own": [{"length": 2000.0, "gap": 3.0}, {"length": 1000.0, "gap": 5.0}]}
    found = checked([], gaps=[{"id": "g", "from": [0, 100], "to": [800, 100], "gap": 4.0}], flatness=own)
    assert (found["gaps"][0]["limit"], found["verdict"]) == (3.0, "beyond")


@pytest.mark.parametrize(("gap", "told"), [(3.0, (3.0, "within")), (3.1, (None, "no_limit"))])
def test_under_a_straightedge_longer_than_the_rules_only_what_is_within_can_be_told(
    gap: float, told: tuple[float | None, str]
) -> None:
    """BS 8204, SR1: what stands open no more than 3 mm under 2.5 m does not under 2 m."""
    found = checked(
        [], gaps=[{"id": "g", "from": [0, 100], "to": [2500, 100], "gap": gap}], flatness={"standard": "bs_8204_sr1"}
    )
    assert (found["gaps"][0]["limit"], found["gaps"][0]["verdict"]) == told


@pytest.mark.parametrize(
    ("limit", "code"),
    [
        ({"gap": 0.0}, "too_small"),
        ({"gap": -1.0}, "too_small"),
        ({"gap": 1e9}, "too_large"),
        ({"gap": "three"}, "not_a_number"),
        ({"length": 0.0}, "too_small"),
        ({"length": 1e9}, "too_large"),
        ({"length": "long"}, "not_a_number"),
    ],
)
def test_absurd_limits_of_a_companys_own_are_refused(limit: Json, code: str) -> None:
    own = [{"length": 1000.0, "gap": 3.0} | limit]
    answer = answer_to(checked_room(ROOM, [], flatness={"standard": "own", "own": own}), "plan")
    assert [problem["code"] for problem in answer["problems"]] == [code]


def test_own_limits_hold_and_lacking_ones_are_told() -> None:
    own = {"standard": "own", "own": [{"length": 1000.0, "gap": 2.0}, {"length": 2000.0, "gap": 3.0}]}
    built = over_grid(4000, 3000, 500, flat)
    assert [(c["length"], c["limit"]) for c in checked(built, flatness=own)["checks"]] == [(2000, 3), (1000, 2)]
    lacking = checked_room(ROOM, built, flatness={"standard": "own"})
    assert flatness_of(lacking)["checks"] == []
    assert flatness_of(lacking)["verdict"] == "not_read"
    assert "flatness_no_limits" in codes_of(lacking)


def test_one_gap_surely_beyond_is_sure_though_a_hump_lies_at_the_limit() -> None:
    """By hand: a dip of 12 mm, a knob of 5.2 mm, limit 5 mm; readings err by 1 mm."""
    spots = {(1000.0, 1000.0): -12.0, (3000.0, 2000.0): 5.2}
    built = over_grid(4000, 3000, 1000, lambda x, y: spots.get((x, y), 0.0))
    room = checked_room(ROOM, built, flatness={"standard": "bs_8204_sr2"}, setups=[{"id": "s", "sigma": 1.0}])
    (check,) = flatness_of(room)["checks"]
    assert (check["verdict"], check["sure"]) == ("beyond", True)
    assert "flatness_near_limit" not in codes_of(room)


@pytest.mark.parametrize(
    ("sigma", "is_sure", "is_coarse"), [(0.5, True, False), (1.0, True, True), (2.0, False, True)]
)
def test_a_flat_bed_is_known_no_better_than_its_readings(sigma: float, is_sure: bool, is_coarse: bool) -> None:
    """By hand: a gap amid two readings is known to 1.645 √1.5 σ: 1.01, 2.01 and 4.03 mm, limit 3 mm."""
    setups = [{"id": "s", "sigma": sigma}]
    built = over_grid(4000, 3000, 500, flat)
    room = checked_room(ROOM, built, flatness={"standard": "bs_8204_sr1"}, setups=setups)
    (check,) = flatness_of(room)["checks"]
    assert (check["gap"], check["hump"], check["verdict"]) == (None, None, "within")
    assert check["sure"] is is_sure
    assert ("flatness_coarse" in codes_of(room)) is is_coarse


@pytest.mark.parametrize(
    ("standard", "inputs"),
    [
        ("ansi_a108_02", {"straightedge": 3048.0, "allowed": 3.175, "tile_edge": 600.0}),
        ("bs_8204_sr1", {"straightedge": 2000.0, "allowed": 3.0}),
        ("aci_117_25_20", {"straightedge": 3048.0, "allowed": 6.35, "ff_asked": 25.0}),
    ],
)
def test_a_limit_tells_by_what_it_goes(standard: str, inputs: Json) -> None:
    more = {"flatness": {"standard": standard}, "bed": {"covering": {"longest_edge": 600.0}}}
    plan = plan_of(checked_room(ROOM, over_grid(4000, 3000, 1000, flat), **more), "plan")
    assert plan["explanations"]["flatness.checks[0].limit"]["inputs"] == pytest.approx(inputs)
