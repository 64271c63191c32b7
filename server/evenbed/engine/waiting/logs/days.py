"""Which of two numbers in a date is the day, told from all dates of a file if it can be."""

from collections.abc import Iterable

from evenbed.engine.waiting.logs.times import clock_from, parted

MONTHS = 12


def days_of(stamps: Iterable[str], asked: bool | None) -> tuple[bool, bool]:
    """True where the day stands first, and whether that is doubtful.

    Told by a number beyond 12, by a point between the numbers (4.5.2026 is the fourth of May), or by the number that
    runs while the other stands still, as days do. Else doubtful: with am or pm the month is taken to stand first, as
    in the United States, without them the day.
    """
    numbers: set[tuple[int, int]] = set()
    has_point = is_half_day = False
    for stamp in stamps:
        found = parted(stamp)
        if found is not None and found[0].is_numbers:
            numbers.add((found[0].month, found[0].day))
            has_point = has_point or "." in stamp.split(" ")[0]
            clock = None if is_half_day else clock_from(found[1])
            is_half_day = is_half_day or (clock is not None and clock.is_half_day)
    if asked is not None or not numbers:
        return bool(asked), False
    told = _told(numbers, has_point=has_point)
    return (not is_half_day, True) if told is None else (told, False)


def _told(numbers: set[tuple[int, int]], *, has_point: bool) -> bool | None:
    firsts, seconds = {first for first, _ in numbers}, {second for _, second in numbers}
    if max(firsts) > MONTHS or max(seconds) > MONTHS:
        return max(firsts) > MONTHS
    if has_point:
        return True
    if len(firsts) != len(seconds) and min(len(firsts), len(seconds)) == 1:
        return len(firsts) > 1
    return None if any(first != second for first, second in numbers) else False
