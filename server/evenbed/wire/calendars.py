"""Requests and replies about a person's address of dates for calendar programs."""

from typing import Annotated, Literal

from pydantic import Field

from evenbed.wire.exchange import Reply, Request
from evenbed.wire.values import Moment

Language = Literal["en", "es"]
Zone = Annotated[
    str, Field(max_length=64, pattern=r"^[A-Za-z0-9_+\-/]*$", description="IANA name, such as Europe/Madrid")
]


class CalendarRequest(Request):
    """How the dates are to be told."""

    language: Language = "en"
    zone: Zone = Field(default="", description="Where moments inside a text are told by the clock; none: UTC")


class CalendarMade(Reply):
    """A fresh address, shown this once: whoever knows it reads the dates."""

    path: str = Field(description="To be put behind the service's own address")
    made_at: Moment


class CalendarState(Reply):
    """Whether the person has an address, and since when."""

    made_at: Moment | None = Field(description="Null where there is none")
