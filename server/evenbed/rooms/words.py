"""What a calendar shows of a milestone, in whole sentences: the same as the phone's (`web/src/words/*/dates.ts`)."""

import re
from collections.abc import Mapping

ENGLISH: Mapping[str, str] = {
    "dates.calendar": "Which room when",
    "dates.likely.walk": "{job}, {room}: walk on it, likely",
    "dates.likely.tile": "{job}, {room}: tile, likely",
    "dates.likely.grout": "{job}, {room}: grout, likely",
    "dates.likely.light_traffic": "{job}, {room}: light traffic, likely",
    "dates.likely.heavy_traffic": "{job}, {room}: heavy traffic, likely",
    "dates.passed.walk": "{job}, {room}: walk on it, let pass by {by}",
    "dates.passed.tile": "{job}, {room}: tile, let pass by {by}",
    "dates.passed.grout": "{job}, {room}: grout, let pass by {by}",
    "dates.passed.light_traffic": "{job}, {room}: light traffic, let pass by {by}",
    "dates.passed.heavy_traffic": "{job}, {room}: heavy traffic, let pass by {by}",
    "dates.window": "Early {early}, likely {likely}, late {late}.",
    "dates.window_open": "Early {early}, likely {likely}. How late it may become nobody can say.",
    "dates.on_measured": "It rests on temperatures measured until then.",
    "dates.on_both": "It rests on temperatures measured so far, and on foretold or assumed ones after that.",
    "dates.on_foretold": "It rests on foretold or assumed temperatures: none was measured.",
    "dates.no_test": "A prediction is not a test: somebody must look before anything goes on the bed.",
    "dates.passed_at": "Let pass {at} by {by}.",
    "dates.looked.scratch": "They scratched it.",
    "dates.looked.sounding": "They sounded it by tapping.",
    "dates.looked.thumb": "They pressed it with a thumb.",
    "dates.looked.foot": "They stepped on it.",
    "dates.looked.moisture_test": "They made a moisture test.",
    "dates.looked.other": "They looked at it another way.",
    "dates.somebody": "somebody",
    "dates.zone": "Times as in {zone}.",
}
SPANISH: Mapping[str, str] = {
    "dates.calendar": "Qué cuarto y cuándo",
    "dates.likely.walk": "{job}, {room}: pisarla, probable",
    "dates.likely.tile": "{job}, {room}: loseta, probable",
    "dates.likely.grout": "{job}, {room}: lechada, probable",
    "dates.likely.light_traffic": "{job}, {room}: paso ligero, probable",
    "dates.likely.heavy_traffic": "{job}, {room}: paso pesado, probable",
    "dates.passed.walk": "{job}, {room}: pisarla, visto bueno de {by}",
    "dates.passed.tile": "{job}, {room}: loseta, visto bueno de {by}",
    "dates.passed.grout": "{job}, {room}: lechada, visto bueno de {by}",
    "dates.passed.light_traffic": "{job}, {room}: paso ligero, visto bueno de {by}",
    "dates.passed.heavy_traffic": "{job}, {room}: paso pesado, visto bueno de {by}",
    "dates.window": "Temprano {early}, probable {likely}, tarde {late}.",
    "dates.window_open": "Temprano {early}, probable {likely}. Hasta cuándo puede tardar, nadie lo sabe.",
    "dates.on_measured": "Se basa en temperaturas medidas hasta entonces.",
    "dates.on_both": "Se basa en temperaturas medidas hasta ahora y después en previstas o supuestas.",
    "dates.on_foretold": "Se basa en temperaturas previstas o supuestas: no se midió ninguna.",
    "dates.no_test": "Una previsión no es una prueba: alguien tiene que mirar antes de poner nada sobre la cama.",
    "dates.passed_at": "Visto bueno el {at}, de {by}.",
    "dates.looked.scratch": "La rayó.",
    "dates.looked.sounding": "La golpeó para oírla.",
    "dates.looked.thumb": "La apretó con el pulgar.",
    "dates.looked.foot": "La pisó.",
    "dates.looked.moisture_test": "Hizo una prueba de humedad.",
    "dates.looked.other": "La miró de otra manera.",
    "dates.somebody": "alguien",
    "dates.zone": "Horas de {zone}.",
}
WORDS: Mapping[str, Mapping[str, str]] = {"en": ENGLISH, "es": SPANISH}


def said(language: str, key: str, **values: str) -> str:
    """A sentence with its blanks filled; a name that ends in a stop ends its sentence by itself.

    Raises KeyError for a key or a language outside the closed sets, and for a blank without a value.
    """

    def filled(blank: re.Match[str]) -> str:
        value, stop = values[blank[1]], blank[2]
        return value if value.endswith(".") else value + stop

    return re.sub(r"\{(\w+)\}(\.?)", filled, WORDS[language][key])
