"""Tops of bed and movement joints that cannot be, each with the place and the code of its problem."""

from typing import Any

from tests.bad_documents import changed, good
from tests.documents import Json


def through(*points: list[float]) -> Json:
    """The good document under a plane through points."""
    return changed("bed.top", {"kind": "plane", "through": list(points)})


def to_drain(fall: float, outline: Any = None, **given: Any) -> Json:
    """The good document under a top that falls to its drain, with some of the drain or of its top as given."""
    top = {"kind": "to_drain", "drain": "stub", "fall": fall}
    document = changed("bed.top", top)
    for key, value in given.items():
        (top if key in ("drain", "perimeter") else document["fixtures"][0])[key] = value
    if outline is None:
        return document
    readings = [{"setup": "s", "down": 0.0, "at": list(corner)} for corner in outline] + document["readings"][-1:]
    return document | {"outline": {"vertices": outline}, "openings": [], "readings": readings}


def two_levels(*line: list[float], ramp: float = 500.0) -> Json:
    """The good document under two levels."""
    return changed("bed.top", {"kind": "two_levels", "line": list(line), "left": 50.0, "right": 70.0, "ramp": ramp})


CORNERS: list[list[float]] = [[0, 0, 1], [5000, 0, 1], [0, 4000, 1]]
U_ROOM = [[0, 0], [5000, 0], [5000, 4000], [4000, 4000], [4000, 1000], [1000, 1000], [1000, 4000], [0, 4000]]
SLAB_JOINT = "joints.slab_joints[0]"


def held(**hold: Any) -> Json:
    """The good document under the least mortar, the floor held once."""
    return changed("bed.top", {"kind": "least_mortar", "holds": [hold]})


# What it is, the document, and where which problem is told.
DESIGNS: list[tuple[str, Json, str, str]] = [
    ("another top", changed("bed.top.kind", "dome"), "bed.top.kind", "not_one_of"),
    ("a top that is a number", changed("bed.top", 5), "bed.top", "not_an_object"),
    ("a top at no height", changed("bed.top.height", "high"), "bed.top.height", "not_a_number"),
    ("a plane through no points", through(), "bed.top.through", "top_without_points"),
    ("a plane through one place twice", through([0, 0, 1], [0, 0, 9]), "bed.top.through", "top_same_place"),
    ("a plane up a wall", through([0, 0, 0], [1000, 0, 900]), "bed.top.through", "top_too_steep"),
    ("a plane on a line", through([0, 0, 1], [1, 1, 1], [2, 2, 5]), "bed.top.through", "top_on_a_line"),
    (
        "a plane nearly on a line",
        through([0, 0, 0], [1e6, 0, 1], [0, 1e-320, 1e6]),
        "bed.top.through",
        "top_on_a_line",
    ),
    ("a plane like a wall", through([0, 0, 0], [1000, 0, 900], [0, 1000, 0]), "bed.top.through", "top_too_steep"),
    ("a plane without points", changed("bed.top", {"kind": "plane"}), "bed.top.through", "missing"),
    ("a top that misses its plane", through(*CORNERS, [5000, 2500, 9]), "bed.top.through[3]", "top_off_plane"),
    ("a fall of a wall", to_drain(0.5), "bed.top.fall", "top_too_steep"),
    ("a drain nobody knows", to_drain(0.02, drain="x"), "bed.top.drain", "unknown_id"),
    ("a drain that is a post", to_drain(0.02, kind="post"), "bed.top.drain", "not_a_drain"),
    ("a drain in a wall", to_drain(0.02, at=[40, 3200]), "fixtures[0].at", "drain_at_wall"),
    ("a drain behind a corner", to_drain(0.02, outline=U_ROOM, at=[500, 3500]), "bed.top.drain", "drain_hidden"),
    ("a linear drain of no length", to_drain(0.02, to=[1800, 3200]), "fixtures[0].to", "drain_no_length"),
    ("a linear drain that ends outside", to_drain(0.02, to=[1800, 9000]), "fixtures[0].to", "fixture_outside"),
    (
        "a linear drain with a level wall",
        to_drain(0.02, to=[1000, 3200], perimeter=90.0),
        "bed.top.perimeter",
        "perimeter_not_level",
    ),
    ("a linear drain behind a wall", to_drain(0.02, to=[1000, 3200]), "bed.top.drain", "drain_hidden"),
    ("walls below the drain", to_drain(0.02, perimeter=-50.0), "bed.top.perimeter", "perimeter_too_low"),
    ("two levels along a point", two_levels([0, 0], [0, 0]), "bed.top.line", "profile_no_length"),
    ("two levels beside the room", two_levels([-10, 0], [-10, 9]), "bed.top.line", "top_line_misses"),
    ("a ramp like a wall", two_levels([1000, 0], [1000, 9], ramp=30), "bed.top.ramp", "top_too_steep"),
    ("a floor held nowhere", held(low=50), "bed.top.holds[0]", "held_nowhere"),
    ("a floor held at two things", held(opening="door", fixture="stub"), "bed.top.holds[0]", "held_twice"),
    ("a floor held at a door and a place", held(opening="door", at=[9, 9]), "bed.top.holds[0]", "held_twice"),
    ("a floor held at no such door", held(opening="stub"), "bed.top.holds[0].opening", "unknown_id"),
    ("a floor held at a nameless door", held(opening=""), "bed.top.holds[0].opening", "unknown_id"),
    ("a floor held at no such drain", held(fixture="door"), "bed.top.holds[0].fixture", "unknown_id"),
    ("a floor held outside", held(at=[4000, 3500], low=50), "bed.top.holds[0].at", "held_outside"),
    ("a floor held in a cutout", held(at=[800, 800], low=50), "bed.top.holds[0].at", "held_outside"),
    (
        "a floor held from above to below",
        held(opening="door", low=50.5, high=50),
        "bed.top.holds[0].low",
        "held_low_above_high",
    ),
    ("a floor held to meet the air", held(at=[300, 300]), "bed.top.holds[0]", "held_meets_nothing"),
    (
        "a floor held to meet a door with nothing beyond",
        held(opening="door") | {"openings": [{**good()["openings"][0], "adjoining_height": None}]},
        "bed.top.holds[0]",
        "held_meets_nothing",
    ),
    ("a floor held at no height", held(opening="door", low="high"), "bed.top.holds[0].low", "not_a_number"),
    ("a floor held too low", held(fixture="stub"), "bed.top.holds[0]", "top_conflict_held_high"),
    ("a floor held too low by the bed", held(fixture="stub"), "bed.minimum_thickness", "top_conflict_minimum"),
    ("a floor held too high", held(at=[300, 300], low=500), "bed.maximum_thickness", "top_conflict_maximum"),
    (
        "a fall of one in one",
        changed("bed.top", {"kind": "least_mortar", "largest_fall": 1.1}),
        "bed.top.largest_fall",
        "too_large",
    ),
    ("a fall upwards", to_drain(-0.02), "bed.top.fall", "too_small"),
    ("joints under water", changed("joints.exposure", "sea"), "joints.exposure", "not_one_of"),
    ("joints too near", changed("joints.spacing", 1), "joints.spacing", "too_small"),
    ("a range in words", changed("joints.temperature_range", "hot"), "joints.temperature_range", "not_a_number"),
    ("tile that shrinks with warmth", changed("joints.expansion", -1e-6), "joints.expansion", "too_small"),
    ("a sealant like stone", changed("joints.sealant_movement", 0), "joints.sealant_movement", "too_small"),
    ("a joint of the slab with one end", changed("joints.slab_joints.0", [[1, 2]]), SLAB_JOINT, "wrong_count"),
    (
        "a joint of the slab with no length",
        changed("joints.slab_joints.0.0", [500, 4500]),
        SLAB_JOINT,
        "slab_joint_empty",
    ),
    (
        "a joint of the slab a parsec long",
        changed("joints.slab_joints.0.1", [0, 1e19]),
        SLAB_JOINT + "[1][1]",
        "too_large",
    ),
]
