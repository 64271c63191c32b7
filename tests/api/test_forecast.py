"""The weather to come, asked of a real little server that is good, slow, broken, huge and wrong."""

import time
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import httpx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.clients import Client, change
from tests.documents import Json
from tests.forecasters import (
    GOOD,
    Say,
    breaks_off,
    foreteller,
    hours_of,
    says,
    says_drop_by_drop,
    says_nothing,
    says_without_end,
    sends_elsewhere,
)
from tests.phones import uuid_text
from tests.pictures import JOB
from tests.share import share_of
from tests.stores import fresh_file, url_of

from evenbed.app import create_app
from evenbed.forecast.reading import BadForecastError, days_from
from evenbed.settings import Settings, SettingsError, settings_from
from evenbed.wire.handover import ForecastDayFields

PATIENCE_S = 0.4
AT_MOST_S = 3.0
PLACE = {"latitude": 41.8781, "longitude": -87.6298}


@pytest.fixture
def foreman(tmp_path: Path) -> Iterator[Client]:
    """Of a service without a forecast, with a job that says where it is."""
    file, code = fresh_file(tmp_path)
    app = create_app(Settings(data=tmp_path, database=url_of(file), forecast_patience_s=PATIENCE_S))
    with closing(app.state.service.store):
        client = Client(app, code).joined()
        client.push(change(1, "job", JOB, {"name": "Maple house", **PLACE}))
        yield client


def asked(client: Client, address: str = "", job: str = JOB) -> httpx.Response:
    service = client.app.state.service
    client.app.state.service = replace(service, settings=replace(service.settings, forecast=address))
    return client.send("POST", f"/api/jobs/{job}/forecast")


def answer_of(client: Client, say: Say) -> httpx.Response:
    with foreteller(say) as told:
        return asked(client, told.address)


def test_a_good_answer_is_days_of_lows_and_highs_each_at_its_time(foreman: Client) -> None:
    with foreteller(says(GOOD | {"hourly": hours_of("2026-05-04", [5.0, 4.5, 9.0, 17.0, 12.0])})) as told:
        reply = asked(foreman, told.address)
    assert reply.status_code == 200, reply.text
    first, second = reply.json()["days"]
    assert first == {
        "low": 4.5,
        "high": 17.0,
        "low_at": "2026-05-04T01:00:00-05:00",
        "high_at": "2026-05-04T03:00:00-05:00",
        "humidity": 53.0,
        "wind": 13.0,
        "source": "127.0.0.1",
    }
    assert (second["low_at"], second["high_at"]) == ("2026-05-05T06:00:00-05:00", "2026-05-05T15:00:00-05:00")
    assert (second["humidity"], second["wind"]) == (None, None)
    ForecastDayFields.model_validate(first | {"job_id": JOB})


def test_the_place_is_told_to_a_hundredth_of_a_degree_and_nothing_else_is(foreman: Client) -> None:
    with foreteller(says(GOOD)) as told:
        asked(foreman, told.address)
    assert told.asked == ["/v1?latitude=41.88&longitude=-87.63&timezone=auto"]


def test_without_the_setting_nobody_is_asked(foreman: Client) -> None:
    reply = asked(foreman)
    assert (reply.status_code, reply.json()["code"]) == (501, "forecast_off")


def test_a_job_that_says_not_where_it_is_and_one_that_nobody_knows(foreman: Client) -> None:
    with foreteller(says(GOOD)) as told:
        assert asked(foreman, told.address, uuid_text(900)).json()["code"] == "not_found"
        foreman.push(change(2, "job", JOB, {"longitude": None}))
        assert asked(foreman, told.address).json()["code"] == "forecast_without_place"
    assert told.asked == []


@pytest.mark.parametrize(
    "say", [says_nothing(2.0), says_drop_by_drop, says(GOOD, 500), says(GOOD, 404), sends_elsewhere]
)
def test_one_that_is_slow_or_refuses_is_given_up_on_in_time(foreman: Client, say: Say) -> None:
    began = time.monotonic()
    reply = answer_of(foreman, say)
    assert (reply.status_code, reply.json()["code"]) == (502, "forecast_unreachable")
    assert time.monotonic() - began < AT_MOST_S


def test_one_that_is_not_there_or_breaks_off_is_unreachable(foreman: Client) -> None:
    with foreteller(says(GOOD)) as gone:
        pass
    assert asked(foreman, gone.address).json()["code"] == "forecast_unreachable"
    assert answer_of(foreman, breaks_off).json()["code"] == "forecast_unreachable"


SENSELESS: list[Any] = [
    b"",
    b"<html>",
    b"\xff\xfe",
    b"[" * 100_000,
    b'{"daily": 1' + b"0" * 10_000 + b"}",
    [],
    None,
    {},
    {"daily": []},
    GOOD | {"daily": GOOD["daily"] | {"temperature_2m_min": [1]}},
    GOOD | {"daily": GOOD["daily"] | {"temperature_2m_max": [99, -99, "warm"]}},
    GOOD | {"daily": GOOD["daily"] | {"time": ["today", 4, None]}},
    GOOD | {"daily": {name: [] for name in GOOD["daily"]}},
    GOOD | {"daily_units": {"temperature_2m_max": "°F"}},
    GOOD | {"utc_offset_seconds": "-18000"},
    GOOD | {"hourly": {"time": ["2026-05-04T00:00"], "temperature_2m": []}},
]


def test_what_makes_no_sense_is_refused_with_a_reason(foreman: Client) -> None:
    for answer in SENSELESS:
        reply = answer_of(foreman, says(answer))
        told = str(answer)[:30]
        assert (reply.status_code, reply.json()["code"]) == (502, "forecast_unreadable"), told
        assert reply.json()["detail"], told


def test_an_answer_without_end_is_cut_off(foreman: Client) -> None:
    assert answer_of(foreman, says_without_end).json()["code"] == "forecast_unreadable"


JUNK = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=5)
    | st.sampled_from(["2026-05-04", "°C"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(sorted(GOOD["daily"])), inner),
    max_leaves=8,
)


@given(st.fixed_dictionaries({}, optional={**dict.fromkeys(GOOD, JUNK), "hourly": JUNK, "hourly_units": JUNK}))
@settings(max_examples=share_of(1000), deadline=None)
def test_any_answer_is_days_that_make_sense_or_a_reason(told: Json) -> None:
    try:
        days = days_from(GOOD | told)
    except BadForecastError as bad:
        assert str(bad)  # noqa: PT017 (an answer or a reason: either is right)
        return
    for day in days:
        assert -60 <= day.low <= day.high <= 60
        assert day.low_at != day.high_at
        assert day.high_at.startswith("2026-05-")


@pytest.mark.parametrize(
    "bad", ["example.com", "https://example.com/?latitude={latitude}", "ftp://x/{latitude}{longitude}"]
)
def test_a_setting_that_is_no_address_with_both_places_is_refused_at_the_start(bad: str) -> None:
    with pytest.raises(SettingsError, match="EVENBED_FORECAST"):
        settings_from({"EVENBED_FORECAST": bad})
