"""Moments that a logger writes as one number: seconds since 1970, or days as spreadsheets count them."""

import re

DAY_S = 86_400.0
FEWEST_EPOCH, MOST_EPOCH = (
    1e9,
    4e9,
)  # seconds since 1970, from 2001 to 2096; a thousand times as many are milliseconds
SERIAL_1970 = 25_569  # days from 30 December 1899, which spreadsheets count from, to 1970

_EPOCH = re.compile(r"\d{9,13}(?:\.\d{1,9})?")
_SERIAL = re.compile(r"[34567]\d{4}(?:[.,]\d{1,12})?")
_FINE_SERIAL = re.compile(r"[34567]\d{4}[.,]\d{4,12}")
_DIGITS = re.compile(r"(?:[2-4]\d(?:0[1-9]|1[0-2])\d\d|\d\d(?:0[1-9]|1[0-2])[2-4]\d)(?:[01]\d|2[0-3])[0-5]\d")


def epoch_seconds(text: str) -> float | None:
    """Seconds since 1970 in a cell of seconds or of milliseconds; None where it is neither."""
    if _EPOCH.fullmatch(text) is None:
        return None
    value = float(text)
    value = value / 1000.0 if value > MOST_EPOCH else value
    return value if FEWEST_EPOCH <= value <= MOST_EPOCH else None


def serial_seconds(text: str) -> float | None:
    """Seconds since 1970, to the nearest, in a cell of a spreadsheet's days (1982 to 2119); None for any other."""
    if _SERIAL.fullmatch(text) is None:
        return None
    return float(round((float(text.replace(",", ".")) - SERIAL_1970) * DAY_S))


def is_fine_serial(text: str) -> bool:
    """True for a spreadsheet's day with decimals enough to tell the time of day to ten seconds."""
    return _FINE_SERIAL.fullmatch(text) is not None


def is_clock_in_digits(text: str) -> bool:
    """True for ten digits that may be year, month, day, hour and minute in some order, and no count of seconds."""
    return _DIGITS.fullmatch(text) is not None
