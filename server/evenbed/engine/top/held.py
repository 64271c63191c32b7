"""Where the finished floor is held, and between which heights: at doorways, fixtures and places."""

import math
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document, Fixture, Opening
from evenbed.engine.document.tops import Held
from evenbed.engine.geometry import between, edge_of
from evenbed.engine.outline import Figure
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

ON_THE_EDGE = 1e-6  # mm within which a place on a wall counts as in the room


@dataclass(frozen=True)
class Hold:
    """One held height: the finished floor at each of `places` is from `low` to `high`, z, null for no bound.

    A doorway is held at both ends of its opening, and so all along it, as the top is straight; a linear drain too.
    """

    path: str
    id: str | None
    places: tuple[Point, ...]
    low: float | None
    high: float | None


def holds_from(document: Document, figure: Figure, holds: tuple[Held, ...]) -> tuple[Hold, ...]:
    """Every held height. Raises BadDocumentError with each that names nothing, two things or what is not there."""
    read = [_hold(document, figure, f"bed.top.holds[{n}]", held) for n, held in enumerate(holds)]
    found = [one for one in read if isinstance(one, Problem)]
    if found:
        raise BadDocumentError(found)
    return tuple(one for one in read if isinstance(one, Hold))


def _hold(document: Document, figure: Figure, path: str, held: Held) -> Hold | Problem:
    named = [one for one in (held.opening, held.fixture, held.at) if one is not None]
    if len(named) != 1:
        return problem_at(path, "held_nowhere" if not named else "held_twice")
    if held.low is not None and held.high is not None and held.low > held.high:
        return problem_at(f"{path}.low", "held_low_above_high", low=held.low, high=held.high)
    if held.opening is not None:
        return _at_opening(document.openings, figure, path, held)
    if held.fixture is not None:
        return _at_fixture(document.fixtures, path, held)
    return _at_place(figure, path, held)


def _at_opening(openings: tuple[Opening, ...], figure: Figure, path: str, held: Held) -> Hold | Problem:
    opening = next((o for o in openings if o.id == held.opening), None)
    if opening is None:
        return problem_at(f"{path}.opening", "unknown_id", id=str(held.opening)[:40])
    wall = edge_of(figure.vertices, opening.wall)
    ends = [between(*wall, along / math.dist(*wall)) for along in (opening.start, opening.end)]
    return _bounded(Hold(path, opening.id, tuple(ends), held.low, held.high), opening.adjoining_height)


def _at_fixture(fixtures: tuple[Fixture, ...], path: str, held: Held) -> Hold | Problem:
    fixture = next((f for f in fixtures if f.id == held.fixture), None)
    if fixture is None:
        return problem_at(f"{path}.fixture", "unknown_id", id=str(held.fixture)[:40])
    places = (fixture.at,) if fixture.to is None else (fixture.at, fixture.to)
    return _bounded(Hold(path, fixture.id, places, held.low, held.high), fixture.height)


def _at_place(figure: Figure, path: str, held: Held) -> Hold | Problem:
    assert held.at is not None
    if not figure.holds(held.at, ON_THE_EDGE):
        return problem_at(f"{path}.at", "held_outside", x=held.at[0], y=held.at[1])
    return _bounded(Hold(path, None, (held.at,), held.low, held.high), None)


def _bounded(hold: Hold, met: float | None) -> Hold | Problem:
    """The hold itself, or where neither bound is given one that meets the height that is there."""
    if hold.low is not None or hold.high is not None:
        return hold
    if met is None:
        return problem_at(hold.path, "held_meets_nothing")
    return Hold(hold.path, hold.id, hold.places, met, met)
