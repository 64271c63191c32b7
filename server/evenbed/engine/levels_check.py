"""What is wrong with a document's levels, and what is left out of them."""

import math
from collections.abc import Collection, Sequence

from evenbed.engine.document.levelling import Difference, Reading
from evenbed.engine.document.places import Point
from evenbed.engine.heights import Untied
from evenbed.engine.instruments import check_problems, sight_of
from evenbed.engine.measured import Levelling, Measured, setup_ids
from evenbed.engine.outline import Figure
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.stood import doubles_in, places_of

BESIDE_THE_ROOM = 25.0  # mm that a reading may stand outside the taped outline: a rod's foot and a tape's slack
OFF_THE_LINE = 1 / 1000  # of their length: readings closer to one line say nothing of the floor beside it;
# common practice, no source


def levelling_problems(levelling: Levelling, figure: Figure | None) -> list[Problem]:
    """Names nobody gave, readings without a place, outside the room or twice at one, tests that lack a value."""
    ids, places = setup_ids(levelling), places_of(levelling.readings)
    return [
        *_reference_problems(levelling, ids),
        *([] if figure is None else _place_problems(levelling.readings, figure)),
        *doubles_in(levelling.readings, ids, places),
        *_difference_problems(levelling.differences, {m.id for m in levelling.marks}),
        *check_problems(levelling.instrument_checks),
    ]


def _reference_problems(levelling: Levelling, ids: Sequence[str]) -> list[Problem]:
    found = []
    setups, marks = {s.id for s in levelling.setups}, {m.id for m in levelling.marks}
    for n, (reading, setup) in enumerate(zip(levelling.readings, ids, strict=True)):
        path = f"readings[{n}]"
        if not setup:
            found.append(problem_at(f"{path}.setup", "reading_without_setup"))
        elif setups and setup not in setups:
            found.append(problem_at(f"{path}.setup", "unknown_id", id=setup))
        if reading.mark is not None and reading.mark not in marks:
            found.append(problem_at(f"{path}.mark", "unknown_id", id=reading.mark))
        if reading.mark is None and reading.at is None:
            found.append(problem_at(f"{path}.at", "reading_without_place"))
    return found


def _place_problems(readings: Sequence[Reading], figure: Figure) -> list[Problem]:
    return [
        problem_at(f"readings[{n}].at", "reading_outside", x=r.at[0], y=r.at[1])
        for n, r in enumerate(readings)
        if r.at is not None and not figure.holds(r.at, BESIDE_THE_ROOM)
    ]


def _difference_problems(differences: Sequence[Difference], marks: Collection[str]) -> list[Problem]:
    found = []
    for n, one in enumerate(differences):
        path = f"differences[{n}]"
        ends = (("from", one.start), ("to", one.end))
        found += [problem_at(f"{path}.{key}", "unknown_id", id=mark) for key, mark in ends if mark not in marks]
        if one.start == one.end:
            found.append(problem_at(f"{path}.to", "same_mark", id=one.end))
        if one.sigma is None and one.distance is None:
            found.append(problem_at(f"{path}.sigma", "difference_without_weight"))
    return found


def floor_problems(read: Collection[Point], tied: Collection[Point], untied: Sequence[Untied]) -> list[Problem]:
    """What keeps the read places of the subfloor, or those of them that are tied, from making a surface."""
    found = _surface_problems(read)
    if not found and len(tied) < 3:
        most = max(untied, key=lambda u: u.readings)
        found = [problem_at("readings", "floor_untied", count=len(tied), setup=most.setup)]
    return found or _surface_problems(tied)


def _surface_problems(places: Collection[Point]) -> list[Problem]:
    if len(places) < 3:
        return [problem_at("readings", "too_few_readings", count=len(places))]
    if are_on_a_line(places):
        return [problem_at("readings", "readings_on_a_line", count=len(places))]
    return []


def are_on_a_line(places: Collection[Point]) -> bool:
    """True where no place stands off the line through the two farthest-out ones by more than OFF_THE_LINE.

    So do fewer than three places. Raises ValueError for none.
    """
    start = min(places)
    end = max(places, key=lambda p: math.dist(p, start))
    dx, dy, far = end[0] - start[0], end[1] - start[1], math.dist(start, end)
    return all(abs((p[0] - start[0]) * dy - (p[1] - start[1]) * dx) <= OFF_THE_LINE * far * far for p in places)


def levels_notices(levelling: Levelling, measured: Measured, untied: Sequence[Untied]) -> tuple[Problem, ...]:
    """What is left out: parts tied to nothing, errors of unknown sights, tests of instruments nobody used."""
    number = {s.id: n for n, s in enumerate(levelling.setups)}
    found = [
        problem_at(_setup_path(u.setup, number, measured), "untied_setup", setup=u.setup, count=u.readings)
        for u in untied
    ]
    for setup, count in _unknown_sights(levelling, measured).items():
        found.append(problem_at(f"setups[{number[setup]}].at", "sight_unknown", setup=setup, count=count))
    used = {s.instrument for s in levelling.setups}
    for n, check in enumerate(levelling.instrument_checks):
        if check.instrument not in used:
            found.append(problem_at(f"instrument_checks[{n}].instrument", "unknown_id", id=check.instrument))
    return tuple(found)


def _setup_path(setup: str, number: dict[str, int], measured: Measured) -> str:
    if setup in number:
        return f"setups[{number[setup]}]"
    return f"readings[{next(n for n, s in enumerate(measured.setup_of) if s.id == setup)}].setup"


def _unknown_sights(levelling: Levelling, measured: Measured) -> dict[str, int]:
    """How many sights of each set-up tell too little, of those where something depends on it."""
    counts: dict[str, int] = {}
    for reading, setup, correction in zip(levelling.readings, measured.setup_of, measured.corrections, strict=True):
        lacks = setup.sigma_per_metre > 0.0 and sight_of(setup, reading) is None
        if lacks or correction.lacks_sight:
            counts[setup.id] = counts.get(setup.id, 0) + 1
    return counts
