"""The weather to come where a job is, asked of the service that a setting names; without it this is off."""

from dataclasses import asdict

from fastapi import APIRouter

from evenbed.access.rights import check_writer, device_now
from evenbed.api.problems import ENTRY_CODES, STORE_CODES, ProblemError, declared
from evenbed.api.service import Service, TheService, WritingDevice
from evenbed.forecast.asking import Forecaster, ForecastUnreachableError, Place
from evenbed.forecast.reading import BadForecastError, Day
from evenbed.store.devices import Device
from evenbed.wire.forecast import ForecastReply, ForetoldDay
from evenbed.wire.problems import Code
from evenbed.wire.values import Uuid

router = APIRouter(prefix="/api", tags=["forecast"])
FORECAST_CODES = (Code.FORECAST_OFF, Code.FORECAST_WITHOUT_PLACE, Code.FORECAST_UNREACHABLE, Code.FORECAST_UNREADABLE)
CODES = (*ENTRY_CODES, Code.VIEWER_ONLY_LOOKS, Code.NOT_FOUND, Code.MALFORMED, *STORE_CODES, *FORECAST_CODES)


@router.post("/jobs/{job_id}/forecast", operation_id="forecast", responses=declared(*CODES))
def forecast(job_id: Uuid, device: WritingDevice, service: TheService) -> ForecastReply:
    """The days foretold for the job's place. The phone that asked keeps them as records of its own."""
    place = _place_of(service, device, job_id)
    settings = service.settings
    if not settings.forecast:
        raise ProblemError(Code.FORECAST_OFF, "The setting EVENBED_FORECAST names no service. Type the days instead.")
    forecaster = Forecaster(settings.forecast, settings.forecast_patience_s)
    return ForecastReply(days=[_told(day, forecaster.source) for day in _days(forecaster, place)])


def _place_of(service: Service, device: Device, job_id: str) -> Place:
    with service.store.reading() as work:
        now = check_writer(device_now(work, device))
        job = work.archive.fields_of(now.person, "job", job_id)
    if job is None:
        raise ProblemError(Code.NOT_FOUND, "There is no job with this id.")
    latitude, longitude = job.get("latitude"), job.get("longitude")
    if not isinstance(latitude, int | float) or not isinstance(longitude, int | float):
        raise ProblemError(Code.FORECAST_WITHOUT_PLACE, "Say where the job is: its latitude and longitude.")
    return Place(latitude, longitude)


def _days(forecaster: Forecaster, place: Place) -> list[Day]:
    try:
        return forecaster.days_at(place)
    except ForecastUnreachableError as error:
        raise ProblemError(Code.FORECAST_UNREACHABLE, f"{error} Type the days instead.") from error
    except BadForecastError as error:
        detail = f"What {forecaster.source} answered cannot be read: {error}. Type the days instead."
        raise ProblemError(Code.FORECAST_UNREADABLE, detail) from error


def _told(day: Day, source: str) -> ForetoldDay:
    return ForetoldDay(**asdict(day), source=source)
