"""Movement joints against figures from outside: tile handbook, detail EJ171, as quoted in trade journals."""

import pytest
from tests.jointed import FOOT, joints_in, lines_in

from evenbed.engine.document.joints import JointDesign
from evenbed.engine.joints.width import movement_of, published_width, width_from

INCH = 25.4
FAHRENHEIT = 1.0 / 1.8  # K in a degree
PER_FAHRENHEIT = 1.8  # one over K from one over °F
PRINTED = 0.5e-4 * INCH  # the derived movement is given to four places of an inch

HALL = [[0, 0], [12_000, 0], [12_000, 9000], [0, 9000]]
L_ROOM = [[0, 0], [12_000, 0], [12_000, 4000], [5000, 4000], [5000, 9000], [0, 9000]]
T_ROOM = [[0, 0], [9000, 0], [9000, 3000], [6000, 3000], [6000, 7000], [3000, 7000], [3000, 3000], [0, 3000]]


def test_twelve_feet_through_a_hundred_degrees_fahrenheit_grow_0_0864_inches() -> None:
    # ΔL = α L ΔT with 6e-6 for each °F: derived.
    moved = movement_of(12.0 * FOOT, 100.0 * FAHRENHEIT, 6e-6 * PER_FAHRENHEIT)
    assert moved == pytest.approx(0.0864 * INCH, abs=PRINTED)


def test_a_sealant_that_gives_a_quarter_wants_0_346_inches_for_that() -> None:
    design = JointDesign(temperature_range=100.0 * FAHRENHEIT)  # expansion and sealant as the engine has them
    width = width_from(design, 12.0 * FOOT, 12.0 * FOOT)
    assert width.by_movement == pytest.approx(0.346 * INCH, abs=0.5e-3 * INCH)


@pytest.mark.parametrize(
    ("feet", "degrees", "inches"),
    [
        (8, 100, 3 / 8),
        (12, 100, 1 / 2),
        (10, 100, 7 / 16),  # in proportion between
        (8, None, 3 / 8),  # nobody knows the range
        (8, 115, 3 / 8 + 1 / 16),
        (12, 130, 1 / 2 + 2 / 16),
        (12, 145, 1 / 2 + 3 / 16),
        (12, 101, 1 / 2 + 1 / 16),  # a begun step counts
        (6, 60, 3 / 8),
    ],
)
def test_outdoor_widths_are_the_handbooks(feet: float, degrees: float | None, inches: float) -> None:
    over = None if degrees is None else degrees * FAHRENHEIT
    assert published_width("outdoors", feet * FOOT, over) == pytest.approx(inches * INCH, abs=1e-9)


def test_indoors_a_joint_is_a_quarter_inch_wide_and_so_is_the_perimeter() -> None:
    answer = joints_in(HALL)
    assert answer.width == answer.width_published == published_width("indoors", 25 * FOOT, 80.0) == 0.25 * INCH
    assert answer.perimeter.width == 0.25 * INCH  # from memory
    assert (answer.width_by_movement, answer.movement, answer.governs) == (None, None, "published")


@pytest.mark.parametrize(
    ("exposure", "least", "most"), [("indoors", 20, 25), ("sun_or_wet", 8, 12), ("outdoors", 8, 12)]
)
def test_joints_stand_as_far_apart_as_the_handbook_has_them(exposure: str, least: float, most: float) -> None:
    spacing = joints_in(HALL, exposure=exposure).spacing
    assert (spacing.least, spacing.most, spacing.used) == pytest.approx((least * FOOT, most * FOOT, most * FOOT))


def test_the_greater_width_governs_and_says_so() -> None:
    sunny = joints_in(HALL, exposure="sun_or_wet", temperature_range=60.0)
    assert (sunny.governs, sunny.width) == ("movement", sunny.width_by_movement)
    assert sunny.width > sunny.width_published == 0.25 * INCH
    mild = joints_in(HALL, exposure="outdoors", temperature_range=20.0)
    assert (mild.governs, mild.width) == ("published", mild.width_published)
    assert mild.width_by_movement is not None
    assert mild.width > mild.width_by_movement


def test_the_edition_is_named() -> None:
    assert "EJ171" in joints_in(HALL).edition


def test_a_hall_indoors_is_quartered_by_two_joints_on_whole_tiles() -> None:
    answer = joints_in(HALL)
    assert [(j.start, j.end, j.kind, j.module_off) for j in answer.field] == [
        ((6000.0, 0.0), (6000.0, 9000.0), "field", 0.0),
        ((0.0, 4500.0), (12_000.0, 4500.0), "field", 0.0),
    ]
    assert [(panel.length, panel.width) for panel in answer.panels] == [(6000.0, 4500.0)] * 4
    assert answer.perimeter.length == 42_000.0


def test_outdoors_the_same_hall_has_panels_of_no_more_than_twelve_feet() -> None:
    answer = joints_in(HALL, exposure="outdoors")
    assert len(answer.panels) == 4 * 3
    assert answer.longest_panel <= 12 * FOOT


def test_an_l_room_is_cut_at_its_inside_corner_and_the_long_leg_once_more() -> None:
    answer = joints_in(L_ROOM)
    lines = lines_in(answer)
    assert [set(line.coords) for line in lines["inside_corner"]] == [{(5000.0, 4000.0), (5000.0, 0.0)}]
    assert sorted((panel.length, panel.width) for panel in answer.panels) == [
        (5000.0, 4500.0),
        (5000.0, 4500.0),
        (7000.0, 4000.0),
    ]
    assert next(j.module_off for j in answer.field if j.why == "inside_corner") == pytest.approx(100.0)


def test_a_t_room_has_one_joint_from_inside_corner_to_inside_corner() -> None:
    lines = lines_in(joints_in(T_ROOM))["inside_corner"]
    assert [set(line.coords) for line in lines] == [{(3000.0, 3000.0), (6000.0, 3000.0)}]


def test_a_corridor_is_cut_across_only() -> None:
    answer = joints_in([[0, 0], [16_000, 0], [16_000, 1500], [0, 1500]])
    assert [(j.start[0], j.end[0]) for j in answer.field] == [(5400.0, 5400.0), (10_800.0, 10_800.0)]
    assert answer.longest_panel == 5400.0


def test_a_bathroom_needs_none_but_the_perimeter() -> None:
    answer = joints_in([[0, 0], [2400, 0], [2400, 1800], [0, 1800]])
    assert answer.field == ()
    assert [(panel.length, panel.width) for panel in answer.panels] == [(2400.0, 1800.0)]
    assert answer.perimeter.length == 8400.0


def test_a_joint_runs_through_a_column_and_not_through_a_pipe() -> None:
    column = [[4000, 2000], [4500, 2000], [4500, 2500], [4000, 2500]]
    pipe = [[1000, 1000], [1100, 1000], [1100, 1100], [1000, 1100]]
    answer = joints_in([[0, 0], [7500, 0], [7500, 5000], [0, 5000]], [column, pipe])
    assert {joint.why for joint in answer.field} == {"cutout"}
    assert {joint.start[0] for joint in answer.field} | {joint.end[0] for joint in answer.field} == {4250.0}
    assert sum(len(panel.holes) for panel in answer.panels) == 1
    assert answer.perimeter.length == 25_000.0 + 2000.0 + 400.0
