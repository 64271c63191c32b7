"""Which number in a date is the day, the month and the year, told from all dates of a file if it can be."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.waiting.logs.times import CENTURY, DateText, clock_from, parted

MONTHS, DAYS = 12, 31
FIRST_LIKELY, LAST_LIKELY = 20, 49  # years that a log is from, of two digits; no source


@dataclass(frozen=True)
class DateOrder:
    """How dates of three numbers are read. `is_doubtful` where they could be read otherwise."""

    day_first: bool = False
    year_first: bool = False
    is_doubtful: bool = False


def order_of_dates(stamps: Iterable[str], day_first: bool | None, year_first: bool | None) -> DateOrder:
    """The order of a file's dates; `day_first` and `year_first` are what a person said of it, if anything.

    The day is told by a number beyond 12, by a point between the numbers (4.5.2026 is the fourth of May), or by the
    number that runs while the other stands still. Else it is doubtful: with am or pm the month is taken to stand
    first, as in the United States, without them the day. A year of two digits may stand first as well.
    """
    dates: set[DateText] = set()
    has_point = is_half_day = False
    for stamp in stamps:
        found = parted(stamp)
        if found is not None and found[0].is_numbers:
            dates.add(found[0])
            has_point = has_point or "." in stamp.split(" ")[0]
            clock = None if is_half_day else clock_from(found[1])
            is_half_day = is_half_day or (clock is not None and clock.is_half_day)
    if year_first or not dates:
        return DateOrder(bool(day_first), bool(year_first))
    is_free = day_first is None and year_first is None
    year_stands_first, is_doubtful = _year_first([*dates]) if is_free else (False, False)
    if year_stands_first:
        return DateOrder(year_first=True, is_doubtful=is_doubtful)
    told = _day_first([*dates], has_point=has_point) if day_first is None else day_first
    return DateOrder(not is_half_day if told is None else told, is_doubtful=is_doubtful or told is None)


def _year_first(dates: Sequence[DateText]) -> tuple[bool, bool]:
    """True where the year stands first, and whether that is doubtful.

    Only where it may: days run while years stand still, and where neither runs a log is from a likely year.
    """
    may = all(one.is_short and _is_likely(one.month) and 1 <= one.day <= MONTHS for one in dates)
    lasts = {one.year - CENTURY for one in dates}
    if not may or not all(1 <= last <= DAYS for last in lasts):
        return False, False
    runs = len(lasts) - len({one.month for one in dates})
    return runs > 0 or (runs == 0 and not all(map(_is_likely, lasts))), runs == 0


def _is_likely(year: int) -> bool:
    return FIRST_LIKELY <= year <= LAST_LIKELY


def _day_first(dates: Sequence[DateText], *, has_point: bool) -> bool | None:
    firsts, seconds = {one.month for one in dates}, {one.day for one in dates}
    if max(firsts) > MONTHS or max(seconds) > MONTHS:
        return max(firsts) > MONTHS
    if has_point:
        return True
    if len(firsts) != len(seconds) and min(len(firsts), len(seconds)) == 1:
        return len(firsts) > 1
    return None if any(one.month != one.day for one in dates) else False
