"""How the waiting of a room stands at a moment: the answer to the question `waiting`."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import islice

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.check import checked_document
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import Document
from evenbed.engine.document.waiting import TemperatureLog
from evenbed.engine.identity import identity
from evenbed.engine.problems import MOST_PROBLEMS, BadDocumentError, Problem, problem_at, problems_under
from evenbed.engine.sources import Explanation
from evenbed.engine.waiting.countdown import countdown_from
from evenbed.engine.waiting.curve import curve_points
from evenbed.engine.waiting.explaining import (
    age_explanation,
    factor_explanation,
    milestone_explanation,
    window_explanations,
)
from evenbed.engine.waiting.room import RoomWaiting
from evenbed.engine.waiting.shapes import WaitingAnswer, WaitingQuestion
from evenbed.engine.waiting.warning import spell_cautions
from evenbed.engine.worked import WorkedRoom

CLOCKS_DIFFER = timedelta(minutes=15)  # that a logger or another phone may be ahead without a word; no source


def waiting_from(given: object) -> WaitingAnswer:
    """The waiting of a room (parsed JSON in). Raises BadDocumentError with every problem found.

    A bed that cannot be worked out does not stop the waiting: its problems are told as notices, its thickness counts
    as the nominal one, and nothing is said of drying.
    """
    question, unknown = read_json(WaitingQuestion, given)
    left_out = [problem_at(path, "unknown_key") for path in unknown]
    with problems_under("document"):
        document = checked_document(question.document)
        now = moment_from_time(question.now)
        notices = [*left_out, *_notices(document, now)]
        document = replace(document, ticks=tuple(t for t in document.ticks if moment_from_time(t.at) <= now))
        thickness, bed_problems = _thickest(document)
        room = RoomWaiting(document, thickness)
        return _answer(room, question.now, now, [*notices, *bed_problems])


def _thickest(document: Document) -> tuple[float | None, tuple[Problem, ...]]:
    """The thickest mortar in mm, or None and what keeps the bed from being worked out."""
    try:
        return WorkedRoom(document).thickest, ()
    except BadDocumentError as bad:
        return None, bad.problems


def _notices(document: Document, now: datetime) -> Iterator[Problem]:
    placed = [moment_from_time(p.placed_at) for p in document.placements if p.placed_at is not None]
    for n, placement in enumerate(document.placements):
        if placement.placed_at is not None and moment_from_time(placement.placed_at) > now:
            yield problem_at(f"placements[{n}].placed_at", "time_ahead")
    for n, row in enumerate(document.climate):
        if not row.forecast and moment_from_time(row.at) > now + CLOCKS_DIFFER:
            yield problem_at(f"climate[{n}].at", "time_ahead")
    for n, log in enumerate(document.logs):
        yield from _log_notices(f"logs[{n}]", log, placed, now)
    for n, tick in enumerate(document.ticks):
        if moment_from_time(tick.at) > now:
            yield problem_at(f"ticks[{n}].at", "tick_ahead")
        elif placed and moment_from_time(tick.at) < max(placed):
            yield problem_at(f"ticks[{n}].at", "tick_before_placing")


def _log_notices(path: str, log: TemperatureLog, placed: Sequence[datetime], now: datetime) -> Iterator[Problem]:
    if not log.seconds:
        return
    ends = moment_from_time(log.start) + timedelta(seconds=max(log.seconds))
    if ends > now + CLOCKS_DIFFER:
        yield problem_at(path, "log_ahead")
    elif log.where == "bed" and placed and ends < min(placed):
        yield problem_at(path, "log_before_placing")


def _answer(room: RoomWaiting, asked: str, now: datetime, notices: Iterable[Problem]) -> WaitingAnswer:
    readiness, hardening = room.readiness, room.readiness.hardening
    hour, is_placed = hardening.hour(now), hardening.is_placed
    return WaitingAnswer(
        engine=identity(),
        method=hardening.curing.method,
        now=asked,
        placed_at=readiness.placed_at,
        celsius_now=None if hardening.known is None else hardening.known.at(hour),
        age_now=hardening.ages.age_at(hour) if is_placed else None,
        factor_now=hardening.factors.age_at(hour) if is_placed else None,
        countdown=countdown_from(readiness, hour),
        tile=room.tile,
        evaporation=room.evaporation,
        spells=room.spells,
        drying=room.drying,
        curve=curve_points(readiness, hour if is_placed else None),
        cautions=(*readiness.cautions, *room.cautions(), *spell_cautions(room.spells, hardening)),
        notices=tuple(islice(notices, MOST_PROBLEMS)),
        explanations=_explanations(room, hour),
    )


def _explanations(room: RoomWaiting, hour: float) -> dict[str, Explanation]:
    readiness, curing = room.readiness, room.document.curing
    found = room.explanations()
    for n, row in enumerate(readiness.rows):
        found[f"countdown[{n}]"] = milestone_explanation(row, curing)
        ends = {"early": row.early, "late": row.late}
        windows = window_explanations(curing, readiness.bed)
        found |= {f"countdown[{n}].{end}": told for end, told in windows if ends[end] is not None}
    if readiness.hardening.is_placed:
        found["age_now"] = age_explanation(curing, readiness.hardening.ages.age_at(hour))
        found["factor_now"] = factor_explanation(curing, readiness.hardening.factors.age_at(hour))
    return found
