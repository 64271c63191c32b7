"""Rails over random rooms, proposed and as a person placed them; shapely judges what they serve (rail_judge)."""

import math
from dataclasses import dataclass, replace
from functools import cache
from statistics import mean

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon
from tests.engine.rail_cases import Case, plain_case, random_case, rectangle
from tests.engine.rail_judge import Judged, judged, plain_layout, turned_floor
from tests.share import SHARE, share_of

from evenbed.engine.document.rails import RailLine
from evenbed.engine.rails.areas import HandPlan
from evenbed.engine.rails.laid import RailPlan, check_rail_design

ROOMS = round(2000 * SHARE * SHARE)  # all of them take a minute
COMPARED = range(ROOMS if SHARE >= 1.0 else ROOMS // 3)
BLOCK = 40  # rooms in one test
OF_A_FLOOR = 1e-6  # share of a floor that rounding may take
GRID = 1e-5  # mm: shapely's overlays are exact on a grid, and may fail where corners differ by a rounding
CLEARANCE_ROUNDING = 1e-4  # mm
FLOATED = 100.0  # mm beyond finished bed that the float does without a straightedge


@dataclass(frozen=True)
class Laid:
    """A room with its rails, what is named of it, and what the judge says."""

    case: Case
    rails: RailPlan
    hand: HandPlan
    judged: Judged

    @property
    def named(self) -> list[Polygon]:
        """The hand areas as the judge has the floor."""
        return [turned_floor(Polygon(area.polygon), self.rails.direction) for area in self.hand.areas]


def laid(case: Case) -> Laid:
    plan = case.rails
    (layout,) = plan.layouts
    rails = [(piece.start, piece.end, piece.v) for piece in layout.pieces]
    floor = turned_floor(case.shapes[0], plan.direction)
    longest = max(case.design.straightedge, *case.design.straightedges, 0.0)
    return Laid(case, plan, case.hand, judged(floor, rails, longest, case.design.bearing))


@cache
def random_laid(seed: int) -> Laid:
    return laid(random_case(seed))


def blocks() -> list[range]:
    return [range(first, min(first + BLOCK, ROOMS)) for first in range(0, ROOMS, BLOCK)]


@pytest.mark.parametrize("seeds", blocks(), ids=str)
def test_every_place_is_served_or_named_rails_keep_their_distance_and_straightedges_rest_on_bed(seeds: range) -> None:
    for seed in seeds:
        room = random_laid(seed)
        check_coverage(room)
        check_distances(room)
        check_straightedges(room)


def check_coverage(room: Laid) -> None:
    floor, served, named = room.judged.floor, room.judged.served, room.named
    rounding = OF_A_FLOOR * floor.area
    together = shapely.union_all(named, grid_size=GRID)
    assert all(polygon.is_valid and polygon.exterior.is_ccw for polygon in named)
    assert sum(polygon.area for polygon in named) == pytest.approx(together.area, abs=rounding)
    assert shapely.difference(together, floor, grid_size=GRID).area <= rounding
    assert shapely.intersection(together, served, grid_size=GRID).area <= rounding
    whole = shapely.union_all([served, together], grid_size=GRID)
    assert shapely.difference(floor, whole, grid_size=GRID).area <= rounding
    told = [area.area * 1e6 for area in room.hand.areas]
    assert told == pytest.approx([polygon.area for polygon in named], abs=rounding)
    assert room.hand.share == pytest.approx(room.judged.hand_share, abs=OF_A_FLOOR)


def check_distances(room: Laid) -> None:
    """Rails keep the inset from walls and cutouts but for their ends, which keep less."""
    layout, edge = room.rails.layouts[0], room.judged.floor.boundary
    back = layout.floor.inset
    for piece in layout.pieces:
        whole = LineString([(piece.start, piece.v), (piece.end, piece.v)])
        alongside = LineString([(piece.start + back, piece.v), (piece.end - back, piece.v)])
        assert room.judged.floor.contains(whole)
        assert edge.distance(whole) >= layout.floor.end - CLEARANCE_ROUNDING
        assert piece.length <= 2.0 * back or edge.distance(alongside) >= back - CLEARANCE_ROUNDING


def check_straightedges(room: Laid) -> None:
    """Where one is told, half its length and what the float does reach over the place from finished bed."""
    for area, place in zip(room.hand.areas, room.named, strict=True):
        assert (area.way == "float") == (area.straightedge is None)
        if area.straightedge is not None:
            near = room.judged.served.buffer(area.straightedge / 2.0 + FLOATED)
            assert shapely.difference(place, near, grid_size=GRID).area <= OF_A_FLOOR * room.judged.floor.area


def test_less_is_left_to_hand_work_than_by_even_spacing_along_the_longest_wall(
    capsys: pytest.CaptureFixture[str],
) -> None:
    ours, plain, lies = [], [], []
    for seed in COMPARED:
        case = random_case(seed)
        own = (
            random_laid(seed)
            if case.design.direction == "auto"
            else laid(replace(case, design=replace(case.design, direction="auto")))
        )
        simple = plain_layout(case)
        ours.append(own.judged.hand_share)
        plain.append(simple.hand_share)
        reach = own.rails.layouts[0].reach
        lies.append([sum(reach.lies(end - start) for start, end, _ in each.rails) for each in (own.judged, simple)])
    no_worse = mean(mine <= theirs + OF_A_FLOOR for mine, theirs in zip(ours, plain, strict=True))
    with capsys.disabled():
        print(
            f"\n{len(COMPARED)} rooms: by hand {mean(ours):.2%} of the floor, evenly along the longest wall "
            f"{mean(plain):.2%}; no worse in {no_worse:.1%} of rooms; "
            f"lies of a strip {mean(n for n, _ in lies):.1f} and {mean(n for _, n in lies):.1f}"
        )
    assert mean(ours) < 0.5 * mean(plain)
    assert no_worse > 0.95


def placed_as_proposed(case: Case) -> Case:
    lines = tuple(RailLine(rail.start, rail.end, rail.id) for rail in case.rails.rails)
    return replace(case, design=replace(case.design, lines=lines))


@pytest.mark.parametrize("seed", range(0, 300, 6))
def test_the_proposed_rails_placed_by_a_person_are_the_same_rails(seed: int) -> None:
    case = random_case(seed)
    placed = placed_as_proposed(case)
    assert [rail.id for rail in placed.rails.rails] == [rail.id for rail in case.rails.rails]
    for mine, theirs in zip(placed.rails.rails, case.rails.rails, strict=True):
        assert [s.at for s in mine.stations] == [pytest.approx(s.at, abs=1e-6) for s in theirs.stations]
    assert placed.hand.share == pytest.approx(case.hand.share, abs=OF_A_FLOOR)
    told = {caution.code for caution in placed.rails.cautions}
    assert not told & {
        "rail_outside",
        "rail_cut_off",
        "rail_in_wall",
        "rail_near_wall",
        "rail_not_needed",
        "rail_alone",
        "rail_short",
    }


@settings(max_examples=share_of(100), deadline=None)
@given(st.floats(2000, 8000), st.floats(2000, 8000), st.floats(20, 1500), st.data())
def test_a_rail_dragged_beyond_reach_is_told_with_its_neighbour(
    width: float, depth: float, beyond: float, data: st.DataObject
) -> None:
    case = plain_case(rectangle(width, depth), direction=0.0)
    rails = case.rails.rails
    n = data.draw(st.integers(0, len(rails) - 2))
    span = case.rails.layouts[0].reach.span
    up = [replace_y(line, rails[n].start[1] + span + beyond) for line in placed_as_proposed(case).design.lines or ()]
    lines = [line for m, line in enumerate(placed_as_proposed(case).design.lines or ()) if m <= n] + [up[n + 1]]
    taller = plain_case(rectangle(width, depth + span + beyond), direction=0.0, lines=tuple(lines))
    (far,) = [c for c in taller.rails.cautions if c.code == "rails_too_far"]
    assert (far.where, far.values["rail"], far.values["other"]) == (f"rails[{n}]", rails[n].id, rails[n + 1].id)
    assert far.values["distance"] == pytest.approx(span + beyond)
    assert far.values["most"] == span
    assert "between" in {area.kind for area in taller.hand.areas}


def replace_y(line: RailLine, y: float) -> RailLine:
    return replace(line, start=(line.start[0], y), end=(line.end[0], y))


places = st.floats(-2000, 9000)
lines = st.lists(
    st.builds(
        lambda x, y, length, lean, name: RailLine((x, y), (x + length, y + lean), name),
        places,
        places,
        st.floats(-9000, 9000) | st.sampled_from([0.0, 5.0]),
        st.floats(-20, 20) | st.just(0.0),
        st.sampled_from(["", "", "", "A", "B", "B1"]),
    ),
    max_size=8,
)


@settings(max_examples=share_of(250), deadline=None)
@given(st.integers(0, 299), lines)
def test_any_lines_give_rails_and_named_hand_areas_or_problems(seed: int, placed: list[RailLine]) -> None:
    case = random_case(seed)
    case = replace(case, design=replace(case.design, lines=tuple(placed)))
    problems = check_rail_design(case.design)
    assert {p.code for p in problems} <= {"rail_without_length", "rails_not_parallel", "duplicate_id"}
    if problems:
        assert all(p.path.startswith("rails.lines[") for p in problems)
        return
    room = laid(case)
    check_coverage(room)
    assert len({rail.id for rail in room.rails.rails}) == len(room.rails.rails)
    assert {line.id for line in placed if line.id} <= named_or_left_out(room)
    for caution in room.rails.cautions:
        assert caution.where == "rails" or int(caution.where[6:-1]) < len(room.rails.rails)


def named_or_left_out(room: Laid) -> set[str]:
    """Names as given: a rail's own, that of an interrupted one without its number, or told as left out."""
    names = {rail.id for rail in room.rails.rails}
    left_out = {str(c.values["rail"]) for c in room.rails.cautions if c.code == "rail_outside"}
    return names | {name.rstrip("0123456789") for name in names} | {name[:-1] for name in names} | left_out


def test_a_line_out_of_parallel_is_a_problem_with_its_angle() -> None:
    lines = (RailLine((0.0, 0.0), (4000.0, 0.0)), RailLine((0.0, 1000.0), (3000.0, 1100.0)))
    (problem,) = check_rail_design(plain_case(rectangle(5000.0, 3000.0), lines=lines).design)
    assert (problem.path, problem.code) == ("rails.lines[1]", "rails_not_parallel")
    assert problem.values["angle"] == pytest.approx(math.degrees(math.atan2(100.0, 3000.0)))


def test_no_lines_at_all_leave_the_whole_floor_to_hand_work_and_say_so() -> None:
    case = plain_case(rectangle(5000.0, 3000.0), lines=())
    assert [caution.code for caution in case.rails.cautions] == ["no_rails_placed"]
    assert (case.rails.rails, case.hand.share) == ((), 1.0)


def test_what_rails_as_placed_break_is_told_at_the_rail() -> None:
    column = ((2000.0, 1300.0), (2400.0, 1300.0), (2400.0, 1700.0), (2000.0, 1700.0))
    lines = (
        RailLine((-200.0, 100.0), (4900.0, 100.0), "low"),
        RailLine((100.0, 1500.0), (4900.0, 1500.0), "mid"),
        RailLine((100.0, 1540.0), (4900.0, 1540.0)),
        RailLine((100.0, 2995.0), (4900.0, 2995.0), "high"),
        RailLine((100.0, 3500.0), (4900.0, 3500.0), "off"),
        RailLine((3000.0, 2200.0), (3200.0, 2200.0), "bit"),
    )
    case = plain_case(rectangle(5000.0, 3000.0), column, lines=lines)
    told = {(c.where, c.code, c.values.get("rail")) for c in case.rails.cautions}
    names = [rail.id for rail in case.rails.rails]
    assert names == ["low", "mid1", "mid2", "A1", "A2", "bit", "high"]
    assert ("rails", "rail_outside", "off") in told
    assert ("rails[0]", "rail_cut_off", "low") in told
    assert ("rails[0]", "rail_near_wall", "low") in told
    assert ("rails[1]", "rail_cut_off", "mid") in told
    assert ("rails[1]", "rails_too_close", "mid1") in told
    assert ("rails[5]", "rail_short", "bit") in told
    assert ("rails[5]", "rail_not_needed", "bit") in told
    assert ("rails[6]", "rail_in_wall", "high") in told


def test_a_rail_that_no_straightedge_reaches_another_from_is_not_said_to_be_served_for_by_others() -> None:
    for ys, far in (((1500.0,), set()), ((200.0, 3800.0), {"rails_too_far"})):
        lines = tuple(RailLine((100.0, y), (4900.0, y)) for y in ys)
        case = plain_case(rectangle(5000.0, 4000.0), lines=lines)
        told = [caution.code for caution in case.rails.cautions]
        assert told.count("rail_alone") == len(ys)
        assert "rail_not_needed" not in told
        assert far <= {*told}
