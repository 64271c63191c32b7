"""What the levels come to: heights of readings, set-ups and marks, and how well they fit together."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.problems import Problem


@dataclass(frozen=True)
class ReadHeight:
    """One reading's height."""

    reading: str = described(about="The reading's id")
    at: Point | None = height(about="Where, null for a mark")
    z: float | None = height(about="Height above the benchmark, null where nothing ties the set-up to it")
    residual: float | None = height(about="Read less adjusted, null where nothing checks the reading")
    sigma: float | None = length(about="Standard error of the height, null without a height")
    standardised: float | None = described(
        about="Residual over its own standard error as the instrument's foretells it, null where nothing checks it"
    )
    correction: float = height(about="The instrument's error that was taken off the reading")


@dataclass(frozen=True)
class SetupHeight:
    """One set-up's level line."""

    id: str = described(about="The set-up's id")
    line_height: float | None = height(about="z of its level line, null where nothing ties it to the benchmark")
    sigma: float | None = length(about="Standard error of that height, null without one")


@dataclass(frozen=True)
class MarkHeight:
    """One mark's height."""

    id: str = described(about="The mark's id")
    z: float | None = height(about="Height, known or found, null where nothing ties it to the benchmark")
    sigma: float | None = length(about="Standard error, 0 for a benchmark, null without a height")


@dataclass(frozen=True)
class DifferenceFit:
    """How a levelled difference fits the adjusted heights."""

    id: str = described(about="The difference's id")
    residual: float | None = height(about="Measured less adjusted, null where nothing checks it")
    standardised: float | None = described(
        about="Residual over its own standard error as the measurements' foretell it, null where nothing checks it"
    )


@dataclass(frozen=True)
class LevelMisclosure:
    """What a loop misses by: a mark's or place's height by way of one set-up, less its height by another."""

    mark: str = described(about="The mark, empty for a re-read place")
    at: Point | None = height(about="The re-read place, null for a mark")
    by: float = height(about="How much")
    setups: tuple[str, ...] = described(about="The set-ups and differences of the loop, from the first to the last")


@dataclass(frozen=True)
class InstrumentError:
    """What a test of an instrument found."""

    check: str = described(about="The check's id")
    instrument: str = described(about="Which instrument")
    tilt: float | None = described(about="How much its line rises, null where the test does not tell", unit="mm/m")
    offset: float | None = height(about="What its rod reads too much, null where the test does not tell")
    readings: int = described(about="How many readings it was taken off")


@dataclass(frozen=True)
class Untied:
    """A set-up that nothing ties to the benchmark; its readings have no height."""

    setup: str = described(about="The set-up's id")
    readings: int = described(about="How many readings wait for the tie")


@dataclass(frozen=True)
class Levels:
    """Heights of everything read, in the order of the readings; `datum` says what z = 0 is.

    `sigma0` is how much more the measurements differ from each other than was foretold, None where nothing is
    checked. `spots` are the subfloor's read places, each once: the place and its height → the id of the reading.
    """

    heights: tuple[ReadHeight, ...]
    setups: tuple[SetupHeight, ...]
    marks: tuple[MarkHeight, ...]
    sigma0: float | None
    datum: str
    redundancy: int
    differences: tuple[DifferenceFit, ...]
    misclosures: tuple[LevelMisclosure, ...]
    instruments: tuple[InstrumentError, ...]
    untied: tuple[Untied, ...]
    notices: tuple[Problem, ...]
    spots: dict[Point3, str]
