"""Calendars are held against RFC 5545 by its own words, and against `icalendar`, which reads them independently."""

import re
from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import icalendar
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from tests.documents import Json
from tests.engine.calendars import A_CALENDAR, A_DATE, A_TICK
from tests.questions import answer_to, refusal_of
from tests.share import share_of

LONGEST_LINE = 75
"""RFC 5545, 3.1: lines of text should not be longer than 75 octets, excluding the line break."""
SIGNS = st.sampled_from(list("aé,;:\\\n\r\t \"'👷🏽\u2028\x85\x00\x07\x1b\x7f\ufeffñ≥BEGINEND=")) | st.characters(
    exclude_categories=["Cs"]
)
TEXTS = st.text(SIGNS, max_size=120)
ZONES = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
MOMENTS = st.datetimes(timezones=ZONES).filter(lambda moment: 1 < moment.year < 9999)
CALENDAR_FIELDS = {
    "moments": st.tuples(MOMENTS, MOMENTS),
    "uid": st.text(SIGNS, min_size=1, max_size=60),
    "summary": TEXTS,
    "description": TEXTS,
    "location": TEXTS,
    "sequence": st.integers(0, 2**31 - 1),
    "status": st.sampled_from(["tentative", "confirmed", "cancelled"]),
}


def dated(one: Json) -> Json:
    moments = sorted(one.pop("moments"))
    return one | {"from": moments[0].isoformat(), "to": moments[1].isoformat()}


CALENDARS = st.fixed_dictionaries(
    {
        "name": TEXTS,
        "made_at": MOMENTS.map(datetime.isoformat),
        "dates": st.lists(st.fixed_dictionaries(CALENDAR_FIELDS).map(dated), max_size=4),
    }
)


def calendar_text(asked: Json) -> str:
    text: str = answer_to("calendar", **asked)["text"]
    return text


def events_of(text: str) -> list[Any]:
    """Its events as an ordinary calendar program has them; none of them may hold what that program cannot read."""
    calendar: Any = icalendar.Calendar.from_ical(text.encode("utf-8"))
    assert calendar.errors == []
    events = calendar.walk("VEVENT")
    assert [event.errors for event in events] == [[] for _ in events]
    return list(events)


def name_of(text: str) -> str:
    """What the calendar is called, by RFC 7986 and by the older custom, which have to say the same."""
    calendar: Any = icalendar.Calendar.from_ical(text)
    assert str(calendar["name"]) == str(calendar["x-wr-calname"])
    as_summary = f"BEGIN:VEVENT\r\nSUMMARY:{calendar['name']}\r\nEND:VEVENT\r\n"  # it leaves names as they stand
    return str(icalendar.Event.from_ical(as_summary)["summary"])


def whole_second(moment: str) -> datetime:
    return datetime.fromisoformat(moment).astimezone(UTC).replace(microsecond=0)


@given(CALENDARS)
@example(A_CALENDAR)
@settings(max_examples=share_of(400), deadline=None)
def test_an_ordinary_calendar_program_reads_back_what_was_written(asked: Json) -> None:
    uids = [clean(date["uid"]) for date in asked["dates"]]
    assume(len(set(uids)) == len(uids))
    text = calendar_text(asked)
    for event, date in zip(events_of(text), asked["dates"], strict=True):
        assert str(event["uid"]) == clean(date["uid"])
        assert str(event["summary"]) == clean(date["summary"])
        assert str(event.get("description", "")) == clean(date["description"])
        assert str(event.get("location", "")) == clean(date["location"])
        assert int(event["sequence"]) == date["sequence"]
        assert str(event["status"]) == date["status"].upper()
        assert event["dtstart"].dt == whole_second(date["from"])
        assert event["dtstamp"].dt == whole_second(date.get("changed_at") or asked["made_at"])
        ends = whole_second(date["to"])
        assert event["dtend"].dt == ends if ends > event["dtstart"].dt else "dtend" not in event
    assert name_of(text) == clean(asked["name"])


def clean(text: str) -> str:
    """What a calendar can carry (RFC 5545, 3.1, 3.3.11): one kind of line break, no control character but the tab."""
    one_break = "".join("\n" if sign in "\v\f\x85\u2028\u2029" else sign for sign in text.replace("\r\n", "\n"))
    one_break = one_break.replace("\r", "\n")
    unseen = {chr(code) for code in (*range(32), 0x7F, *range(0x80, 0xA0), 0xFEFF)} - {"\t", "\n"}
    return "".join(sign for sign in one_break if sign not in unseen)


@given(CALENDARS)
@example(A_CALENDAR)
@settings(max_examples=share_of(200), deadline=None)
def test_every_line_is_short_ends_in_cr_lf_and_breaks_no_character(asked: Json) -> None:
    assume(len({clean(date["uid"]) for date in asked["dates"]}) == len(asked["dates"]))
    octets = calendar_text(asked).encode("utf-8")
    lines = octets.split(b"\r\n")
    assert lines.pop() == b""
    assert all(len(line) <= LONGEST_LINE for line in lines)
    assert all(not {*line} & {*range(9), *range(10, 32), 127} for line in lines), "a control character"
    assert [line.decode("utf-8") for line in lines]  # a line that ends inside a character would not decode
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert lines[-1] == b"END:VCALENDAR"


def test_a_calendar_says_whose_it_is_and_that_it_asks_nobody() -> None:
    calendar: Any = icalendar.Calendar.from_ical(calendar_text(A_CALENDAR))
    assert (str(calendar["version"]), str(calendar["calscale"])) == ("2.0", "GREGORIAN")
    assert "method" not in calendar, "RFC 5545, 3.7.2: without one it is a picture of a calendar, and asks nobody"
    assert name_of(calendar_text(A_CALENDAR)) == A_CALENDAR["name"]
    assert "Evenbed" in str(calendar["prodid"])


def test_a_moment_has_no_end_and_a_date_tells_when_it_changed() -> None:
    window, tick, cancelled = events_of(calendar_text(A_CALENDAR))
    assert window["last-modified"].dt == datetime(2026, 5, 4, 22, 0, tzinfo=UTC)
    assert window["dtend"].dt - window["dtstart"].dt == timedelta(hours=8, minutes=30)
    assert "dtend" not in tick
    assert "last-modified" not in tick
    assert cancelled["status"] == "CANCELLED"
    assert "location" not in cancelled


def test_no_date_is_a_calendar_without_an_event_but_with_a_component_as_every_calendar_has() -> None:
    """RFC 5545, 3.6: a body has one or more components; 3.6.5 what a time zone needs."""
    text = calendar_text(A_CALENDAR | {"dates": []})
    assert events_of(text) == []
    read: Any = icalendar.Calendar.from_ical(text)
    (zone,) = read.subcomponents
    assert (zone.name, str(zone["tzid"])) == ("VTIMEZONE", "Etc/UTC")
    assert zone.to_tz().utcoffset(datetime(2026, 5, 4)) == timedelta(0)  # noqa: DTZ001


ONCE = {"UID", "DTSTAMP", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "LOCATION", "STATUS", "SEQUENCE", "TRANSP"}
PROPERTY = re.compile(r"[A-Z-]+(;[A-Z-]+=[^:;,\"]+)*:.*")


@given(CALENDARS)
@example(A_CALENDAR)
@settings(max_examples=share_of(100), deadline=None)
def test_every_event_has_what_it_must_and_nothing_twice(asked: Json) -> None:
    """RFC 5545, 3.1 and 3.6.1, by the lines themselves."""
    assume(len({clean(date["uid"]) for date in asked["dates"]}) == len(asked["dates"]))
    lines = calendar_text(asked).replace("\r\n ", "").split("\r\n")[:-1]
    assert all(PROPERTY.fullmatch(line) for line in lines)
    begins = [n for n, line in enumerate(lines) if line == "BEGIN:VEVENT"]
    assert len(begins) == len(asked["dates"])
    for begin in begins:
        event = lines[begin + 1 : lines.index("END:VEVENT", begin)]
        names = [re.split("[;:]", line)[0] for line in event]
        assert len(names) == len(set(names))
        assert {"UID", "DTSTAMP", "DTSTART", "SEQUENCE"} <= {*names} <= ONCE | {"LAST-MODIFIED"}


def test_a_text_that_looks_like_a_line_of_the_format_stays_a_text() -> None:
    hostile = "x\r\nEND:VEVENT\r\nBEGIN:VALARM\r\nATTACH:file:///etc"
    event = events_of(calendar_text(A_CALENDAR | {"dates": [A_DATE | {"summary": hostile}]}))[0]
    assert str(event["summary"]) == hostile.replace("\r\n", "\n")
    assert event.subcomponents == []


@pytest.mark.parametrize(
    ("changed", "path", "code"),
    [
        ({"dates": [A_DATE, A_TICK, A_DATE]}, "dates[2].uid", "duplicate_id"),
        ({"dates": [A_DATE, A_DATE | {"uid": A_DATE["uid"] + "\x00"}]}, "dates[1].uid", "duplicate_id"),
        ({"dates": [A_DATE | {"to": "2026-05-05T05:59:59-05:00"}]}, "dates[0].to", "date_ends_before"),
        ({"dates": [A_DATE | {"from": "0001-01-01T00:00:00+14:00"}]}, "dates[0].from", "not_a_time"),
        ({"made_at": "9999-12-31T23:00:00-14:00"}, "made_at", "not_a_time"),
        ({"made_at": "2026-05-04T08:30:00"}, "made_at", "not_a_time"),
    ],
)
def test_what_no_calendar_can_hold_is_refused(changed: Json, path: str, code: str) -> None:
    assert refusal_of("calendar", A_CALENDAR | changed) == [(path, code)]
