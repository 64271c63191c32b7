"""The service's settings: environment variables EVENBED_*, each with a default, read once into a frozen object."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TRUE = ("1", "true", "yes", "on")
COORDINATES = ("latitude", "longitude")
FALSE = ("0", "false", "no", "off", "")


class SettingsError(Exception):
    """A setting that cannot be used; the message names it and what it takes."""


@dataclass(frozen=True)
class Settings:
    """Everything that can be set.

    `https` is on where people reach the service by https (a proxy in front counts): the cookie then travels by https
    only. `body_limit` is in bytes: 20 000 readings with names and places are about 3 million. `scan_limit` is too: a
    million points of a scan are 12 to 60 million. A photo of `photo_pixels` takes four bytes of memory for each of
    them while it is looked into, one photo at a time. `forecast` is the address of an open forecast service, with
    {latitude} and {longitude} in it; empty asks nobody.
    """

    host: str = "127.0.0.1"
    port: int = 8765
    data: Path = Path("data")
    database: str = ""
    web: Path = ROOT / "web" / "dist"
    https: bool = False
    body_limit: int = 8_000_000
    busy_timeout_s: float = 5.0
    poll_interval_s: float = 1.0
    photo_pixels: int = 20_000_000
    scan_limit: int = 200_000_000
    forecast: str = ""
    forecast_patience_s: float = 8.0

    @property
    def database_url(self) -> str:
        """Where the records are: the setting `database`, or a file in the data folder."""
        return self.database or f"sqlite:///{(self.data / 'evenbed.db').absolute()}"


def settings_from(environ: Mapping[str, str]) -> Settings:
    """The settings told by the environment. Raises SettingsError with the variable's name."""
    plain = Settings()
    return Settings(
        host=environ.get("EVENBED_HOST", plain.host),
        port=_whole(environ, "EVENBED_PORT", plain.port, 0, 65_535),
        data=Path(environ.get("EVENBED_DATA", str(plain.data))),
        database=environ.get("EVENBED_DATABASE", plain.database),
        web=Path(environ.get("EVENBED_WEB", str(plain.web))),
        https=_switch(environ, "EVENBED_HTTPS"),
        body_limit=_whole(environ, "EVENBED_BODY_LIMIT", plain.body_limit, 1_000, 1e9),
        busy_timeout_s=_number(environ, "EVENBED_BUSY_TIMEOUT_S", plain.busy_timeout_s, 0, 600),
        poll_interval_s=_number(environ, "EVENBED_POLL_INTERVAL_S", plain.poll_interval_s, 0.01, 600),
        photo_pixels=_whole(environ, "EVENBED_PHOTO_PIXELS", plain.photo_pixels, 1_000, 67_108_864),
        scan_limit=_whole(environ, "EVENBED_SCAN_LIMIT", plain.scan_limit, 1_000, 2e9),
        forecast=_template(environ, "EVENBED_FORECAST"),
        forecast_patience_s=_number(environ, "EVENBED_FORECAST_PATIENCE_S", plain.forecast_patience_s, 0.1, 60),
    )


def _template(environ: Mapping[str, str], name: str) -> str:
    """An address with a place for each coordinate; empty where none is set."""
    text = environ.get(name, "")
    is_address = text.startswith(("https://", "http://")) and all(f"{{{c}}}" in text for c in COORDINATES)
    if text and not is_address:
        raise SettingsError(f"{name} must be an address with {{latitude}} and {{longitude}} in it; it is {text!r}.")
    return text


def _whole(environ: Mapping[str, str], name: str, plain: int, low: float, high: float) -> int:
    value = _number(environ, name, plain, low, high)
    if value != int(value):
        raise SettingsError(f"{name} must be a whole number; it is {environ[name]!r}.")
    return int(value)


def _number(environ: Mapping[str, str], name: str, plain: float, low: float, high: float) -> float:
    text = environ.get(name, str(plain))
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not low <= value <= high:
        raise SettingsError(f"{name} must be a number from {low:g} to {high:g}; it is {text!r}.")
    return value


def _switch(environ: Mapping[str, str], name: str) -> bool:
    text = environ.get(name, "").lower()
    if text not in TRUE + FALSE:
        raise SettingsError(f"{name} must be one of {', '.join(TRUE + FALSE[:-1])}; it is {text!r}.")
    return text in TRUE
