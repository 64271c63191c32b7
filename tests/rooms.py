"""Invented rooms for tests: `random_room(seed)` gives a whole room document, the same one for the same seed.

The outline is a simple polygon of 3 to 60 m², either way round, of one of three makes, by the seed's remainder:
0 rectilinear with up to eight notches (L, T, U, Z, combs of two), 1 the same turned by an odd angle, 2 slanted
(star-shaped, concave more often than not). It has 0 to 3 cutouts, clear of the walls and of each other, one
doorway (marked as the exit two times in three), readings at every corner and scattered inside but never in a
cutout, and sometimes its own rail design. Corners are whole tenths of a millimetre.

`outline_of`, `cutouts_of`, `polygon_of` and `area_of` read the figure back from such a document.
"""

import math
import random
from typing import Any

import shapely

Point = tuple[float, float]
Ring = tuple[Point, ...]
Room = dict[str, Any]

CLEARANCE = 120.0  # mm between a cutout and anything else
SPACED = 80.0  # mm, the least distance between two readings
LINE_HEIGHT = 1200.0  # mm, the level line above z = 0


def random_room(seed: int) -> Room:
    """A room document from any whole number. Every value is plain JSON."""
    dice = random.Random(seed)
    outline = _outline(dice, seed % 3)
    cutouts = _cutouts(dice, outline)
    room: Room = {
        "document": 1,
        "outline": {"vertices": _plain(outline), "cutouts": [_plain(ring) for ring in cutouts]},
        "openings": [_doorway(dice, outline)],
        "readings": _readings(dice, outline, cutouts),
    }
    if dice.random() < 0.5:
        room["rails"] = _rail_design(dice)
    return room


def outline_of(room: Room) -> Ring:
    """The outline's corners as points, in the document's order."""
    return tuple((x, y) for x, y in room["outline"]["vertices"])


def cutouts_of(room: Room) -> tuple[Ring, ...]:
    """The cutouts' corners as points, in the document's order."""
    return tuple(tuple((x, y) for x, y in ring) for ring in room["outline"]["cutouts"])


def polygon_of(room: Room) -> shapely.Polygon:
    """The figure as shapely has it, the cutouts as holes; a document may leave them out."""
    return shapely.Polygon(room["outline"]["vertices"], room["outline"].get("cutouts", ()))


def area_of(ring: Ring) -> float:
    """Signed area of a ring in mm², positive where it runs anticlockwise."""
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairs) / 2.0


def contains(ring: Ring, point: Point) -> bool:
    """Whether a point lies inside a ring (on its edge: either)."""
    inside = False
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (ay > point[1]) != (by > point[1]):
            inside ^= point[0] < ax + (bx - ax) * (point[1] - ay) / (by - ay)
    return inside


def _plain(ring: Ring) -> list[list[float]]:
    return [[x, y] for x, y in ring]


def _outline(dice: random.Random, make: int) -> Ring:
    raw = _star(dice) if make == 2 else _notched(dice)
    turn = dice.uniform(3.0, 87.0) if make == 1 else 0.0
    scale = math.sqrt(dice.uniform(3.2e6, 58e6) / abs(area_of(raw)))
    shift = (dice.uniform(-3000.0, 3000.0), dice.uniform(-3000.0, 3000.0))
    ring = tuple(_placed(point, scale, math.radians(turn), shift) for point in raw)
    first = dice.randrange(len(ring))
    ring = ring[first:] + ring[:first]
    return ring[::-1] if dice.random() < 0.5 else ring


def _placed(point: Point, scale: float, turn: float, shift: Point) -> Point:
    x, y = point[0] * scale, point[1] * scale
    c, s = math.cos(turn), math.sin(turn)
    return (round(x * c - y * s + shift[0], 1), round(x * s + y * c + shift[1], 1))


def _star(dice: random.Random) -> Ring:
    """Corners seen from one place inside, at growing angles less than half a turn apart."""
    count = dice.randint(4, 11)
    step = math.tau / count
    angles = [step * (i + dice.uniform(0.0, 0.7)) for i in range(count)]
    reach = [dice.uniform(0.45, 1.0) for _ in angles]
    return tuple((r * math.cos(a), r * math.sin(a)) for a, r in zip(angles, reach, strict=True))


def _notched(dice: random.Random) -> Ring:
    """A rectangle that lost some of its corners and some of its sides' middles."""
    width, depth = 1.0, dice.uniform(0.5, 1.6)
    ring: list[Point] = []
    for side in range(4):
        along, across = ((width, depth), (depth, width))[side % 2]
        local = _corner_notch(dice, along, across) + _side_notch(dice, along, across)
        ring += [_around(point, side, width, depth) for point in local]
    return tuple(ring)


def _corner_notch(dice: random.Random, along: float, across: float) -> list[Point]:
    """The corner at the side's beginning, whole or cut out."""
    if dice.random() < 0.6:
        return [(0.0, 0.0)]
    x, y = dice.uniform(0.06, 0.33) * along, dice.uniform(0.06, 0.33) * across
    return [(0.0, y), (x, y), (x, 0.0)]


def _side_notch(dice: random.Random, along: float, across: float) -> list[Point]:
    """An alcove cut into the side's middle third, or nothing."""
    if dice.random() < 0.75:
        return []
    x0, x1 = dice.uniform(0.36, 0.45) * along, dice.uniform(0.52, 0.64) * along
    y = dice.uniform(0.03, 0.3) * across
    return [(x0, 0.0), (x0, y), (x1, y), (x1, 0.0)]


def _around(point: Point, side: int, width: float, depth: float) -> Point:
    """From a side's own frame (along it, into the room) to the room's."""
    x, y = point
    return ((x, y), (width - y, x), (width - x, depth - y), (y, depth - x))[side]


def _cutouts(dice: random.Random, outline: Ring) -> tuple[Ring, ...]:
    wanted = dice.randint(0, 3)
    found: list[Ring] = []
    for _ in range(60):
        ring = _quadrangle(dice, _point_inside(dice, outline))
        if len(found) < wanted and _is_clear(ring, outline, tuple(found)):
            found.append(ring)
    return tuple(found)


def _quadrangle(dice: random.Random, middle: Point) -> Ring:
    """A small quadrangle, as often square to the axes as not."""
    half = (dice.uniform(60.0, 350.0), dice.uniform(60.0, 350.0))
    turn = 0.0 if dice.random() < 0.5 else dice.uniform(0.0, math.pi / 2.0)
    corners = ((-half[0], -half[1]), (half[0], -half[1]), (half[0], half[1]), (-half[0], half[1]))
    return tuple(_placed(corner, 1.0, turn, middle) for corner in corners)


def _is_clear(ring: Ring, outline: Ring, others: tuple[Ring, ...]) -> bool:
    if not all(contains(outline, corner) for corner in ring):
        return False
    if any(contains(other, ring[0]) or contains(ring, other[0]) for other in others):
        return False
    return all(_ring_distance(ring, other) >= CLEARANCE for other in (outline, *others))


def _ring_distance(ring: Ring, other: Ring) -> float:
    """Least distance between two rings, the second perhaps reaching into the first: then 0."""
    if any(contains(ring, p) for p in _fine(other)):
        return 0.0
    pairs = ((ring, other), (other, ring))
    return min(_edge_distance(p, edge) for a, b in pairs for p in a for edge in zip(b, b[1:] + b[:1], strict=True))


def _fine(ring: Ring) -> list[Point]:
    """Points along a ring's edges, no further apart than 50 mm (cutouts are at least 120 mm wide)."""
    points = []
    for a, b in zip(ring, ring[1:] + ring[:1], strict=True):
        steps = math.ceil(math.dist(a, b) / 50.0)
        points += [(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps) for i in range(steps)]
    return points


def _edge_distance(point: Point, edge: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = edge
    dx, dy = bx - ax, by - ay
    t = ((point[0] - ax) * dx + (point[1] - ay) * dy) / (dx * dx + dy * dy)
    t = min(1.0, max(0.0, t))
    return math.dist(point, (ax + t * dx, ay + t * dy))


def _point_inside(dice: random.Random, outline: Ring) -> Point:
    xs, ys = zip(*outline, strict=True)
    while True:
        point = (dice.uniform(min(xs), max(xs)), dice.uniform(min(ys), max(ys)))
        if contains(outline, point):
            return (round(point[0], 1), round(point[1], 1))


def _doorway(dice: random.Random, outline: Ring) -> dict[str, Any]:
    """A doorway somewhere in a wall that has room for one, else in the longest wall."""
    walls = [math.dist(a, b) for a, b in zip(outline, outline[1:] + outline[:1], strict=True)]
    wide = [i for i, wall in enumerate(walls) if wall >= 1000.0]
    wall = dice.choice(wide) if wide else walls.index(max(walls))
    width = min(dice.uniform(650.0, 950.0), 0.9 * walls[wall])
    start = round(dice.uniform(0.02, 0.98) * (walls[wall] - width), 1)
    height = round(dice.uniform(20.0, 60.0), 1) if dice.random() < 0.7 else None
    end = round(start + width, 1)
    leaves = dice.random() < 2.0 / 3.0
    return {"id": "door", "wall": wall, "from": start, "to": end, "adjoining_height": height, "exit": leaves}


def _readings(dice: random.Random, outline: Ring, cutouts: tuple[Ring, ...]) -> list[dict[str, Any]]:
    """Readings at every corner, then scattered ones, all from one laser: a sagging, leaning, lumpy floor."""
    places = list(outline)
    for _ in range(dice.randint(3, 40)):
        point = _point_inside(dice, outline)
        in_cutout = any(contains(ring, point) for ring in cutouts)
        if not in_cutout and all(math.dist(point, p) >= SPACED for p in places):
            places.append(point)
    lean = (dice.uniform(-0.004, 0.004), dice.uniform(-0.004, 0.004))
    wave = dice.uniform(1500.0, 5000.0)
    entries = []
    for i, (x, y) in enumerate(places):
        z = lean[0] * x + lean[1] * y + 5.0 * math.sin(x / wave) * math.cos(y / wave) + dice.gauss(0.0, 1.0)
        entries.append({"id": f"r{i + 1}", "down": round(LINE_HEIGHT - z, 1), "at": [x, y]})
    return entries


def _rail_design(dice: random.Random) -> dict[str, Any]:
    direction = "auto" if dice.random() < 0.6 else round(dice.uniform(-180.0, 180.0), 1)
    return {
        "straightedge": round(dice.uniform(900.0, 3000.0), 1),
        "inset": round(dice.uniform(60.0, 250.0), 1),
        "direction": direction,
    }
