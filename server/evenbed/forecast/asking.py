"""Asks the forecast service that a setting names, for a place: not for long and not for much."""

import json
from dataclasses import dataclass
from time import monotonic
from urllib.parse import urlsplit

import httpx

from evenbed.forecast.reading import BadForecastError, Day, days_from

MOST_BYTES = 1_000_000
DECIMALS = 2
"""A hundredth of a degree is about a kilometre: enough for the weather, and nobody's front door."""


class ForecastUnreachableError(Exception):
    """No answer, not in time, or a refusal."""


@dataclass(frozen=True)
class Place:
    """Where on earth, in degrees: north and east count up."""

    latitude: float
    longitude: float


@dataclass(frozen=True)
class Forecaster:
    """The service at an address with {latitude} and {longitude} in it."""

    address: str
    patience_s: float

    @property
    def source(self) -> str:
        """What its days say they are from: the host's name."""
        return urlsplit(self.address).hostname or ""

    def days_at(self, place: Place) -> list[Day]:
        """The days it foretells. Raises ForecastUnreachableError or BadForecastError; stores nothing."""
        address = self.address.replace("{latitude}", f"{place.latitude:.{DECIMALS}f}")
        content = self._content(address.replace("{longitude}", f"{place.longitude:.{DECIMALS}f}"))
        try:
            answer = json.loads(content)
        except (ValueError, RecursionError):
            raise BadForecastError("it is not JSON") from None
        return days_from(answer)

    def _content(self, address: str) -> bytes:
        try:
            with httpx.stream("GET", address, timeout=self.patience_s, follow_redirects=False) as reply:
                return self._read(reply)
        except (httpx.HTTPError, httpx.InvalidURL) as error:
            raise ForecastUnreachableError(f"{self.source} did not answer: {type(error).__name__}.") from error

    def _read(self, reply: httpx.Response) -> bytes:
        if reply.status_code != httpx.codes.OK:
            raise ForecastUnreachableError(f"{self.source} answered with status {reply.status_code}.")
        ends, content = monotonic() + self.patience_s, b""
        for part in reply.iter_bytes():
            content += part
            if len(content) > MOST_BYTES:
                raise BadForecastError(f"it is larger than {MOST_BYTES} bytes")
            if monotonic() > ends:
                raise ForecastUnreachableError(f"{self.source} took longer than {self.patience_s:g} s.")
        return content
