"""The plan, composed: from a room document to everything the setter and the foreman need to know."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.answer import (
    BedAnswer,
    Extreme,
    LevelsAnswer,
    MixAnswer,
    NextReading,
    OutlineAnswer,
    Plan,
    SurfaceAnswer,
)
from evenbed.engine.bed import Mortar, Quantities, Spot3, Thickness, highest_and_lowest
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.contours import contours_of
from evenbed.engine.document.check import check_document
from evenbed.engine.document.room import Document, Point, Point3
from evenbed.engine.finish import Facet, doorways_from, minimum_thickness_of, top_from
from evenbed.engine.geometry import Plane
from evenbed.engine.identity import identity
from evenbed.engine.levels import Levels, levels_from
from evenbed.engine.load import BedWeight, load_cautions, load_explanations, load_from, material_cautions
from evenbed.engine.mix import MixPlan, materials_for, mix_explanations
from evenbed.engine.outline import Figure, check_openings, figure_from
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.readiness import Readiness, readiness_explanations, readiness_from
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.surface import Surface, surface_from

LOOSE_TAPE = 1 / 200  # of the perimeter: a misclosure worth taping again; common practice, no source


def plan_from(given: object) -> Plan:
    """The plan of a room document (parsed JSON). Raises BadDocumentError with every problem found."""
    document, unknown = check_document(given)
    room = _Room(document)
    return Plan(
        engine=identity(),
        notices=_notices(document, unknown),
        outline=_outline_answer(room.figure),
        levels=_levels_answer(room),
        surface=_surface_answer(room),
        bed=_bed_answer(room),
        materials=room.mix.materials,
        mix=_mix_answer(room.mix),
        readiness=room.readiness.rows,
        placed_at=room.readiness.placed_at,
        working_time=room.readiness.working_time,
        cautions=tuple(_cautions(room)),
        explanations=_explanations(room),
    )


@dataclass(frozen=True)
class _Room:
    """One room on its way to a plan: each step worked out once, when it is first asked for."""

    document: Document

    @cached_property
    def figure(self) -> Figure:
        figure = figure_from(self.document.outline)
        found = [*check_openings(figure, self.document.openings), *_fixture_problems(self.document, figure)]
        found += _limit_problems(self.document)
        if found:
            raise BadDocumentError(found)
        return figure

    @cached_property
    def levels(self) -> Levels:
        return levels_from(self.document, self.figure)

    @cached_property
    def floor(self) -> dict[Point3, str]:
        """Subfloor readings: point → the reading's id."""
        pairs = zip(self.levels.heights, self.document.readings, strict=True)
        return {(*h.at, h.z): h.reading for h, r in pairs if h.at is not None and r.stage == "subfloor"}

    @cached_property
    def surface(self) -> Surface:
        return surface_from(list(self.floor), self.figure.outer)

    @cached_property
    def extremes(self) -> tuple[Spot3, Spot3]:
        return highest_and_lowest(Mortar(self.surface, self.figure, Plane(0.0, 0.0, 0.0)))

    @cached_property
    def top(self) -> Facet:
        return top_from(self.document.bed, self.extremes[0][2], self.figure)

    @cached_property
    def mortar(self) -> Mortar:
        return Mortar(self.surface, self.figure, self.top.plane)

    @cached_property
    def limits(self) -> tuple[float, float]:
        return minimum_thickness_of(self.document.bed), self.document.bed.maximum_thickness

    @cached_property
    def quantities(self) -> Quantities:
        return self.mortar.quantities(*self.limits)

    @cached_property
    def thickness(self) -> Thickness:
        return self.mortar.thickness(self.quantities.volume)

    @cached_property
    def weight(self) -> BedWeight:
        return load_from(self.quantities.volume, self.figure.area, max(0.0, self.thickness.max), self.mix.density)

    @cached_property
    def mix(self) -> MixPlan:
        return materials_for(self.quantities.volume, self.document.mix)

    @cached_property
    def readiness(self) -> Readiness:
        return readiness_from(self.document.curing, self.document.climate, self.document.placements)

    def is_estimated(self, at: Point) -> bool:
        return any(self.surface.points[i][:2] == at for i in self.surface.estimated)


def _notices(document: Document, unknown: Iterable[str]) -> tuple[Problem, ...]:
    unused = ["checks"] if document.checks else []
    unused += [f"readings[{n}]" for n, r in enumerate(document.readings) if r.stage == "bed"]
    left_out = [problem_at(path, "unknown_key") for path in unknown]
    if document.outline.vertices is not None and document.outline.walls is not None:
        left_out.append(problem_at("outline.walls", "vertices_stand"))
    return tuple(left_out + [problem_at(path, "not_worked_out") for path in unused])


def _fixture_problems(document: Document, figure: Figure) -> list[Problem]:
    return [
        problem_at(f"fixtures[{n}].at", "fixture_outside", x=f.at[0], y=f.at[1])
        for n, f in enumerate(document.fixtures)
        if not figure.holds(f.at)
    ]


def _limit_problems(document: Document) -> list[Problem]:
    minimum, maximum = minimum_thickness_of(document.bed), document.bed.maximum_thickness
    if minimum <= maximum:
        return []
    return [problem_at("bed.maximum_thickness", "minimum_above_maximum", minimum=minimum, maximum=maximum)]


def _outline_answer(figure: Figure) -> OutlineAnswer:
    return OutlineAnswer(figure.vertices, figure.holes, figure.area, figure.perimeter, figure.misclosure)


def _levels_answer(room: _Room) -> LevelsAnswer:
    levels = room.levels
    return LevelsAnswer(
        levels.heights, levels.setups, levels.marks, levels.sigma0, levels.datum, tuple(_next_readings(room))
    )


def _next_readings(room: _Room) -> Iterable[NextReading]:
    """Estimated corners that decide the top or a limit: there a reading is worth most."""
    deciding = (room.extremes[0][:2], room.thickness.min_at, room.thickness.max_at)
    for at in dict.fromkeys(deciding):
        if room.is_estimated(at):
            yield NextReading(at, None, "estimated_governs")


def _surface_answer(room: _Room) -> SurfaceAnswer:
    surface = room.surface
    high, low = (_extreme(room, spot) for spot in room.extremes)
    contours = contours_of(surface)
    return SurfaceAnswer(surface.points, surface.estimated, surface.centres, surface.triangles, high, low, contours)


def _extreme(room: _Room, spot: Spot3) -> Extreme:
    return Extreme(spot[:2], spot[2], room.floor.get(spot), room.is_estimated(spot[:2]))


def _bed_answer(room: _Room) -> BedAnswer:
    design, quantities = room.document.bed, room.quantities
    return BedAnswer(
        build=design.build,
        minimum_thickness=room.limits[0],
        maximum_thickness=room.limits[1],
        top=(room.top,),
        thickness=room.thickness,
        volume=quantities.volume,
        mass=room.weight.mass,
        load=room.weight.load,
        doorways=doorways_from(room.document.openings, room.figure, room.top, design.covering),
        violations=room.mortar.violations(*room.limits),
        too_thin_area=quantities.too_thin_area,
        too_thick_area=quantities.too_thick_area,
    )


def _mix_answer(mix: MixPlan) -> MixAnswer:
    return MixAnswer(mix.batch, mix.batches, mix.bag_yield, mix.density, mix.mixed_volume)


def _cautions(room: _Room) -> Iterable[Caution]:
    yield from load_cautions(room.weight)
    if room.thickness.max > room.limits[1]:
        yield caution_at("bed.thickness.max", "too_thick", thickness=room.thickness.max, maximum=room.limits[1])
    if any(f.kind == "drain" for f in room.document.fixtures):
        yield caution_at("bed.top", "drain")
    for reading in _next_readings(room):
        yield caution_at("levels.next_readings", "estimated_governs", x=reading.at[0], y=reading.at[1])
    gap = room.figure.misclosure
    if gap.ratio > LOOSE_TAPE:
        yield caution_at("outline.misclosure", "tape_again", length=gap.length)
    yield from material_cautions(room.mix)
    yield from room.readiness.cautions


def _explanations(room: _Room) -> dict[str, Explanation]:
    quantities, thickness, figure = room.quantities, room.thickness, room.figure
    own = {
        "outline.area": explanation_of("area", corners=len(figure.vertices), cutouts=len(figure.holes)),
        "surface.highest": explanation_of("highest", z=room.extremes[0][2], readings=len(room.floor)),
        "bed.top[0]": _top_explanation(room),
        "bed.thickness.min": explanation_of("thickness", x=thickness.min_at[0], y=thickness.min_at[1]),
        "bed.thickness.max": explanation_of("thickness", x=thickness.max_at[0], y=thickness.max_at[1]),
        "bed.thickness.mean": explanation_of("mean_thickness", volume=quantities.volume, area=figure.area),
        "bed.volume": explanation_of("volume", triangles=len(room.surface.triangles), area=figure.area),
    }
    loads = load_explanations(room.weight, quantities.volume, figure.area, max(0.0, thickness.max), room.mix.density)
    waiting = readiness_explanations(room.readiness, room.document.curing)
    return own | loads | mix_explanations(room.mix, room.document.mix) | waiting


def _top_explanation(room: _Room) -> Explanation:
    top = room.document.bed.top
    if top.kind == "level" and top.height is None:
        return explanation_of("top_lowest", highest=room.extremes[0][2], minimum=room.limits[0])
    return explanation_of("top_given", a=room.top.a, b=room.top.b, c=room.top.c)
