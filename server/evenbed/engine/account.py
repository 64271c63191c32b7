"""What must be said beside the figures: cautions where decisions are made, and how each figure explains itself."""

from collections.abc import Iterable

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cost.costed import cost_explanations, load_and_material_cautions
from evenbed.engine.finish.telling import finish_explanations
from evenbed.engine.load import load_explanations
from evenbed.engine.readiness import readiness_explanations
from evenbed.engine.slips import Suspect
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked import WorkedRoom

LOOSE_TAPE = 1 / 200  # of the perimeter: a misclosure worth taping again; common practice, no source


def cautions_of(room: WorkedRoom) -> Iterable[Caution]:
    """Every caution of one room, in the order of the job."""
    at_load, at_material = load_and_material_cautions(room)
    yield from at_load
    if room.thickness.max > room.limits[1]:
        yield caution_at("bed.thickness.max", "too_thick", thickness=room.thickness.max, maximum=room.limits[1])
    if any(f.kind == "drain" for f in room.document.fixtures):
        yield caution_at("bed.top", "drain")
    yield from room.designed_top.cautions
    yield from room.finished.cautions
    for x, y in room.unread_deciders:
        yield caution_at("levels.next_readings", "estimated_governs", x=x, y=y)
    if room.suspects:
        by = abs(room.suspects[0].difference)
        yield caution_at("levels.suspects", "misread", count=len(room.suspects), by=by)
    gap = room.figure.misclosure
    if gap.ratio > LOOSE_TAPE:
        yield caution_at("outline.misclosure", "tape_again", length=gap.length)
    yield from at_material
    yield from room.joints.cautions
    yield from room.rails.cautions
    yield from room.sections.cautions
    yield from room.readiness.cautions


def explanations_of(room: WorkedRoom, unknown: Unknown | None) -> dict[str, Explanation]:
    """What stands behind the figures, by their paths in the plan; what is unknown, where it was asked for."""
    quantities, thickness, figure = room.quantities, room.thickness, room.figure
    own = {
        "outline.area": explanation_of("area", corners=len(figure.vertices), cutouts=len(figure.holes)),
        "surface.highest": explanation_of("highest", z=room.ground.extremes[0][2], readings=len(room.floor)),
        "bed.thickness.min": explanation_of("thickness", x=thickness.min_at[0], y=thickness.min_at[1]),
        "bed.thickness.max": explanation_of("thickness", x=thickness.max_at[0], y=thickness.max_at[1]),
        "bed.thickness.mean": explanation_of("mean_thickness", volume=quantities.volume, area=figure.area),
        "bed.volume": explanation_of("volume", triangles=len(room.surface.triangles), area=figure.area),
    }
    loads = load_explanations(room.weight, quantities.volume, figure.area, room.thickest, room.mix.density)
    shims = {
        f"rails[{n}].stations[{m}].shim": explanation_of(
            "shim", top=station.top, strip=room.document.rails.strip.thickness, subfloor=station.subfloor
        )
        for n, rail in enumerate(room.rails.rails)
        for m, station in enumerate(rail.stations)
    }
    waiting = readiness_explanations(room.readiness, room.document.curing)
    doubt = {} if unknown is None else _doubt_explanations(room, unknown)
    cost = cost_explanations(room, unknown)
    own |= finish_explanations(room.finished, room.document)
    joints = room.joints.explanations
    return own | _top_explanations(room) | _levels_explanations(room) | loads | cost | shims | joints | waiting | doubt


def _levels_explanations(room: WorkedRoom) -> dict[str, Explanation]:
    levels = room.levels
    counts = {"readings": len(levels.heights), "redundancy": levels.redundancy}
    suspects = {f"levels.suspects[{n}]": _suspect_explanation(suspect) for n, suspect in enumerate(room.suspects)}
    checked = {} if levels.sigma0 is None else {"levels.sigma0": explanation_of("sigma0", **counts)}
    return {"levels.heights": explanation_of("adjusted", **counts)} | checked | suspects


def _suspect_explanation(suspect: Suspect) -> Explanation:
    code = "foretold" if suspect.why == "neighbours" else "snooped"
    error = abs(suspect.difference / suspect.score)
    return explanation_of(code, read=suspect.expected + suspect.difference, expected=suspect.expected, error=error)


def _doubt_explanations(room: WorkedRoom, unknown: Unknown) -> dict[str, Explanation]:
    model, spots = unknown.statistics.model, len(unknown.spots)
    sizes = {"sill": model.sill, "range": model.range, "nugget": model.nugget}
    low, high = unknown.volume_range
    between = explanation_of("volume_range", volume=room.quantities.volume, readings=spots, **sizes)
    higher = explanation_of("higher", highest=unknown.high_spot.read, readings=spots, **sizes)
    bags = explanation_of("bags_range", low=low, high=high, waste=room.document.mix.waste)
    return {
        "levels.next_readings": explanation_of("next_reading", readings=spots, **sizes),
        "surface.statistics.model": explanation_of("surface_model", readings=spots, **sizes),
        "surface.statistics.doubts": explanation_of("doubt", readings=spots, **sizes),
        "surface.statistics.higher": higher,
        "surface.statistics.volume_range": between,
        "bed.volume_range": between,
        "mix.bags_range": bags,
    }


def _top_explanations(room: WorkedRoom) -> dict[str, Explanation]:
    """Each facet of the top, all for the same reason."""
    own, plane = room.designed_top.explanation, room.top.cells[0].plane
    why = own or explanation_of("top_given", a=plane.a, b=plane.b, c=plane.c)
    return {f"bed.top[{n}]": why for n in range(len(room.top.facets))}
