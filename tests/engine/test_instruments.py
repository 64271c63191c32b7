"""Tests of instruments: the error they find, and which readings it is taken off."""

import math

import pytest
from tests.documents import Json
from tests.levelling import levels_of
from tests.questions import refusal_of

FLIP = {
    "id": "flip",
    "kind": "flip",
    "instrument": "long level",
    "off": 3.0,
    "reversed_off": -1.0,
    "length": 2000.0,
    "accepted": True,
}
ROD = {"id": "rod", "kind": "rod", "instrument": "long level", "offset": 1.5, "accepted": True}
PEGS = {
    "id": "pegs",
    "kind": "two_peg",
    "instrument": "long level",
    "first": [1500.0, 1400.0],
    "second": [1640.0, 1500.0],
    "sights": [50_000.0, 10_000.0],
    "accepted": True,
}
MORNING, NOON, EVENING = (f"2026-05-04T{hour}:00:00-05:00" for hour in ("08", "12", "18"))


def read_with(*checks: Json, taken_at: str | None = None, **setup: object) -> Json:
    """One reading, 1000 mm down at a place 1.5 m from where the level's first end lay."""
    reading = {"id": "r", "setup": "s", "at": [1500.0, 0.0], "down": 1000.0, "taken_at": taken_at}
    stands = {"id": "s", "kind": "straightedge", "instrument": "long level", "at": [0.0, 0.0], "line_height": 0.0}
    return {"document": 1, "setups": [stands | setup], "readings": [reading], "instrument_checks": list(checks)}


def correction_in(document: Json) -> float:
    """What was taken off the one reading; its height tells the same."""
    (height,) = levels_of(document)["heights"]
    assert height["z"] == pytest.approx(height["correction"] - 1000.0)
    taken_off: float = height["correction"]
    return taken_off


def test_a_flip_test_finds_half_the_difference_over_the_levels_length() -> None:
    """Shown 3 one way and -1 the other: the floor rises by 1, the level shows 2 too much on its 2 m."""
    (found,) = levels_of(read_with(FLIP))["instruments"]
    assert abs(found["tilt"]) == pytest.approx(1.0)
    assert (found["check"], found["instrument"], found["offset"], found["readings"]) == (
        "flip",
        "long level",
        None,
        1,
    )


def test_a_long_level_that_shows_its_far_end_high_lies_low_there_when_it_shows_level() -> None:
    """Shown level, the far end of this level lies 1 mm/m low, so at 1.5 m a gap measures 1.5 mm too little."""
    true_gap, tilt_down = 1001.5, 1.5
    measured = true_gap - tilt_down
    assert measured - correction_in(read_with(FLIP)) == pytest.approx(true_gap)


def test_a_rod_that_reads_too_much_is_read_less() -> None:
    assert correction_in(read_with(ROD)) == 1.5
    (found,) = levels_of(read_with(ROD))["instruments"]
    assert (found["tilt"], found["offset"], found["readings"]) == (None, 1.5, 1)


def test_a_line_that_rises_gives_readings_too_large() -> None:
    assert correction_in(read_with(PEGS)) == pytest.approx(1000.0 * 40.0 / 40_000.0 * 1.5)


def test_level_and_rod_are_corrected_together() -> None:
    assert correction_in(read_with(PEGS, ROD)) == pytest.approx(1.5 + 1.5)


def test_nothing_is_taken_off_until_a_person_agrees() -> None:
    levels = levels_of(read_with(FLIP | {"accepted": False}, ROD | {"accepted": False}))
    assert levels["heights"][0]["correction"] == 0.0
    assert [(i["check"], i["readings"]) for i in levels["instruments"]] == [("flip", 0), ("rod", 0)]
    assert levels["instruments"][0]["tilt"] is not None


@pytest.mark.parametrize(
    ("made_at", "taken_at", "is_corrected"),
    [
        (NOON, EVENING, True),
        (NOON, NOON, True),
        (NOON, MORNING, False),
        (NOON, None, False),
        (None, None, True),
        (None, MORNING, True),
        ("2026-05-04T17:00:00+00:00", NOON, True),
        ("2026-05-04T17:00:01+00:00", NOON, False),
    ],
)
def test_only_later_readings_are_corrected(made_at: str | None, taken_at: str | None, is_corrected: bool) -> None:
    assert (correction_in(read_with(ROD | {"at": made_at}, taken_at=taken_at)) != 0.0) == is_corrected


def test_the_latest_test_before_the_reading_counts() -> None:
    offsets = [
        ROD | {"id": f"rod {n}", "at": at, "offset": float(n)} for n, at in ((2, NOON), (1, None), (3, EVENING))
    ]
    assert correction_in(read_with(*offsets, taken_at=MORNING)) == 1.0
    assert correction_in(read_with(*offsets, taken_at=NOON)) == 2.0
    assert correction_in(read_with(*offsets, taken_at=EVENING)) == 3.0


def test_a_flip_test_takes_the_place_of_an_earlier_two_peg_test() -> None:
    checks = PEGS | {"at": MORNING}, FLIP | {"at": NOON}
    assert correction_in(read_with(*checks, taken_at=EVENING)) == correction_in(read_with(FLIP))


def test_other_instruments_are_left_alone_and_a_test_of_one_nobody_used_is_told() -> None:
    levels = levels_of(read_with(ROD | {"instrument": "another"}))
    assert levels["heights"][0]["correction"] == 0.0
    assert [(n["path"], n["code"]) for n in levels["notices"]] == [("instrument_checks[0].instrument", "unknown_id")]


def test_a_tilt_needs_the_length_of_the_sight_and_says_so() -> None:
    levels = levels_of(read_with(PEGS, ROD, at=None))
    assert levels["heights"][0]["correction"] == 1.5, "the rod's alone"
    assert [(n["path"], n["code"], n["values"]) for n in levels["notices"]] == [
        ("setups[0].at", "sight_unknown", {"setup": "s", "count": 1})
    ]


@pytest.mark.parametrize("at", [None, MORNING])
def test_of_two_tests_of_one_moment_the_order_decides_nothing(at: str | None) -> None:
    """Without names of their own they are named by their order, which must not tell either."""
    tests = [{k: v for k, v in FLIP.items() if k != "id"} | {"at": at, "off": off} for off in (3.0, 5.0)]
    ways = [correction_in(read_with(*way, taken_at=NOON)) for way in (tests, tests[::-1])]
    assert ways[0] == ways[1] != 0.0


def test_a_sight_measured_along_stands_in_for_the_place() -> None:
    document = read_with(PEGS, at=None)
    document["readings"][0]["sight"] = 3000.0
    assert correction_in(document) == pytest.approx(3.0)


def test_a_sight_adds_to_a_readings_standard_error_in_quadrature() -> None:
    document = read_with(sigma=0.3, sigma_per_metre=0.2)
    assert levels_of(document)["heights"][0]["sigma"] == pytest.approx(math.hypot(0.3, 0.2 * 1.5))


@pytest.mark.parametrize(
    ("check", "key", "code"),
    [
        (PEGS, "first", "two_peg_incomplete"),
        (PEGS, "second", "two_peg_incomplete"),
        (PEGS, "sights", "two_peg_incomplete"),
        (FLIP, "off", "flip_incomplete"),
        (FLIP, "reversed_off", "flip_incomplete"),
        (FLIP, "length", "flip_incomplete"),
        (ROD, "offset", "rod_incomplete"),
    ],
)
def test_a_test_that_lacks_a_value_is_refused_by_that_value(check: Json, key: str, code: str) -> None:
    document = read_with(check | {key: None, "accepted": False})
    assert refusal_of("levels", document) == [(f"instrument_checks[0].{key}", code)]


@pytest.mark.parametrize(
    ("check", "expected"),
    [
        (PEGS | {"sights": [30_000.0, 30_000.4]}, ("instrument_checks[0].sights", "sights_alike")),
        (FLIP | {"length": 0.5}, ("instrument_checks[0].length", "too_small")),
        (FLIP | {"kind": "dance"}, ("instrument_checks[0].kind", "not_one_of")),
    ],
)
def test_a_test_that_tells_nothing_is_refused(check: Json, expected: tuple[str, str]) -> None:
    assert refusal_of("levels", read_with(check)) == [expected]
