"""When a bed can be walked on, tiled, grouted and driven over, and how long a batch can be worked.

A bed's waiting starts when its last section was placed. Where nothing is placed yet, it is reckoned as if placed at
the first moment with a temperature, and no date is given. A prediction is not a test, and says so; a milestone is
ticked by a person who looked, never by a figure.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import get_args

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cure import AgeCurve, moment_from_time
from evenbed.engine.document.fields import described, time
from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay, Method, Milestone, TemperatureLog, Tick
from evenbed.engine.waiting.hardening import (
    Hardening,
    hardening_from,
    maturity_from,
    offset_of,
    rate_from,
    time_after,
)
from evenbed.engine.waiting.series import Warmth
from evenbed.engine.waiting.shapes import Ticked
from evenbed.engine.waiting.windows import BedKind

COLDEST_WORK_C, HOTTEST_WORK_C = 10.0, 38.0  # usual work range, from memory
FREEZING_C = 0.0
LONGEST_WAIT_H = 10 * 365.25 * 24  # beyond ten years no moment is named
MILESTONES: tuple[Milestone, ...] = get_args(Milestone)

BASES: dict[str, str] = {
    "tile_on_cured_bed": (
        "At least {age_h:g} h at {temperature:g} °C or more: ANSI A108.1B (from memory). "
        "An older bulletin asks 24 h at 70 °F."
    ),
    "common_practice": "{age_h:g} h at {temperature:g} °C: common practice, no source.",
    "room": "{age_h:g} h at {temperature:g} °C, as set in this room.",
}
REASONS: dict[str, str] = {
    "not_placed": "Nothing is placed yet: the hours count from placing.",
    "not_within": "Not within ten years at these temperatures.",
    "below_datum": "What it needs is told at a temperature at or below the datum, where the factor gathers nothing.",
}


@dataclass(frozen=True)
class Need:
    """What a milestone waits for: `age_h` hours at `temperature_c`, and the code of what that rests on."""

    age_h: float
    temperature_c: float
    basis: str


DEFAULT_NEEDS: dict[Milestone, Need] = {
    "walk": Need(12.0, 20.0, "common_practice"),
    "tile": Need(20.0, 21.0, "tile_on_cured_bed"),
    "grout": Need(48.0, 20.0, "common_practice"),
    "light_traffic": Need(72.0, 20.0, "common_practice"),
    "heavy_traffic": Need(168.0, 20.0, "common_practice"),
}


@dataclass(frozen=True)
class ReadinessRow:
    """One milestone: when, and on what grounds."""

    milestone: Milestone = described(about="What waits")
    at: str | None = time(about="When the need is met; null where nothing is placed or it is never met")
    after_h: float | None = described(about="Hours after placing; null where it is never met", unit="h")
    early: str | None = time(about="The early end of the window: from here on somebody may try it")
    late: str | None = time(about="The late end of the window: by here it should be ready")
    early_after_h: float | None = described(about="Hours after placing, early; null where it is never met", unit="h")
    late_after_h: float | None = described(about="Hours after placing, late; null where it is never met", unit="h")
    method: Method = described(about="Which maturity method it is told by")
    equivalent_age: float = described(about="Equivalent age at the last measured moment", unit="h")
    needs: float = described(about="Equivalent age needed, at the reference temperature", unit="h")
    factor: float | None = described(
        about="Temperature-time factor at the last measured moment; null unless it is told by that", unit="Cel.h"
    )
    needs_factor: float | None = described(
        about="Temperature-time factor needed; null unless it is told by that", unit="Cel.h"
    )
    basis: str = described(about="What the need rests on, in English")
    code: str = described(about="Code of `basis`, from a closed set")
    values: dict[str, float | str] = described(about="The figures in `basis`, by name")
    forecast: bool = described(about="True where it rests on forecast or assumed temperatures")
    reason: str | None = described(about="Why there is no moment, in English")
    reason_code: str | None = described(about="Code of `reason`, from a closed set")
    ticked: Ticked | None = described(about="Who looked and let it pass, null while nobody did")


@dataclass(frozen=True)
class WorkingTime:
    """How long a batch can be worked."""

    hours: float = described(about="Time to use a batch", unit="h")
    temperature: float = described(about="Temperature when mixing", unit="Cel")
    until: str | None = time(about="When the last batch mixed must be used; null where none is mixed")


@dataclass(frozen=True)
class Readiness:
    """The waiting of one bed. `placed_at` is when its last section was placed, None where nothing is."""

    rows: tuple[ReadinessRow, ...]
    working_time: WorkingTime
    cautions: tuple[Caution, ...]
    placed_at: str | None
    hardening: Hardening
    bed: BedKind


@dataclass(frozen=True)
class Beside:
    """What else a bed's waiting depends on: logs and days foretold, who ticked what, and the bed itself."""

    logs: Sequence[TemperatureLog] = ()
    forecast: Sequence[ForecastDay] = ()
    ticks: Sequence[Tick] = ()
    bed: BedKind = BedKind()


NOTHING_BESIDE = Beside()


def readiness_from(
    curing: Curing,
    climate: Sequence[ClimateRow],
    placements: Sequence[Placement],
    batches: Sequence[MixedBatch] = (),
    beside: Beside = NOTHING_BESIDE,
) -> Readiness:
    """When the milestones are met, from measured and forecast temperatures.

    A bed that is placed counts from its last `placed_at`. `equivalent_age` is what it had gathered at the last
    measured moment (0 where nothing was measured since placing, or nothing is placed). Without any temperature the
    assumed one holds. Where one milestone is given two needs, the last counts; of two ticks the later one. Raises
    BadDocumentError for temperatures that contradict each other.
    """
    last = last_placed(placements)
    placed = [moment_from_time(one.placed_at) for one in placements if one.placed_at is not None]
    hardening = hardening_from(curing, Warmth(climate, beside.logs, beside.forecast), placed)
    needs, ticked = needs_from(curing), ticked_from(beside.ticks, hardening)
    rows = tuple(_row(milestone, needs[milestone], hardening, beside.bed, ticked) for milestone in MILESTONES)
    mixings = [*(one.mixed_at for one in placements), *(one.mixed_at for one in batches)]
    working = _working_time(curing, mixings, hardening)
    cautions = _cautions(curing, hardening, rows)
    return Readiness(rows, working, cautions, None if last is None else last.placed_at, hardening, beside.bed)


def last_placed(placements: Sequence[Placement]) -> Placement | None:
    """The entry that was in place last; None where nothing is placed."""
    placed = [(moment_from_time(p.placed_at), i) for i, p in enumerate(placements) if p.placed_at is not None]
    return placements[max(placed)[1]] if placed else None


def needs_from(curing: Curing) -> dict[Milestone, Need]:
    """What each milestone waits for, the room's own needs in place of the usual ones."""
    changed = {m.milestone: Need(m.needs, curing.reference, "room") for m in curing.milestones}
    return DEFAULT_NEEDS | changed


def ticked_from(ticks: Sequence[Tick], hardening: Hardening) -> dict[Milestone, Ticked]:
    """Who let which milestone pass: of several the last, none from before the bed was placed."""
    rising = sorted(ticks, key=lambda tick: moment_from_time(tick.at))
    return {
        tick.milestone: Ticked(tick.at, tick.by, tick.how)
        for tick in rising
        if not hardening.is_placed or moment_from_time(tick.at) >= hardening.zero
    }


def _row(
    milestone: Milestone, need: Need, hardening: Hardening, bed: BedKind, ticked: dict[Milestone, Ticked]
) -> ReadinessRow:
    curing, curves = hardening.curing, hardening.curves
    is_factor = curing.method == "temperature_time"
    amount = need.age_h * maturity_from(curing).at(need.temperature_c)
    is_told = amount > 0.0 or need.age_h == 0.0
    hour = _hour_of(curves.likely, amount) if is_told else None
    early = _hour_of(curves.early, amount * curing.early) if is_told else None
    late = _hour_of(curves.late, amount * bed.late_share(curing.late)) if is_told else None
    at = None if hour is None else hardening.time_at(hour)
    reason = (
        None if hardening.is_placed and at else "not_placed" if at else "not_within" if is_told else "below_datum"
    )
    values: dict[str, float | str] = {"age_h": need.age_h, "temperature": need.temperature_c}
    measured_until = hardening.measured_until
    return ReadinessRow(
        milestone=milestone,
        at=at if hardening.is_placed else None,
        after_h=hour if at else None,
        early=_time_of(early, hardening),
        late=_time_of(late, hardening),
        early_after_h=early,
        late_after_h=late,
        method=curing.method,
        equivalent_age=_so_far(hardening.ages, hardening),
        needs=need.age_h * rate_from(curing).at(need.temperature_c),
        factor=_so_far(curves.likely, hardening) if is_factor else None,
        needs_factor=amount if is_factor else None,
        basis=BASES[need.basis].format(**values),
        code=need.basis,
        values=values,
        forecast=measured_until is None or hour is None or hour > measured_until,
        reason=reason and REASONS[reason],
        reason_code=reason,
        ticked=ticked.get(milestone),
    )


def _hour_of(curve: AgeCurve, amount: float) -> float | None:
    """The hour at which so much is gathered, None where that takes longer than any moment is named for."""
    hour = curve.hour_at(amount)
    return hour if hour <= LONGEST_WAIT_H else None


def _time_of(hour: float | None, hardening: Hardening) -> str | None:
    return None if hour is None or not hardening.is_placed else hardening.time_at(hour)


def _so_far(curve: AgeCurve, hardening: Hardening) -> float:
    return curve.age_at(hardening.measured_until or 0.0) if hardening.is_placed else 0.0


def _working_time(curing: Curing, mixings: Iterable[str | None], hardening: Hardening) -> WorkingTime:
    """The working time at the temperature of the last mixing, or at the last measured one where nothing is mixed."""
    mixed = [moment_from_time(at) for at in mixings if at is not None]
    last = max(mixed, default=None)
    hour = (hardening.measured_until or 0.0) if last is None else hardening.hour(last)
    temperature_c = hardening.temperatures.at(hour)
    hours = working_hours(curing, temperature_c)
    until = None if last is None else time_after(last, hours, offset_of(last))
    return WorkingTime(hours, temperature_c, until)


def working_hours(curing: Curing, temperature_c: float) -> float:
    """How long a batch mixed at a temperature can be worked, h: longer where it hardens more slowly."""
    return curing.working_time / rate_from(curing).at(temperature_c)


def _cautions(curing: Curing, hardening: Hardening, rows: Sequence[ReadinessRow]) -> tuple[Caution, ...]:
    lowest, highest = _extremes(hardening, next(row.after_h for row in rows if row.milestone == "tile"))
    found = [caution_at("readiness", "prediction")]
    if hardening.known is None:
        found.append(caution_at("readiness", "temperature_assumed", assumed=curing.assumed))
    if lowest <= FREEZING_C:
        code = "frost_placed" if hardening.is_placed else "frost"
        found.append(caution_at("readiness", code, lowest=lowest))
    elif lowest < COLDEST_WORK_C:
        found.append(caution_at("readiness", "cold", lowest=lowest, limit=COLDEST_WORK_C))
    if highest > HOTTEST_WORK_C:
        found.append(caution_at("readiness", "heat", highest=highest, limit=HOTTEST_WORK_C))
    return tuple(found)


def _extremes(hardening: Hardening, hardened: float | None) -> tuple[float, float]:
    """Lowest and highest °C from the first placing until the bed takes tile, or for good where it never does."""
    last = hardening.temperatures.hours[-1] if hardened is None else hardened
    celsius = [c for _, c in hardening.temperatures.between(hardening.fresh_from, max(0.0, last))]
    return min(celsius), max(celsius)
