"""The fill clock: how the filling stands at a moment, and what is to be done by when."""

from evenbed.engine.document.check import checked_document
from evenbed.engine.document.reading import read_json
from evenbed.engine.filling.shapes import FillClockAnswer, FillClockQuestion, SectionClock
from evenbed.engine.identity import identity
from evenbed.engine.problems import problems_under
from evenbed.engine.worked import WorkedRoom


def fill_clock_from(given: object) -> FillClockAnswer:
    """The clock of a room (parsed JSON in). Raises BadDocumentError with every problem found."""
    question, _ = read_json(FillClockQuestion, given)
    with problems_under("document"):
        room = WorkedRoom(checked_document(question.document))
        sections = tuple(
            SectionClock(one.id, "waiting", 0.0, one.batches, None, False) for one in room.sections.sections
        )
        working = room.readiness.working_time
    return FillClockAnswer(
        engine=identity(),
        working_time=working,
        sections=sections,
        next_section=None,
        batches=(),
        pace=None,
        done=None,
        fits_day=None,
        last_batch_by=None,
        is_stopped=False,
        stopped_hours=0.0,
        stop_edges=(),
        best_stop=None,
        alarms=(),
        cautions=(),
        notices=(),
        explanations={},
    )
