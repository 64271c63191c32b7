"""The flatness of the finished bed as the plan tells it."""

from evenbed.engine.flatness.green import green_of
from evenbed.engine.flatness.shapes import FlatnessAnswer
from evenbed.engine.worked import WorkedRoom


def flatness_answer_of(room: WorkedRoom) -> FlatnessAnswer | None:
    """Everything about the flatness of one room's bed; None where nothing of it was measured."""
    found = room.flatness
    if not found.is_measured:
        return None
    green = green_of(room.document, room.readiness)
    numbers, needs = found.flat_and_level, found.needs
    return FlatnessAnswer(
        standard=found.design.standard,
        verdict=found.verdict,
        readings=len(found.readings),
        stale=found.stale,
        spacing=found.coverage.farthest,
        points=found.surface.points,
        spots=found.surface.spots,
        triangles=found.surface.mesh.joined,
        checks=tuple(laid.check for laid in found.laid),
        gaps=found.gap_verdicts,
        level=found.level,
        f_numbers=numbers.overall,
        f_lines=numbers.lines,
        f_needs=numbers.needs,
        needs_ff=needs[0] if needs else None,
        needs_fl=needs[1] if needs else None,
        work=found.work.work,
        is_green=green.is_green,
        green_until=green.until,
        next_readings=found.next_readings,
    )
