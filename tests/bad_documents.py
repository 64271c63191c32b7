"""A good room document with something in every part of it, and the ways it can go bad."""

import math
from typing import Any

from tests.documents import Json

MILLION = "9" * 1_000_000
HUGE = int("9" * 400)
NAN, INF = math.nan, math.inf
SQUARE_CUT = [[600, 600], [1100, 600], [1100, 1000], [600, 1000]]


def good() -> Json:
    """A good document with something in every part of it."""
    return {
        "document": 1,
        "outline": {
            "vertices": [[0, 0], [5000, 0], [5000, 2500], [2500, 2500], [2500, 4000], [0, 4000]],
            "cutouts": [[[600, 600], [1100, 600], [1100, 1000], [600, 1000]]],
        },
        "openings": [{"id": "door", "wall": 5, "from": 1000, "to": 1800, "adjoining_height": 55.0, "exit": True}],
        "fixtures": [{"id": "stub", "kind": "drain", "at": [1800, 3200], "radius": 50, "height": 20.0}],
        "setups": [{"id": "s", "kind": "laser", "sigma": 1.0, "instrument": "L", "at": [1500, 1500]}],
        "marks": [{"id": "bm", "height": 0.0}, {"id": "nail"}],
        "differences": [{"id": "d", "from": "bm", "to": "nail", "rise": 12.0, "distance": 20_000.0}],
        "instrument_checks": [
            {
                "id": "i",
                "kind": "two_peg",
                "instrument": "L",
                "accepted": True,
                "first": [1476.0, 1432.0],
                "second": [1520.0, 1476.0],
                "sights": [50_000.0, 10_000.0],
            }
        ],
        "adjustment": {"datum": "fixed", "sigma_km": 1.0},
        "readings": [
            {"id": "a", "setup": "s", "down": 3.0, "at": [0, 0]},
            {"id": "b", "setup": "s", "down": 5.0, "at": [5000, 0]},
            {"id": "c", "setup": "s", "down": 7.0, "at": [5000, 2500]},
            {"id": "d", "setup": "s", "down": 1.0, "at": [2500, 2500]},
            {"id": "e", "setup": "s", "down": 4.0, "at": [2500, 4000]},
            {"id": "f", "setup": "s", "down": 9.0, "at": [0, 4000]},
            {"id": "g", "setup": "s", "down": 0.0, "mark": "bm", "sight": 2000.0},
        ],
        "bed": {
            "build": "unbonded",
            "minimum_thickness": 32.0,
            "maximum_thickness": 60.0,
            "covering": {"tile_thickness": 10.0, "bond_thickness": 5.0, "longest_edge": 300.0},
            "top": {"kind": "level", "height": None},
        },
        "rails": {
            "straightedge": 1800.0,
            "bearing": 50.0,
            "inset": 150.0,
            "strip": {"thickness": 25.0, "width": 38.0, "length": 2400.0},
            "overlap": 300.0,
            "station_spacing": 600.0,
            "direction": "auto",
            "straightedges": [600.0, 1200.0],
            "strips": [{"thickness": 20.0, "length": 1800.0, "count": 3}],
        },
        "mix": {"cement": 1, "sand": 5, "water_cement": 0.5, "bag_mass": 42.6, "air": 0.1, "waste": 0.1},
        "joints": {
            "exposure": "outdoors",
            "spacing": 3600.0,
            "temperature_range": 60.0,
            "expansion": 1.08e-5,
            "sealant_movement": 0.25,
            "slab_joints": [[[500, -100], [500, 4500]]],
        },
        "checks": [
            {"id": "along", "rail": "A", "from": 0, "to": 1200, "off": 3.2, "length": 1200, "reversed_off": 1.6},
            {"id": "across", "rails": ["A", "B"], "from": 500, "to": 500, "off": -4.8, "level": "long"},
            {"id": "again", "rail": "A", "from": 0, "to": 1200, "off": 0, "taken_at": "2026-05-04T08:00:00-05:00"},
        ],
        "truings": [{"rail": "A", "from_raise": 1.0, "to_raise": -1.0, "at": "2026-05-04T07:00:00-05:00"}],
        "placements": [{"section": "", "mixed_at": "2026-05-04T08:00:00-05:00", "placed_at": None}],
        "climate": [{"at": "2026-05-04T08:00:00-05:00", "bed": 12.0, "air": 10.0, "humidity": 60, "wind": 5}],
        "curing": {"milestones": [{"milestone": "walk", "needs": 20.0}]},
    }


def changed(path: str, value: Any) -> Json:
    """The good document with one place changed; a path such as `readings.2.down`."""
    document = good()
    *way, last = path.split(".")
    inner: Any = document
    for step in way:
        inner = inner[int(step)] if isinstance(inner, list) else inner[step]
    inner[int(last) if isinstance(inner, list) else last] = value
    return document


def without(*keys: str) -> Json:
    return {k: v for k, v in good().items() if k not in keys}


def taped(count: int, **wall: float) -> Json:
    """The good document with so many walls, all alike, for an outline."""
    return changed("outline", {"walls": [wall] * count})


WEIGHTLESS, CHECKED = "difference_without_weight", "instrument_checks[0]"
LINE = [{"down": 1.0, "at": [500.0 * n, 250.0 * n]} for n in range(1, 6)]

# What it is, the document, and where which problem is told.
KINDS: list[tuple[str, Json, str, str]] = [
    ("no outline", without("outline"), "outline", "missing"),
    ("no readings", without("readings"), "readings", "missing"),
    ("no document number", without("document"), "document", "missing"),
    ("another document number", changed("document", 2), "document", "not_one_of"),
    ("true for a document number", changed("document", True), "document", "not_one_of"),
    ("a text for a document number", changed("document", "1"), "document", "not_one_of"),
    ("null readings", changed("readings", None), "readings", "missing"),
    ("readings in an object", changed("readings", {}), "readings", "not_a_list"),
    ("readings in a text", changed("readings", "abc"), "readings", "not_a_list"),
    ("a reading that is a number", changed("readings.0", 5), "readings[0]", "not_an_object"),
    ("a reading that is null", changed("readings.0", None), "readings[0]", "not_an_object"),
    ("empty readings", changed("readings", []), "readings", "too_few_readings"),
    ("one reading", changed("readings", good()["readings"][:1]), "readings", "too_few_readings"),
    ("two readings", changed("readings", good()["readings"][:2]), "readings", "too_few_readings"),
    ("readings on a line", changed("readings", LINE), "readings", "readings_on_a_line"),
    ("two at one place", changed("readings.1.at", [0, 0]), "readings[1].at", "same_place"),
    ("a reading outside", changed("readings.1.at", [9000, 9000]), "readings[1].at", "reading_outside"),
    ("a reading in the notch", changed("readings.1.at", [4000, 3500]), "readings[1].at", "reading_outside"),
    ("a reading in a cutout", changed("readings.1.at", [800, 800]), "readings[1].at", "reading_outside"),
    ("a reading without a place", changed("readings.1.at", None), "readings[1].at", "reading_without_place"),
    ("a place of one number", changed("readings.1.at", [1]), "readings[1].at", "wrong_count"),
    ("a place of three numbers", changed("readings.1.at", [1, 2, 3]), "readings[1].at", "wrong_count"),
    ("a place in words", changed("readings.1.at", ["a", 2]), "readings[1].at[0]", "not_a_number"),
    ("a place of null", changed("readings.1.at", [None, 2]), "readings[1].at[0]", "not_a_number"),
    ("a place a parsec away", changed("readings.1.at", [1e19, 2]), "readings[1].at[0]", "too_large"),
    ("no reading's value", changed("readings.1.down", None), "readings[1].down", "missing"),
    ("a reading's value in words", changed("readings.1.down", "12"), "readings[1].down", "not_a_number"),
    ("true for a reading's value", changed("readings.1.down", True), "readings[1].down", "not_a_number"),
    ("a reading of NaN", changed("readings.1.down", NAN), "readings[1].down", "not_finite"),
    ("a reading without end", changed("readings.1.down", -INF), "readings[1].down", "not_finite"),
    ("a reading of four hundred digits", changed("readings.1.down", HUGE), "readings[1].down", "not_finite"),
    ("a reading a thousand km down", changed("readings.1.down", 1e9), "readings[1].down", "too_large"),
    ("a million digits in a text", changed("readings.1.down", MILLION), "readings[1].down", "not_a_number"),
    ("another stage", changed("readings.1.stage", "roof"), "readings[1].stage", "not_one_of"),
    ("a stage without end", changed("readings.1.stage", MILLION), "readings[1].stage", "not_one_of"),
    ("an id that is a number", changed("readings.1.id", 5), "readings[1].id", "not_a_text"),
    ("an id without end", changed("readings.1.id", MILLION), "readings[1].id", "too_long"),
    ("half a character in an id", changed("readings.1.id", "\ud800"), "readings[1].id", "half_a_character"),
    ("an id twice", changed("readings.1.id", "a"), "readings[1].id", "duplicate_id"),
    ("a set-up's id twice", changed("setups", [{"id": "s"}, {"id": "s"}]), "setups[1].id", "duplicate_id"),
    ("a mark's id twice", changed("marks", [{"id": "bm"}, {"id": "bm"}]), "marks[1].id", "duplicate_id"),
    ("an unknown set-up", changed("readings.1.setup", "x"), "readings[1].setup", "unknown_id"),
    ("an unknown mark", changed("readings.6.mark", "x"), "readings[6].mark", "unknown_id"),
    ("another instrument", changed("setups.0.kind", "eye"), "setups[0].kind", "not_one_of"),
    ("a negative spread", changed("setups.0.sigma", -1), "setups[0].sigma", "too_small"),
    ("a set-up without an id", changed("setups.0", {"sigma": 1}), "setups[0].id", "missing"),
    ("a difference from nowhere", changed("differences.0.from", "x"), "differences[0].from", "unknown_id"),
    ("a difference of no weight", changed("differences.0.distance", None), "differences[0].sigma", WEIGHTLESS),
    ("a datum nobody knows", changed("adjustment.datum", "sea"), "adjustment.datum", "not_one_of"),
    ("half a two-peg test", changed("instrument_checks.0.second", None), CHECKED + ".second", "two_peg_incomplete"),
    ("a test by dancing", changed("instrument_checks.0.kind", "dance"), CHECKED + ".kind", "not_one_of"),
    ("an outline of nothing", changed("outline", {}), "outline", "outline_missing"),
    ("an outline in a list", changed("outline", []), "outline", "not_an_object"),
    ("an empty outline", changed("outline.vertices", []), "outline.vertices", "too_few_corners"),
    ("two corners", changed("outline.vertices", [[0, 0], [1, 1]]), "outline.vertices", "too_few_corners"),
    ("NaN in a corner", changed("outline.vertices.2", [NAN, 1]), "outline.vertices[2][0]", "not_finite"),
    ("a corner of text", changed("outline.vertices.2", "here"), "outline.vertices[2]", "not_a_list"),
    ("a thousand corners", changed("outline.vertices", [[0, 0]] * 1000), "outline.vertices", "too_many"),
    ("a wall of no length", changed("outline.vertices.1", [0, 0]), "outline.vertices[0]", "repeated_corner"),
    ("walls that cross", changed("outline.vertices.1", [1000, 5000]), "outline.vertices[4]", "walls_cross"),
    ("two walls", taped(2, length=5, turn=9), "outline.walls", "too_few_corners"),
    ("walls that do not close", taped(3, length=5000, turn=90), "outline.walls[2]", "does_not_close"),
    ("a wall going backwards", taped(4, length=-5, turn=90), "outline.walls[0].length", "too_small"),
    ("a wall without a turn", taped(4, length=500), "outline.walls[0].turn", "missing"),
    ("a wall that spins", taped(4, length=500, turn=1e6), "outline.walls[0].turn", "too_large"),
    (
        "a cutout outside",
        changed("outline.cutouts", [[[9000, 0], [9500, 0], [9500, 500]]]),
        "outline.cutouts[0]",
        "cutout_outside",
    ),
    ("a cutout across a wall", changed("outline.cutouts.0.0", [-100, 600]), "outline.cutouts[0]", "cutout_outside"),
    ("a cutout twice", changed("outline.cutouts", [SQUARE_CUT] * 2), "outline.cutouts[1]", "cutouts_meet"),
    (
        "a cutout of two corners",
        changed("outline.cutouts.0", SQUARE_CUT[:2]),
        "outline.cutouts[0]",
        "too_few_corners",
    ),
    (
        "a cutout over the room",
        changed("outline.cutouts", [good()["outline"]["vertices"]]),
        "outline.cutouts",
        "no_area",
    ),
    ("too many cutout corners", changed("outline.cutouts", [SQUARE_CUT] * 200), "outline.cutouts", "too_many"),
    ("a doorway past its wall", changed("openings.0.to", 4500), "openings[0].to", "opening_past_wall"),
    ("a doorway with no width", changed("openings.0.to", 1000), "openings[0].to", "opening_empty"),
    ("a doorway in no wall", changed("openings.0.wall", 6), "openings[0].wall", "no_such_wall"),
    ("a doorway in wall one and a half", changed("openings.0.wall", 1.5), "openings[0].wall", "not_a_whole_number"),
    ("a doorway that starts before its wall", changed("openings.0.from", -1), "openings[0].from", "too_small"),
    ("a doorway that is half an exit", changed("openings.0.exit", 0.5), "openings[0].exit", "not_true_or_false"),
    (
        "a doorway with an endless step",
        changed("openings.0.adjoining_height", INF),
        "openings[0].adjoining_height",
        "not_finite",
    ),
    ("a drain outside", changed("fixtures.0.at", [-500, 0]), "fixtures[0].at", "fixture_outside"),
    ("a fixture of no kind", changed("fixtures.0.kind", "bath"), "fixtures[0].kind", "not_one_of"),
    ("a negative minimum", changed("bed.minimum_thickness", -5), "bed.minimum_thickness", "too_small"),
    ("a negative maximum", changed("bed.maximum_thickness", -5), "bed.maximum_thickness", "too_small"),
    ("a negative tile", changed("bed.covering.tile_thickness", -1), "bed.covering.tile_thickness", "too_small"),
    (
        "a minimum above the maximum",
        changed("bed.minimum_thickness", 61),
        "bed.maximum_thickness",
        "minimum_above_maximum",
    ),
    ("another build", changed("bed.build", "floating"), "bed.build", "not_one_of"),
    ("a straightedge of nothing", changed("rails.straightedge", 0), "rails.straightedge", "too_small"),
    ("rails in no direction", changed("rails.direction", "north"), "rails.direction", "not_one_of"),
    ("rails in a list of directions", changed("rails.direction", [0]), "rails.direction", "not_a_number"),
    ("a strip of no height", changed("rails.strip.thickness", 0), "rails.strip.thickness", "too_small"),
    ("a strip that is a text", changed("rails.strip", "wood"), "rails.strip", "not_an_object"),
    ("stations without end", changed("rails.station_spacing", 1e-9), "rails.station_spacing", "too_small"),
    ("no cement", changed("mix.cement", 0), "mix.cement", "too_small"),
    ("air as a percentage", changed("mix.air", 10), "mix.air", "too_large"),
    ("a bag of nothing", changed("mix.bag_mass", 0), "mix.bag_mass", "too_small"),
    ("a batch of nothing", changed("mix.batch_volume", 0), "mix.batch_volume", "too_small"),
    ("a mix that is a list", changed("mix", [1, 5]), "mix", "not_an_object"),
    ("a time without its offset", changed("climate.0.at", "2026-05-04T08:00:00"), "climate[0].at", "not_a_time"),
    ("a time that is none", changed("climate.0.at", "yesterday"), "climate[0].at", "not_a_time"),
    ("a thirteenth month", changed("climate.0.at", "2026-13-01T00:00:00+01:00"), "climate[0].at", "not_a_time"),
    ("a temperature below everything", changed("climate.0.bed", -300), "climate[0].bed", "too_small"),
    ("a humidity of two hundred", changed("climate.0.humidity", 200), "climate[0].humidity", "too_large"),
    ("a time that is a number", changed("placements.0.mixed_at", 12), "placements[0].mixed_at", "not_a_text"),
    (
        "a milestone of no kind",
        changed("curing.milestones.0.milestone", "dance"),
        "curing.milestones[0].milestone",
        "not_one_of",
    ),
]
