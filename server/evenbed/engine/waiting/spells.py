"""Stretches of weather that harm a bed while it hardens: frost, cold, heat, fast drying, wind."""

from collections.abc import Callable, Iterator, Sequence
from itertools import groupby, pairwise

from evenbed.engine.cure import moment_from_time
from evenbed.engine.readiness import COLDEST_WORK_C, FREEZING_C, HOTTEST_WORK_C
from evenbed.engine.waiting.evaporation import THRESHOLD, Weather, evaporation_rate
from evenbed.engine.waiting.hardening import Hardening
from evenbed.engine.waiting.shapes import Spell, SpellKind

WINDY = 25.0  # km/h: from here on covers want weighing down; common practice, no source

_Stretch = tuple[float, float, float]  # from, to, h, and how far beyond the limit at its worst


def spells_from(
    hardening: Hardening, weather: Sequence[Weather], until: float, foretold: Sequence[tuple[float, float]] = ()
) -> tuple[Spell, ...]:
    """Every harmful stretch from the first placing until an hour, in order of time.

    Frost is 0 °C and less, cold is below the work range, heat above it, all along the course of the temperature; fast
    drying and wind go from the first to the last of the moments in a row at which they were told. `foretold` are lows
    and highs as they were told, hour and °C: where a forecast is lifted to meet what was measured, its frost is told
    all the same.
    """
    found = [
        *_by_temperature(hardening, until, "frost", lambda celsius: FREEZING_C - celsius, FREEZING_C, touches=True),
        *_by_temperature(hardening, until, "cold", lambda celsius: COLDEST_WORK_C - celsius, COLDEST_WORK_C),
        *_by_temperature(hardening, until, "heat", lambda celsius: celsius - HOTTEST_WORK_C, HOTTEST_WORK_C),
        *_by_weather(hardening, weather, until, "evaporation", _rate, lambda rate: rate > THRESHOLD),
        *_by_weather(hardening, weather, until, "wind", lambda one: one.wind, lambda wind: wind >= WINDY),
    ]
    found += _frost_as_told(hardening, foretold, until, [spell for _, spell in found if spell.kind == "frost"])
    return tuple(spell for _, spell in sorted(found, key=lambda one: one[0]))


def _frost_as_told(
    hardening: Hardening, foretold: Sequence[tuple[float, float]], until: float, known: Sequence[Spell]
) -> Iterator[tuple[float, Spell]]:
    start = max(hardening.fresh_from, hardening.measured_until or hardening.fresh_from)
    told = {(spell.start, spell.end) for spell in known}
    for hour, celsius in foretold:
        at = hardening.time_at(hour)
        if at is None or celsius > FREEZING_C or not start < hour <= until:
            continue
        moment = moment_from_time(at)
        if not any(moment_from_time(begin) <= moment <= moment_from_time(end) for begin, end in told):
            yield from _spell(hardening, "frost", (hour, hour, celsius), True)


def _rate(one: Weather) -> float:
    return evaporation_rate(one.bed, one.air, one.humidity, one.wind)


def _by_temperature(
    hardening: Hardening,
    until: float,
    kind: SpellKind,
    beyond: Callable[[float], float],
    limit: float,
    *,
    touches: bool = False,
) -> Iterator[tuple[float, Spell]]:
    course = hardening.temperatures.between(hardening.fresh_from, max(0.0, until))
    if max(beyond(celsius) for _, celsius in (min(course, key=_celsius), max(course, key=_celsius))) < 0.0:
        return
    points = [(hour, beyond(celsius)) for hour, celsius in course]
    measured_until = hardening.measured_until
    for start, end, by in stretches_from(points, touches=touches):
        is_foretold = measured_until is None or end > measured_until
        worst = limit + by if kind == "heat" else limit - by
        yield from _spell(hardening, kind, (start, end, worst), is_foretold)


def _celsius(point: tuple[float, float]) -> float:
    return point[1]


def stretches_from(points: Sequence[tuple[float, float]], *, touches: bool = False) -> list[_Stretch]:
    """Where a line through points (hour, how far beyond) lies above zero; `touches` counts zero itself too."""
    found: list[_Stretch] = []
    for (start, one), (end, other) in pairwise(points):
        highest = max(one, other)
        if highest > 0.0 or (touches and highest == 0.0):
            rise = other - one
            begins = start if one >= 0.0 else start - one / rise * (end - start)
            ends = end if other >= 0.0 else start - one / rise * (end - start)
            if found and found[-1][1] >= begins:
                begins, _, before = found.pop()
                highest = max(highest, before)
            found.append((begins, ends, highest))
    return found


def _by_weather(
    hardening: Hardening,
    weather: Sequence[Weather],
    until: float,
    kind: SpellKind,
    value: Callable[[Weather], float],
    is_harmful: Callable[[float], bool],
) -> Iterator[tuple[float, Spell]]:
    within = [one for one in weather if hardening.fresh_from <= one.hour <= until]
    for harmful, run in groupby(within, key=lambda one: is_harmful(value(one))):
        if harmful:
            ones = list(run)
            worst = max(value(one) for one in ones)
            yield from _spell(hardening, kind, (ones[0].hour, ones[-1].hour, worst), any(o.forecast for o in ones))


def _spell(hardening: Hardening, kind: SpellKind, stretch: _Stretch, forecast: bool) -> Iterator[tuple[float, Spell]]:
    start, end = hardening.time_at(stretch[0]), hardening.time_at(stretch[1])
    if start is not None and end is not None:
        yield stretch[0], Spell(kind, start, end, stretch[2], forecast)
