"""When a bed can be walked on, tiled, grouted and driven over, and how long a batch can be worked.

A bed's waiting starts when its last section was placed. Where nothing is placed yet, it is reckoned as if placed at
the first row of the climate, and no date is given. A prediction is not a test, and says so.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo
from typing import get_args

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cure import HOUR, AgeCurve, Rate, Temperatures, moment_from_time, temperatures_from_climate
from evenbed.engine.document.fields import described, time
from evenbed.engine.document.filling import MixedBatch, Placement
from evenbed.engine.document.waiting import ClimateRow, Curing, Milestone
from evenbed.engine.sources import Explanation, explanation_of

LONGEST_WAIT_H = 10 * 365.25 * 24  # beyond ten years no moment is named
COLDEST_WORK_C, HOTTEST_WORK_C = 10.0, 38.0  # usual work range, from memory
FREEZING_C = 0.0
NO_ZERO = datetime(2000, 1, 1, tzinfo=UTC)  # hours have to count from somewhere where nothing has a time
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
}
_FORMULA = {
    "tile_on_cured_bed": "readiness_tile",
    "common_practice": "readiness_practice",
    "room": "readiness_room",
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
    equivalent_age: float = described(about="Equivalent age at the last measured moment", unit="h")
    needs: float = described(about="Equivalent age needed, at the reference temperature", unit="h")
    basis: str = described(about="What the need rests on, in English")
    code: str = described(about="Code of `basis`, from a closed set")
    values: dict[str, float | str] = described(about="The figures in `basis`, by name")
    forecast: bool = described(about="True where it rests on forecast or assumed temperatures")
    reason: str | None = described(about="Why there is no moment, in English")
    reason_code: str | None = described(about="Code of `reason`, from a closed set")


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


@dataclass(frozen=True)
class _Waiting:
    """Everything the milestones are read from; hours count from `zero`, the placing."""

    zero: datetime
    is_placed: bool
    temperatures: Temperatures
    is_assumed: bool
    curve: AgeCurve
    age_so_far: float
    offsets: tuple[tuple[float, tzinfo], ...]


def readiness_from(
    curing: Curing,
    climate: Sequence[ClimateRow],
    placements: Sequence[Placement],
    batches: Sequence[MixedBatch] = (),
) -> Readiness:
    """When the milestones are met, from measured and forecast temperatures.

    A bed that is placed counts from its last `placed_at`. `equivalent_age` is what it had gathered at the last
    measured moment (0 where nothing was measured since placing, or nothing is placed). Without any temperature the
    assumed one holds. Where one milestone is given two needs, the last counts. Raises BadDocumentError for
    contradictory climate rows.
    """
    last = _last_placed(placements)
    waiting = _waiting_from(curing, climate, last)
    needs = needs_from(curing)
    rows = tuple(_row(milestone, needs[milestone], curing, waiting) for milestone in MILESTONES)
    mixings = [*(one.mixed_at for one in placements), *(one.mixed_at for one in batches)]
    working = _working_time(curing, mixings, waiting)
    cautions = _cautions(curing, waiting, rows)
    return Readiness(rows, working, cautions, None if last is None else last.placed_at)


def _last_placed(placements: Sequence[Placement]) -> Placement | None:
    placed = [(moment_from_time(p.placed_at), i) for i, p in enumerate(placements) if p.placed_at is not None]
    return placements[max(placed)[1]] if placed else None


def _waiting_from(curing: Curing, climate: Sequence[ClimateRow], last: Placement | None) -> _Waiting:
    placed_at = None if last is None or last.placed_at is None else moment_from_time(last.placed_at)
    moments = [moment_from_time(row.at) for row in climate if not (row.bed is None and row.air is None)]
    zero = placed_at or min(moments, default=NO_ZERO)
    known = temperatures_from_climate(climate, zero)
    temperatures = known or Temperatures((0.0,), (curing.assumed,), None)
    curve = AgeCurve.of(temperatures, 0.0, max(0.0, temperatures.hours[-1]), rate_from(curing))
    offsets = sorted(((m - zero) / HOUR, i) for i, m in enumerate(moments))
    return _Waiting(
        zero,
        placed_at is not None,
        temperatures,
        known is None,
        curve,
        curve.age_at(temperatures.measured_until or 0.0) if placed_at else 0.0,
        tuple((hour, _offset_of(moments[i])) for hour, i in offsets),
    )


def _offset_of(moment: datetime) -> tzinfo:
    return moment.tzinfo or UTC


def rate_from(curing: Curing) -> Rate:
    """How fast this room's mortar hardens."""
    return Rate(curing.activation, curing.reference)


def needs_from(curing: Curing) -> dict[Milestone, Need]:
    """What each milestone waits for, the room's own needs in place of the usual ones."""
    changed = {m.milestone: Need(m.needs, curing.reference, "room") for m in curing.milestones}
    return DEFAULT_NEEDS | changed


def _row(milestone: Milestone, need: Need, curing: Curing, waiting: _Waiting) -> ReadinessRow:
    needs = need.age_h * rate_from(curing).at(need.temperature_c)
    hour = waiting.curve.hour_at(needs)
    at = _time_at(waiting, hour) if hour <= LONGEST_WAIT_H else None
    reason = None if waiting.is_placed and at else "not_placed" if at else "not_within"
    measured_until = waiting.temperatures.measured_until
    values: dict[str, float | str] = {"age_h": need.age_h, "temperature": need.temperature_c}
    return ReadinessRow(
        milestone=milestone,
        at=at if waiting.is_placed else None,
        after_h=hour if at else None,
        equivalent_age=waiting.age_so_far,
        needs=needs,
        basis=BASES[need.basis].format(**values),
        code=need.basis,
        values=values,
        forecast=measured_until is None or hour > measured_until,
        reason=reason and REASONS[reason],
        reason_code=reason,
    )


def _time_at(waiting: _Waiting, hour: float) -> str | None:
    """The moment `hour` hours after zero, in the offset in force there; None beyond the calendar."""
    offset = _offset_of(waiting.zero)
    for row_hour, row_offset in waiting.offsets:
        offset = row_offset if 0.0 <= row_hour <= hour else offset
    return _time_after(waiting.zero, hour, offset)


def _time_after(start: datetime, hours: float, offset: tzinfo) -> str | None:
    """ISO 8601 to the nearest second; None beyond the calendar."""
    try:
        moment = start + timedelta(seconds=round(hours * 3600.0))
        return moment.astimezone(offset).isoformat(timespec="seconds")
    except OverflowError:
        return None


def _working_time(curing: Curing, mixings: Iterable[str | None], waiting: _Waiting) -> WorkingTime:
    """The working time at the temperature of the last mixing, or at the last measured one where nothing is mixed."""
    mixed = [moment_from_time(at) for at in mixings if at is not None]
    last = max(mixed, default=None)
    hour = (waiting.temperatures.measured_until or 0.0) if last is None else (last - waiting.zero) / HOUR
    temperature_c = waiting.temperatures.at(hour)
    hours = working_hours(curing, temperature_c)
    until = None if last is None else _time_after(last, hours, _offset_of(last))
    return WorkingTime(hours, temperature_c, until)


def working_hours(curing: Curing, temperature_c: float) -> float:
    """How long a batch mixed at a temperature can be worked, h: longer where it hardens more slowly."""
    return curing.working_time / rate_from(curing).at(temperature_c)


def _cautions(curing: Curing, waiting: _Waiting, rows: Sequence[ReadinessRow]) -> tuple[Caution, ...]:
    lowest, highest = _extremes(waiting, next(row.after_h for row in rows if row.milestone == "tile"))
    found = [caution_at("readiness", "prediction")]
    if waiting.is_assumed:
        found.append(caution_at("readiness", "temperature_assumed", assumed=curing.assumed))
    if lowest <= FREEZING_C:
        found.append(caution_at("readiness", "frost", lowest=lowest))
    elif lowest < COLDEST_WORK_C:
        found.append(caution_at("readiness", "cold", lowest=lowest, limit=COLDEST_WORK_C))
    if highest > HOTTEST_WORK_C:
        found.append(caution_at("readiness", "heat", highest=highest, limit=HOTTEST_WORK_C))
    return tuple(found)


def _extremes(waiting: _Waiting, hardened: float | None) -> tuple[float, float]:
    """Lowest and highest °C from placing until the bed is hard enough for tile, or for good where it never is."""
    last = waiting.curve.points[-1][0] if hardened is None else hardened
    celsius = [c for _, c in waiting.temperatures.between(0.0, max(0.0, last))]
    return min(celsius), max(celsius)


def readiness_explanations(readiness: Readiness, curing: Curing) -> dict[str, Explanation]:
    """What stands behind each milestone and the working time, keyed by their path in the plan."""
    constants = {"activation": curing.activation, "reference": curing.reference}
    rows = {
        f"readiness[{i}]": explanation_of(_FORMULA[row.code], **constants, needs=row.needs, **row.values)
        for i, row in enumerate(readiness.rows)
    }
    ages = {
        f"readiness[{i}].equivalent_age": explanation_of("equivalent_age", **constants, age=row.equivalent_age)
        for i, row in enumerate(readiness.rows)
    }
    working = readiness.working_time
    batch = explanation_of(
        "working_time", **constants, working_time=curing.working_time, temperature=working.temperature
    )
    return rows | ages | {"working_time": batch}
