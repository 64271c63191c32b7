"""The room's figure: taped walls closed by the compass rule, figures that cannot be, cutouts and doorways."""

import itertools
import math

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, plan_of, problems_of, refusals_of, room_over

from evenbed.engine.document.room import Outline, Wall
from evenbed.engine.outline import closed_walk, figure_from
from evenbed.engine.problems import BadDocumentError

MM = 1e-9  # mm: rounding of a walk of some metres
CORNERS = [(x, y) for x, y in SQUARE]


def walls_of(*pairs: tuple[float, float]) -> tuple[Wall, ...]:
    return tuple(Wall(length, turn) for length, turn in pairs)


def codes_of_vertices(*corners: tuple[float, float]) -> list[tuple[str, str]]:
    return refusals_of(Outline(vertices=tuple((float(x), float(y)) for x, y in corners)))


# --- the compass rule


def test_a_misclosure_is_spread_by_the_length_walked() -> None:
    """By hand: a walk of 4000, 3000, 4000 and 2990 ends 10 mm above its start."""
    vertices, gap = closed_walk(walls_of((4000, 90), (3000, 90), (4000, 90), (2990, 90)))
    assert (gap.dx, gap.dy, gap.length) == pytest.approx((0.0, 10.0, 10.0), abs=MM)
    assert gap.ratio == pytest.approx(10.0 / 13_990.0)
    by_hand = [
        (0.0, 0.0),
        (4000.0, -40_000 / 13_990),
        (4000.0, 3000 - 70_000 / 13_990),
        (0.0, 3000 - 110_000 / 13_990),
    ]
    for mine, theirs in zip(vertices, by_hand, strict=True):
        assert mine == pytest.approx(theirs, abs=MM)


walks = st.lists(st.tuples(st.floats(100.0, 5000.0), st.floats(-170.0, 170.0)), min_size=3, max_size=12)


@given(walks)
def test_the_first_corner_stays_and_every_wall_moves_by_its_share(pairs: list[tuple[float, float]]) -> None:
    vertices, gap = closed_walk(walls_of(*pairs))
    assert vertices[0] == (0.0, 0.0)
    total = sum(length for length, _ in pairs)
    heading = 0.0
    for n, (length, turn) in enumerate(pairs):
        p, q = vertices[n], vertices[(n + 1) % len(vertices)]
        taped = length * math.cos(math.radians(heading)), length * math.sin(math.radians(heading))
        moved = q[0] - p[0] - taped[0], q[1] - p[1] - taped[1]
        share = length / total
        assert moved == pytest.approx((-share * gap.dx, -share * gap.dy), abs=1e-6)
        heading += turn


@given(st.floats(500, 9000), st.floats(500, 9000))
def test_a_square_room_taped_without_error_stays_exactly_square(width: float, depth: float) -> None:
    vertices, gap = closed_walk(walls_of((width, 90), (depth, 90), (width, 90), (depth, 90)))
    assert vertices == ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    assert gap.length == 0.0


@pytest.mark.parametrize("way", [1.0, -1.0])
def test_a_room_taped_to_the_right_lies_below_its_first_wall_and_keeps_its_wall_numbers(way: float) -> None:
    walls = [{"length": length, "turn": 90.0 * way} for length in (4000, 3000, 4000, 3000)]
    room = room_over([], [(x, y * way, 0.0) for x, y in CORNERS])
    room["outline"] = {"walls": walls}
    room["openings"] = [{"wall": 1, "from": 1000, "to": 1800}]
    plan = plan_of(room)
    assert plan["outline"]["vertices"] == [[x, y * way] for x, y in CORNERS]
    assert plan["outline"]["area"] == pytest.approx(12.0)


def test_an_l_shaped_room_taped_all_round_has_its_area() -> None:
    turns = [(5000, 90), (2000, 90), (3000, -90), (2000, 90), (2000, 90), (4000, 90)]
    figure = figure_from(Outline(walls=walls_of(*turns)))
    assert figure.area == pytest.approx(14.0)
    assert figure.perimeter == pytest.approx(18_000.0)


def test_the_plan_reports_the_misclosure_and_asks_to_tape_again() -> None:
    lengths = (4000, 3000, 3900, 3000)
    room = room_over([], [(0, 0, 0), (3000, 0, 0), (2000, 2500, 0)])
    room["outline"] = {"walls": [{"length": length, "turn": 90} for length in lengths]}
    plan = plan_of(room)
    assert plan["outline"]["misclosure"]["length"] == pytest.approx(100.0)
    assert "tape_again" in [caution["code"] for caution in plan["cautions"]]


def test_a_figure_that_does_not_close_is_refused_with_the_place() -> None:
    room = room_over([], [(0, 0, 0), (3000, 0, 0), (2000, 2500, 0)])
    room["outline"] = {"walls": [{"length": n, "turn": 90} for n in (4000, 3000, 4000, 1500)]}
    assert problems_of(room) == [("outline.walls[3]", "does_not_close")]


# --- figures that cannot be


@pytest.mark.parametrize(
    ("corners", "expected"),
    [
        ([(0, 0), (4000, 3000), (4000, 0), (0, 3000)], ("outline.vertices[2]", "walls_cross")),
        ([(0, 0), (2000, 0), (4000, 0), (4000, 3000), (2000, 0), (0, 3000)], ("outline.vertices[3]", "walls_cross")),
        ([(0, 0), (4000, 0), (4000, 3000), (1000, 3000), (1000, 0), (3000, 0), (0, 2000)], (None, "walls_cross")),
        ([(0, 0), (4000, 0), (4000, 0), (4000, 3000), (0, 3000)], ("outline.vertices[1]", "repeated_corner")),
        ([(0, 0), (4000, 0), (4000, 3000), (4000, 1000), (0, 3000)], ("outline.vertices[2]", "doubles_back")),
        ([(0, 0), (4000, 0), (5000, 0), (4000, 0), (4000, 3000)], ("outline.vertices[2]", "doubles_back")),
        ([(0, 0), (4000, 0), (4000, 3000), (2000, 0), (0, 3000)], ("outline.vertices[2]", "walls_cross")),
        ([(0, 0), (4000, 0), (2000, 0)], (None, "doubles_back")),
        ([(0, 0), (4000, 0)], ("outline.vertices", "too_few_corners")),
        ([(0, 0), (90, 0), (90, 90), (0, 90)], ("outline.vertices", "no_area")),
    ],
    ids=[
        "bow-tie",
        "corner against a corner",
        "walls along each other",
        "doubled corner",
        "spike inwards",
        "spike outwards",
        "corner against a wall",
        "there and back",
        "two corners",
        "the size of a coin",
    ],
)
def test_a_figure_that_cannot_be_is_refused_with_the_place(
    corners: list[tuple[float, float]], expected: tuple[str | None, str]
) -> None:
    found = codes_of_vertices(*corners)
    assert expected[1] in [code for _, code in found]
    assert expected[0] is None or expected in found


def test_the_meeting_of_two_crossing_walls_is_told() -> None:
    with pytest.raises(BadDocumentError) as caught:
        figure_from(Outline(vertices=((0, 0), (4000, 3000), (4000, 0), (0, 3000))))
    (problem,) = caught.value.problems
    assert problem.values == {"wall": 2, "other": 0, "x": 2000.0, "y": 1500.0}


@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), min_size=3, max_size=8))
@settings(max_examples=400, deadline=None)
def test_shapely_calls_the_same_figures_simple(places: list[tuple[int, int]]) -> None:
    ring = tuple((1000.0 * x, 1000.0 * y) for x, y in places)
    assume(ring[0] != ring[-1])
    polygon = shapely.Polygon(ring)
    is_simple = shapely.LinearRing(ring).is_simple and polygon.is_valid and polygon.area > 0
    is_simple = is_simple and all(p != q for p, q in itertools.pairwise((*ring, ring[0])))
    try:
        figure = figure_from(Outline(vertices=ring))
    except BadDocumentError:
        assert not is_simple
    else:
        assert is_simple
        assert figure.area == pytest.approx(polygon.area / 1e6)
        assert figure.perimeter == pytest.approx(polygon.length)


def test_a_first_corner_given_again_at_the_end_is_left_out() -> None:
    assert figure_from(Outline(vertices=(*CORNERS, CORNERS[0]))).vertices == tuple(CORNERS)


def test_a_corner_in_a_straight_wall_is_welcome() -> None:
    ring = ((0.0, 0.0), (2000.0, 0.0), *CORNERS[1:])
    assert figure_from(Outline(vertices=ring)).area == pytest.approx(12.0)


def test_clockwise_corners_keep_their_order_and_their_walls() -> None:
    room = room_over(CORNERS[::-1], [(x, y, 0.0) for x, y in CORNERS])
    room["openings"] = [{"id": "d", "wall": 2, "from": 500.0, "to": 1300.0}]
    plan = plan_of(room)
    assert plan["outline"]["vertices"] == [list(c) for c in CORNERS[::-1]]
    assert plan["outline"]["area"] == pytest.approx(12.0)
    assert plan["bed"]["doorways"][0]["at"] == [3100.0, 0.0]


def test_the_turn_after_the_last_wall_changes_nothing_and_may_be_left_out() -> None:
    lengths = (4000.0, 3000.0, 4010.0, 3000.0)
    turned, open_ended = (
        closed_walk((*(Wall(n, 90.0) for n in lengths[:-1]), Wall(lengths[-1], t))) for t in (90.0, None)
    )
    assert turned == open_ended
