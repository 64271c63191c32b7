"""Cutouts, doorways and fixtures: where they may be, with shapely as the judge of cutouts."""

import random

import pytest
import shapely
from tests.documents import SQUARE, Json, plan_of, problems_of, refusals_of, room_over

from evenbed.engine.document.room import Outline
from evenbed.engine.geometry import Ring
from evenbed.engine.outline import figure_from
from evenbed.engine.problems import BadDocumentError

CORNERS = [(x, y) for x, y in SQUARE]


def cutout_codes(*cutouts: Ring) -> list[tuple[str, str]]:
    return refusals_of(Outline(vertices=tuple(CORNERS), cutouts=cutouts))


def box(x: float, y: float, width: float, depth: float) -> Ring:
    return ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth))


@pytest.mark.parametrize(
    ("cutouts", "expected"),
    [
        ([box(5000, 0, 500, 500)], ("outline.cutouts[0]", "cutout_outside")),
        ([box(3800, 1000, 500, 500)], ("outline.cutouts[0]", "cutout_outside")),
        ([box(-500, -500, 6000, 6000)], ("outline.cutouts[0]", "cutout_outside")),
        ([box(1000, -1, 500, 500)], ("outline.cutouts[0]", "cutout_outside")),
        ([box(500, 500, 800, 800), box(1000, 1000, 800, 800)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(500, 500, 800, 800), box(500, 500, 800, 800)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(500, 500, 800, 800), box(500, 500, 800, 800)[::-1]], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(500, 500, 800, 800), box(700, 700, 200, 200)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(700, 700, 200, 200), box(500, 500, 800, 800)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(500, 900, 1200, 200), box(1000, 500, 200, 1200)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(500, 500, 800, 800), box(900, 500, 800, 800)], ("outline.cutouts[1]", "cutouts_meet")),
        ([box(0, 0, 4000, 3000)], ("outline.cutouts", "no_area")),
        ([box(0, 0, 2000, 3000), box(2000, 0, 2000, 3000)], ("outline.cutouts", "no_area")),
        ([((500, 500), (900, 900), (900, 500), (500, 900))], ("outline.cutouts[0][2]", "walls_cross")),
        ([((500, 500), (900, 900))], ("outline.cutouts[0]", "too_few_corners")),
    ],
)
def test_a_cutout_that_cannot_be_is_refused(cutouts: list[Ring], expected: tuple[str, str]) -> None:
    assert expected in cutout_codes(*cutouts)


@pytest.mark.parametrize(
    "cutouts",
    [
        [box(0, 0, 500, 500)],
        [box(500, 500, 500, 500), box(1000, 500, 500, 500)],
        [box(500, 500, 500, 500), box(1000, 1000, 500, 500)],
        [box(0, 0, 4000, 500), box(0, 500, 500, 500)],
        [((2000, 0), (2500, 500), (2000, 1000), (1500, 500))],
    ],
    ids=["in a corner", "side by side", "corner to corner", "along a whole wall", "a corner on a wall"],
)
def test_cutouts_may_touch_walls_and_each_other(cutouts: list[Ring]) -> None:
    figure = figure_from(Outline(vertices=tuple(CORNERS), cutouts=tuple(cutouts)))
    left = 12.0 - sum(shapely.Polygon(c).area for c in cutouts) / 1e6
    assert figure.area == pytest.approx(left)
    assert figure.perimeter == pytest.approx(14_000.0)


@pytest.mark.parametrize("seed", range(120))
def test_shapely_calls_the_same_cutouts_possible(seed: int) -> None:
    dice = random.Random(seed)
    room: Ring = ((0, 0), (6000, 0), (6000, 2000), (3000, 2000), (3000, 5000), (0, 5000))
    rings = [lattice_ring(dice) for _ in range(dice.randint(1, 2))]
    shapes = [shapely.Polygon(r) for r in rings]
    assert all(shape.is_valid for shape in shapes)
    fit = all(shapely.Polygon(room).covers(shape) for shape in shapes)
    overlap = len(shapes) == 2 and shapes[0].intersection(shapes[1]).area > 0
    try:
        figure = figure_from(Outline(vertices=room, cutouts=tuple(rings)))
    except BadDocumentError:
        assert not fit or overlap
    else:
        assert fit
        assert not overlap
        assert figure.area == pytest.approx((shapely.Polygon(room).area - sum(s.area for s in shapes)) / 1e6)


def lattice_ring(dice: random.Random) -> Ring:
    """A triangle or quadrangle with corners on whole half-metres, so that touching is common."""
    while True:
        corners = [(500.0 * dice.randint(0, 10), 500.0 * dice.randint(0, 9)) for _ in range(dice.randint(3, 4))]
        ring = shapely.MultiPoint(corners).convex_hull
        if ring.geom_type == "Polygon" and ring.area < 4e6:
            return tuple(ring.exterior.coords[:-1])


# --- doorways and fixtures


@pytest.mark.parametrize(
    ("opening", "expected"),
    [
        ({"wall": 4, "from": 0, "to": 800}, ("openings[0].wall", "no_such_wall")),
        ({"wall": 0, "from": 3500, "to": 4100}, ("openings[0].to", "opening_past_wall")),
        ({"wall": 1, "from": 2500, "to": 3500}, ("openings[0].to", "opening_past_wall")),
        ({"wall": 0, "from": 900, "to": 900}, ("openings[0].to", "opening_empty")),
        ({"wall": 0, "from": 900, "to": 100}, ("openings[0].to", "opening_empty")),
        ({"wall": 0, "from": -1, "to": 100}, ("openings[0].from", "too_small")),
        ({"wall": -1, "from": 0, "to": 100}, ("openings[0].wall", "too_small")),
        ({"wall": 0.5, "from": 0, "to": 100}, ("openings[0].wall", "not_a_whole_number")),
        ({"from": 0, "to": 100}, ("openings[0].wall", "missing")),
    ],
)
def test_a_doorway_that_is_in_no_wall_is_refused(opening: Json, expected: tuple[str, str]) -> None:
    room = room_over(SQUARE, [(x, y, 0.0) for x, y in CORNERS], openings=[opening])
    assert problems_of(room) == [expected]


def test_a_doorway_may_fill_its_wall_and_run_past_it_by_the_taping() -> None:
    openings = [{"wall": 1, "from": 0.0, "to": 3000.8}]
    room = room_over(SQUARE, [(x, y, 0.0) for x, y in CORNERS], openings=openings)
    assert plan_of(room)["bed"]["doorways"][0]["at"] == pytest.approx([4000.0, 1500.4])


@pytest.mark.parametrize("at", [[5000, 5000], [1200, 1200]])
def test_a_fixture_outside_the_bed_is_refused(at: list[float]) -> None:
    room = room_over(SQUARE, [(x, y, 0.0) for x, y in CORNERS], fixtures=[{"kind": "post", "at": at}])
    room["outline"]["cutouts"] = [box(1000, 1000, 500, 500)]
    assert problems_of(room) == [("fixtures[0].at", "fixture_outside")]
