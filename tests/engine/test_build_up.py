"""What a bed is built of besides its mortar: by hand, by shapely, and what is asked for wrongly."""

import math
from typing import Any

import pytest
from tests.bad_documents import changed, good
from tests.documents import SQUARE, Json, plan_of, problems_of, room_over
from tests.rooms import polygon_of, random_room

FLAT = [(x, y, 0.0) for x, y in SQUARE]
MEMBRANE = {"roll_width": 1000.0, "roll_length": 4100.0, "lap": 100.0, "turned_up": 50.0}
SHEET = {"sheet_width": 1050.0, "sheet_length": 2050.0, "lap": 50.0, "waste": 0.1}
SUPPLIES: Json = {
    "membrane": MEMBRANE,
    "reinforcement": SHEET,
    "perimeter_strip": {"piece": 2000.0, "waste": 0.1},
    "bond_coat": {"bag_mass": 20.0, "density": 1500.0, "waste": 0.1},
    "tile": {"box_area": 1.5, "waste": 0.1},
}
MINERAL = ("cement", "lime", "sand", "water")


def room(**more: Any) -> Json:
    return room_over(SQUARE, FLAT, supplies=SUPPLIES) | more


def rows_of(document: Json) -> dict[str, Json]:
    return {row["item"]: row for row in plan_of(document, "bed_design")["materials"]}


def test_a_rectangle_of_12_square_metres_takes_what_hand_arithmetic_says() -> None:
    """4 m by 3 m: 5 strips of 3.1 m; sheets of 2.1525 m² that cover 2 m²; 14 m of walls; 5 mm of bond coat."""
    bed = {"covering": {"tile_thickness": 10.0, "bond_thickness": 5.0}}
    rows = rows_of(room(bed=bed))
    expected = {
        "membrane": (15.5, 4.0, 4),
        "reinforcement": (12.0 / 2.0 * 2.1525 * 1.1, 2.1525, 7),
        "perimeter_strip": (14.0 * 1.1, 2.0, 8),
        "bond_coat": (12.0 * 0.005 * 1500.0 * 1.1, 20.0, 5),
        "tile": (13.2, 1.5, 9),
    }
    for item, (quantity, size, packages) in expected.items():
        assert rows[item]["quantity"] == pytest.approx(quantity, rel=1e-12), item
        assert rows[item]["package_size"] == pytest.approx(size, rel=1e-12), item
        assert rows[item]["packages"] == packages, item
        assert rows[item]["unit"] == rows[item]["package_unit"], item


def test_the_order_of_the_mortar_stays_and_the_rest_follows_it() -> None:
    assert list(rows_of(room())) == [
        "cement",
        "sand",
        "water",
        "membrane",
        "reinforcement",
        "perimeter_strip",
        "bond_coat",
        "tile",
    ]


def test_a_bonded_bed_has_neither_membrane_nor_reinforcement() -> None:
    assert rows_of(room(bed={"build": "bonded"})).keys() & {"membrane", "reinforcement"} == set()


def test_what_has_no_thickness_is_not_ordered() -> None:
    bed = {"covering": {"tile_thickness": 0.0, "bond_thickness": 0.0}}
    assert rows_of(room(bed=bed)).keys() & {"tile", "bond_coat"} == set()


@pytest.mark.parametrize("seed", range(0, 30, 2))
def test_areas_and_edges_are_what_shapely_measures(seed: int) -> None:
    document = random_room(seed)
    rows, figure = rows_of(document), polygon_of(document)
    assert rows["tile"]["quantity"] == pytest.approx(figure.area / 1e6 * 1.1, rel=1e-9)
    assert rows["perimeter_strip"]["quantity"] == pytest.approx(figure.length / 1e3 * 1.05, rel=1e-9)


def test_strip_goes_round_cutouts_and_fixtures_but_not_where_a_hearth_meets_the_wall() -> None:
    def length(**more: Any) -> float:
        return float(rows_of(room(**more))["perimeter_strip"]["quantity"]) / 1.1

    plain = length()
    hearth = [[[1000, 0], [2000, 0], [2000, 500], [1000, 500]]]
    column = [[[1000, 1000], [1300, 1000], [1300, 1300], [1000, 1300]]]
    figure = {"vertices": SQUARE}
    assert length(outline=figure | {"cutouts": column}) - plain == pytest.approx(1.2)
    assert length(outline=figure | {"cutouts": hearth}) - plain == pytest.approx(1.0)
    drain = {"kind": "drain", "at": [2000, 1500], "radius": 50}
    assert length(fixtures=[drain]) - plain == pytest.approx(math.tau * 0.05)
    assert length(fixtures=[drain | {"to": [2600, 1500]}]) - plain == pytest.approx(math.tau * 0.05 + 1.2)


def test_only_what_follows_the_volume_has_a_range() -> None:
    for row in plan_of(random_room(7), "plan")["materials"]:
        assert (row["quantity_range"] is not None) == (row["item"] in MINERAL)
        assert (row["packages_range"] is not None) == (row["item"] in ("cement", "lime"))
        assert (row["loose_range"] is not None) == (row["item"] in ("cement", "lime", "sand"))


def test_every_row_explains_itself_and_is_said_from_its_own_figures() -> None:
    plan = plan_of(room())
    for n, row in enumerate(plan["materials"]):
        explained = plan["explanations"][f"materials[{n}]"]
        assert explained["code"] == row["code"]
        assert explained["inputs"], row["item"]


BAD = [
    ("supplies.membrane.lap", 950.0, "supplies.membrane.lap", "lap_too_wide"),
    ("supplies.membrane.lap", -1.0, "supplies.membrane.lap", "too_small"),
    ("supplies.membrane.roll_width", 0.0, "supplies.membrane.roll_width", "too_small"),
    ("supplies.reinforcement.lap", 400.0, "supplies.reinforcement.lap", "lap_too_wide"),
    ("supplies.reinforcement.waste", 3.0, "supplies.reinforcement.waste", "too_large"),
    ("supplies.perimeter_strip.piece", 1.0, "supplies.perimeter_strip.piece", "too_small"),
    ("supplies.bond_coat.bag_mass", 0.0, "supplies.bond_coat.bag_mass", "too_small"),
    ("supplies.tile.box_area", 0.0, "supplies.tile.box_area", "too_small"),
    ("supplies.tile", [], "supplies.tile", "not_an_object"),
    ("prices.cement_bag", -1.0, "prices.cement_bag", "too_small"),
    ("prices.currency", 5, "prices.currency", "not_a_text"),
    ("prices.labour.hour", "fifty", "prices.labour.hour", "not_a_number"),
    ("prices.margin", -0.1, "prices.margin", "too_small"),
    ("mix.sand_moisture", 0.6, "mix.sand_moisture", "too_large"),
    ("mix.sand_bulking", -0.1, "mix.sand_bulking", "too_small"),
]


@pytest.mark.parametrize(("path", "value", "where", "code"), BAD)
def test_bad_supplies_and_prices_are_named(path: str, value: object, where: str, code: str) -> None:
    document = changed("mix.air", 0.1) | {
        "supplies": {"membrane": {}, "reinforcement": {}, "perimeter_strip": {}, "bond_coat": {}, "tile": {}},
        "prices": {"labour": {}},
    }
    *way, last = path.split(".")
    inner: Any = document
    for step in way:
        inner = inner[step]
    inner[last] = value
    assert (where, code) in problems_of(document)


def test_a_roll_that_would_take_thousands_of_strips_is_refused_and_a_bonded_bed_does_not_care() -> None:
    far = [[0, 0], [90_000, 0], [90_000, 90_000], [0, 90_000]]
    narrow = {"membrane": {"roll_width": 100.0, "lap": 50.0}}
    document = good() | {"outline": {"vertices": far}, "openings": [], "supplies": narrow}
    assert problems_of(document) == [("supplies.membrane.roll_width", "roll_too_narrow")]
    assert plan_of(document | {"bed": {"build": "bonded"}}, "bed_design")["materials"]


def test_many_corners_leave_room_for_fewer_strips() -> None:
    ways = [math.tau * n / 500 for n in range(500)]
    ring = [
        [4e5 * math.cos(a) * (1 - 0.3 * (n % 2)), 4e5 * math.sin(a) * (1 - 0.3 * (n % 2))] for n, a in enumerate(ways)
    ]
    readings = [{"down": float(n), "at": at} for n, at in enumerate(ring[::50])]
    document = {"document": 1, "outline": {"vertices": ring}, "readings": readings}
    assert problems_of(document) == [("supplies.membrane.roll_width", "roll_too_narrow")]
    wide = {"membrane": {"roll_width": 20_000.0}}
    assert plan_of(document | {"supplies": wide}, "bed_design")["materials"][3]["item"] == "membrane"
