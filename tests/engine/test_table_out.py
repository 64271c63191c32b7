"""Tables written out: as csv reads them, and read in again they give the same numbers."""

import csv
import io
import json
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over
from tests.questions import answer_to, refusal_of
from tests.rooms import random_room

from evenbed.engine.tables.lines import SIGNS
from evenbed.engine.tables.numbers import MM_PER_UNIT
from evenbed.engine.tables.shapes import Decimal, Separator, TableUnit

HEADER = ["point", "northing", "easting", "elevation", "description"]
SAME = 0.011  # mm: half the last decimal written, of any unit, and a hair
UNITS, SEPARATORS, DECIMALS = (st.sampled_from(get_args(names)) for names in (TableUnit, Separator, Decimal))
NOTES = st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Zl", "Zp"]), max_size=12)


def table_out(room: Json, **manner: Any) -> Json:
    return answer_to("table_out", document=room, **manner)


def read_again(text: str, room: Json, unit: TableUnit) -> list[Json]:
    answer = answer_to("table_in", text=text, outline=room["outline"], mapping={"unit": unit})
    assert answer["problems"] == []
    rows: list[Json] = answer["rows"]
    return rows


@given(st.integers(0, 10**6), UNITS, SEPARATORS, DECIMALS)
@settings(max_examples=60, deadline=None)
def test_read_in_again_a_table_gives_the_same_places_and_heights(
    seed: int, unit: TableUnit, separator: Separator, decimal: Decimal
) -> None:
    room = random_room(seed)
    written = table_out(room, unit=unit, separator=separator, decimal=decimal)
    rows, heights = read_again(written["text"], room, unit), plan_of(room)["levels"]["heights"]
    assert written["rows"] == len(rows) == len(heights)
    for row, height in zip(rows, heights, strict=True):
        assert [*row["at"], row["z"]] == pytest.approx([*height["at"], height["z"]], abs=SAME)
        assert not row["outside"]


@given(st.integers(0, 10**6), UNITS, SEPARATORS, DECIMALS)
@settings(max_examples=30, deadline=None)
def test_what_was_read_in_and_is_written_again_is_the_same_table_to_the_letter(
    seed: int, unit: TableUnit, separator: Separator, decimal: Decimal
) -> None:
    manner = {"unit": unit, "separator": separator, "decimal": decimal}
    room = random_room(seed)
    first = table_out(room, **manner)["text"]
    rows = read_again(first, room, unit)
    again = room_over(room["outline"]["vertices"], [(*row["at"], row["z"]) for row in rows])
    assert table_out({**again, "outline": room["outline"]}, **manner)["text"] == first


@given(st.lists(NOTES, min_size=4, max_size=4), SEPARATORS, DECIMALS)
def test_notes_of_any_signs_come_back_as_one_cell_in_csv_and_here(
    notes: list[str], separator: Separator, decimal: Decimal
) -> None:
    room = room_over(SQUARE, [(x, y, n) for n, (x, y) in enumerate(SQUARE)])
    for reading, note in zip(room["readings"], notes, strict=False):
        reading["note"] = note
    spoken = [" ".join(note.split()) for note in notes]
    text = table_out(room, separator=separator, decimal=decimal)["text"]
    judged = list(csv.reader(io.StringIO(text, newline=""), delimiter=SIGNS[separator] or " "))
    assert judged[0] == HEADER
    assert [row[4] for row in judged[1:]] == [f"subfloor: {note}" if note else "subfloor" for note in spoken]
    assert [row["note"] for row in read_again(text, room, "mm")] == spoken


def test_lines_end_as_rfc_4180_has_them_and_the_header_stands_first() -> None:
    text = table_out(room_over(SQUARE, [(x, y, -n / 3) for n, (x, y) in enumerate(SQUARE)]))["text"]
    assert text.splitlines(keepends=True) == [
        "point,northing,easting,elevation,description\r\n",
        "1,0.00,0.00,0.00,subfloor\r\n",
        "2,0.00,4000.00,-0.33,subfloor\r\n",
        "3,3000.00,4000.00,-0.67,subfloor\r\n",
        "4,3000.00,0.00,-1.00,subfloor\r\n",
    ]


def test_a_decimal_comma_between_commas_stands_in_quotes() -> None:
    room = room_over(SQUARE, [(x, y, 1.5) for x, y in SQUARE])
    text = table_out(room, unit="m", separator="comma", decimal="comma")["text"]
    assert text.splitlines()[2] == '2,"0,00000","4,00000","0,00150",subfloor'


def test_readings_on_marks_are_left_out_and_counted_and_the_beds_are_told_apart() -> None:
    room = room_over(SQUARE, [(x, y, 0) for x, y in SQUARE])
    room["readings"].append({"id": "bed", "at": [100, 100], "down": -40, "stage": "bed"})
    written = table_out(room)
    assert (written["rows"], written["left_out"]) == (5, 1)
    assert written["text"].splitlines()[-1] == "5,100.00,100.00,40.00,bed"
    assert read_again(written["text"], room, "mm")[-1]["stage"] == "bed"


def test_survey_feet_are_written_by_their_own_length() -> None:
    room = room_over(SQUARE, [(x, y, 0) for x, y in SQUARE])
    line = table_out(room, unit="us_ft")["text"].splitlines()[2]
    assert line == f"2,0.00000,{4000 / MM_PER_UNIT['us_ft']:.5f},0.00000,subfloor"


def test_a_room_without_heights_is_refused_by_its_places() -> None:
    room = room_over(SQUARE, [(x, y, 0) for x, y in SQUARE])
    room["readings"][1]["at"] = [9000, 0]
    assert refusal_of("table_out", {"document": room}) == [("document.readings[1].at", "reading_outside")]
    assert refusal_of("table_out", {"document": json.loads("{}")})[0] == ("document.document", "missing")
    assert refusal_of("table_out", {"document": room, "unit": "ell"}) == [("unit", "not_one_of")]
