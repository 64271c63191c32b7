"""Levelling against published examples, to the digits printed: heights, standard errors, the order of no account."""

from dataclasses import dataclass

import pytest
from tests.documents import Json
from tests.levelling import as_readings, levels_of, marks_of, mixed, network, turned_about
from tests.questions import answer_to

M = 1000.0  # mm

KM = 1e6  # mm
ONE_WAY = 1e-6  # mm: the same network told another way


@dataclass(frozen=True)
class Example:
    """A published network with its printed heights (m, to `digits`) and standard errors (mm, to two places)."""

    document: Json
    heights: dict[str, float]
    digits: int
    sigmas: dict[str, float]


def by_length(lines: list[tuple[str, str, float, float]]) -> list[tuple[str, str, float, Json]]:
    """Lines of so many metres' rise and so many mm of length."""
    return [(start, end, rise * M, {"distance": length}) for start, end, rise, length in lines]


# F. Krumm, Geodetic Network Adjustment Examples, Universität Stuttgart, revision 3.5, 2020: a network with a fixed
# datum; variance in proportion to length, standard errors a posteriori.
KRUMM = Example(
    network(
        {"5": 110.956 * M},
        by_length(
            [
                ("1", "2", 14.301, 900 * M),
                ("1", "3", 9.995, 800 * M),
                ("1", "4", 7.006, 1000 * M),
                ("1", "5", 17.500, 1500 * M),
                ("3", "2", 4.299, 500 * M),
            ]
        ),
    ),
    {"1": 93.4560, "2": 107.7541, "3": 103.4535, "4": 100.4620},
    4,
    {"1": 5.78, "2": 6.73, "3": 6.69, "4": 7.46, "5": 0.0},
)
# C. D. Ghilani, Adjustment Computations, 5th edition, example 12.6, as printed in the same collection: weights from
# standard errors. The printed ones are a posteriori: 0.65 times what the weights foretell.
GHILANI = Example(
    network(
        {"A": 437.596 * M},
        [
            ("A", "B", 10.509 * M, {"sigma": 6.0}),
            ("B", "C", 5.360 * M, {"sigma": 4.0}),
            ("C", "D", -8.523 * M, {"sigma": 5.0}),
            ("D", "A", -7.348 * M, {"sigma": 3.0}),
            ("B", "D", -3.167 * M, {"sigma": 4.0}),
            ("A", "C", 15.881 * M, {"sigma": 12.0}),
        ],
    ),
    {"B": 448.1087, "C": 453.4685, "D": 444.9436},
    4,
    {"A": 0.0, "B": 2.30, "C": 2.64, "D": 1.76},
)
# E. M. Mikhail and F. Ackermann, Observations and Least Squares, 1976, example 7.4: the measurements are printed
# there, the heights follow with weights of one over length.
MIKHAIL = Example(
    network(
        {"A": 800.0 * M},
        by_length(
            [
                ("A", "B", 25.42, 18.1 * KM),
                ("B", "C", 10.34, 9.4 * KM),
                ("C", "A", -35.20, 14.2 * KM),
                ("B", "D", -15.54, 17.6 * KM),
                ("D", "E", 21.32, 13.5 * KM),
                ("E", "C", 4.82, 9.9 * KM),
                ("E", "A", -31.02, 13.8 * KM),
                ("C", "D", -26.11, 14.0 * KM),
            ]
        ),
    ),
    {"B": 825.2206, "C": 835.5354, "D": 809.5339, "E": 830.8460},
    4,
    {},
)
# After an exercise of J. La Putt, Elementary Surveying (the heights follow from its data): a loop of 30.5 km, its
# misclosure spread in proportion to distance.
WALKED = [0.0, 5.245, 11.271, 17.718, 21.964, 25.247, 30.500]  # km from the benchmark
OBSERVED = [728.730, 783.213, 891.764, 843.195, 739.708, 702.956, 728.486]
STOPS = ["BM", "1", "2", "3", "4", "5", "BM"]
LOOP = Example(
    network(
        {"BM": 728.730 * M},
        by_length(
            [
                (STOPS[n], STOPS[n + 1], OBSERVED[n + 1] - OBSERVED[n], (WALKED[n + 1] - WALKED[n]) * KM)
                for n in range(6)
            ]
        ),
    ),
    {"1": 783.255, "2": 891.854, "3": 843.337, "4": 739.884, "5": 703.158},
    3,
    {},
)
EXAMPLES = {"Krumm": KRUMM, "Ghilani": GHILANI, "Mikhail and Ackermann": MIKHAIL, "loop by distance": LOOP}
each = pytest.mark.parametrize("example", EXAMPLES.values(), ids=EXAMPLES)


def check(example: Example, document: Json) -> None:
    """Every height and standard error rounds to what is printed."""
    found = marks_of(levels_of(document))
    half = 0.5 * 10.0**-example.digits * M
    for mark, height in example.heights.items():
        assert found[mark][0] == pytest.approx(height * M, abs=half * 1.001), mark
    for mark, sigma in example.sigmas.items():
        assert found[mark][1] == pytest.approx(sigma, abs=0.005 * 1.001), mark


@each
def test_the_printed_heights_and_standard_errors_come_out(example: Example) -> None:
    check(example, example.document)


@each
@pytest.mark.parametrize("seed", range(6))
def test_no_order_of_the_measurements_changes_a_bit(example: Example, seed: int) -> None:
    assert marks_of(levels_of(mixed(example.document, seed))) == marks_of(levels_of(example.document))


@each
@pytest.mark.parametrize("seed", range(4))
def test_levelled_the_other_way_the_network_is_the_same(example: Example, seed: int) -> None:
    turned = turned_about(example.document, seed)
    assert turned != example.document
    check(example, turned)


@each
@pytest.mark.parametrize("seed", range(4))
def test_read_from_set_ups_the_network_is_the_same(example: Example, seed: int) -> None:
    read, levelled = levels_of(mixed(as_readings(example.document), seed)), levels_of(example.document)
    check(example, as_readings(example.document))
    assert read["redundancy"] == levelled["redundancy"]
    assert read["sigma0"] == pytest.approx(levelled["sigma0"], rel=1e-9)
    for mark, (z, sigma) in marks_of(levelled).items():
        assert marks_of(read)[mark] == pytest.approx((z, sigma), abs=ONE_WAY), mark


def test_two_lines_of_krumms_network_have_no_check_and_no_residual() -> None:
    """Krumm prints them as zero: null says that nothing could have made them anything else."""
    fits = {fit["id"]: fit["residual"] for fit in levels_of(KRUMM.document)["differences"]}
    assert [name for name, residual in fits.items() if residual is None] == ["2: 1-4", "3: 1-5"]


def test_ghilanis_standard_errors_are_a_posteriori() -> None:
    levels = levels_of(GHILANI.document)
    assert levels["redundancy"] == 3
    assert levels["sigma0"] == pytest.approx(0.65, abs=0.005)
    assert levels["datum"] == "benchmark"


def test_a_run_of_heights_of_instrument() -> None:
    """thesurveyschool.com, Leveling: a run from BM-A by backsights and foresights."""
    sights = [(4.320, 6.420), (5.180, 4.850), (3.070, 5.160), (2.940, 3.210)]
    stops = ["BM-A", "1", "2", "3", "4"]
    readings = []
    for n, (back, fore) in enumerate(sights):
        readings.append({"setup": f"I{n}", "mark": stops[n], "down": back * M})
        readings.append({"setup": f"I{n}", "mark": stops[n + 1], "down": fore * M})
    marks = [{"id": name, "height": 100.0 * M if name == "BM-A" else None} for name in stops]
    setups = [{"id": f"I{n}", "kind": "optical"} for n in range(4)]
    levels = levels_of({"document": 1, "marks": marks, "setups": setups, "readings": readings})
    heights = [mark["z"] / M for mark in levels["marks"]]
    assert heights == pytest.approx([100.000, 97.900, 98.230, 96.140, 95.870], abs=1e-9)
    assert levels["setups"][0]["line_height"] == pytest.approx(104.320 * M, abs=1e-9)
    assert heights[-1] - heights[0] == pytest.approx(15.510 - 19.640, abs=1e-9), "Σ backsights − Σ foresights"
    assert levels["redundancy"] == 0


PEGS = {"id": "A", "height": 0.0}, {"id": "B"}
TWO_PEG = {
    "id": "pegs",
    "kind": "two_peg",
    "instrument": "level",
    "first": [1.476 * M, 1.432 * M],
    "second": [1.556 * M, 1.472 * M],
    "sights": [50.0 * M, 10.0 * M],
    "accepted": True,
}


def test_a_two_peg_test_finds_the_line_high_and_corrects_what_was_read() -> None:
    """Pegs 40 m apart, read from the middle and from 10 m beyond the second: 0.001 m/m; corrected 1.506 and 1.462."""
    reading = {"setup": "s", "mark": "A", "down": 1.556 * M, "sight": 50.0 * M}
    other = {"setup": "s", "mark": "B", "down": 1.472 * M, "sight": 10.0 * M}
    levels = answer_to(
        "levels",
        document=1,
        marks=list(PEGS),
        setups=[{"id": "s", "instrument": "level", "kind": "optical"}],
        readings=[reading, other],
        instrument_checks=[TWO_PEG],
    )
    assert levels["instruments"] == [
        {"check": "pegs", "instrument": "level", "tilt": pytest.approx(1.0), "offset": None, "readings": 2}
    ]
    corrected = [1556.0 - levels["heights"][0]["correction"], 1472.0 - levels["heights"][1]["correction"]]
    assert corrected == pytest.approx([1.506 * M, 1.462 * M], abs=1e-9)
    assert levels["marks"][1]["z"] == pytest.approx((1.476 - 1.432) * M, abs=1e-9), "as from the middle"
