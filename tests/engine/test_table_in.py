"""Tables of points read in: every usual manner is understood, and a fault anywhere takes nothing."""

import time
from itertools import product
from typing import Any, get_args

import pytest
from tests.documents import SQUARE, Json
from tests.questions import refusal_of
from tests.tables import LINES, ROOM, faults_of, points_of, rows_of, table_in

from evenbed.engine.tables.lines import SIGNS
from evenbed.engine.tables.numbers import MM_PER_UNIT
from evenbed.engine.tables.rows import MOST_ROWS
from evenbed.engine.tables.shapes import Separator, TableUnit

POINTS = [("1", 100, 2500, 12.5, "nail"), ("2", 3100, 2500, 13, "wall"), ("3", 3100, 500, 9.25, "")]


def written(separator: Separator, decimal: str, unit: TableUnit, end: str, head: str = "") -> str:
    """The points as a table in some manner."""
    rows = []
    for name, x, y, z, note in POINTS:
        lengths = (f"{length / MM_PER_UNIT[unit]:.7f}".replace(".", decimal) for length in (y, x, z))
        rows.append((SIGNS[separator] or "  ").join((name, *lengths, note)))
    return end.join([*([head] if head else []), *rows, ""])


@pytest.mark.parametrize(
    ("separator", "decimal"), [p for p in product(get_args(Separator), ".,") if p != ("comma", ",")]
)
@pytest.mark.parametrize("unit", ["mm", "cm", "m", "in", "ft"])
def test_every_usual_manner_is_understood_by_itself(separator: Separator, decimal: str, unit: TableUnit) -> None:
    answer = table_in(written(separator, decimal, unit, "\r\n"))
    told = {key: answer[key] for key in ("separator", "decimal", "header", "unit", "unit_reason", "heights")}
    mark = "point" if decimal == "." else "comma"
    assert told == {
        "separator": separator,
        "decimal": mark,
        "header": False,
        "unit": unit,
        "unit_reason": "room",
        "heights": "elevation",
    }
    for found, true in zip(points_of(answer["rows"]), POINTS, strict=True):
        assert (found[0], found[4]) == (true[0], true[4])
        assert found[1:4] == pytest.approx(true[1:4], abs=1e-3)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_line_ends_marks_of_order_empty_lines_remarks_and_headers_said_again_are_passed_over(end: str) -> None:
    head = "Point,Northing,Easting,Elevation,Description"
    text = end.join(
        ["\ufeffsep=,", "# the hall", head, LINES[0], "", "#,,", LINES[1], head, LINES[2] + ",,,", "", ""]
    )
    assert points_of(rows_of(text)) == POINTS


@pytest.mark.parametrize(
    "head",
    [
        "Este;Norte;Cota;Punto;Descripción",
        "X;Y;Z;P;D",
        "EASTING (mm);northing (mm);Elev. [mm];Pt No;Desc",
        "# e;n;el;no;code",
        "Coordenada X;Coordenada Y;Elevación;N°;Observaciones",
        "Coord. X;Y coord;Cota Z;Punto Nº;Código",
        "Este (X) [mm];Norte (Y) [mm];Z;Point;Note",
    ],
)
def test_headers_in_two_languages_and_the_usual_letters_name_the_columns(head: str) -> None:
    text = "\n".join([head, *(f"{x};{y};{z};{name};{note}" for name, x, y, z, note in POINTS)])
    answer = table_in(text)
    assert answer["header"]
    assert points_of(answer["rows"]) == POINTS
    assert answer["unit_reason"] == ("header" if "mm" in head else "room")


def test_titles_above_the_header_are_passed_over() -> None:
    text = "\n".join(["Hall, ground floor", "", "point,northing,easting,elevation,description", *LINES])
    assert points_of(rows_of(text)) == POINTS


def test_a_header_of_strange_words_is_a_header_and_the_columns_stand_in_the_usual_order() -> None:
    answer = table_in("\n".join(["a,b,c,q,w", *LINES]))
    assert answer["header"]
    assert answer["names"] == ["a", "b", "c", "q", "w"]
    assert points_of(answer["rows"]) == POINTS


@pytest.mark.parametrize(
    ("line", "columns"),
    [
        ("2500,100,12.5", (None, 0, 1, 2, None)),
        ("2500.5,100,12.5,nail", (None, 0, 1, 2, 3)),
        ("1,2500,100,12.5", (0, 1, 2, 3, None)),
        ("a7,2500,100,12.5", (0, 1, 2, 3, None)),
        ("1,2500,100,12.5,nail,more", (0, 1, 2, 3, 4)),
        ("2500.5,100.25,12.5,7", (None, 0, 1, 2, 3)),
    ],
)
def test_without_a_header_the_columns_stand_in_the_surveyors_order(
    line: str, columns: tuple[int | None, ...]
) -> None:
    found = table_in(line)["columns"]
    assert tuple(found[k] for k in ("point", "northing", "easting", "elevation", "description")) == columns


def test_feet_and_inches_are_read_in_any_cell() -> None:
    (row,) = rows_of("1,3' 5 7/16\",1'-2\",-0' 6\",nail")
    assert row["at"] == pytest.approx([355.6, 1052.5125])
    assert row["z"] == pytest.approx(-152.4)
    (curly,) = rows_of("1;3′ 5 7/16″;1’ 2;−0′ 6”;nail")
    assert (curly["at"], curly["z"]) == (row["at"], row["z"])
    assert table_in('1,3\' 5 7/16",1\' 2",6",nail')["unit_reason"] == "marks"


def test_a_length_with_its_own_unit_keeps_it() -> None:
    (row,) = rows_of("1;1,5 m;250 mm;2 in;nail", mapping={"unit": "ft", "decimal": "comma"})
    assert (*row["at"], row["z"]) == pytest.approx((250, 1500, 50.8))


def test_a_bare_fraction_is_of_inches_and_of_nothing_else() -> None:
    lines = ["Pt,N,E,Rod", "1,4,8,47 1/4", "2,90,8,47 5/16"]
    assert [row["down"] for row in rows_of("\n".join(lines))] == [1200.15, 1201.7375]
    feet = "\n".join(["Pt,N (ft),E (ft),Rod (ft)", *lines[1:]])
    assert [code for code, _ in faults_of(feet)] == ["table_number", "table_number"]


@pytest.mark.parametrize("minus", "-−–")
def test_every_minus_is_one(minus: str) -> None:
    assert [row["z"] for row in rows_of(f"1,2500,100,{minus}12.5,a\n2,500,100,{minus}3,b")] == [-12.5, -3.0]


def test_survey_feet_are_longer_than_feet_by_two_in_a_million() -> None:
    text = "p,2000000,600000,1\nq,2000001,600001,1"
    (row, _), (other, _) = (rows_of(text, mapping={"unit": unit}) for unit in ("us_ft", "ft"))
    assert row["at"][1] / other["at"][1] - 1 == pytest.approx(2e-6, rel=1e-3)
    assert table_in("p,northing (us ft),e,z\n1,2,3,4")["unit"] == "us_ft"


def test_readings_below_the_line_are_told_from_elevations() -> None:
    (row,) = rows_of("x,y,rod reading\n100,200,1234")
    assert (row["z"], row["down"], row["point"]) == (None, 1234, "")
    (asked,) = rows_of("1,200,100,1234", mapping={"heights": "down"})
    assert (asked["z"], asked["down"], asked["at"]) == (None, 1234, [100, 200])


def test_what_a_person_says_of_the_manner_stands() -> None:
    mapping = {
        "separator": "semicolon",
        "decimal": "comma",
        "header": False,
        "unit": "cm",
        "columns": {"easting": 0, "northing": 1, "elevation": 2},
    }
    answer = table_in("10;20;1,5\n30;40;2,5", mapping=mapping)
    assert (answer["unit_reason"], answer["columns"]["point"]) == ("chosen", None)
    assert [(*row["at"], row["z"]) for row in answer["rows"]] == [(100, 200, 15), (300, 400, 25)]


def test_without_a_room_the_unit_comes_from_the_numbers_size() -> None:
    def unit(*lines: str) -> tuple[str, str, Any]:
        answer = table_in("\n".join(lines), outline=None)
        return answer["unit"], answer["unit_reason"], answer["placing"]["outside"]

    assert unit("0,0,1", "3000,4000,1") == ("mm", "size", None)
    assert unit("0,0,1", "3,4,1") == ("m", "size", None)
    assert unit("0,0,1", "70,80,1") == ("ft", "size", None)


def test_a_stage_in_front_of_a_description_is_taken_as_the_stage() -> None:
    text = "1,10,10,1,bed: by the drain\n2,10,10,1,subfloor\n3,20,10,1,Bed\n4,30,10,1,bedrock shows\n5,40,10,1,"
    rows = [(row["stage"], row["note"]) for row in rows_of(text)]
    assert rows == [
        ("bed", "by the drain"),
        ("subfloor", ""),
        ("bed", ""),
        ("subfloor", "bedrock shows"),
        ("subfloor", ""),
    ]


def test_elevations_above_the_sea_are_lowered_by_whole_tens_of_metres_and_it_is_told() -> None:
    answer = table_in("1;1,5;2,5;2240,125\n2;2,5;0,5;2240,25", mapping={"unit": "m"})
    assert answer["lowered_by"] == 2_240_000
    assert [row["z"] for row in answer["rows"]] == [125, 250]
    assert table_in("\n".join(LINES))["lowered_by"] == 0


@pytest.mark.parametrize(
    ("line", "fault"),
    [
        ("4,1000,1O2.3,5,x", ("table_number", {"line": 4, "column": 3, "text": '"1O2.3"'})),
        ("4,1000,,5,x", ("table_empty", {"line": 4, "column": 3})),
        ("4,1000,5", ("table_short", {"line": 4, "columns": 3, "needed": 4})),
        ('4,1000,5,6,"x', ("table_open_quote", {"line": 4})),
        ("4,1e30,5,6", ("table_far", {"line": 4, "column": 2, "text": '"1e30"'})),
        ("4,500,3100,8", ("table_same_place", {"line": 4, "first": 3})),
        ('4,"1,000",500,8', ("table_number", {"line": 4, "column": 2, "text": '"1,000"'})),
        ("4,nan,500,8", ("table_number", {"line": 4, "column": 2, "text": '"nan"'})),
        ("4,1_000,500,8", ("table_number", {"line": 4, "column": 2, "text": '"1_000"'})),
        ("4,\u0661\u0662,500,8", ("table_number", {"line": 4, "column": 2, "text": '"\u0661\u0662"'})),
        ('4,13"",500,8', ("table_number", {"line": 4, "column": 2, "text": '"13"""'})),
        ("4,2' 15\",500,8", ("table_number", {"line": 4, "column": 2, "text": '"2\' 15""'})),
    ],
)
def test_one_bad_line_is_told_by_line_and_column_and_nothing_is_taken(line: str, fault: tuple[str, Json]) -> None:
    assert faults_of("\n".join([*LINES, line, "5,100,100,1"])) == [fault]


def test_every_fault_is_told_in_the_order_of_the_lines() -> None:
    faults = faults_of("\n".join(["x,1,2,3", *LINES, "y,1,2,", "z,?,!,3", LINES[0]]), mapping={"header": False})
    assert [(code, values["line"]) for code, values in faults] == [
        ("table_empty", 5),
        ("table_number", 6),
        ("table_number", 6),
        ("table_same_place", 7),
    ]


def test_a_table_without_points_columns_or_end_is_told() -> None:
    assert faults_of("") == [("table_nothing", {})]
    assert faults_of("# nothing\n\n") == [("table_nothing", {})]
    assert faults_of("hello there\nthis is a letter") == [("table_columns", {})]
    assert faults_of("northing,easting\n1,2") == [("table_columns", {})]
    twice = {"columns": {"northing": 1, "easting": 1, "elevation": 2}}
    assert faults_of("1,2,3", mapping=twice) == [("table_column_twice", {"column": 2})]
    many = "".join(f"{n},{n},1\n" for n in range(MOST_ROWS + 1))
    assert faults_of(many) == [("table_too_long", {"most": MOST_ROWS})]
    assert faults_of("#\n" * (2 * MOST_ROWS) + LINES[0]) == [("table_too_long", {"most": MOST_ROWS})]


def test_faults_beyond_the_list_are_counted() -> None:
    answer = table_in("\n".join(["1,2,3", *("a,b,c" for _ in range(300))]), mapping={"header": False})
    assert (len(answer["problems"]), answer["problem_count"], answer["row_count"]) == (200, 900, 301)


def test_the_first_lines_are_shown_as_they_stand_good_or_bad() -> None:
    answer = table_in("\n".join(["P,N,E,Z", *LINES, "4,oh,no", "5", "6", "7", "8", "9"]))
    assert answer["names"] == ["P", "N", "E", "Z"]
    assert answer["first_rows"][:2] == [["1", "2500", "100", "12.5", "nail"], ["2", "2500", "3100", "13", "wall"]]
    assert answer["first_rows"][3] == ["4", "oh", "no"]
    assert len(answer["first_rows"]) == 8


def test_a_question_that_is_none_is_refused() -> None:
    assert refusal_of("table_in", {"text": 7}) == [("text", "not_a_text")]
    assert refusal_of("table_in", {"text": "", "outline": {"vertices": SQUARE[:2]}}) == [
        ("outline.vertices", "too_few_corners")
    ]
    assert refusal_of("table_in", {"text": "", "mapping": {"separator": "pipe"}, "outline": ROOM}) == [
        ("mapping.separator", "not_one_of")
    ]


def test_as_many_rows_as_are_taken_come_within_a_second_of_work() -> None:
    big = "\r\n".join(f"{n},{n % 3000}.{n:05},{(n * 7) % 4000}.{n:05},{n % 9},floor" for n in range(MOST_ROWS))
    began = time.process_time()
    rows = rows_of(big)
    assert len(rows) == MOST_ROWS
    assert time.process_time() - began < 10  # ten times what it takes, for a shared machine and the schema's check
