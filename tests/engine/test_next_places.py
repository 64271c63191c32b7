"""Where the bed is to be read next: round after round until it can be judged, and no two rows along one wall."""

import math

import pytest
from tests.checked_bed import checked_room, rectangle
from tests.documents import plan_of

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import distance_to_ring

BY_A_WALL = 75.0  # mm, as the first round reads there
DEEP = 1100.0  # mm: a corridor's


def walked(standard: str, long: float, rounds: int, hump: float) -> tuple[list[Point], list[Point], str]:
    """All that is read, level but for the second place; what is still asked for; the verdict."""
    read = [
        (BY_A_WALL, BY_A_WALL),
        (long / 2.0, BY_A_WALL),
        (long - BY_A_WALL, BY_A_WALL),
        (BY_A_WALL, DEEP - BY_A_WALL),
    ]
    high, asked = read[1], list[Point]()
    for _ in range(rounds):
        read = [*read, *asked]
        spots = [(*at, hump if at == high else 0.0) for at in read]
        room = checked_room(rectangle(long, DEEP), spots, flatness={"standard": standard})
        flatness = plan_of(room, "plan")["flatness"]
        asked = [(at[0], at[1]) for at in flatness["next_readings"]]
        if not asked:
            break
    return read, asked, flatness["verdict"]


def nearest_to_a_wall(read: list[Point], long: float) -> float:
    ring = tuple((x, y) for x, y in rectangle(long, DEEP))
    return min(distance_to_ring(ring, at) for at in read)


def nearest_to_each_other(read: list[Point]) -> float:
    return min(math.dist(a, b) for n, a in enumerate(read) for b in read[:n])


@pytest.mark.parametrize(("hump", "verdict"), [(0.0, "within"), (9.0, "beyond")])
def test_a_corridor_is_judged_after_a_few_rounds_of_places_clear_of_walls(hump: float, verdict: str) -> None:
    """BS 8204-1, SR2: 5 mm under 2 m. By hand: a lone hump of 9 mm that is read round rocks by nearly 9."""
    read, asked, found = walked("bs_8204_sr2", 11000.0, 7, hump)
    assert (asked, found) == ([], verdict)
    assert nearest_to_a_wall(read, 11000.0) >= BY_A_WALL - 1e-6
    assert nearest_to_each_other(read) > 300.0


def test_readings_are_asked_for_no_straightedge_shorter_than_a_round_can_serve() -> None:
    """DIN 18202 has limits from 0.1 m up: places 25 mm from each other are asked of nobody, so that it stays open."""
    read, asked, found = walked("din_18202_3", 2000.0, 9, 0.0)
    assert (asked, found) == ([], "too_sparse")
    assert nearest_to_a_wall(read, 2000.0) >= BY_A_WALL - 1e-6
    assert nearest_to_each_other(read) > 150.0


def test_a_place_in_a_strip_narrower_than_two_hands_stays_in_it() -> None:
    strip = rectangle(4000.0, 60.0)
    spots = [(30.0, 30.0, 0.0), (3970.0, 30.0, 0.0), (2000.0, 10.0, 0.0)]
    flatness = plan_of(checked_room(strip, spots, flatness={"standard": "bs_8204_sr2"}), "plan")["flatness"]
    assert all(0.0 < x < 4000.0 and 0.0 < y < 60.0 for x, y in flatness["next_readings"])
    assert flatness["next_readings"]
