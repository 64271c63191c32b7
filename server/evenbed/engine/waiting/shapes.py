"""What is answered about the waiting."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.cautions import Caution
from evenbed.engine.document.fields import described, length, time
from evenbed.engine.document.room import Document
from evenbed.engine.document.waiting import LoggedWhere, Method, Milestone, TickHow, TileWhen
from evenbed.engine.identity import Identity
from evenbed.engine.problems import Problem
from evenbed.engine.sources import Explanation

EvaporationLevel = Literal["low", "watch", "act"]
"""`watch` from half the threshold on, `act` beyond it."""
LogUnit = Literal["celsius", "fahrenheit"]
LogUnitReason = Literal["chosen", "header", "sign", "size"]
OffsetReason = Literal["chosen", "header", "times"]
LogOrder = Literal["rising", "falling", "mixed"]
SpellKind = Literal["frost", "cold", "heat", "evaporation", "wind"]


@dataclass(frozen=True)
class Ticked:
    """Who let a milestone pass, when, and how they looked."""

    at: str = time(about="When")
    by: str = described(about="Who")
    how: TickHow = described(about="How they looked")


@dataclass(frozen=True)
class EvaporationRow:
    """How fast a wet surface dries at one moment (Uno 1998); real rates differ by 40 % either way (Hover 2020)."""

    at: str = time(about="When")
    rate: float = described(about="Evaporation", unit="kg/(m2.h)")
    low: float = described(about="40 % less", unit="kg/(m2.h)")
    high: float = described(about="40 % more", unit="kg/(m2.h)")
    level: EvaporationLevel = described(about="Against the threshold of 1 kg/(m²·h)")
    forecast: bool = described(about="True where it is foretold")


@dataclass(frozen=True)
class Spell:
    """A stretch of weather that harms the bed while it hardens."""

    kind: SpellKind = described(about="What")
    start: str = described(about="From", is_time=True, key="from")
    end: str = described(about="To", is_time=True, key="to")
    worst: float = described(about="Its worst: °C, kg/(m²·h) or km/h")
    forecast: bool = described(about="True where some of it is foretold")


@dataclass(frozen=True)
class Drying:
    """How long the bed takes to dry for a covering that minds moisture: a band, never a date; a test decides."""

    thickness: float = length(about="Thickest bed")
    early_days: float = described(about="The short end of the band", unit="d")
    late_days: float = described(about="The long end of the band", unit="d")
    early: str | None = time(about="The short end, counted from placing; null where nothing is placed")
    late: str | None = time(about="The long end, counted from placing; null where nothing is placed")
    knees: tuple[float, ...] = length(about="Thicknesses beyond which drying slows down: sources differ")


@dataclass(frozen=True)
class TileWindow:
    """When tile can be set: on the fresh bed the same day, or when it has hardened."""

    chosen: TileWhen | None = described(about="What somebody chose, null where nobody did")
    fresh_from: str | None = time(about="The same day: when the first section was in place; null where none is")
    fresh_until: str | None = time(about="Until then the first section takes tile, and so the whole bed")
    fresh_hours: float = described(about="How long the first section takes tile at these temperatures", unit="h")
    last_from: str | None = time(about="When the last section was in place; null where none is")
    last_until: str | None = time(about="Until then the last section takes tile")
    hardened_from: str | None = time(about="Hardened, early; null where nothing is placed or it is never met")
    hardened_likely: str | None = time(about="Hardened, likely")


@dataclass(frozen=True)
class CurvePoint:
    """One moment of the waiting, to be drawn."""

    at: str = time(about="When")
    hours: float = described(about="After placing; after the first temperature where nothing is placed", unit="h")
    celsius: float = described(about="Temperature", unit="Cel")
    age: float = described(about="Equivalent age gathered", unit="h")
    factor: float = described(about="Temperature-time factor gathered", unit="Cel.h")
    measured: bool = described(about="False where it is foretold or assumed")


@dataclass(frozen=True)
class WaitingQuestion:
    """A room, and what time it is."""

    document: Document = described(about="The room document")
    now: str = time(about="The moment that is asked about")


@dataclass(frozen=True)
class Countdown:
    """One milestone at a moment."""

    milestone: Milestone = described(about="What waits")
    early: str | None = time(about="Early")
    likely: str | None = time(about="Likely")
    late: str | None = time(about="Late")
    hours_left: float | None = described(about="Until likely, negative once past; null without a time", unit="h")
    share: float | None = described(
        about="Of what is needed, gathered so far, at most 1; null where nothing is placed"
    )
    ticked: Ticked | None = described(about="Who let it pass, null where nobody did")
    state: Literal["not_placed", "waiting", "may_be_ready", "should_be_ready", "ticked", "never"] = described(
        about="`may_be_ready` from early on, `should_be_ready` after late: somebody must look; `ticked` once they did"
    )


@dataclass(frozen=True)
class WaitingAnswer:
    """How the waiting stands at a moment."""

    engine: Identity = described(about="Which engine computed it")
    method: Method = described(about="Which maturity method the milestones are told by")
    now: str = time(about="The moment that was asked about")
    placed_at: str | None = time(about="When the last section was placed, null where nothing is")
    celsius_now: float | None = described(about="Temperature now; null where nothing is known of it", unit="Cel")
    age_now: float | None = described(about="Equivalent age now; null where nothing is placed", unit="h")
    factor_now: float | None = described(about="Temperature-time factor now", unit="Cel.h")
    countdown: tuple[Countdown, ...] = described(about="Every milestone")
    tile: TileWindow = described(about="When tile can be set")
    evaporation: tuple[EvaporationRow, ...] = described(about="Where humidity and wind are known")
    spells: tuple[Spell, ...] = described(about="Weather that harms the bed while it hardens, in order of time")
    drying: Drying | None = described(about="Null where there is no bed, or the covering does not mind moisture")
    curve: tuple[CurvePoint, ...] = described(about="From placing until the last milestone, thinned to be drawn")
    cautions: tuple[Caution, ...] = described(about="What can hurt a person or spoil the bed")
    notices: tuple[Problem, ...] = described(about="Entries left out, and why")
    explanations: dict[str, Explanation] = described(about="What stands behind a figure, by its path in this answer")


@dataclass(frozen=True)
class LogInQuestion:
    """What a logger wrote, as text: a table with a column of times and one or more of temperatures."""

    text: str = described(about="The whole file", longest=8_000_000)
    offset_minutes: int = described(
        0, about="Offset from UTC of times without one, where the file begins, minutes", low=-1_440, high=1_440
    )
    day_first: bool | None = described(None, about="01/02 is 1 February; null: told from the file if it can be")
    year_first: bool | None = described(None, about="01/02/03 is of 2001; null: told from the file if it can be")
    unit: LogUnit | None = described(None, about="Null: told from the header, or guessed")
    time_column: int | None = described(None, about="Counted from 0; null: found", low=0, high=199)
    temperature_column: int | None = described(None, about="Counted from 0; null: found", low=0, high=199)
    where: LoggedWhere = described("bed", about="Where the logger lay")


@dataclass(frozen=True)
class LogInAnswer:
    """How the file was read, and what it says. With any problem there are no rows."""

    start: str | None = time(about="The first moment, null where there is none")
    seconds: tuple[float, ...] = described(about="After the start, rising", unit="s")
    celsius: tuple[float, ...] = described(about="At each of those", unit="Cel")
    where: LoggedWhere = described(about="Where the logger lay")
    unit: LogUnit = described(about="As the file was read")
    unit_reason: LogUnitReason = described(about="Why that unit")
    day_first: bool = described(about="As the file was read")
    year_first: bool = described(about="As the file was read: of a date's three numbers the first is the year")
    day_doubtful: bool = described(about="True where days, months or years could be the other way round")
    time_column: int | None = described(about="Which column the times are from")
    temperature_column: int | None = described(about="Which column the temperatures are from")
    time_doubtful: bool = described(about="True where another column holds other times")
    temperature_doubtful: bool = described(about="True where other columns may hold the temperatures as well")
    offset_minutes: int = described(about="Offset from UTC as the file was read, where it begins, minutes")
    offset_reason: OffsetReason = described(about="Why: as asked, named in the header, or in every time itself")
    order: LogOrder = described(about="How the lines stood; they are put in order of time")
    clock_set_by: int = described(about="By how many minutes the clock was set in the file: -60, 0 or 60")
    clock_set_line: int | None = described(about="The first line after the clock was set, null where it was not")
    names: tuple[str, ...] = described(about="The header's words, empty without one")
    first_rows: tuple[tuple[str, ...], ...] = described(about="The first lines as they stand, cell by cell")
    row_count: int = described(about="Lines with a time")
    missing: int = described(about="Lines without a temperature, left out")
    doubled: int = described(about="Lines that repeat a moment with the same temperature, left out")
    passed_over: int = described(about="Lines at the end that are no rows, left out: a summary, or a row cut off")
    lowest: float | None = described(about="Coldest", unit="Cel")
    highest: float | None = described(about="Warmest", unit="Cel")
    problems: tuple[Problem, ...] = described(about="Everything wrong, line by line, up to a limit")
    problem_count: int = described(about="How many problems there are in all")
