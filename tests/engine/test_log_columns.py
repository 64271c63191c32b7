"""What is read as what in a temperature logger's file, and what is wrong with it, told by line."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.engine.logs import START, codes_of, read
from tests.questions import reply_to
from tests.share import share_of

# What is read as what.


def test_a_page_about_the_logger_a_header_and_a_line_of_units_are_passed_over() -> None:
    text = (
        "Logger;T-22\nSerial number;00123\nStarted;14.05.2026 07:00\n\n"
        "Nr;Datum;Uhrzeit;Temperatur;Feuchte\n;TT.MM.JJJJ;hh:mm;°C;%\n"
        "1;14.05.2026;08:00;18,5;40\n2;14.05.2026;08:30;18,7;41\n3;14.05.2026;09:00;---;41\n"
    )
    answer = read(text, offset_minutes=120)
    assert (answer["start"], answer["celsius"]) == ("2026-05-14T08:00:00+02:00", [18.5, 18.7])
    assert (answer["time_column"], answer["temperature_column"], answer["missing"]) == (1, 3, 1)
    assert (answer["unit"], answer["unit_reason"]) == ("celsius", "header")


def test_spanish_halves_of_the_day_and_a_quoted_decimal_comma_are_read() -> None:
    text = 'Fecha,Hora,Temp (C)\n14/05/2026,08:00:00 a. m.,"21,5"\n14/05/2026,08:00:00 p. m.,"22,5"\n'
    answer = read(text)
    assert (answer["seconds"], answer["celsius"]) == ([0.0, 43_200.0], [21.5, 22.5])


def test_blanks_between_the_columns_and_am_and_pm_apart_are_read() -> None:
    answer = read("05/14/2026 12:00 AM 20.5\n05/14/2026 12:00 PM 21.5\n")
    assert (answer["start"], answer["seconds"]) == ("2026-05-14T00:00:00+00:00", [0.0, 43_200.0])


@pytest.mark.parametrize("times", [1, 1000])
def test_seconds_and_milliseconds_since_1970_are_read(times: int) -> None:
    text = f"time,temperature\n{1_778_760_000 * times},21.5\n{1_778_760_600 * times},21.6\n"
    answer = read(text, offset_minutes=-300)
    assert datetime.fromisoformat(answer["start"]) == datetime.fromtimestamp(1_778_760_000, UTC)
    assert answer["seconds"] == [0.0, 600.0]


@pytest.mark.parametrize(
    ("header", "cells", "unit", "reason"),
    [
        ("Temp (°F)", ("68", "50"), "fahrenheit", "header"),
        ("Temperature_C", ("20", "10"), "celsius", "header"),
        ("Temperature F", ("68", "50"), "fahrenheit", "header"),
        ("Reading", ("68 °F", "50 °F"), "fahrenheit", "sign"),
        ("Reading", ("20C", "10C"), "celsius", "sign"),
        ("Reading", ("68", "50"), "fahrenheit", "size"),
        ("Reading", ("20", "10"), "celsius", "size"),
    ],
)
def test_degrees_are_told_by_the_header_by_their_sign_or_guessed_by_size(
    header: str, cells: tuple[str, str], unit: str, reason: str
) -> None:
    text = f"Time,{header}\n2026-05-14 08:00,{cells[0]}\n2026-05-14 09:00,{cells[1]}\n"
    answer = read(text)
    assert (answer["unit"], answer["unit_reason"]) == (unit, reason)
    assert answer["celsius"] == pytest.approx([20.0, 10.0], abs=1e-3)
    assert read(text, unit="celsius")["unit_reason"] == "chosen"


def test_of_several_columns_the_one_named_for_temperature_is_taken_or_the_one_a_person_chose() -> None:
    text = "No,Time,Humidity %,Temp 1,Temp 2\n1,2026-05-14 08:00,40,18,19\n2,2026-05-14 09:00,41,18.5,19.5\n"
    assert read(text)["celsius"] == [18.0, 18.5]
    assert read(text, temperature_column=4)["celsius"] == [19.0, 19.5]
    assert codes_of(read(text, temperature_column=1)) == [("log_one_column", None)]
    assert codes_of(read(text, temperature_column=7)) == [("log_short", 2), ("log_short", 3)]
    words = "Time,Temp,Note\n2026-05-14 08:00,18,cold\n2026-05-14 09:00,19,mild\n"
    assert codes_of(read(words, temperature_column=2)) == [("log_number", 2), ("log_number", 3)]


# What is refused.


def test_a_temperature_in_another_unit_than_the_file_is_read_in_is_refused() -> None:
    mixed = "time,temp\n2026-05-14 08:00,21.5 °C\n2026-05-14 08:10,71.6 °F\n2026-05-14 08:20,22\n"
    assert codes_of(read(mixed)) == [("log_other_unit", 3)]
    told = "time,temp C\n2026-05-14 08:00,71.5 °F\n2026-05-14 08:10,71.6 °F\n"
    assert codes_of(read(told)) == [("log_other_unit", 2), ("log_other_unit", 3)]
    assert codes_of(read(told, unit="fahrenheit")) == []


def test_every_bad_line_is_told_and_nothing_is_taken() -> None:
    text = (
        "time,temp\n2026-05-14 10:00,20\n2026-13-14 08:00,21\n2026-05-14 25:00,22\n2026-05-14 11:00,oops\n"
        '2026-05-14 12:00\n2026-05-14 13:00,900\n2026-05-14 14:00,21,5\n"2026-05-14 15:00,21\n'
    )
    assert codes_of(read(text)) == [
        ("log_time", 3),
        ("log_clock", 4),
        ("log_number", 5),
        ("log_short", 6),
        ("log_far", 7),
        ("log_wide", 8),
        ("table_open_quote", 9),
    ]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "log_nothing"),
        ("one,two\nthree,four\n", "log_nothing"),
        ("2026-05-14 10:00,20,5\n2026-05-14 11:00,20,6\n", "log_torn"),
        (
            "time,temp\n2026-05-14 10:00,--\n2026-05-14 11:00,\n2026-05-14 12:00,20C\n2026-05-14 13:00,2O\n",
            "log_number",
        ),
        ("2026-05-14,20\n2026-05-15,21\n", "log_clock"),
    ],
)
def test_what_cannot_be_read_says_why(text: str, code: str) -> None:
    assert code in [found for found, _ in codes_of(read(text))]


def test_a_first_row_that_is_wrong_is_not_taken_for_a_line_of_units() -> None:
    assert codes_of(read("time,temp\n2026-05-14 1O:00,oops\n2026-05-14 11:00,20\n2026-05-14 12:00,21\n")) == [
        ("log_clock", 2),
        ("log_number", 2),
    ]


def test_more_lines_than_a_log_may_have_are_told() -> None:
    text = "".join(f"{1_778_760_000 + 60 * n},20.5\n" for n in range(20_001))
    assert codes_of(read(text)) == [("log_too_long", None)]


def test_twenty_thousand_lines_are_read() -> None:
    text = "Date Time,Temp\n" + "".join(
        f"{(START + timedelta(minutes=n)).strftime('%m/%d/%Y %H:%M')},{20 + n % 7 / 10}\n" for n in range(20_000)
    )
    answer = read(text, offset_minutes=-300)
    assert (len(answer["seconds"]), answer["seconds"][-1]) == (20_000, 60.0 * 19_999)
    assert answer["start"] == START.isoformat()


MARKS = " \t,;\"'#.\n\r/:-+eE0123456789TZamp°CF"
LINES = [
    "2026-05-14 08:00,20.5",
    "14/05/2026;08:00;20,5",
    "time,temp",
    "05/14/26 8:00 AM\t70F",
    "",
    "x",
    "1778760000,9",
]


@given(
    st.text(st.sampled_from(MARKS), max_size=120)
    | st.lists(st.sampled_from(LINES) | st.text(st.sampled_from(MARKS), max_size=24), max_size=8).map("\n".join)
    | st.text(max_size=80)
)
@settings(max_examples=share_of(400), deadline=None)
def test_any_text_is_a_log_or_has_problems_and_never_both(text: str) -> None:
    answer = reply_to("log_in", {"text": text})
    if answer.keys() != {"problems"}:
        assert bool(answer["problems"]) != bool(answer["seconds"])
        assert (answer["start"] is None) == bool(answer["problems"])
