"""A table's text taken apart into lines and cells, as RFC 4180 has them and as they come in practice."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from evenbed.engine.tables.shapes import Separator

SIGNS: dict[Separator, str] = {"tab": "\t", "semicolon": ";", "comma": ",", "blanks": ""}
_TOKEN = re.compile(r'"((?:[^"]|"")*)"(?=\s|$)|(\S+)')


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
    """The lines that hold anything, up to `most` of them, cut into cells. A `#` begins a remark."""
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
    if text.lstrip().startswith("#"):
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
    cells: list[str] = []
    text, here, place = lines[n], n, 0
    while place <= len(text):
        start = _blanks_end(text, place, sign)
        if not text.startswith('"', start):
            end = _found(text, sign, place)
            cells.append(text[place:end].strip())
            place = end + 1
            continue
        cell, text, here, place = _quotation(lines, text, here, start + 1)
        if place < 0:
            return Line(n + 1, _plain(lines[n], sign), is_open=True), n + 1
        end = _found(text, sign, place)
        cells.append((cell + text[place:end].rstrip()).strip())
        place = end + 1
    return Line(n + 1, tuple(cells)), here + 1


def _blanks_end(text: str, place: int, sign: str) -> int:
    while place < len(text) and text[place].isspace() and text[place] != sign:
        place += 1
    return place


def _found(text: str, sign: str, place: int) -> int:
    end = text.find(sign, place)
    return len(text) if end < 0 else end


def _quotation(lines: list[str], text: str, here: int, place: int) -> tuple[str, str, int, int]:
    """What stands in quotes from `place`; then the text it ends in, that text's number and the place after the quote.

    The place is -1 where nothing closes it.
    """
    parts: list[str] = []
    while True:
        end = text.find('"', place)
        if end < 0:
            here += 1
            if here == len(lines):
                return "", text, here, -1
            parts += [text[place:], "\n"]
            text, place = lines[here], 0
        elif text.startswith('""', end):
            parts += [text[place:end], '"']
            place = end + 2
        else:
            return "".join([*parts, text[place:end]]), text, here, end + 1
