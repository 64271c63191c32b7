"""From what a document says of the levels to the measured differences of height that the network is made of."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from evenbed.engine.document.flatness import Touch
from evenbed.engine.document.levelling import Adjustment, Difference, InstrumentCheck, Mark, Reading, Setup
from evenbed.engine.document.places import Point
from evenbed.engine.instruments import Correction, corrections_for, sight_of
from evenbed.engine.rigid import Observation
from evenbed.engine.stood import Node, nodes_of, places_of

THE_ONLY = "1"  # the name of a set-up that nobody named
MM_PER_KM = 1e6


class Levelling(Protocol):
    """What a document says of the levels."""

    @property
    def readings(self) -> tuple[Reading, ...]:
        """Levels read."""
        ...

    @property
    def setups(self) -> tuple[Setup, ...]:
        """Standings of the instrument."""
        ...

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Marks and benchmarks."""
        ...

    @property
    def differences(self) -> tuple[Difference, ...]:
        """Levelled differences between marks."""
        ...

    @property
    def instrument_checks(self) -> tuple[InstrumentCheck, ...]:
        """Tests of the instruments."""
        ...

    @property
    def adjustment(self) -> Adjustment:
        """How the network is adjusted."""
        ...

    @property
    def touches(self) -> tuple[Touch, ...]:
        """Places of the bed rubbed down or filled up."""
        ...


@dataclass(frozen=True)
class Measured:
    """What was measured: one observation for each reading, then one for each difference.

    `setups` are the set-ups by their ids, `setup_of`, `places`, `nodes` and `corrections` tell of each reading.
    """

    setups: dict[str, Setup]
    setup_of: tuple[Setup, ...]
    places: tuple[Point | None, ...]
    nodes: tuple[Node, ...]
    corrections: tuple[Correction, ...]
    observations: tuple[Observation, ...]
    known: dict[Node, float]
    paths: dict[Node, str]
    floor: frozenset[Node]


def setup_ids(levelling: Levelling) -> list[str]:
    """The set-up of each reading: its own, the only one where it names none, empty where there are several."""
    declared = [s.id for s in levelling.setups]
    only = declared[0] if len(declared) == 1 else "" if declared else THE_ONLY
    return [r.setup or only for r in levelling.readings]


def measured_from(levelling: Levelling) -> Measured:
    """The measured differences of a document whose names and values have been checked."""
    readings, ids = levelling.readings, setup_ids(levelling)
    setups = {s.id: s for s in levelling.setups} or {name: Setup(id=name) for name in sorted(set(ids))}
    setup_of = [setups[name] for name in ids]
    places = places_of(readings)
    nodes = nodes_of(readings, ids, places, levelling.touches)
    corrections = corrections_for(readings, setup_of, levelling.instrument_checks)
    known, paths = _known(levelling)
    read = [_read(*each) for each in zip(range(len(readings)), readings, setup_of, nodes, corrections, strict=True)]
    floor = [n for n, r in zip(nodes, readings, strict=True) if r.stage == "subfloor" and r.at is not None]
    return Measured(
        setups,
        tuple(setup_of),
        tuple(places),
        tuple(nodes),
        tuple(corrections),
        (*read, *_levelled(levelling.differences, levelling.adjustment)),
        known,
        paths,
        frozenset(floor),
    )


def _read(n: int, reading: Reading, setup: Setup, node: Node, correction: Correction) -> Observation:
    sight = sight_of(setup, reading) or 0.0
    sigma = math.hypot(setup.sigma, setup.sigma_per_metre * sight / 1000.0)
    down = reading.down - correction.amount
    return Observation(Node("setup", setup.id), node, -down, sigma, setup.id, f"readings[{n}].down")


def _levelled(differences: Sequence[Difference], rule: Adjustment) -> list[Observation]:
    found = []
    for n, one in enumerate(differences):
        sigma = one.sigma if one.sigma is not None else rule.sigma_km * math.sqrt((one.distance or 0.0) / MM_PER_KM)
        start, end = Node("mark", one.start), Node("mark", one.end)
        found.append(Observation(start, end, one.rise, sigma, one.id, f"differences[{n}].rise"))
    return found


def _known(levelling: Levelling) -> tuple[dict[Node, float], dict[Node, str]]:
    """Heights known beforehand, and where the document says them."""
    marks = [(Node("mark", m.id), m.height, f"marks[{n}].height") for n, m in enumerate(levelling.marks)]
    lines = [(Node("setup", s.id), s.line_height, f"setups[{n}].line_height") for n, s in enumerate(levelling.setups)]
    given: list[tuple[Node, float, str]] = [(node, z, path) for node, z, path in marks + lines if z is not None]
    return {node: z for node, z, _ in given}, {node: path for node, _, path in given}


def readings_by_setup(measured: Measured) -> Mapping[str, int]:
    """How many readings each set-up has, in the order they come."""
    counts: dict[str, int] = {}
    for setup in measured.setup_of:
        counts[setup.id] = counts.get(setup.id, 0) + 1
    return counts
