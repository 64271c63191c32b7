"""The words by which headers name their columns and units, in English and Spanish."""

import re
import unicodedata
from collections.abc import Sequence
from typing import Any

from evenbed.engine.tables.shapes import MOST_COLUMNS, FoundColumns, TableUnit

_WORDS: dict[str, tuple[str, ...]] = {
    "point": (
        *("point", "pt", "p", "no", "nr", "num", "number", "id", "name", "pnt", "point name", "point no"),
        *("point number", "point id", "pt no", "pt id", "punto", "pto", "numero", "nombre", "numero de punto"),
        *("punto n", "pto n", "n de punto"),
    ),
    "northing": ("northing", "north", "n", "y", "norte"),
    "easting": ("easting", "east", "e", "x", "este"),
    "elevation": (
        *("elevation", "elev", "el", "z", "height", "h", "level", "rl", "reduced level", "altitude"),
        *("elevacion", "cota", "altura", "nivel", "altitud"),
    ),
    "description": (
        *("description", "desc", "d", "code", "note", "notes", "remark", "remarks", "comment", "comments"),
        *("descripcion", "codigo", "nota", "notas", "observacion", "observaciones", "comentario"),
    ),
    "down": (
        *("down", "reading", "rod", "staff", "rod reading", "staff reading", "drop"),
        *("lectura", "mira", "lectura de mira", "bajada"),
    ),
}
_ROLE_OF = {word: role for role, words in _WORDS.items() for word in words}
_UNIT_OF: dict[str, TableUnit] = {
    **dict.fromkeys(("mm", "millimeters", "millimetres", "milimetros"), "mm"),
    **dict.fromkeys(("cm", "centimeters", "centimetres", "centimetros"), "cm"),
    **dict.fromkeys(("m", "meters", "metres", "metros"), "m"),
    **dict.fromkeys(("in", "inches", "pulg", "pulgadas"), "in"),
    **dict.fromkeys(("ft", "feet", "pies"), "ft"),
    **dict.fromkeys(("us ft", "usft", "ft us", "ftus", "us survey ft", "us survey feet", "sft"), "us_ft"),
}
_FILLING = {"coord", "coords", "coordinate", "coordinates", "coordenada", "coordenadas"}
_LONGEST_WORD = 60
_LONGEST_UNIT = 3  # words of a unit behind a name


def role_of(cell: str) -> str | None:
    """What a header's cell says its column holds; None where nobody here knows the word."""
    return _named(cell)[0]


def unit_of(cells: Sequence[str]) -> TableUnit | None:
    """The unit that a header tells for its lengths; None where it tells none, or two different ones."""
    units = {unit for role, unit in map(_named, cells) if unit and role not in (None, "point", "description")}
    return units.pop() if len(units) == 1 else None


def columns_named(cells: Sequence[str]) -> FoundColumns:
    """Which column holds what by a header's words; of two columns of one name the first stands."""
    found: dict[str, Any] = {}
    for n, cell in enumerate(cells[:MOST_COLUMNS]):
        role = role_of(cell)
        if role is not None:
            found.setdefault(role, n)
    return FoundColumns(**found)


def _named(cell: str) -> tuple[str | None, TableUnit | None]:
    """Role and unit of a header's cell: `Northing (ft)` is a northing in feet."""
    words = [word for word in _plain(cell[:_LONGEST_WORD]).split() if word not in _FILLING]
    for count in range(min(_LONGEST_UNIT, len(words) - 1), 0, -1):
        unit, role = _UNIT_OF.get(" ".join(words[-count:])), _role(words[:-count])
        if unit is not None and role is not None:
            return role, unit
    return _role(words), None


def _role(words: Sequence[str]) -> str | None:
    """What words say together, or all of them alike: `Este (X)` is an easting."""
    each = {_ROLE_OF.get(word) for word in words}
    return _ROLE_OF.get(" ".join(words)) or (each.pop() if len(each) == 1 else None)


def _plain(text: str) -> str:
    """Small letters and digits with single blanks, accents left off: `Elevación_[m]` is `elevacion m`."""
    decomposed = unicodedata.normalize("NFKD", text.replace("°", "o").lower())
    letters = "".join(c for c in decomposed if not unicodedata.combining(c))
    return " ".join(re.findall(r"[a-z0-9]+", letters))
