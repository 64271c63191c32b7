"""What is asked of and answered about dates for calendar programs."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, time

DateStatus = Literal["tentative", "confirmed", "cancelled"]
"""`tentative` is foretold, `confirmed` was seen by somebody, `cancelled` no longer holds."""


@dataclass(frozen=True)
class CalendarDate:
    """One date: a milestone of a room."""

    uid: str = described(about="The same for the same milestone, whatever its time becomes", longest=200)
    start: str = described(about="From", is_time=True, key="from")
    end: str = described(about="To; the same as `from` for a moment", is_time=True, key="to")
    summary: str = described(about="What a calendar shows", longest=500)
    description: str = described("", about="More words", longest=4_000)
    location: str = described("", about="Where", longest=500)
    sequence: int = described(0, about="Grows whenever the date changes", low=0, high=2_147_483_647)
    status: DateStatus = described("tentative", about="How sure the date is")
    changed_at: str | None = time(None, about="When what it rests on last changed")


@dataclass(frozen=True)
class CalendarQuestion:
    """Dates to be written as one calendar."""

    name: str = described(about="What the calendar is called", longest=200)
    made_at: str = time(about="When it is written")
    dates: tuple[CalendarDate, ...] = described(about="Every date")


@dataclass(frozen=True)
class CalendarAnswer:
    """The calendar as a file."""

    text: str = described(about="iCalendar (RFC 5545), lines ended by CR LF")
