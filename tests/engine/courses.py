"""Logs, days foretold and the course of the temperature out of them, for the tests that look at it."""

from datetime import datetime, timedelta, timezone

from evenbed.engine.cure import Temperatures
from evenbed.engine.document.waiting import Curing, ForecastDay, LoggedWhere, TemperatureLog
from evenbed.engine.waiting.series import Warmth

CENTRAL = timezone(timedelta(hours=-5))
ZERO = datetime(2026, 5, 4, 5, 0, tzinfo=CENTRAL)


def at(hours: float) -> str:
    return (ZERO + timedelta(hours=hours)).isoformat()


def day(low: float, high: float, low_h: float = 0.0, high_h: float = 9.0) -> ForecastDay:
    return ForecastDay(low, high, at(low_h), at(high_h))


def log(hours: list[float], celsius: list[float], where: LoggedWhere = "bed") -> TemperatureLog:
    return TemperatureLog(at(0.0), tuple(3600.0 * h for h in hours), tuple(celsius), where)


def course(curing: Curing, warmth: Warmth) -> Temperatures:
    found = warmth.temperatures(curing, ZERO)
    assert found is not None
    return found
