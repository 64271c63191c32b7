"""Any network of levels against numpy's least squares; its loops; the order of no account."""

import math
import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import Json
from tests.levelling import levels_of, marks_of, mixed, network
from tests.levels_judge import Node, judge_levels

LEAST_RISE = 1e-6  # mm: what differs less is rounding of sums of some metres
SPREADS = [0.05, 0.3, 1.0, 3.0, 10.0]
seeds = st.integers(0, 10**9)


def network_read(seed: int, datum: str = "fixed") -> Json:
    """Set-ups, marks, places read again and levelled differences at random; often in parts that hang on nothing."""
    dice = random.Random(seed)
    true = {f"m{n}": dice.uniform(-500, 500) for n in range(dice.randint(2, 7))}
    places = {(500.0 * n, 700.0): dice.uniform(-30, 30) for n in range(4)}
    setups, readings = [], []
    shared = dice.random() < 0.6  # else every set-up has marks of its own, or none
    for n in range(dice.randint(0, 5)):
        setup: Json = {"id": f"s{n}", "sigma": dice.choice(SPREADS), "at": [dice.uniform(0, 9000), 0.0]}
        line = dice.uniform(900, 1900)
        setup |= {"sigma_per_metre": dice.choice([0.0, 0.0, 0.2, 1.0])}
        setup |= {"line_height": line + dice.gauss(0, 1)} if dice.random() < 0.1 else {}
        setups.append(setup)
        for mark in dice.choices(list(true) if shared else [f"m{n % len(true)}"], k=dice.randint(1, 4)):
            down = line - true[mark] + dice.gauss(0, setup["sigma"])
            readings.append({"setup": setup["id"], "mark": mark, "down": down, "sight": dice.choice([None, 4000.0])})
        for at in dice.sample(list(places), dice.randint(0, 3) if shared else dice.randint(0, 1)):
            down = line - places[at] + dice.gauss(0, setup["sigma"])
            readings.append({"setup": setup["id"], "at": list(at), "down": down})
    differences = []
    for _ in range(dice.randint(0 if readings else 1, 9 if shared else 1)):
        start, end = dice.sample(list(true), 2)
        weight = {"sigma": dice.choice(SPREADS)} if dice.random() < 0.5 else {"distance": dice.uniform(1e4, 3e6)}
        rise = true[end] - true[start] + dice.gauss(0, 1)
        differences.append({"from": start, "to": end, "rise": rise, **weight})
    touched = [d["from"] for d in differences] + [r["mark"] for r in readings if "mark" in r]
    known = {dice.choice(touched), *dice.sample(list(true), dice.randint(0, 2))}
    return {
        "document": 1,
        "marks": [{"id": m, "height": z + dice.gauss(0, 1) if m in known else None} for m, z in true.items()],
        "setups": setups,
        "readings": [r | {"id": f"r{n}"} for n, r in enumerate(readings)],
        "differences": [d | {"id": f"d{n}"} for n, d in enumerate(differences)],
        "adjustment": {"datum": datum, "sigma_km": dice.choice([0.5, 1.0, 4.0])},
    }


def is_near(found: float | None, judged: float | None) -> bool:
    """True where both are nothing, or numbers that only rounding keeps apart."""
    if found is None or judged is None:
        return found is judged
    return math.isclose(found, judged, rel_tol=1e-6, abs_tol=LEAST_RISE)


@pytest.mark.parametrize("datum", ["fixed", "free"])
@given(seed=seeds)
@settings(max_examples=150, deadline=None)
def test_any_network_is_adjusted_as_numpy_does_it(datum: str, seed: int) -> None:
    document = network_read(seed, datum)
    levels, judged = levels_of(document), judge_levels(document)
    assert levels["redundancy"] == judged.redundancy
    assert is_near(levels["sigma0"], judged.sigma0)
    nodes: dict[Node, tuple[float | None, float | None]] = {
        ("mark", m["id"]): (m["z"], m["sigma"]) for m in levels["marks"]
    }
    nodes |= {("setup", s["id"]): (s["line_height"], s["sigma"]) for s in levels["setups"]}
    nodes |= {("place", "subfloor", *h["at"]): (h["z"], h["sigma"]) for h in levels["heights"] if h["at"]}
    for node, z in judged.heights.items():
        assert is_near(nodes[node][0], z), node
        assert is_near(nodes[node][1], judged.sigmas[node]), node
    fits = {h["reading"]: h for h in levels["heights"]} | {d["id"]: d for d in levels["differences"]}
    for name, fit in judged.fits.items():
        found = (fits[name]["residual"], fits[name]["standardised"])
        assert found == (None, None) if fit is None else found == pytest.approx(fit, rel=1e-4, abs=1e-4), name


@given(seed=seeds)
@settings(max_examples=60, deadline=None)
def test_a_free_network_of_differences_has_the_standard_errors_of_the_pseudo_inverse(seed: int) -> None:
    dice = random.Random(seed)
    names = [f"m{n}" for n in range(dice.randint(2, 8))]
    pairs = [(a, dice.choice(names[:n])) for n, a in enumerate(names) if n]
    pairs += [(dice.choice(names[1:]), names[0]) for _ in range(dice.randint(1, 6))]
    sigmas = [dice.choice(SPREADS) for _ in pairs]
    lines = [(a, b, dice.gauss(0, 5), {"sigma": s}) for (a, b), s in zip(pairs, sigmas, strict=True)]
    known = {name: dice.gauss(0, 5) for name in names}
    levels = levels_of(network(known, lines, adjustment={"datum": "free"}))
    design = np.array([[(name == b) - (name == a) for name in names] for a, b in pairs]) / np.array(sigmas)[:, None]
    scale = levels["sigma0"]
    assert [m["sigma"] / scale for m in levels["marks"]] == pytest.approx(
        list(np.sqrt(np.diag(np.linalg.pinv(design.T @ design, hermitian=True, rcond=1e-10))))
    )
    corrections = [m["z"] - known[m["id"]] for m in levels["marks"]]
    assert math.fsum(corrections) == pytest.approx(0.0, abs=LEAST_RISE)


def test_the_networks_tried_are_of_every_kind() -> None:
    found = [levels_of(network_read(seed)) for seed in range(200)]
    assert sum(levels["redundancy"] > 3 for levels in found) > 50
    assert sum(levels["redundancy"] == 0 for levels in found) > 5
    assert sum(bool(levels["untied"]) for levels in found) > 10
    assert sum(any(m["z"] is None for m in levels["marks"]) for levels in found) > 10


@pytest.mark.parametrize("datum", ["fixed", "free"])
@given(seed=seeds, order=seeds)
@settings(max_examples=60, deadline=None)
def test_no_order_changes_a_bit(datum: str, seed: int, order: int) -> None:
    document = network_read(seed, datum)
    one, other = levels_of(document), levels_of(mixed(document, order))
    for key in ("sigma0", "redundancy", "misclosures"):
        assert other[key] == one[key]
    for key, name in (("marks", "id"), ("setups", "id"), ("heights", "reading"), ("differences", "id")):
        assert {e[name]: e for e in other[key]} == {e[name]: e for e in one[key]}


@given(seed=seeds)
@settings(max_examples=60, deadline=None)
def test_readings_without_names_may_come_in_any_order_too(seed: int) -> None:
    document = network_read(seed)
    for one in (*document["readings"], *document["differences"]):
        del one["id"]
    assert marks_of(levels_of(mixed(document, seed))) == marks_of(levels_of(document))


@given(seed=seeds)
@settings(max_examples=100, deadline=None)
def test_each_loop_misses_by_what_its_residuals_come_to(seed: int) -> None:
    """Adjusted heights close every loop, so what it misses by is the sum of residuals round it, some turned about."""
    document = network_read(seed)
    levels = levels_of(document)
    assert len(levels["misclosures"]) == levels["redundancy"]
    read = {r["id"]: r["setup"] for r in document["readings"]}
    residuals: dict[str, list[float]] = {}
    for fit in levels["heights"]:
        residuals.setdefault(read[fit["reading"]], []).append(abs(fit["residual"] or 0.0))
    for fit in levels["differences"]:
        residuals[fit["id"]] = [abs(fit["residual"] or 0.0)]
    for loop in levels["misclosures"]:
        assert len(set(loop["setups"])) == len(loop["setups"])
        most = math.fsum(v for name in loop["setups"] for v in residuals[name])
        assert abs(loop["by"]) <= most + LEAST_RISE


@given(seed=seeds)
@settings(max_examples=100, deadline=None)
def test_walked_round_a_loop_of_differences_misses_by_what_is_told(seed: int) -> None:
    dice = random.Random(seed)
    names = [f"m{n}" for n in range(dice.randint(2, 9))]
    lines = []
    for _ in range(dice.randint(1, 14)):
        start, end = dice.sample(names, 2)
        lines.append((start, end, dice.uniform(-99, 99), {"sigma": dice.choice(SPREADS)}))
    document = network({lines[0][0]: 0.0}, lines)
    levelled = {d["id"]: d for d in document["differences"]}
    levels = levels_of(document)
    assert len(levels["misclosures"]) == levels["redundancy"]
    for loop in levels["misclosures"]:
        first, *others = (levelled[name] for name in loop["setups"])
        here, climbed = first["from"], 0.0
        for one in others:
            there, rise = (one["to"], one["rise"]) if one["from"] == here else (one["from"], -one["rise"])
            assert here in (one["from"], one["to"])
            here, climbed = there, climbed + rise
        assert here == first["to"] == loop["mark"]
        assert loop["by"] == pytest.approx(first["rise"] - climbed, abs=LEAST_RISE)
