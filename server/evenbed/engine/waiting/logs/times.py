"""Times as loggers write them: ISO, day or month or year first, named months, am and pm."""

import re
import unicodedata
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

KEPT = 4096  # dates and times of day that are not taken apart again: most come many times
LONGEST = 60  # characters of a cell with a time
FIRST_YEAR, LAST_YEAR = 1970, 2200
CENTURY = 2000  # of a year in two digits
EPOCH_DAY = date(1970, 1, 1).toordinal()

_DATE = (
    r"(?P<year>\d{4})[-/.](?P<month>\d{1,2})[-/.](?P<day>\d{1,2})"
    r"|(?P<first>\d{1,2})(?P<mark>[-/.])(?P<second>\d{1,2})(?P=mark)(?P<third>\d{4}|\d{2})"
    r"|(?P<nday>\d{1,2})[-/. ]?(?P<name>[^\W\d_]{3,10})\.?[-/., ](?P<nyear>\d{4}|\d{2})"
    r"|(?P<uname>[^\W\d_]{3,10})\.? (?P<uday>\d{1,2}),? (?P<uyear>\d{4})"
)
_DAY = re.compile(_DATE)
_COMPACT = re.compile(
    r"(?P<year>20\d{2})(?P<month>0[1-9]|1[0-2])(?P<day>0[1-9]|[12]\d|3[01])"
    r"(?:[T ]?(?P<hour>\d{2})(?P<minute>\d{2})(?P<second>\d{2})?(?P<zone>Z|[+\-]\d{2}:?\d{2})?)?"
)
_STAMP = re.compile(rf"(?:{_DATE})(?:(?:T|,? )\s*(?P<clock>\d.*))?")
_CLOCK = re.compile(
    r"(?P<hour>\d{1,2}):(?P<minute>\d{2})(?::(?P<second>\d{2})(?:[.,](?P<part>\d{1,9}))?)?"
    r"\s?(?P<half>[AaPp]\.?\s?[Mm]\.?)?\s?(?P<zone>Z|UTC|GMT|(?:UTC|GMT)?[+\-−]\d{1,2}(?::?\d{2})?)?"
)
_HALF = re.compile(r"[AaPp]\.?\s?[Mm]\.?")
_ZONE = re.compile(
    r"\b(?:UTC|GMT)(?:\s?(?P<sign>[+\-−])\s?(?P<hours>\d{1,2})(?::?(?P<minutes>\d{2}))?)?\b", re.IGNORECASE
)
_MONTHS = (
    *(("jan", 1), ("ene", 1), ("feb", 2), ("mar", 3), ("apr", 4), ("abr", 4), ("may", 5), ("jun", 6), ("jul", 7)),
    *(("aug", 8), ("ago", 8), ("sep", 9), ("set", 9), ("oct", 10), ("nov", 11), ("dec", 12), ("dic", 12)),
)
_MONTH_OF = dict(_MONTHS)


@dataclass(frozen=True)
class DateText:
    """A date as written: whole, or as two numbers of which one is the day and one the month."""

    year: int
    month: int
    day: int
    is_numbers: bool = False  # `month` is then the first number and `day` the second
    is_short: bool = (
        False  # the year has two digits and stands last: it may be the day, and the first number the year
    )

    def ordinal(self, *, day_first: bool, year_first: bool = False) -> int | None:
        """The day counted as Python counts it; None where the calendar has no such day."""
        year, month, day = self.year, self.month, self.day
        if self.is_short and year_first:
            year, month, day = CENTURY + self.month, self.day, self.year - CENTURY
        elif self.is_numbers and day_first:
            month, day = day, month
        try:
            return date(year, month, day).toordinal() if FIRST_YEAR <= year <= LAST_YEAR else None
        except ValueError:
            return None


@dataclass(frozen=True)
class ClockText:
    """A time of day, seconds after midnight, and its offset from UTC in minutes where it has one of its own."""

    seconds: float
    offset: int | None
    is_half_day: bool = False  # with am or pm


def parted(text: str) -> tuple[DateText, str] | None:
    """The date at the beginning of a text, and the time of day behind it, perhaps empty; None where there is none."""
    if text[:8].isdecimal():
        return _compact(text)
    head, sign, clock = text.partition("T" if text[10:11] == "T" else " ")
    day = _day(head)
    if day is not None and (not sign or clock[:1].isdecimal()):
        return day, clock
    match = _STAMP.fullmatch(text) if len(text) <= LONGEST else None
    found = None if match is None else _date(match)
    return None if match is None or found is None else (found, match["clock"] or "")


def _compact(text: str) -> tuple[DateText, str] | None:
    """A date of eight digits, as ISO 8601 has it, and the time of day behind it with or without its colons."""
    day, _, apart = text.partition(" ")
    match = _COMPACT.fullmatch(day if clock_from(apart) is not None else text)
    if match is None:
        return None
    clock = ":".join(part for part in match.group("hour", "minute", "second") if part) + (match["zone"] or "")
    return DateText(int(match["year"]), int(match["month"]), int(match["day"])), clock or apart


@lru_cache(maxsize=KEPT)
def _day(text: str) -> DateText | None:
    match = _DAY.fullmatch(text) if len(text) <= LONGEST else None
    return None if match is None else _date(match)


def _date(match: re.Match[str]) -> DateText | None:
    if match["year"]:
        return DateText(int(match["year"]), int(match["month"]), int(match["day"]))
    if match["first"]:
        is_short = len(match["third"]) == 2
        first, second = int(match["first"]), int(match["second"])
        return DateText(_year(match["third"]), first, second, is_numbers=True, is_short=is_short)
    name, day, year = (
        (match["name"], match["nday"], match["nyear"])
        if match["name"]
        else (match["uname"], match["uday"], match["uyear"])
    )
    month = _MONTH_OF.get(plain(name)[:3])
    return None if month is None else DateText(_year(year), month, int(day))


def _year(text: str) -> int:
    return int(text) + (CENTURY if len(text) == 2 else 0)


@lru_cache(maxsize=KEPT)
def clock_from(text: str) -> ClockText | None:
    """A time of day; None where the text is none. 24:00 is the next midnight."""
    match = _CLOCK.fullmatch(text) if len(text) <= LONGEST else None
    if match is None:
        return None
    hour, minute, second = int(match["hour"]), int(match["minute"]), int(match["second"] or 0)
    half = match["half"]
    if half:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if half[0] in "pP" else 0)
    if minute > 59 or second > 59 or hour > 24 or (hour == 24 and (minute or second)):
        return None
    part = float(f"0.{match['part']}") if match["part"] else 0.0
    zone = None if match["zone"] is None else _zone_minutes(match["zone"])
    return ClockText(3600.0 * hour + 60.0 * minute + second + part, zone, bool(half))


def _zone_minutes(text: str) -> int:
    digits = text.replace("UTC", "").replace("GMT", "").replace(":", "")
    if digits in ("", "Z"):
        return 0
    hours, minutes = int(digits[1:3]), int(digits[3:] or 0)
    return (-1 if digits[0] in "-−" else 1) * (60 * hours + minutes)


def is_half(text: str) -> bool:
    """True for am and pm that stand alone."""
    return _HALF.fullmatch(text) is not None


def zone_named(text: str) -> int | None:
    """The offset in minutes that a header names, as `GMT-05:00` or `UTC` does; None where it names none."""
    match = _ZONE.search(text[:200])
    if match is None:
        return None
    minutes = 60 * int(match["hours"] or 0) + int(match["minutes"] or 0)
    return -minutes if match["sign"] in ("-", "−") else minutes


def plain(text: str) -> str:
    """Small letters without accents."""
    taken = unicodedata.normalize("NFKD", text.lower())
    return "".join(c for c in taken if not unicodedata.combining(c))
