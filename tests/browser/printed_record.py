"""The record on paper, held against the screen: size, margins, every word, headers on every page."""

from itertools import pairwise

import pytest
from tests.browser.pdfs import ROUNDED, SIZES, Printed, squeezed
from tests.browser.phone import Phone

MARGIN_MM = 12.5
"""Of the words: the page leaves 13 mm."""
LEAST_FOOT_MM = 4.2
"""Ordinary printers leave about 4 mm (1/6 in) blank at every edge."""
TITLE_POINTS = 20.0
TEXTS = "(found) => found.map((one) => one.innerText)"
ROWS = "(found) => found.map((one) => [...one.cells].map((cell) => cell.innerText).join(' '))"
TOPS = """(found) => found.map((table) => [
  ...[...table.closest('section').children].filter((one) => !one.contains(table)).map((one) => one.innerText),
  ...[...table.rows].slice(0, 2).flatMap((row) => [...row.cells].map((cell) => cell.innerText))].join(' '))"""
"""The title of each table with what stands under it, its header and its first row."""


def check_pages(found: Printed, paper: str) -> None:
    """Of that size each; no word beyond the margins, but for the foot; nothing made smaller to fit."""
    across, up = SIZES[paper]
    assert len(found.pages) >= 5
    for page in found.pages:
        assert page.size == pytest.approx((across, up), abs=ROUNDED)
        left, low, right, high = page.box
        assert left >= MARGIN_MM
        assert right <= across - MARGIN_MM
        assert low >= LEAST_FOOT_MM
        assert high <= up - MARGIN_MM
    assert max(page.largest for page in found.pages) == pytest.approx(TITLE_POINTS, abs=0.2)


def check_words(phone: Phone, found: Printed) -> None:
    """Every title, row and caption of the record, each on one page; a title never without what it is of."""
    paper = phone.page.get_by_test_id("record-paper")
    for title in paper.locator("h1, h2, h3, figcaption").evaluate_all(TEXTS):
        assert found.holds(title), title
    rows = paper.locator("tbody tr").evaluate_all(ROWS)
    assert len(rows) > 150
    assert [row for row in rows if not found.holds(row)] == []
    tops = paper.locator(".record-table").evaluate_all(TOPS)
    assert [top for top in tops if not found.holds(top)] == []
    for place in paper.locator(".record-facts > div, .record-none, p.record-said, .record-said li").evaluate_all(
        TEXTS
    ):
        assert found.holds(place), place


def check_headers(phone: Phone, found: Printed) -> None:
    """A table that runs on to another page has its header again there, before its first row."""
    table = phone.page.get_by_test_id("record-readings").first
    header = squeezed(" ".join(table.locator("th").evaluate_all(TEXTS)))
    rows = [squeezed(row) for row in table.locator("tbody tr").evaluate_all(ROWS)]
    pages = [next(page.text for page in found.pages if header in page.text and row in page.text) for row in rows]
    for before, after in pairwise(pages):
        assert before == after or header in after
    for page, row in zip(pages, rows, strict=True):
        assert page.index(header) < page.index(row)
