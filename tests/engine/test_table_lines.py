"""Tables taken apart: as Python's csv reads what csv wrote, line numbers and all."""

import csv
import io
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from evenbed.engine.tables.lines import SIGNS, Line, cut, lines_of
from evenbed.engine.tables.shapes import Separator

SEPARATORS = st.sampled_from([s for s in get_args(Separator) if s != "blanks"])
CELLS = st.text(st.sampled_from(" \t,;\"'#aé1.5\n\r") | st.characters(codec="utf-8"), max_size=8)
ENDS = st.sampled_from(["\n", "\r\n", "\r"])


def cut_up(text: str, separator: Separator) -> list[tuple[str, ...]]:
    return [line.cells for line in cut(lines_of(text), separator, 1000)]


def plain(cell: str) -> str:
    """A cell as a table of points means it: no blanks around it, one kind of line end in it."""
    return cell.replace("\r\n", "\n").replace("\r", "\n").strip()


@given(st.lists(st.lists(CELLS, min_size=2, max_size=5), max_size=5), SEPARATORS, ENDS)
def test_what_csv_writes_comes_back_cell_by_cell(table: list[list[str]], separator: Separator, end: str) -> None:
    file = io.StringIO()
    csv.writer(file, delimiter=SIGNS[separator], quoting=csv.QUOTE_ALL, lineterminator=end).writerows(table)
    assert cut_up(file.getvalue(), separator) == [tuple(map(plain, row)) for row in table]


@given(st.lists(st.text(st.sampled_from("ab1.5-' ,;\""), max_size=12), max_size=6), SEPARATORS)
def test_lines_of_any_making_are_read_as_csv_reads_them(lines: list[str], separator: Separator) -> None:
    """Where a quote stays open csv takes the rest of the file: there this reader tells of it and goes on instead."""
    found = list(cut(lines, separator, 1000))
    if any(line.is_open for line in found):
        return
    read = csv.reader([f"{line}\n" for line in lines], delimiter=SIGNS[separator], skipinitialspace=True)
    judged = [tuple(cell.strip() for cell in row) for row in read]
    spoken = [cells for cells in judged if cells and cells != ("",)]
    assert [line.cells for line in found if line.cells != ("",)] == spoken


@given(st.lists(st.text(st.sampled_from("ab1.5-'"), min_size=1, max_size=6), min_size=1, max_size=6))
def test_blanks_of_any_number_stand_between_cells(cells: list[str]) -> None:
    assert cut_up("  ".join(cells) + " \t ", "blanks") == [tuple(cells)]


def test_cells_between_blanks_may_stand_in_quotes() -> None:
    assert cut_up('1 2 "by the ""old"" door" 5"', "blanks") == [("1", "2", 'by the "old" door', '5"')]


def test_inch_marks_in_a_cell_are_no_quotes() -> None:
    assert cut_up('1,3\' 5 7/16",2",4', "comma") == [("1", "3' 5 7/16\"", '2"', "4")]


def test_empty_lines_and_remarks_keep_their_numbers() -> None:
    text = '\ufeff# made on site\r\n\r\n1,2\n  \n"a\nb",3\r4,5'
    found = list(cut(lines_of(text), "comma", 1000))
    assert [(line.number, line.cells, line.is_remark) for line in found] == [
        (1, ("made on site",), True),
        (3, ("1", "2"), False),
        (5, ("a\nb", "3"), False),
        (7, ("4", "5"), False),
    ]


def test_a_quote_that_nothing_closes_is_told_and_the_lines_after_it_are_read() -> None:
    found = list(cut(['1,"a', "2,b", "3,c"], "comma", 1000))
    assert [(line.number, line.is_open) for line in found] == [(1, True), (2, False), (3, False)]


def test_a_quote_goes_over_no_more_lines_than_a_description_has() -> None:
    far = ['1,"a', *["x"] * 200, 'b"']
    assert next(cut(far, "comma", 1000)).is_open
    near = ['1,"a', *["x"] * 50, 'b"']
    assert next(cut(near, "comma", 1000)) == Line(1, ("1", "\n".join(["a", *["x"] * 50, "b"])))


@pytest.mark.parametrize("separator", get_args(Separator))
def test_no_more_lines_are_cut_than_asked_for(separator: Separator) -> None:
    assert len(list(cut(["1", "2", "", "3"], separator, 2))) == 2
