"""The fill clock: how the filling stands at a moment, and what is to be done by when."""

from collections.abc import Iterator
from itertools import islice

from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.check import checked_document
from evenbed.engine.document.reading import read_json
from evenbed.engine.filling.alarms import alarms_from
from evenbed.engine.filling.batches import batch_clocks
from evenbed.engine.filling.clock_account import clock_cautions, clock_explanations
from evenbed.engine.filling.kept import fill_room_of
from evenbed.engine.filling.shapes import AlarmCode, FillClockAnswer, FillClockQuestion, SectionClock
from evenbed.engine.filling.standing import Standing
from evenbed.engine.filling.stopping import stop_edges_from
from evenbed.engine.filling.times import Clock, is_stopped
from evenbed.engine.identity import identity
from evenbed.engine.problems import MOST_PROBLEMS, Problem, problem_at, problems_under
from evenbed.engine.readiness import WorkingTime


def fill_clock_from(given: object) -> FillClockAnswer:
    """The clock of a room (parsed JSON in). Raises BadDocumentError with every problem found.

    Entries that name no section, run backwards or lie after `now` are told as notices and never stop the clock.
    """
    question, unknown = read_json(FillClockQuestion, given)
    with problems_under("document"):
        document = checked_document(question.document)
        standing = Standing(document, fill_room_of(document), Clock(moment_from_time(question.now)))
        left_out = [problem_at(path, "unknown_key") for path in unknown]
        return _answer_of(standing, tuple(islice((*left_out, *standing.notices), MOST_PROBLEMS)))


def _answer_of(standing: Standing, notices: tuple[Problem, ...]) -> FillClockAnswer:
    kept, clock, forecast = standing.kept, standing.clock, standing.forecast
    is_done = not standing.progress.unfilled
    last = standing.last_batch
    return FillClockAnswer(
        engine=identity(),
        working_time=_working_time(standing),
        sections=tuple(_section_clocks(standing)),
        next_section=kept.names[standing.coming[0]] if standing.coming else None,
        batches=batch_clocks(standing.mortars, kept.names, clock, standing.stops, standing.hours_per_batch),
        pace=None if forecast is None else forecast.pace,
        done=None if forecast is None or is_done else forecast.done(clock, standing.stops),
        fits_day=standing.fits_day,
        last_batch_by=None if last is None else clock.text(last),
        is_stopped=is_stopped(standing.document.stoppages, clock),
        stopped_hours=_stopped_hours(standing),
        stop_edges=stop_edges_from(kept.edges, standing.filled, kept.room.ground, kept.room.top),
        best_stop=standing.best_stop,
        alarms=alarms_from(standing.mortars, _channels(standing), _day(standing), kept.names, clock),
        cautions=tuple(clock_cautions(standing)),
        notices=notices,
        explanations=clock_explanations(standing),
    )


def _working_time(standing: Standing) -> WorkingTime:
    """The working time of a batch mixed now, and until when the last one that was mixed can be worked."""
    last = max(standing.mortars, key=lambda mortar: mortar.mixed, default=None)
    until = None if last is None else standing.clock.text(last.use_by)
    return WorkingTime(standing.mildness.working(0.0), standing.mildness.at(0.0), until)


def _section_clocks(standing: Standing) -> Iterator[SectionClock]:
    mixed = [0.0] * len(standing.kept.names)
    for mortar in standing.mortars:
        if mortar.section is not None and not mortar.is_thrown:
            mixed[mortar.section] += mortar.size
    for n, section in enumerate(standing.kept.plan.sections):
        due = standing.channels_due.get(n)
        at = None if due is None else standing.clock.text(due)
        state = standing.progress.records[n].state
        yield SectionClock(section.id, section.polygon, state, mixed[n], section.batches, at, n in standing.trapped)


def _stopped_hours(standing: Standing) -> float:
    mixed = [mortar.mixed for mortar in standing.mortars]
    mixed += [record.mixed for record in standing.progress.records if record.mixed is not None]
    return standing.stops.stopped(min(mixed), 0.0) if mixed else 0.0


def _channels(standing: Standing) -> Iterator[tuple[str, float]]:
    return ((standing.kept.names[n], due) for n, due in standing.channels_due.items())


def _day(standing: Standing) -> Iterator[tuple[AlarmCode, float]]:
    if standing.last_batch is not None:
        yield ("last_batch", standing.last_batch)
    if standing.day_ends is not None and (standing.progress.unfilled or standing.channels_due):
        yield ("day_ends", standing.day_ends)
