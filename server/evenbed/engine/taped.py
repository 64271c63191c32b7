"""A place by two tapes: where the circles round two known places meet inside the room."""

import math
from dataclasses import dataclass

from evenbed.engine.document.fields import FARTHEST, described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import Outline
from evenbed.engine.outline import figure_from
from evenbed.engine.problems import BadDocumentError, problem_at

SLACK = 10.0  # mm by which two tapes may fail to meet, and a place pass the wall; common practice, no source
ONE_PLACE = 1.0  # mm: nearer places are one


@dataclass(frozen=True)
class TapedPlaceQuestion:
    """Two known places, such as corners, and how far the sought place lies from each."""

    outline: Outline = described(about="The room's figure")
    start: tuple[Point, Point] = described(
        about="The two places that were taped from", unit="mm", key="from", low=-FARTHEST, high=FARTHEST
    )
    distances: tuple[float, float] = length(about="Taped from the first and from the second")


@dataclass(frozen=True)
class TapedPlaceAnswer:
    """Where the place can be."""

    places: tuple[Point, ...] = height(
        about="One or two places in the room, the first at the left of the line taped from"
    )
    misses: float = length(about="By how much the tapes fail to meet, 0 where they do")


def taped_place_from(given: object) -> TapedPlaceAnswer:
    """Where a place can be that was taped from two known ones (parsed JSON in).

    Two circles meet left and right of the line between their middles; places more than SLACK outside the room are
    left out. Tapes that fail to meet by no more than SLACK give the one place halfway between their ends. Raises
    BadDocumentError where they fail by more, where the known places are one, and where no place is in the room.
    """
    question, _ = read_json(TapedPlaceQuestion, given)
    figure = figure_from(question.outline)
    start, end = question.start
    base = math.dist(start, end)
    if base < ONE_PLACE:
        raise _refused("taped_same_place")
    misses = _miss(base, *question.distances)
    along, aside = _meeting(base, *question.distances)
    places = _mirrored(start, end, along / base, aside / base)
    inside = tuple(place for place in places if figure.holds(place, SLACK))
    if not inside:
        raise _refused("taped_outside")
    return TapedPlaceAnswer(inside, misses)


def _refused(code: str, **values: float) -> BadDocumentError:
    return BadDocumentError([problem_at("distances", code, **values)])


def _miss(base: float, first: float, second: float) -> float:
    """By how much two circles fail to meet. Raises BadDocumentError where that is more than a tape's slack."""
    apart, inside = base - first - second, abs(first - second) - base
    if apart > SLACK:
        raise _refused("taped_apart", gap=round(apart, 1), base=round(base, 1))
    if inside > SLACK:
        raise _refused("taped_inside", gap=round(inside, 1), base=round(base, 1))
    return max(0.0, apart, inside)


def _meeting(base: float, first: float, second: float) -> tuple[float, float]:
    """How far along the line from the first middle to the second the circles meet, and how far aside of it."""
    if first + second <= base:
        return (base + first - second) / 2, 0.0
    if abs(first - second) >= base:
        return (base + first + second if first > second else base - first - second) / 2, 0.0
    along = (base + (first - second) * (first + second) / base) / 2
    return along, math.sqrt(max(0.0, (first - along) * (first + along)))


def _mirrored(start: Point, end: Point, along: float, aside: float) -> tuple[Point, ...]:
    """The places left and right of a line, by shares of its length; one where they are ONE_PLACE."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    x, y = start[0] + along * dx, start[1] + along * dy
    left, right = (x - aside * dy, y + aside * dx), (x + aside * dy, y - aside * dx)
    return ((x, y),) if math.dist(left, right) < ONE_PLACE else (left, right)
