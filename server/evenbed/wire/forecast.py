"""The reply to a foreman's or a setter's asking for the weather to come where a job is."""

from pydantic import Field

from evenbed.wire.exchange import Reply
from evenbed.wire.values import Moment


class ForetoldDay(Reply):
    """A day foretold: its low and its high in °C, each at its time; %, km/h; as `forecast_day` records have it."""

    low: float
    high: float
    low_at: Moment
    high_at: Moment
    humidity: float | None
    wind: float | None
    source: str = Field(description="The host that foretold it")


class ForecastReply(Reply):
    """The days foretold, in order. Nothing of them is stored until a phone sends them as records."""

    days: list[ForetoldDay]
