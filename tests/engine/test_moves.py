"""The lies of strips along a rail: moves, overlaps, breaks; and which strips on hand a rail is made of."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.engine.rail_cases import END, Case, flat, high_enough, plain_case, random_case, rectangle
from tests.share import share_of

from evenbed.engine.document.rails import RailDesign, Strip, StripsOnHand
from evenbed.engine.rails.laid import RailPlan, check_rail_design, rails_from
from evenbed.engine.rails.moves import Run, moves_along, settings_along
from evenbed.engine.rails.shapes import Rail

ALONG_ROUNDING = 1e-6  # mm


@settings(max_examples=share_of(200), deadline=None)
@given(st.floats(300, 30_000), st.floats(400, 4000), st.floats(0, 0.7), st.booleans())
def test_lies_cover_the_rail_from_the_far_end_and_keep_the_overlap(
    size: float, strip: float, share: float, is_start_far: bool
) -> None:
    alongs, overlap = [size * n / 50 for n in range(51)], share * strip
    lies = settings_along([Run(0.0, size, strip, None)], alongs, overlap, is_start_far=is_start_far)
    assert [lie.order for lie in lies] == list(range(1, len(lies) + 1))
    ordered = lies if is_start_far else lies[::-1]
    assert (ordered[0].start, lies[0].overlap) == (0.0, 0.0)
    assert ordered[-1].end == pytest.approx(size)
    for a, b in pairwise(lies):
        assert b.overlap == pytest.approx(min(a.end, b.end) - max(a.start, b.start), abs=ALONG_ROUNDING)
        assert b.overlap >= overlap - ALONG_ROUNDING
    assert all(lie.end - lie.start <= strip + ALONG_ROUNDING for lie in lies)
    for lie in lies:
        under = [n for n, at in enumerate(alongs) if lie.start - 1e-6 <= at <= lie.end + 1e-6]
        assert list(lie.stations) == (under if is_start_far else under[::-1])


@given(st.floats(300, 30_000), st.floats(400, 4000), st.floats(0, 0.7))
def test_fewer_moves_would_not_reach_and_as_many_do(size: float, strip: float, share: float) -> None:
    """n moves, each keeping the overlap, reach strip + n (strip − overlap)."""
    moves, step = moves_along(size, strip, share * strip), strip * (1.0 - share)
    assert strip + moves * step >= size - 1e-6 * size
    assert moves == 0 or strip + (moves - 1) * step < size


def test_after_a_break_the_first_lie_keeps_nothing_and_the_order_goes_on() -> None:
    runs = [Run(0.0, 1500.0, 1000.0, 0), Run(1500.0, 1900.0, 600.0, 1)]
    lies = settings_along(runs, [0.0, 750.0, 1500.0, 1900.0], 200.0, is_start_far=False)
    assert [(lie.order, lie.start, lie.end, lie.overlap, lie.strip) for lie in lies] == [
        (1, 1500.0, 1900.0, 0.0, 1),
        (2, 500.0, 1500.0, 0.0, 0),
        (3, 0.0, 1000.0, 500.0, 0),
    ]
    assert [lie.stations for lie in lies] == [(3, 2), (2, 1), (1, 0)]


def made(case: Case, depth: float = 40.0, exits: tuple[tuple[float, float], ...] = ()) -> RailPlan:
    return rails_from(case.regions, (), case.design, exits, subfloor=flat, top=lambda _x, _y: depth)


def check_strips(rail: Rail, on_hand: tuple[StripsOnHand, ...], overlap: float) -> None:
    """Every lie fits its strip on hand, all lies are of the strip told, the rail is covered, overlaps are kept."""
    size = math.dist(rail.start, rail.end)
    for lie in rail.settings:
        assert lie.strip is not None
        strip = on_hand[lie.strip]
        assert lie.end - lie.start <= strip.length + ALONG_ROUNDING
        assert (strip.thickness, strip.width) == (rail.strip.thickness, rail.strip.width)
        assert lie.overlap == 0.0 or lie.overlap >= overlap - ALONG_ROUNDING
    reached = 0.0
    for lie in sorted(rail.settings, key=lambda lie: lie.start):
        assert lie.start <= reached + ALONG_ROUNDING
        reached = max(reached, lie.end)
    assert reached == pytest.approx(size)
    assert rail.strip.length == max(on_hand[lie.strip].length for lie in rail.settings if lie.strip is not None)


STRIPS = st.builds(
    StripsOnHand,
    thickness=st.sampled_from([12.7, 19.05, 25.4, 38.1]),
    length=st.sampled_from([350.0, 900.0, 1219.2, 1828.8, 2438.4]),
    count=st.integers(1, 3),
    width=st.sampled_from([38.1, 50.8]),
)


@settings(max_examples=share_of(150), deadline=None)
@given(st.integers(0, 299), st.lists(STRIPS, max_size=4), st.floats(15.0, 45.0))
def test_rails_are_made_of_the_strips_on_hand_the_thickest_that_fits(
    seed: int, strips: list[StripsOnHand], depth: float
) -> None:
    """A strip alone of its kind may be left to the rail beside, so the thickest of which there are two is enough."""
    on_hand = (*strips, StripsOnHand(25.4, 2438.4, 2, 38.1))
    case = replace(random_case(seed), design=replace(random_case(seed).design, strips=on_hand))
    plan = made(case, depth)
    movable = [s for s in on_hand if s.length - case.design.overlap >= 100.0]
    for rail in plan.rails:
        check_strips(rail, on_hand, case.design.overlap)
        able = [s for s in on_hand if s in movable or s.length >= math.dist(rail.start, rail.end)]
        fitting = [s for s in able if depth - s.thickness >= 0.0]
        if fitting:
            assert depth >= rail.strip.thickness >= max((s.thickness for s in fitting if s.count > 1), default=0.0)
            assert rail.strip.thickness in {s.thickness for s in fitting}
        elif all(s.count > 1 for s in able):
            assert rail.strip.thickness == min(s.thickness for s in able)


def test_the_fewest_moves_decide_then_the_shortest_strip() -> None:
    on_hand = (StripsOnHand(25.4, 2000.0), StripsOnHand(25.4, 5000.0), StripsOnHand(25.4, 4000.0))
    plan = made(plain_case(rectangle(4000.0, 2000.0), strips=on_hand))  # rails of 3695 mm
    assert {lie.strip for rail in plan.rails for lie in rail.settings} == {2}


def test_a_strip_too_short_to_be_moved_serves_only_what_is_no_longer() -> None:
    on_hand = (StripsOnHand(30.0, 350.0, 4), StripsOnHand(25.4, 2438.4, 4))
    long = made(plain_case(rectangle(4000.0, 1200.0), strips=on_hand, overlap=300.0))
    short = made(plain_case(rectangle(430.0, 600.0), strips=on_hand, overlap=300.0, direction=0.0))
    assert {rail.strip.thickness for rail in long.rails} == {25.4}
    assert {rail.strip.thickness for rail in short.rails} == {30.0}


def test_an_overlap_is_too_long_where_it_lets_none_of_the_strips_move() -> None:
    design = RailDesign(strips=(StripsOnHand(25.4, 350.0), StripsOnHand(25.4, 450.0)), overlap=349.0)
    assert check_rail_design(design) == []
    (problem,) = check_rail_design(replace(design, overlap=351.0))
    assert (problem.path, problem.code, problem.values["most"]) == ("rails.overlap", "overlap_too_long", 350.0)


def short_of(case: Case) -> list[tuple[object, ...]]:
    told = [c.values for c in made(case).cautions if c.code == "strips_short"]
    return [(c["rail"], c["other"], c["count"], c["wanted"]) for c in told]


def test_one_strip_for_two_rails_beside_a_section_is_told() -> None:
    room = rectangle(4000.0, 3000.0)  # three rails
    assert short_of(plain_case(room, strips=(StripsOnHand(25.4, 2438.4, 1),))) == [("A", "B", 1, 2)]
    assert short_of(plain_case(room, strips=(StripsOnHand(25.4, 2438.4, 2),))) == []
    assert short_of(plain_case(room)) == []


def test_strips_alone_of_their_kind_take_turns_from_rail_to_rail() -> None:
    on_hand = (StripsOnHand(25.4, 2438.4, 1), StripsOnHand(25.4, 2400.0, 1))
    case = plain_case(rectangle(4000.0, 3000.0), strips=on_hand)
    plan = made(case)
    assert short_of(case) == []
    used = [{lie.strip for lie in rail.settings} for rail in plan.rails]
    assert all(a.isdisjoint(b) for a, b in pairwise(used))


def test_where_no_strip_is_told_the_usual_one_has_no_number() -> None:
    plan = made(plain_case(rectangle(4000.0, 3000.0), strip=Strip(20.0, 40.0, 1500.0)))
    for rail in plan.rails:
        assert (rail.strip.thickness, rail.strip.width, rail.strip.length) == (20.0, 40.0, 1500.0)
        assert {lie.strip for lie in rail.settings} == {None}


def test_rails_keep_clear_of_walls_by_the_widest_strip_on_hand() -> None:
    on_hand = (StripsOnHand(25.4, 2438.4, 2, 400.0),)
    plan = made(plain_case(rectangle(4000.0, 3000.0), strips=on_hand, inset=100.0))
    assert plan.rails[0].start == pytest.approx((200.0, 200.0))


def test_the_strip_starts_at_the_end_away_from_the_way_out() -> None:
    case = plain_case(rectangle(9000.0, 3000.0))
    for exit_x, first in ((0.0, 9000.0 - END), (9000.0, END)):
        for rail in made(case, exits=((exit_x, 1500.0),)).rails:
            lie = rail.settings[0]
            assert first in (pytest.approx(rail.start[0] + lie.start), pytest.approx(rail.start[0] + lie.end))
            assert rail.stations[lie.stations[0]].at[0] == pytest.approx(first)


def test_far_is_what_is_far_on_foot_and_not_through_a_wall() -> None:
    """A U: the way out stands beside the right leg's top, in the left leg, so the right leg's top is the far end."""
    right = ((0.0, 0.0), (5000.0, 0.0), (5000.0, 6000.0), (2600.0, 6000.0), (2600.0, 2000.0))
    case = plain_case((*right, (2400.0, 2000.0), (2400.0, 6000.0), (0.0, 6000.0)), direction=90.0)
    plan = rails_from(case.regions, (), case.design, ((2400.0, 5500.0),), subfloor=flat, top=high_enough)
    far = {rail.id: rail.stations[rail.settings[0].stations[0]].at for rail in plan.rails}
    assert {at[0] > 2600.0 for at in far.values()} == {True, False}
    for rail in plan.rails:
        upper, lower = sorted((rail.start, rail.end), key=lambda at: -at[1])
        assert far[rail.id] == (upper if rail.start[0] > 2600.0 else lower)
