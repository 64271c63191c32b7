"""Volumes, levels and changes in level against published figures, each with its source."""

import itertools

import pytest
from tests.documents import Json, plan_of, room_over

from evenbed.engine.bed import Mortar
from evenbed.engine.document.room import Outline
from evenbed.engine.finish.steps import kind_of_step
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.outline import figure_from
from evenbed.engine.surface import surface_from
from evenbed.engine.top.facets import whole_room

FOOT = 304.8
CUBIC_FOOT = (FOOT / 1000.0) ** 3  # m³
CUBIC_YARD = 27.0 * CUBIC_FOOT
INCH = 25.4
EXACT = 1e-9  # relative: these are sums of a few products

# A borrow pit in squares of 10 m, dug to level 100: the grid and the first cell's mean depth of 12.775 m are a
# surveying textbook's exercise on spot heights; the total by cells, 6067.25 m³, is derived from the same grid.
# Everything below is in metres; the engine counts in mm, so a metre here is a metre there divided by a thousand.
SPOT_HEIGHTS = [[110.24, 112.15, 114.21], [112.96, 115.75, 116.32], [116.98, 120.03, 115.34]]


def pit(rows: list[list[float]], spacing: float, level: float) -> Mortar:
    """The space between a floor as far below zero as the pit's ground stands above its level, and a top at zero."""
    spots = [(spacing * c, spacing * r, level - z) for r, row in enumerate(rows) for c, z in enumerate(row)]
    right, up = spacing * (len(rows[0]) - 1), spacing * (len(rows) - 1)
    outline = Outline(vertices=((0.0, 0.0), (right, 0.0), (right, up), (0.0, up)))
    figure = figure_from(outline)
    return Mortar(Ground(surface_from(spots, figure.outer), figure), whole_room(Plane(0.0, 0.0, 0.0), figure.outer))


def test_spot_heights_give_the_volume_by_cells() -> None:
    """Lengths in cm, so that the pit is no wider than a hall: 1 m³ of the textbook is 1e6 of the engine's mm³."""
    centimetres = [[100.0 * z for z in row] for row in SPOT_HEIGHTS]
    volume = pit(centimetres, 1000.0, 10_000.0).quantities(1.0, 1e6).volume
    assert volume * 1e9 / 1e6 == pytest.approx(6067.25, rel=EXACT)


def test_spot_heights_by_cells_are_the_mean_of_both_sets_of_diagonals() -> None:
    """Derived from the same grid: 6020.5 with the one set of diagonals, 6114.0 with the other; the mean by hand."""
    depth = [[z - 100.0 for z in row] for row in SPOT_HEIGHTS]
    cells = [(depth[r][c], depth[r][c + 1], depth[r + 1][c + 1], depth[r + 1][c]) for r in (0, 1) for c in (0, 1)]
    one = sum(100.0 / 6.0 * (2 * a + b + 2 * c + d) for a, b, c, d in cells)
    other = sum(100.0 / 6.0 * (a + 2 * b + c + 2 * d) for a, b, c, d in cells)
    assert sorted((one, other)) == pytest.approx([6020.5, 6114.0])
    assert (one + other) / 2.0 == pytest.approx(6067.25)


def test_the_first_cell_of_the_spot_heights_has_its_published_mean_depth() -> None:
    """The textbook prints 12.775 m for the cell of 110.24, 112.15, 112.96 and 115.75."""
    first = [[1000.0 * z for z in row[:2]] for row in SPOT_HEIGHTS[:2]]
    mortar = pit(first, 10_000.0, 100_000.0)
    mean = mortar.quantities(1.0, 1e6).volume / mortar.ground.figure.area
    assert mean == pytest.approx(12.775, rel=EXACT)


@pytest.mark.parametrize("order", list(itertools.permutations(range(4)))[::5])
def test_one_cell_of_fifty_feet_has_its_published_volume(order: tuple[int, ...]) -> None:
    """A surveying manual's borrow pit: 87.6, 87.6, 87.6, 88.6 ft, 50 ft square, to 90: 5375 ft³ or 199 yd³."""
    feet = [(0, 0, 87.6), (50, 0, 87.6), (50, 50, 87.6), (0, 50, 88.6)]
    outline = [(x * FOOT, y * FOOT) for x, y, _ in feet]
    spots = [(x * FOOT, y * FOOT, z * FOOT) for x, y, z in (feet[n] for n in order)]
    plan = plan_of(room_over(outline, spots, bed={"top": {"kind": "level", "height": 90 * FOOT}}))
    assert plan["bed"]["volume"] / CUBIC_FOOT == pytest.approx(5375.0, rel=EXACT)
    assert round(plan["bed"]["volume"] / CUBIC_YARD) == 199


# Height-of-instrument run, thesurveyschool.com, "Leveling": from BM-A at 100.000 each standing of the instrument has
# a backsight on the known point and a foresight on the next; the points come out as printed in the last column.
STANDINGS = [
    (100.000, 4.320, 6.420, 97.900),
    (97.900, 5.180, 4.850, 98.230),
    (98.230, 3.070, 5.160, 96.140),
    (96.140, 2.940, 3.210, 95.870),
]


@pytest.mark.parametrize(("known", "backsight", "foresight", "published"), STANDINGS)
def test_one_standing_of_the_instrument_carries_the_height_on(
    known: float, backsight: float, foresight: float, published: float
) -> None:
    corners = [[0.0, 0.0], [4000.0, 0.0], [4000.0, 3000.0], [0.0, 3000.0]]
    readings: list[Json] = [{"id": f"r{n}", "at": at, "down": 5000.0} for n, at in enumerate(corners)]
    sights: list[Json] = [
        {"id": "back", "mark": "known", "down": 1000.0 * backsight},
        {"id": "fore", "mark": "next", "down": 1000.0 * foresight},
    ]
    marks: list[Json] = [{"id": "known", "height": 1000.0 * known}, {"id": "next"}]
    plan = plan_of(
        {"document": 1, "outline": {"vertices": corners}, "readings": [*readings, *sights], "marks": marks}
    )
    assert plan["levels"]["setups"][0]["line_height"] == pytest.approx(1000.0 * (known + backsight))
    assert {mark["id"]: mark["z"] for mark in plan["levels"]["marks"]}["next"] == pytest.approx(1000.0 * published)


def test_the_whole_run_falls_by_backsights_less_foresights() -> None:
    """The same source prints the sums: backsights 15.510, foresights 19.640."""
    assert sum(s[1] for s in STANDINGS) == pytest.approx(15.510)
    assert sum(s[2] for s in STANDINGS) == pytest.approx(19.640)
    assert STANDINGS[-1][3] - STANDINGS[0][0] == pytest.approx(15.510 - 19.640)


# Changes in level, ADA 2010 Standards for Accessible Design, section 303: 1/4 in may stand upright (303.2), to
# 1/2 in it is bevelled 1:2 (303.3), more is a ramp (303.4).
@pytest.mark.parametrize(
    ("inches", "kind"),
    [
        (1 / 8, "upright"),
        (1 / 4, "upright"),
        (5 / 16, "bevelled"),
        (1 / 2, "bevelled"),
        (9 / 16, "ramp"),
        (3, "ramp"),
    ],
)
@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_change_in_level_has_its_published_class(inches: float, kind: str, way: float) -> None:
    assert kind_of_step(way * inches * INCH) == kind


@pytest.mark.parametrize(("inches", "kind"), [(0.0, "flush"), (0.25, "upright"), (0.5, "bevelled"), (0.75, "ramp")])
def test_a_doorways_step_is_the_finished_floor_less_the_floor_beyond(inches: float, kind: str) -> None:
    corners = [(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]
    finished = 40.0 + 5.0 + 10.0
    bed = {
        "top": {"kind": "level", "height": 40.0},
        "covering": {"tile_thickness": 10.0, "bond_thickness": 5.0},
    }
    beyond = finished - inches * INCH
    doorway = {"id": "d", "wall": 1, "from": 1000, "to": 1800, "adjoining_height": beyond}
    blind = {"id": "closet", "wall": 2, "from": 1000, "to": 1800}
    room = room_over(corners, [(x, y, 0.0) for x, y in corners], bed=bed, openings=[doorway, blind])
    first, second = plan_of(room)["bed"]["doorways"]
    assert first["finished_height"] == pytest.approx(finished)
    assert first["step"] == pytest.approx(inches * INCH, abs=1e-9)
    assert (first["kind"], first["at"]) == (kind, [4000.0, 1400.0])
    assert (second["step"], second["kind"]) == (None, None)
