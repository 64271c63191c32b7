"""A calendar as iCalendar text, RFC 5545; the names of a calendar and how often to ask again by RFC 7986.

Every date is an event that blocks nobody's time (`TRANSP:TRANSPARENT`). Moments are written in UTC, so that no table
of time zones has to travel along. There is no METHOD: it is a picture of the dates and asks nobody for anything, so
DTSTAMP tells when a date last changed (3.7.2, 3.8.7.2).
"""

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime

from evenbed.engine.calendar.shapes import CalendarAnswer, CalendarDate, CalendarQuestion
from evenbed.engine.document.reading import read_json
from evenbed.engine.problems import BadDocumentError, Problem, problem_at, shown

MAKER = "-//Evenbed//Dates of mortar beds//EN"
LONGEST_LINE = 75  # octets without the line's end (RFC 5545, 3.1)
LINE_END = "\r\n"
LINE_BREAKS = ("\r\n", "\r", "\n", "\v", "\f", "\x85", "\u2028", "\u2029")
ESCAPED = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"})  # RFC 5545, 3.3.11
UNSEEN = dict.fromkeys([*range(0x09), *range(0x0B, 0x20), *range(0x7F, 0xA0), 0xFEFF])
ASK_AGAIN = "PT1H"
NOTHING = (  # a calendar holds one component at least (3.6): without a date it is the time that they would be in
    *("BEGIN:VTIMEZONE", "TZID:Etc/UTC", "BEGIN:STANDARD", "DTSTART:19700101T000000"),
    *("TZOFFSETFROM:+0000", "TZOFFSETTO:+0000", "TZNAME:UTC", "END:STANDARD", "END:VTIMEZONE"),
)


def calendar_from(given: object) -> CalendarAnswer:
    """The calendar of the dates asked (parsed JSON in). Without a date it is a calendar without an event.

    Line breaks of any kind become the format's own, a tab stays, other control characters are left out. Raises
    BadDocumentError for a uid used twice, a date that ends before it begins, and a moment that UTC has no year for.
    """
    question, _ = read_json(CalendarQuestion, given)
    problems = [*_problems(question)]
    if problems:
        raise BadDocumentError(problems)
    events = [line for date in question.dates for line in _event(question, date)]
    lines = [*_head(question), *(events or NOTHING), "END:VCALENDAR"]
    return CalendarAnswer("".join(folded(line) for line in lines))


def _problems(question: CalendarQuestion) -> Iterator[Problem]:
    if _utc(question.made_at) is None:
        yield problem_at("made_at", "not_a_time", got=shown(question.made_at))
    known: set[str] = set()
    for n, date in enumerate(question.dates):
        yield from _problems_of(f"dates[{n}]", date)
        uid = plain(date.uid)
        if uid in known:
            yield problem_at(f"dates[{n}].uid", "duplicate_id", id=shown(uid))
        known.add(uid)


def _problems_of(path: str, date: CalendarDate) -> Iterator[Problem]:
    moments = {"from": date.start, "to": date.end, "changed_at": date.changed_at}
    bad = {key: text for key, text in moments.items() if text is not None and _utc(text) is None}
    yield from (problem_at(f"{path}.{key}", "not_a_time", got=shown(text)) for key, text in bad.items())
    if not bad and stamp(date.end) < stamp(date.start):
        yield problem_at(f"{path}.to", "date_ends_before", start=date.start, end=date.end)


def _head(question: CalendarQuestion) -> Iterable[str]:
    name = escaped(question.name)
    return (
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:{MAKER}",
        "CALSCALE:GREGORIAN",
        f"NAME:{name}",
        f"X-WR-CALNAME:{name}",
        f"REFRESH-INTERVAL;VALUE=DURATION:{ASK_AGAIN}",
        f"X-PUBLISHED-TTL:{ASK_AGAIN}",
    )


def _event(question: CalendarQuestion, date: CalendarDate) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(date.uid)}"
    yield f"DTSTAMP:{stamp(date.changed_at or question.made_at)}"
    if date.changed_at is not None:
        yield f"LAST-MODIFIED:{stamp(date.changed_at)}"
    yield f"SEQUENCE:{date.sequence}"
    yield f"DTSTART:{stamp(date.start)}"
    if stamp(date.end) > stamp(date.start):  # an end must be later than the start; without one it is a moment
        yield f"DTEND:{stamp(date.end)}"
    yield f"SUMMARY:{escaped(date.summary)}"
    if date.description:
        yield f"DESCRIPTION:{escaped(date.description)}"
    if date.location:
        yield f"LOCATION:{escaped(date.location)}"
    yield f"STATUS:{date.status.upper()}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def plain(text: str) -> str:
    """A text as a calendar can carry it: line breaks of any kind as a newline, no control character but the tab."""
    for sign in LINE_BREAKS:
        text = text.replace(sign, "\n")
    return text.translate(UNSEEN)


def escaped(text: str) -> str:
    """The same with backslash, semicolon, comma and newline escaped (RFC 5545, 3.3.11)."""
    return plain(text).translate(ESCAPED)


def folded(line: str) -> str:
    """A content line in lines of at most 75 octets, none of which ends inside a character, each with CR LF."""
    parts, room, width = [""], LONGEST_LINE, 0
    for sign in line:
        octets = len(sign.encode("utf-8"))
        if width + octets > room:
            parts.append("")
            room, width = LONGEST_LINE - 1, 0  # the blank that begins a further line counts too
        parts[-1] += sign
        width += octets
    return f"{LINE_END} ".join(parts) + LINE_END


def stamp(text: str) -> str:
    """A moment in UTC, `20260504T133000Z`; parts of a second let go. Raises ValueError beyond the years of UTC."""
    moment = _utc(text)
    if moment is None:
        raise ValueError(f"{text} is before the first or after the last year of UTC.")
    return f"{moment.year:04}{moment.month:02}{moment.day:02}T{moment.hour:02}{moment.minute:02}{moment.second:02}Z"


def _utc(text: str) -> datetime | None:
    try:
        return datetime.fromisoformat(text).astimezone(UTC)
    except OverflowError:
        return None
