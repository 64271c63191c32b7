"""Rooms under tops of many planes for tests, and what the engine makes of them short of a whole plan."""

import math
import random
from typing import Any

import numpy as np
import shapely
from tests.documents import Json
from tests.judges import LEAST_PART, Floor, cut, judge_bed, triangles_over
from tests.rooms import polygon_of, random_room

from evenbed.engine.document.check import check_document
from evenbed.engine.problems import BadDocumentError
from evenbed.engine.top.facets import Facet
from evenbed.engine.worked import WorkedRoom

U_ROOM = [[0, 0], [5000, 0], [5000, 4000], [4000, 4000], [4000, 1000], [1000, 1000], [1000, 4000], [0, 4000]]
L_ROOM = [[0, 0], [5000, 0], [5000, 2500], [2500, 2500], [2500, 4000], [0, 4000]]


def worked(document: Json) -> WorkedRoom:
    """The room of a good document, nothing of it worked out yet."""
    return WorkedRoom(check_document(document)[0])


def refusals_of(room: WorkedRoom) -> set[str]:
    """The codes of the problems that leave the room without a top."""
    try:
        return set() if room.top.cells else {"no cells"}
    except BadDocumentError as bad:
        return {problem.code for problem in bad.problems}


def is_served(room: WorkedRoom) -> bool:
    """False where the drain has corners without a straight way down, or walls too near for gentle falls."""
    refused = refusals_of(room)
    assert refused <= {"drain_hidden", "top_too_steep"}
    return not refused


def drained_room(seed: int, height: float | None = None, radius: float | None = None) -> Json:
    """A random room that falls to a round drain somewhere in it."""
    dice, room = random.Random(seed), random_room(seed)
    radius = dice.choice([0.0, 50.0, 75.0]) if radius is None else radius
    drain = {"id": "d", "kind": "drain", "at": _place(dice, polygon_of(room), radius), "radius": radius}
    fall = round(dice.uniform(0.005, 0.025), 4)
    top = {"kind": "to_drain", "drain": "d", "fall": fall}
    return room | {"fixtures": [drain | {"height": height}], "bed": {"top": top}}


def lined_room(seed: int) -> Json:
    """A random room that falls to a linear drain somewhere in it."""
    dice, room = random.Random(seed), drained_room(seed, radius=0.0)
    drain, polygon = room["fixtures"][0], polygon_of(room)
    drain["to"] = next(to for to in iter(lambda: _place(dice, polygon, 1.0), None) if math.dist(to, drain["at"]) > 50)
    drain["radius"] = dice.choice([0.0, 40.0])
    return room


def stepped_room(seed: int) -> Json:
    """A random room of two levels, with a ramp more often than with a step."""
    dice, room = random.Random(seed), random_room(seed)
    p, q = (_place(dice, polygon_of(room), 1.0) for _ in range(2))
    ramp = dice.choice([0.0, 250.0, 400.0])
    levels = {"left": dice.uniform(20.0, 50.0), "right": dice.uniform(20.0, 50.0), "ramp": ramp}
    return room | {"bed": {"top": {"kind": "two_levels", "line": [p, q], **levels}}}


def _place(dice: random.Random, polygon: Any, clear: float) -> list[float]:
    """A place in the room, a hand's breadth clear of walls and cutouts beyond what is asked."""
    inner = polygon.buffer(-clear - 30.0)
    x0, y0, x1, y1 = inner.bounds
    while True:
        at = [round(dice.uniform(x0, x1), 1), round(dice.uniform(y0, y1), 1)]
        if inner.contains(shapely.Point(at)):
            return at


def judged_volume(room: WorkedRoom, document: Json) -> float:
    """Mortar in m³ by scipy's triangles and shapely's overlaps, facet by facet."""
    triangles = triangles_over(list(room.floor))
    return math.fsum(_volume_under(f, triangles, polygon_of(document)) for f in room.top.facets)


def _volume_under(facet: Facet, triangles: list[Any], polygon: Any) -> float:
    shape = cut(polygon, np.array(facet.polygon))
    near = [t for t in triangles if shape.intersects(shapely.Polygon(t[:, :2]))]
    parts = tuple((t, part) for t in near if (part := cut(shape, t[:, :2])).area > LEAST_PART)
    if not parts:
        return 0.0
    return judge_bed(Floor(shape, parts), lambda xy: facet.a + xy @ [facet.b, facet.c], 1.0, 50.0).volume
