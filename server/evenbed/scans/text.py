"""Rows of text: XYZ and CSV. Values stand apart by blanks, tabs, commas or semicolons; three of them are the place.

A first row of words names the columns. A comma is a decimal point where semicolons, tabs or blanks stand between the
values. Rows that begin with # or // are passed over. A first row with one whole number alone says how many follow.
"""

import math
import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO

import numpy as np

from evenbed.engine.problems import shown
from evenbed.engine.tables.names import role_of
from evenbed.scans.cloud import MOST_POINTS, Numbers, Spool, Tell
from evenbed.scans.faults import ScanError

CHUNK = 2_000_000
LONGEST_LINE = 10_000
REMARKS = (b"#", b"//")
ROLES = ("easting", "northing", "elevation")
_DECIMAL_COMMAS = re.compile(rb"\s*[-+]?\d+,\d+(\s+[-+]?\d+(,\d+)?){2,}\s*")


@dataclass(frozen=True)
class Rows:
    """How rows are understood: what stands between values (nothing for blanks), and which columns are x, y and z."""

    separator: bytes = b""
    has_decimal_commas: bool = False
    places: tuple[int, int, int] = (0, 1, 2)
    count: int | None = None
    """How many the file says there are."""

    def plain(self, text: bytes) -> bytes:
        """The same text with points for decimal commas."""
        return text.replace(b",", b".") if self.has_decimal_commas else text


def spool_rows(
    file: IO[bytes], spool: Spool, size: int, tell: Tell, given: Rows | None = None, line: int = 1
) -> None:
    """Read rows from where the file stands into the spool. `given` where the format tells how, `line` its number.

    Raises ScanError with the number of the line that cannot be understood, or where the count is wrong.
    """
    start = file.tell()
    rows, skipped = (given, 0) if given else _rows_from(file, start)
    for lines, first in _chunks(file, line + skipped):
        wanted = rows.count - spool.count if given and rows.count is not None else None
        spool.add(_values(lines, rows, first, wanted))
        if spool.count > MOST_POINTS:
            raise ScanError("scan_many_points", count=spool.count, most=MOST_POINTS)
        tell(min(1.0, (file.tell() - start) / max(1, size - start)))
        if given and spool.count == rows.count:
            return
    _check_count(spool.count, rows.count)


def _check_count(got: int, expected: int | None) -> None:
    if expected is not None and got < expected:
        raise ScanError("scan_short", expected=expected, got=got)
    if expected is not None and got > expected:
        raise ScanError("scan_long", expected=expected)


def _chunks(file: IO[bytes], line: int) -> Iterator[tuple[bytes, int]]:
    """Whole lines, some at a time, with the number of the first."""
    rest = b""
    while part := file.read(CHUNK):
        if b"\0" in part:
            raise ScanError("scan_not_text")
        lines, mark, rest = (rest + part).rpartition(b"\n")
        following = line + lines.count(b"\n") + len(mark)
        if len(rest) > LONGEST_LINE:
            raise ScanError("scan_long_line", f"line {following}", most=LONGEST_LINE)
        if mark:
            yield lines + mark, line
        line = following
    if rest.strip():
        yield rest + b"\n", line


def _rows_from(file: IO[bytes], start: int) -> tuple[Rows, int]:
    """How the rows are to be understood, by the first ones; the file stands behind its head then, if it has one."""
    names, count, skipped = None, None, 0
    while text := file.readline(LONGEST_LINE):
        plain = text.removeprefix(b"\xef\xbb\xbf").strip()
        if b"\0" in plain:
            raise ScanError("scan_not_text")
        if not plain or plain.startswith(REMARKS):
            start, skipped = file.tell(), skipped + 1
        elif names is None and count is None and plain.isdigit() and len(plain) < 12:
            count, start, skipped = int(plain), file.tell(), skipped + 1
        elif names is None and _is_head(plain):
            names, start, skipped = plain, file.tell(), skipped + 1
        else:
            break
    file.seek(start)
    separator, has_decimal_commas = _separator(plain if text else b"")
    return Rows(separator, has_decimal_commas, _places(names, skipped), count), skipped


def _is_head(plain: bytes) -> bool:
    """True for words only; a row with a number in it is a row, if a bad one."""
    return not any(_is_number(word) for word in re.split(rb"[\s,;]+", plain))


def _is_number(word: bytes) -> bool:
    try:
        float(word)
    except ValueError:
        return False
    return True


def _separator(row: bytes) -> tuple[bytes, bool]:
    """What stands between the values of a row, and whether commas are decimal points in it."""
    for separator in (b";", b"\t"):
        if separator in row:
            return separator, True
    if _DECIMAL_COMMAS.fullmatch(row):
        return b"", True
    return (b"," if b"," in row else b""), False


def _places(head: bytes | None, line: int) -> tuple[int, int, int]:
    """Which columns are x, y and z: by their names, or the first three where no name is known."""
    if head is None:
        return 0, 1, 2
    told = head.decode("utf-8", "replace")
    parts = re.split(r"[,;\t]", told) if re.search(r"[,;\t]", told) else told.split()
    told_roles = [role_of(part) for part in parts]
    found = [told_roles.index(role) if role in told_roles else None for role in ROLES]
    if found == [None, None, None]:
        return 0, 1, 2
    missing = ", ".join(axis for axis, place in zip("xyz", found, strict=True) if place is None)
    if missing:
        raise ScanError("scan_no_places", f"line {line}", missing=missing)
    x, y, z = (place for place in found if place is not None)
    return x, y, z


def _values(lines: bytes, rows: Rows, first: int, wanted: int | None) -> Numbers:
    """The places in some lines, all at once where they are a plain table, else one by one."""
    table = None if _has_gaps(lines, rows.separator) else _table(_with_blanks(lines, rows), wanted)
    if table is not None and table.shape[1] > max(rows.places):
        values = table[:, rows.places]
        if np.isfinite(values).all():
            return values
    return _one_by_one(lines, rows, first, wanted)


def _has_gaps(lines: bytes, separator: bytes) -> bool:
    """True where a value may be missing: two separators in a row, or one at the beginning of a line."""
    return bool(separator) and (
        separator * 2 in lines
        or b"\n" + separator in lines
        or lines.startswith(separator)
        or b" " + separator in lines
    )


def _with_blanks(lines: bytes, rows: Rows) -> bytes:
    plain = rows.plain(lines)
    return plain.replace(rows.separator, b" ") if rows.separator else plain


def _table(text: bytes, wanted: int | None) -> Numbers | None:
    """The table that the text is, or None where its rows differ in length or something is no number."""
    signs = np.frombuffer(text, np.uint8)
    is_blank = signs <= ord(" ")
    begins = np.flatnonzero(is_blank[:-1] & ~is_blank[1:])
    ends = np.flatnonzero(signs == ord("\n"))
    up_to = np.searchsorted(begins, ends) + (not is_blank[0])
    columns = int(up_to[0])
    if columns < 3 or (wanted is not None and len(ends) > wanted):
        return None
    if not np.array_equal(up_to, columns * np.arange(1, len(ends) + 1)):
        return None
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", DeprecationWarning)  # how some versions of numpy tell of a strange sign
            values = np.fromstring(text, sep=" ")
    except (ValueError, DeprecationWarning):
        return None
    return values.reshape(-1, columns) if len(values) == columns * len(ends) else None


def _one_by_one(lines: bytes, rows: Rows, first: int, wanted: int | None) -> Numbers:
    found: list[tuple[float, float, float]] = []
    for line, text in enumerate(lines.split(b"\n")[:-1], start=first):
        if len(found) == wanted:
            break
        plain = text.removeprefix(b"\xef\xbb\xbf").strip()
        if plain and not plain.startswith(REMARKS):
            found.append(_place(rows.plain(plain).split(rows.separator or None), rows, line))
    return np.array(found, dtype=float).reshape(-1, 3)


def _place(words: list[bytes], rows: Rows, line: int) -> tuple[float, float, float]:
    if len(words) <= max(rows.places):
        raise ScanError("scan_few_columns", f"line {line}", expected=max(rows.places) + 1, got=len(words))
    x, y, z = (_number(words[place], line) for place in rows.places)
    return x, y, z


def _number(word: bytes, line: int) -> float:
    try:
        value = math.nan if b"_" in word else float(word)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise ScanError("scan_not_a_number", f"line {line}", got=shown(word[:40].decode("utf-8", "replace")))
    return value
