"""Levelling documents for tests: networks of differences, the same as set-ups with readings, in any order."""

import math
import random
from typing import Any

from tests.documents import Json
from tests.questions import answer_to

SQRT_HALF = math.sqrt(0.5)


def levels_of(document: Json) -> Json:
    """The engine's levels of a good document."""
    return answer_to("levels", **document)


def network(known: dict[str, float], lines: list[tuple[str, str, float, Json]], **more: Any) -> Json:
    """A document of levelled differences: (from, to, rise, weight); a weight is a `sigma` or a `distance`."""
    names = sorted({end for line in lines for end in line[:2]})
    marks = [{"id": name, "height": known.get(name)} for name in names]
    differences = [
        {"id": f"{n}: {start}-{end}", "from": start, "to": end, "rise": rise, **weight}
        for n, (start, end, rise, weight) in enumerate(lines)
    ]
    return {"document": 1, "marks": marks, "differences": differences, **more}


def mixed(document: Json, seed: int) -> Json:
    """The same document with every list in another order."""
    dice = random.Random(seed)
    return {k: dice.sample(v, len(v)) if isinstance(v, list) else v for k, v in document.items()}


def turned_about(document: Json, seed: int) -> Json:
    """The same document with some differences levelled the other way."""
    dice = random.Random(seed)
    turned = [
        one | {"from": one["to"], "to": one["from"], "rise": -one["rise"]} if dice.random() < 0.5 else one
        for one in document["differences"]
    ]
    return document | {"differences": turned}


def as_readings(document: Json) -> Json:
    """The same network read: each difference becomes a set-up that reads both marks, each with half the variance."""
    sigma_km = document.get("adjustment", {}).get("sigma_km", 1.0)
    setups, readings = [], []
    for n, one in enumerate(document["differences"]):
        sigma = one.get("sigma") or sigma_km * math.sqrt(one["distance"] / 1e6)
        setups.append({"id": one["id"], "sigma": sigma * SQRT_HALF})
        back = 1000.0 + 37.0 * n
        readings.append({"setup": one["id"], "mark": one["from"], "down": back})
        readings.append({"setup": one["id"], "mark": one["to"], "down": back - one["rise"]})
    return document | {"differences": [], "setups": setups, "readings": readings}


def marks_of(levels: Json) -> dict[str, tuple[float, float]]:
    """Height and standard error of every mark."""
    return {mark["id"]: (mark["z"], mark["sigma"]) for mark in levels["marks"]}
