"""The waiting in the room document: temperatures measured and foretold, the constants, and who ticked what."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, ratio, time

Milestone = Literal["walk", "tile", "grout", "light_traffic", "heavy_traffic"]
Method = Literal["equivalent_age", "temperature_time"]
"""Equivalent age (ASTM C1074, Arrhenius) or the temperature-time factor (ASTM C1074, Nurse-Saul)."""
TileWhen = Literal["same_day", "overnight"]
LoggedWhere = Literal["bed", "air"]
TickHow = Literal["scratch", "sounding", "thumb", "foot", "moisture_test", "other"]
MOST_LOGGED = 20_000
MOST_DAYS = 400


@dataclass(frozen=True)
class ClimateRow:
    """One measured or forecast moment."""

    at: str = time(about="When")
    bed: float | None = described(None, about="Temperature in the bed", unit="Cel", low=-60.0, high=100.0)
    air: float | None = described(None, about="Temperature of the air", unit="Cel", low=-60.0, high=80.0)
    humidity: float | None = described(None, about="Relative humidity", unit="%", low=0.0, high=100.0)
    wind: float | None = described(None, about="Wind speed", unit="km/h", low=0.0, high=400.0)
    forecast: bool = described(False, about="True where it is foretold, not measured")


@dataclass(frozen=True)
class TemperatureLog:
    """What a logger wrote: seconds after `start`, rising, and °C at each."""

    start: str = time(about="When it began")
    seconds: tuple[float, ...] = described(
        about="After the start, rising", unit="s", low=0.0, high=1e9, most=MOST_LOGGED
    )
    celsius: tuple[float, ...] = described(
        about="At each of those", unit="Cel", low=-60.0, high=100.0, most=MOST_LOGGED
    )
    where: LoggedWhere = described("bed", about="Where the logger lay")
    id: str = described("", about="Its name in this document")


@dataclass(frozen=True)
class ForecastDay:
    """A day foretold: its low and its high, each at its time; between them the temperature swings as half a wave."""

    low: float = described(about="Lowest temperature of the air", unit="Cel", low=-60.0, high=60.0)
    high: float = described(about="Highest temperature of the air", unit="Cel", low=-60.0, high=60.0)
    low_at: str = time(about="When it is coldest, usually about sunrise")
    high_at: str = time(about="When it is warmest, usually in mid-afternoon")
    humidity: float | None = described(
        None, about="Relative humidity when it is warmest", unit="%", low=0.0, high=100.0
    )
    wind: float | None = described(None, about="Wind speed when it is warmest", unit="km/h", low=0.0, high=400.0)
    id: str = described("", about="Its name in this document")


@dataclass(frozen=True)
class Tick:
    """A milestone that a person looked at and let pass. No prediction ever makes one."""

    milestone: Milestone = described(about="What was let pass")
    at: str = time(about="When")
    by: str = described("", about="Who")
    how: TickHow = described("other", about="How they looked")


@dataclass(frozen=True)
class MilestoneNeed:
    """How old the bed must be before something may happen on it."""

    milestone: Milestone = described(about="What waits for it")
    needs: float = described(
        about="Equivalent age needed, at the reference temperature", unit="h", low=0.0, high=100_000.0
    )


@dataclass(frozen=True)
class Curing:
    """The constants of the waiting, all changeable."""

    activation: float = described(
        5000.0, about="Q, activation energy over the gas constant", unit="K", low=0.0, high=20_000.0
    )
    reference: float = described(
        20.0, about="Temperature at which equivalent age is age", unit="Cel", low=-20.0, high=60.0
    )
    assumed: float = described(
        20.0, about="Temperature taken where none was measured", unit="Cel", low=-60.0, high=80.0
    )
    working_time: float = described(
        1.5, about="Time to use a batch at the reference temperature", unit="h", low=0.05, high=48.0
    )
    method: Method = described("equivalent_age", about="Which maturity method the milestones are told by")
    datum: float = described(
        -10.0,
        about="Temperature below which the temperature-time factor gathers nothing",
        unit="Cel",
        low=-20.0,
        high=10.0,
    )
    early: float = ratio(0.8, "The early end of a window, of what is needed", low=0.1, high=1.0)
    late: float = ratio(1.4, "The late end of a window, of what is needed", low=1.0, high=10.0)
    forecast_doubt: float = described(
        3.0, about="How far the temperature may lie from a forecast, either way", unit="K", low=0.0, high=20.0
    )
    follows: float = ratio(1.0, "How far the room follows the forecast; 0 keeps it at the assumed temperature")
    fresh_window: float = described(
        4.0, about="How long a fresh bed takes tile, at the reference temperature", unit="h", low=0.0, high=48.0
    )
    tile_when: TileWhen | None = described(None, about="What somebody chose: same day or overnight; null: nobody did")
    moisture_sensitive: bool = described(False, about="True where the covering minds the moisture of the bed")
    milestones: tuple[MilestoneNeed, ...] = described((), about="Changed needs; the rest keep their defaults")
