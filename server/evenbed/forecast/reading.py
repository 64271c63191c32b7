"""What a forecast service answered, as days: parsed JSON in, the fields of `forecast_day` records out.

It is read as many open forecast services write it: arrays of equal length, one value a day, local times.

- `utc_offset_seconds`: offset of the local times (0 where it is missing)
- `daily.time`: dates; `daily.temperature_2m_min` and `daily.temperature_2m_max`: °C
- `hourly.time`: local times; `hourly.temperature_2m` (°C), `hourly.relative_humidity_2m` (%) and
  `hourly.wind_speed_10m` (km/h): each may be missing. With the temperatures the coldest and the warmest hour of each
  day are known; without them it counts as coldest at 6 and warmest at 15 o'clock (common practice, no source).
- `daily_units`, `hourly_units`: where they name other units than these, nothing is read.

Days with a gap or without sense are left out. Whoever wants other names puts a small service between.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, timezone
from typing import Any

MOST_DAYS = 16
MOST_HOURS = 24 * MOST_DAYS
COLDEST, WARMEST = -60.0, 60.0
STRONGEST_WIND = 400.0
LARGEST_OFFSET_S = 14 * 3600
USUALLY_COLDEST, USUALLY_WARMEST = time(6), time(15)
LOWEST, HIGHEST = "temperature_2m_min", "temperature_2m_max"
HOURLY, HUMIDITY, WIND = "temperature_2m", "relative_humidity_2m", "wind_speed_10m"
UNITS = {LOWEST: "°C", HIGHEST: "°C", HOURLY: "°C", HUMIDITY: "%", WIND: "km/h"}


class BadForecastError(Exception):
    """The answer is not one that can be read; the message says why."""


@dataclass(frozen=True)
class Day:
    """A day foretold: °C, %, km/h."""

    low: float
    high: float
    low_at: str
    high_at: str
    humidity: float | None
    wind: float | None


@dataclass(frozen=True)
class _Hour:
    at: datetime
    celsius: float | None
    humidity: float | None
    wind: float | None


def days_from(answer: object) -> list[Day]:
    """The days foretold, in order. Raises BadForecastError where there is not one that can be read."""
    told = _object(answer, "the answer")
    daily = _object(told.get("daily"), "daily")
    _check_units(told)
    offset = _offset(told)
    dates = _column(daily, "time", MOST_DAYS)
    lows, highs = (_column(daily, name, MOST_DAYS, len(dates)) for name in (LOWEST, HIGHEST))
    hours = _hours(told.get("hourly"), offset)
    found = (_day(*row, offset, hours) for row in zip(dates, lows, highs, strict=True))
    days = sorted((day for day in found if day is not None), key=lambda day: day.high_at)
    if not days:
        raise BadForecastError("it holds no day with a lowest and a highest temperature")
    return days


def _object(value: object, what: str) -> Mapping[str, Any]:
    if not isinstance(value, dict):
        raise BadForecastError(f"{what} is not an object")
    return value


def _check_units(told: Mapping[str, Any]) -> None:
    for group in ("daily_units", "hourly_units"):
        units = told.get(group) or {}
        wrong = [name for name, unit in _object(units, group).items() if UNITS.get(name, unit) != unit]
        if wrong:
            raise BadForecastError(f"{group} names another unit than {UNITS[wrong[0]]} for {wrong[0]}")


def _offset(told: Mapping[str, Any]) -> timezone:
    seconds = told.get("utc_offset_seconds", 0)
    if isinstance(seconds, bool) or not isinstance(seconds, int) or abs(seconds) > LARGEST_OFFSET_S or seconds % 60:
        raise BadForecastError("utc_offset_seconds is no offset in whole minutes")
    return timezone(timedelta(seconds=seconds))


def _column(group: Mapping[str, Any], name: str, most: int, length: int | None = None) -> list[Any]:
    values = group.get(name)
    if not isinstance(values, list) or len(values) > most or length not in (None, len(values)):
        raise BadForecastError(f"{name} is no list of at most {most} values, as many as there are times")
    return values


def _hours(hourly: object, offset: timezone) -> list[_Hour]:
    if hourly is None:
        return []
    group = _object(hourly, "hourly")
    times = _column(group, "time", MOST_HOURS)
    empty = [None] * len(times)
    columns = [_column(group, n, MOST_HOURS, len(times)) if n in group else empty for n in (HOURLY, HUMIDITY, WIND)]
    found = (_hour(at, c, rh, wind, offset) for at, c, rh, wind in zip(times, *columns, strict=True))
    return [hour for hour in found if hour is not None]


def _hour(at: object, celsius: object, humidity: object, wind: object, offset: timezone) -> _Hour | None:
    try:
        moment = datetime.fromisoformat(at) if isinstance(at, str) else None
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is not None:
        return None
    air = _between(humidity, 0.0, 100.0), _between(wind, 0.0, STRONGEST_WIND)
    return _Hour(moment.replace(tzinfo=offset), _between(celsius, COLDEST, WARMEST), *air)


def _day(told: object, low: object, high: object, offset: timezone, hours: list[_Hour]) -> Day | None:
    try:
        day = date.fromisoformat(told) if isinstance(told, str) else None
    except ValueError:
        day = None
    least, most = _between(low, COLDEST, WARMEST), _between(high, COLDEST, WARMEST)
    if day is None or least is None or most is None or least > most:
        return None
    coldest, warmest = _extremes([hour for hour in hours if hour.at.date() == day])
    low_at = coldest.at if coldest else datetime.combine(day, USUALLY_COLDEST, offset)
    high_at = warmest.at if warmest else datetime.combine(day, USUALLY_WARMEST, offset)
    then = warmest or next((hour for hour in hours if hour.at == high_at), None)
    air = (then.humidity, then.wind) if then else (None, None)
    return Day(least, most, low_at.isoformat(timespec="seconds"), high_at.isoformat(timespec="seconds"), *air)


def _extremes(hours: list[_Hour]) -> tuple[_Hour | None, _Hour | None]:
    """The coldest and the warmest hour; None for both where the hours do not tell two."""
    told = [(hour.celsius, hour) for hour in hours if hour.celsius is not None]
    coldest, warmest = (find(told, key=lambda one: one[0], default=None) for find in (min, max))
    if coldest is None or warmest is None or coldest[1].at == warmest[1].at:
        return None, None
    return coldest[1], warmest[1]


def _between(value: object, low: float, high: float) -> float | None:
    """The number, where it is one within a range."""
    if not isinstance(value, int | float) or isinstance(value, bool):
        return None
    return float(value) if low <= value <= high else None
