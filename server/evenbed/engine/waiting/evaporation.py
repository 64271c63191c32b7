"""How fast water dries off a fresh bed, from the temperatures of bed and air, humidity and wind."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import pow as power

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.waiting import ClimateRow, ForecastDay
from evenbed.engine.waiting.hardening import Hardening
from evenbed.engine.waiting.shapes import EvaporationLevel, EvaporationRow

THRESHOLD = 1.0  # kg/(m²·h): above it precautions are taken (as read)
WATCHED = 0.5  # of the threshold: from there on real rates may pass it
EITHER_WAY = 0.4  # measured rates differ by so much from the formula (Hover 2020, as read)


@dataclass(frozen=True)
class Weather:
    """One moment at which humidity (%) and wind (km/h) are known beside the temperatures, °C; hours from placing."""

    at: str
    hour: float
    bed: float
    air: float
    humidity: float
    wind: float
    forecast: bool


def evaporation_rate(bed_c: float, air_c: float, humidity: float, wind_km_h: float) -> float:
    """Evaporation in kg/(m²·h) off a wet surface at `bed_c` °C under air of `air_c` °C and `humidity` %.

    0 where moisture would settle instead of dry. The form is fitted to temperatures above −18 °C, below it counts as
    −18. Source: Uno, ACI Materials Journal, 1998, metric form, as quoted.
    """
    bed, air = max(0.0, bed_c + 18.0), max(0.0, air_c + 18.0)
    return max(0.0, 5.0 * (power(bed, 2.5) - humidity / 100.0 * power(air, 2.5)) * (wind_km_h + 4.0) * 1e-6)


def weather_from(
    climate: Sequence[ClimateRow], forecast: Sequence[ForecastDay], hardening: Hardening
) -> tuple[Weather, ...]:
    """Every moment with humidity and wind, in order of time; of days foretold the warmest moment.

    Where the bed's temperature was not measured then, its course of temperature tells it; where the air's was not,
    the bed's stands for it.
    """
    found = [*_typed(climate, hardening), *_foretold(forecast, hardening)]
    return tuple(sorted(found, key=lambda weather: weather.hour))


def _typed(climate: Sequence[ClimateRow], hardening: Hardening) -> Iterator[Weather]:
    for row in climate:
        if row.humidity is not None and row.wind is not None:
            hour = hardening.hour(moment_from_time(row.at))
            bed = hardening.temperatures.at(hour) if row.bed is None else row.bed
            air = bed if row.air is None else row.air
            yield Weather(row.at, hour, bed, air, row.humidity, row.wind, row.forecast)


def _foretold(forecast: Sequence[ForecastDay], hardening: Hardening) -> Iterator[Weather]:
    for day in forecast:
        if day.humidity is not None and day.wind is not None:
            hour = hardening.hour(moment_from_time(day.high_at))
            bed = hardening.temperatures.at(hour)
            yield Weather(day.high_at, hour, bed, day.high, day.humidity, day.wind, forecast=True)


def evaporation_rows(weather: Sequence[Weather]) -> tuple[EvaporationRow, ...]:
    """The rate at each moment, and how far it may be off."""
    return tuple(_row(one) for one in weather)


def _row(one: Weather) -> EvaporationRow:
    rate = evaporation_rate(one.bed, one.air, one.humidity, one.wind)
    low, high = rate * (1.0 - EITHER_WAY), rate * (1.0 + EITHER_WAY)
    return EvaporationRow(one.at, rate, low, high, level_of(rate), one.forecast)


def level_of(rate: float) -> EvaporationLevel:
    """How a rate stands to the threshold."""
    if rate > THRESHOLD:
        return "act"
    return "watch" if rate >= WATCHED * THRESHOLD else "low"
