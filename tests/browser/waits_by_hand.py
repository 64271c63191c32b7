"""When a bed is ready, by hand: what a logger saw and what was foretold, summed a tenth of a minute at a time."""

from datetime import datetime, timedelta

import numpy as np

FORECAST_F = [(52, 71), (50, 68), (49, 66), (51, 70), (53, 72), (50, 69), (48, 66)]
COLDEST_H, WARMEST_H = 6, 15  # of the day, as the form has them at first
MEETS_H = 12.0  # h in which a forecast that began elsewhere comes into its own, as the engine says
NEEDS = {"Walk on it": (12.0, 20.0), "Set tile": (20.0, 21.0), "Grout": (48.0, 20.0)}  # h at °C, as the screen says
LONGEST_H = 150.0
TENTH_OF_A_MINUTE_H = 1.0 / 600.0
AN_HOUR = timedelta(hours=1)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32.0) / 1.8


def forecast_at(hours: np.ndarray) -> np.ndarray:
    """°C at hours after today's midnight: half a cosine from each low to each high, the nearest one outside."""
    at = np.array([24.0 * n + hour for n in range(len(FORECAST_F)) for hour in (COLDEST_H, WARMEST_H)])
    told = np.array([celsius(fahrenheit) for day in FORECAST_F for fahrenheit in day])
    i = np.clip(np.searchsorted(at, hours, side="right") - 1, 0, len(at) - 2)
    share = np.clip((hours - at[i]) / (at[i + 1] - at[i]), 0.0, 1.0)
    return np.asarray(told[i] + (told[i + 1] - told[i]) * (1.0 - np.cos(np.pi * share)) / 2.0)


def foretold_after(last: float, measured: float, hours: np.ndarray) -> np.ndarray:
    """°C after the last measurement: straight to a forecast that begins later, else shifted to meet it."""
    if last < COLDEST_H:
        first = forecast_at(np.array([float(COLDEST_H)]))[0]
        return np.where(hours < COLDEST_H, np.interp(hours, [last, COLDEST_H], [measured, first]), forecast_at(hours))
    shift = measured - forecast_at(np.array([last]))[0]
    return np.asarray(forecast_at(hours) + shift * np.clip(1.0 - (hours - last) / MEETS_H, 0.0, None))


def rate(temperature: np.ndarray) -> np.ndarray:
    """Hours of age in an hour (ASTM C1074, Arrhenius; Q 5000 K, reference 20 °C)."""
    return np.asarray(np.exp(-5000.0 * (1.0 / (temperature + 273.15) - 1.0 / 293.15)))


def likely_by_hand(rows: list[tuple[datetime, float]], placed: datetime, midnight: datetime) -> dict[str, datetime]:
    """When each need is met, by trapezoids a tenth of a minute wide."""
    measured_h = [(at - midnight) / AN_HOUR for at, _ in rows]
    measured_c = [celsius(fahrenheit) for _, fahrenheit in rows]
    hours = (placed - midnight) / AN_HOUR + np.arange(0.0, LONGEST_H, TENTH_OF_A_MINUTE_H)
    seen = np.interp(hours, measured_h, measured_c)
    rates = rate(np.where(hours <= measured_h[-1], seen, foretold_after(measured_h[-1], measured_c[-1], hours)))
    ages = np.concatenate([[0.0], np.cumsum((rates[1:] + rates[:-1]) / 2.0) * TENTH_OF_A_MINUTE_H])
    needed = {name: age * rate(np.array([temperature]))[0] for name, (age, temperature) in NEEDS.items()}
    return {name: midnight + float(np.interp(age, ages, hours)) * AN_HOUR for name, age in needed.items()}
