"""A table's text taken apart into lines and cells, as RFC 4180 has them and as they come in practice."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.tables.shapes import Separator

SIGNS: dict[Separator, str] = {"tab": "\t", "semicolon": ";", "comma": ",", "blanks": ""}
REMARKS = ("#", "sep=")  # spreadsheets write `sep=;` above a table
MOST_JOINED = 100  # lines that one point may go over in quotes: no description is longer
_CELLS = {
    sign: re.compile(rf'(?:[^\S{sign}\n]*+(?:"(?P<quoted>(?:[^"]|"")*+)"|(?P<open>")))?(?P<plain>[^{sign}]*)')
    for sign in SIGNS.values()
    if sign
}
_TOKEN = re.compile(r'"((?:[^"]|"")*+)"(?=\s|$)|(\S+)')


@dataclass(frozen=True)
class Line:
    """One line of the table: its number from 1, its cells without blanks around them, and what it says of itself."""

    number: int
    cells: tuple[str, ...]
    is_remark: bool = False
    is_open: bool = False  # a quote that nothing closes


def lines_of(text: str) -> list[str]:
    """The text's lines, ended by CR LF, LF or CR, without a byte order mark."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")


def cut(lines: list[str], separator: Separator, most: int) -> Iterator[Line]:
    """The lines that hold anything, up to `most` of them, cut into cells. REMARKS begin a remark."""
    sign, n, given = SIGNS[separator], 0, 0
    while n < len(lines) and given < most:
        text = lines[n]
        if not text or text.isspace():
            n += 1
            continue
        line, n = _line(lines, n, sign)
        given += 1
        yield line


def _line(lines: list[str], n: int, sign: str) -> tuple[Line, int]:
    """The line at n, and where the next one begins: a cell in quotes may hold ends of lines."""
    text = lines[n]
    if text.lstrip().startswith(REMARKS):
        return Line(n + 1, _plain(text.lstrip()[1:], sign), is_remark=True), n + 1
    if '"' not in text:
        return Line(n + 1, _plain(text, sign)), n + 1
    if not sign:
        return Line(n + 1, tuple(_unquoted(m) for m in _TOKEN.finditer(text))), n + 1
    return _quoted(lines, n, sign)


def _plain(text: str, sign: str) -> tuple[str, ...]:
    return tuple(text.split()) if not sign else tuple([cell.strip() for cell in text.split(sign)])


def _unquoted(token: re.Match[str]) -> str:
    whole = token[2]
    return whole if whole is not None else token[1].replace('""', '"')


def _quoted(lines: list[str], n: int, sign: str) -> tuple[Line, int]:
    """The line at n with cells in quotes, joined with the next ones as long as a quote stays open."""
    text = lines[n]
    for end in range(n + 1, min(n + MOST_JOINED, len(lines)) + 1):
        cells = _cells(text, _CELLS[sign])
        if cells is not None:
            return Line(n + 1, cells), end
        text = "\n".join(lines[n : end + 1])
    return Line(n + 1, _plain(lines[n], sign), is_open=True), n + 1


def _cells(text: str, pattern: re.Pattern[str]) -> tuple[str, ...] | None:
    """The cells of a text; None where a quote is open at its end."""
    cells = []
    place = 0
    while place <= len(text):
        match = pattern.match(text, place)
        if match is None or match["open"]:
            return None
        quoted = match["quoted"] or ""
        cells.append((quoted.replace('""', '"') + match["plain"]).strip())
        place = match.end() + 1
    return tuple(cells)
