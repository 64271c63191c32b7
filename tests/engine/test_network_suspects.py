"""Readings against the adjusted network: numpy takes each out in turn and foretells it from all the others."""

import numpy as np
import pytest
from tests.documents import SQUARE, Json
from tests.judged_rounds import suspects_of

from evenbed.engine.suspects import GROSS

SETUPS = {"A": (1400.0, 1.0), "B": (1310.0, 0.8), "C": (1523.0, 1.5)}  # line height, mm, and sigma
MARKS = {"bm": 0.0, "m1": 12.0, "m2": -31.5, "m3": 5.25, "m4": 44.0}
INCH = 25.4


def network(seed: int, slips: dict[tuple[str, str], float]) -> Json:
    """Every mark read from every set-up, with slips added to what was read down."""
    dice = np.random.default_rng(seed)
    readings = [
        {"id": f"{s}-{m}", "setup": s, "mark": m, "down": line - z + dice.normal(0.0, sigma) + slips.get((s, m), 0.0)}
        for s, (line, sigma) in SETUPS.items()
        for m, z in MARKS.items()
    ]
    return {
        "document": 1,
        "outline": {"vertices": SQUARE},
        "setups": [{"id": s, "sigma": sigma} for s, (_, sigma) in SETUPS.items()],
        "marks": [{"id": m, "height": 0.0 if m == "bm" else None} for m in MARKS],
        "readings": readings,
    }


def without(document: Json, left_out: str) -> tuple[float, float]:
    """Height foretold by all other readings, less the height read; and the standard error of that."""
    names = [*SETUPS, *[m for m in MARKS if m != "bm"]]
    rows, downs, sigmas, asked, read, own = [], [], [], np.zeros(len(names)), 0.0, 0.0
    for reading in document["readings"]:
        row = np.zeros(len(names))
        row[names.index(reading["setup"])] = 1.0
        if reading["mark"] != "bm":
            row[names.index(reading["mark"])] = -1.0
        sigma = SETUPS[reading["setup"]][1]
        if reading["id"] == left_out:
            asked, read, own = row, reading["down"], sigma
        else:
            rows.append(row / sigma)
            downs.append(reading["down"] / sigma)
            sigmas.append(sigma)
    design = np.array(rows)
    found, *_ = np.linalg.lstsq(design, np.array(downs), rcond=None)
    covariance = np.linalg.inv(design.T @ design)
    return float(asked @ found - read), float(np.sqrt(own**2 + asked @ covariance @ asked))


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("slipped", [("A", "m1"), ("B", "bm"), ("C", "m3")])
def test_the_reading_that_slipped_an_inch_is_named_as_numpy_finds_it(seed: int, slipped: tuple[str, str]) -> None:
    document = network(seed, {slipped: INCH})
    (found,) = suspects_of(document)
    assert (found.reading, found.why) == ("-".join(slipped), "network")
    difference, error = without(document, found.reading)
    assert found.difference == pytest.approx(difference, rel=1e-6)
    assert found.score == pytest.approx(difference / error, rel=1e-6)
    assert found.slip is not None
    assert found.slip.kind == "whole_inch"
    all_scores = [abs(np.divide(*without(document, r["id"]))) for r in document["readings"]]
    assert abs(found.score) == pytest.approx(max(all_scores), rel=1e-6)


@pytest.mark.parametrize("seed", range(30))
def test_a_network_without_slips_is_doubted_only_as_often_as_chance_wants(seed: int) -> None:
    document = network(seed, {})
    scores = [abs(np.divide(*without(document, r["id"]))) for r in document["readings"]]
    assert bool(suspects_of(document)) == (max(scores) > GROSS)


def test_a_tie_that_disagrees_names_both_its_readings() -> None:
    """Two set-ups share three places; at one of them they differ by an inch, and nothing tells which is wrong."""
    places = [(500.0, 500.0), (3500.0, 600.0), (2000.0, 2500.0)]
    readings = [
        {"id": f"{s}{n}", "setup": s, "at": at, "down": line + (INCH if (s, n) == ("B", 1) else 0.0)}
        for s, line in (("A", 1400.0), ("B", 1310.0))
        for n, at in enumerate(places)
    ]
    document = {
        "document": 1,
        "outline": {"vertices": SQUARE},
        "setups": [{"id": "A"}, {"id": "B"}],
        "readings": readings[:3] + readings[4:3:-1] + readings[3:4] + readings[5:],
    }
    found = {suspect.reading: suspect for suspect in suspects_of(document)}
    assert found.keys() == {"A1", "B1"}
    assert {suspect.why for suspect in found.values()} == {"network"}
    assert found["A1"].difference == pytest.approx(INCH)
    assert found["B1"].difference == pytest.approx(-INCH)


def test_of_a_tie_that_disagrees_the_floor_tells_which_reading_is_wrong() -> None:
    """The slip lifts the whole second set-up by a third of an inch; none of its good readings is doubted for it."""
    grid = [(100.0 + 800.0 * i, 700.0 + 800.0 * j) for i in range(5) for j in range(3)]
    readings = [{"id": f"A{n}", "setup": "A", "at": at, "down": 1400.0} for n, at in enumerate(grid)]
    readings += [{"id": f"B{n}", "setup": "B", "at": grid[n], "down": 1310.0} for n in (3, 7, 12)]
    readings[-2]["down"] = 1310.0 + INCH
    document = {
        "document": 1,
        "outline": {"vertices": SQUARE},
        "setups": [{"id": "A"}, {"id": "B"}],
        "readings": readings,
    }
    (found,) = suspects_of(document)
    assert (found.reading, found.why) == ("B7", "neighbours")
    assert found.difference == pytest.approx(-INCH, abs=0.5)
    assert found.slip is not None
    assert found.slip.kind == "whole_inch"
