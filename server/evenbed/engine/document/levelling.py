"""What the document says of the levels: instruments, their tests, marks and readings."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length, time
from evenbed.engine.document.flatness import Touch
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class Setup:
    """One standing of a levelling instrument."""

    id: str = described(about="Its name in this document")
    kind: Literal["laser", "water_level", "optical", "straightedge"] = described("laser", about="Instrument")
    sigma: float = length(1.0, "Standard error of one reading", high=1000.0)
    sigma_per_metre: float = described(
        0.0,
        about="What each metre of sight adds to it, in quadrature",
        unit="mm/m",
        low=0.0,
        high=100.0,
    )
    instrument: str = described("", about="Which instrument stood there, for the checks made of it")
    at: Point | None = height(None, "Where the instrument stood; of a straightedge, its first end")
    line_height: float | None = height(None, "z of its level line where that is known beforehand")


@dataclass(frozen=True)
class InstrumentCheck:
    """What a test of an instrument showed. Its error is taken off readings made later, where a person agreed.

    `two_peg`: `first` are the readings on pegs A and B from the middle, `second` those from beyond, `sights` the
    lengths of the second pair. `flip`: a level over `length`, `off` and, turned end for end, `reversed_off` (+ where
    the same end of the floor, the one ahead, is shown high). `rod`: `offset` is what the rod reads too much.
    """

    kind: Literal["two_peg", "flip", "rod"] = described(about="Which test")
    instrument: str = described(about="Which instrument")
    id: str = described("", about="Its name in this document")
    at: str | None = time(None, "When it was made; without a time it holds for every reading of the instrument")
    accepted: bool = described(False, about="True where a person agreed that later readings are corrected")
    first: tuple[float, float] | None = height(None, "Readings on A and B from the middle")
    second: tuple[float, float] | None = height(None, "Readings on A and B from beyond")
    sights: tuple[float, float] | None = length(None, "Sight lengths of the second pair")
    off: float | None = height(None, "How far out the level showed")
    reversed_off: float | None = height(None, "The same, turned end for end")
    length: float | None = length(None, "Length of the level")
    offset: float | None = height(None, "What the rod reads too much")


@dataclass(frozen=True)
class Difference:
    """A levelled difference of height between two marks, with its standard error or the length of its line."""

    start: str = described(about="The mark it runs from", key="from")
    end: str = described(about="The mark it runs to", key="to")
    rise: float = height(about="How much higher the end lies")
    id: str = described("", about="Its name in this document")
    sigma: float | None = length(None, "Standard error", high=1000.0)
    distance: float | None = described(
        None, about="Length of the levelled line, where no standard error is known", unit="mm", low=0.0, high=1e9
    )


@dataclass(frozen=True)
class Adjustment:
    """How the network of levels is adjusted."""

    datum: Literal["fixed", "free"] = described(
        "fixed", about="Known heights hold, or give way: the sum of corrections to all heights is nothing"
    )
    sigma_km: float = length(1.0, "Standard error of a levelled line of one kilometre", high=1000.0)


@dataclass(frozen=True)
class Mark:
    """A mark that can be read again; a benchmark where its height is known."""

    id: str = described(about="Its name in this document")
    height: float | None = height(None, "Known height, z")


@dataclass(frozen=True)
class Reading:
    """How far below the set-up's level line a place lies: the larger number is the lower spot."""

    down: float = height(about="Below the level line")
    at: Point | None = height(None, "Where the rod stood")
    mark: str | None = described(None, about="The mark the rod stood on, in place of `at`")
    id: str = described("", about="Its name in this document")
    setup: str = described("", about="The set-up it was taken from")
    stage: Literal["subfloor", "bed"] = described("subfloor", about="What was read")
    taken_at: str | None = time(None, "When it was read")
    sight: float | None = length(None, "Length of the sight, where neither place tells it")
    as_typed: str = described("", about="What was typed, digit by digit")


@dataclass(frozen=True)
class LevelsDocument:
    """What levels alone are asked of: readings, levelled differences, or both, of no room in particular."""

    document: Literal[1] = described(about="The version of this format")
    readings: tuple[Reading, ...] = described((), about="Levels read")
    setups: tuple[Setup, ...] = described((), about="Standings of the instrument")
    marks: tuple[Mark, ...] = described((), about="Marks and benchmarks")
    differences: tuple[Difference, ...] = described((), about="Levelled differences between marks")
    instrument_checks: tuple[InstrumentCheck, ...] = described((), about="Tests of the instruments")
    adjustment: Adjustment = described(Adjustment(), about="How the network of levels is adjusted")
    touches: tuple[Touch, ...] = described((), about="Places rubbed down or filled up since")
