"""Membrane from the roll: strips by hand in plain rooms, by shapely in any, and never less than the floor."""

import math
from collections.abc import Sequence

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.rooms import cutouts_of, outline_of, polygon_of, random_room

from evenbed.engine.cost.membrane import Strips, best_strips, count_across, roll_yield
from evenbed.engine.document.supplies import Membrane
from evenbed.engine.geometry import Ring
from evenbed.engine.touching import regions_of_room

METRE = Membrane(roll_width=1000.0, roll_length=20_000.0, lap=100.0, turned_up=50.0)
RECTANGLE: Ring = ((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0))
L_ROOM: Ring = ((0.0, 0.0), (5000.0, 0.0), (5000.0, 2500.0), (2500.0, 2500.0), (2500.0, 4000.0), (0.0, 4000.0))
U_ROOM: Ring = (
    (0.0, 0.0),
    (3800.0, 0.0),
    (3800.0, 3800.0),
    (3000.0, 3800.0),
    (3000.0, 1000.0),
    (800.0, 1000.0),
    (800.0, 3800.0),
    (0.0, 3800.0),
)


def strips_of(outline: Ring, membrane: Membrane = METRE, holes: Sequence[Ring] = ()) -> Strips:
    return best_strips(regions_of_room(outline, holes), outline, membrane)


def turned(ring: Ring, degrees: float) -> Ring:
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return tuple((x * cos - y * sin + 700.0, x * sin + y * cos - 90.0) for x, y in ring)


def judged(polygon: shapely.Polygon, degrees: float, membrane: Membrane) -> float:
    """Length of all strips along a direction, begun at its right, by shapely: the shadow of what each band meets."""
    level = shapely.affinity.rotate(polygon, -degrees, origin=(0.0, 0.0))
    left, low, right, high = level.bounds
    start, lengths = low - membrane.turned_up, list[float]()
    while True:
        band = level.intersection(shapely.box(left - 1.0, start, right + 1.0, start + membrane.roll_width))
        parts = [p for p in getattr(band, "geoms", [band]) if p.area > 1e-3]
        shadows = shapely.union_all([shapely.LineString([(p.bounds[0], 0), (p.bounds[2], 0)]) for p in parts])
        pieces = getattr(shapely.line_merge(shadows), "geoms", [shadows])
        lengths.append(shadows.length + 2.0 * membrane.turned_up * sum(not p.is_empty for p in pieces))
        if start + membrane.roll_width >= high + membrane.turned_up - 1e-6:
            return sum(lengths)
        start += membrane.roll_width - membrane.lap


def longest_way(outline: Ring) -> float:
    a, b = max(zip(outline, outline[1:] + outline[:1], strict=True), key=lambda wall: math.dist(*wall))
    return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))


def test_a_rectangle_takes_five_strips_across_rather_than_four_along() -> None:
    """By hand: along 4 × 4100, across 5 × 3100 mm."""
    assert strips_of(RECTANGLE) == Strips(90.0, 5, 15_500.0)


def test_an_l_shaped_room_takes_shorter_strips_in_its_leg() -> None:
    """By hand: along 3 × 5100 + 2 × 2600 = 20 500, across 3 × 4100 + 3 × 2600 = 20 100 mm."""
    found = strips_of(L_ROOM)
    assert (found.way, found.pieces) == (90.0, 6)
    assert found.length == pytest.approx(20_100.0, abs=1e-6)


def test_a_strip_that_two_arms_part_is_cut_and_turned_up_at_every_end() -> None:
    """By hand, rolls of 900 and laps of 100: along, 2 strips of 3800 and 3 pairs of 800 in the arms."""
    membrane = Membrane(roll_width=900.0, roll_length=20_000.0, lap=100.0, turned_up=0.0)
    along = 3800.0 * 2 + 3 * 2 * 800.0
    across = 3800.0 + 1000.0 * 2 + 3800.0 * 2
    assert strips_of(U_ROOM, membrane).length == pytest.approx(min(along, across), abs=1e-6)


def test_a_cutout_from_wall_to_wall_parts_the_strips_and_one_in_the_middle_does_not() -> None:
    wall_to_wall = ((1000.0, 0.0), (2000.0, 0.0), (2000.0, 3000.0), (1000.0, 3000.0))
    middle = ((1000.0, 1450.0), (2000.0, 1450.0), (2000.0, 1550.0), (1000.0, 1550.0))
    assert strips_of(RECTANGLE, holes=[middle]).length == strips_of(RECTANGLE).length
    parted = strips_of(RECTANGLE, holes=[wall_to_wall])
    assert parted.length == pytest.approx(min(4 * (3000.0 + 200.0), (2 + 3) * 3100.0), abs=1e-6)


@pytest.mark.parametrize("seed", range(30))
def test_strips_are_as_long_as_shapely_says_they_are(seed: int) -> None:
    room = random_room(seed)
    outline = outline_of(room)
    found = strips_of(outline, METRE, cutouts_of(room))
    ways = [judged(polygon_of(room), longest_way(outline) + turn, METRE) for turn in (0.0, 90.0, 180.0, 270.0)]
    assert found.length == pytest.approx(min(ways), rel=1e-6)


@pytest.mark.parametrize("outline", [RECTANGLE, L_ROOM, U_ROOM])
@settings(max_examples=25, deadline=None)
@given(degrees=st.floats(-180.0, 180.0), width=st.floats(300.0, 4000.0), share=st.floats(0.0, 0.5))
def test_membrane_covers_the_room_however_it_is_turned(
    outline: Ring, degrees: float, width: float, share: float
) -> None:
    membrane = Membrane(width, 20_000.0, width * share, 50.0)
    found = strips_of(turned(outline, degrees), membrane)
    assert found.length * width >= shapely.Polygon(outline).area


@given(st.floats(100.0, 30_000.0), st.floats(300.0, 4000.0), st.floats(0.0, 0.5))
def test_strips_side_by_side_reach_across_and_one_fewer_would_not(extent: float, width: float, share: float) -> None:
    membrane = Membrane(width, 20_000.0, width * share, 50.0)
    count = count_across(extent, membrane)
    reach = [width + (n - 1) * (width - membrane.lap) for n in (count, count - 1)]
    assert reach[0] >= extent + 100.0 - 1e-3
    assert count == 1 or reach[1] < extent + 100.0


def test_a_roll_gives_what_is_left_of_it_beside_the_lap_at_its_end() -> None:
    assert roll_yield(METRE) == pytest.approx(19.9)
