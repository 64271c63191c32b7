"""The plan, composed: from a room document to everything the setter and the foreman need to know."""

from collections.abc import Iterable

from evenbed.engine.account import cautions_of, explanations_of
from evenbed.engine.answer import Extreme, LevelsAnswer, OutlineAnswer, Plan, SurfaceAnswer
from evenbed.engine.bed_answer import bed_answer_of, mix_answer_of
from evenbed.engine.cautions import Caution
from evenbed.engine.cost.costed import materials_of, mix_of, quote_of
from evenbed.engine.document.check import check_document
from evenbed.engine.document.places import Point3
from evenbed.engine.document.room import Document
from evenbed.engine.doubt import NextReading
from evenbed.engine.flatness.account import flatness_cautions_of
from evenbed.engine.flatness.answer import flatness_answer_of
from evenbed.engine.flatness.work_account import work_cautions_of
from evenbed.engine.identity import identity
from evenbed.engine.outline import Figure
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked import WorkedRoom


def plan_from(given: object, *, with_statistics: bool = True) -> Plan:
    """The plan of a room document (parsed JSON). Raises BadDocumentError with every problem found.

    Without statistics what is still unknown stays null, and the plan is there sooner.
    """
    document, unknown = check_document(given)
    room = WorkedRoom(document)
    unknown_floor = room.unknown if with_statistics else None
    return Plan(
        engine=identity(),
        notices=(*_notices(document, unknown), *room.levels.notices),
        outline=_outline_answer(room.figure),
        levels=_levels_answer(room, unknown_floor),
        surface=_surface_answer(room, unknown_floor),
        bed=bed_answer_of(room, unknown_floor),
        rails=room.rails.rails,
        rail_direction=room.rails.direction,
        first_station=room.rails.first_station,
        hand_areas=room.hand.areas,
        hand_share=room.hand.share,
        truing=room.trued.answer,
        corrections=room.trued.corrections,
        level_error=room.trued.level_error,
        sections=room.sections.sections,
        edges=room.edges,
        materials=materials_of(room, unknown_floor),
        quote=quote_of(room, unknown_floor),
        mix=mix_answer_of(mix_of(room, unknown_floor)),
        joints=room.joints.answer,
        flatness=flatness_answer_of(room) if with_statistics else None,
        readiness=room.readiness.rows,
        evaporation=room.waiting.evaporation,
        drying=room.waiting.drying,
        tile=room.waiting.tile,
        placed_at=room.readiness.placed_at,
        working_time=room.readiness.working_time,
        cautions=(*cautions_of(room), *(_flatness_cautions(room) if with_statistics else ())),
        explanations=explanations_of(room, unknown_floor),
    )


def _flatness_cautions(room: WorkedRoom) -> tuple[Caution, ...]:
    return (*flatness_cautions_of(room.flatness), *work_cautions_of(room))


def _notices(document: Document, unknown: Iterable[str]) -> tuple[Problem, ...]:
    left_out = [problem_at(path, "unknown_key") for path in unknown]
    if document.outline.vertices is not None and document.outline.walls is not None:
        left_out.append(problem_at("outline.walls", "vertices_stand"))
    return tuple(left_out)


def _outline_answer(figure: Figure) -> OutlineAnswer:
    return OutlineAnswer(figure.vertices, figure.holes, figure.area, figure.perimeter, figure.misclosure)


def _levels_answer(room: WorkedRoom, unknown: Unknown | None) -> LevelsAnswer:
    levels = room.levels
    return LevelsAnswer(
        heights=levels.heights,
        setups=levels.setups,
        marks=levels.marks,
        differences=levels.differences,
        sigma0=levels.sigma0,
        redundancy=levels.redundancy,
        misclosures=levels.misclosures,
        untied=levels.untied,
        instruments=levels.instruments,
        suspects=room.suspects,
        datum=levels.datum,
        next_readings=_unread(room) if unknown is None else unknown.next_readings,
    )


def _unread(room: WorkedRoom) -> tuple[NextReading, ...]:
    return tuple(NextReading(at, None, "estimated_governs", None) for at in room.unread_deciders)


def _surface_answer(room: WorkedRoom, unknown: Unknown | None) -> SurfaceAnswer:
    surface = room.surface
    high, low = (_extreme(room, spot) for spot in room.ground.extremes)
    return SurfaceAnswer(
        points=surface.points,
        estimated=surface.estimated,
        centres=surface.centres,
        triangles=surface.triangles,
        highest=high,
        lowest=low,
        contours=room.contours,
        statistics=None if unknown is None else unknown.statistics,
    )


def _extreme(room: WorkedRoom, spot: Point3) -> Extreme:
    return Extreme(spot[:2], spot[2], room.floor.get(spot), room.is_estimated(spot[:2]))
