"""What must be said beside the figures: cautions where decisions are made, and how each figure explains itself."""

import math
from collections.abc import Iterable, Iterator

from evenbed.engine.bed_account import bed_cautions_of, bed_explanations_of
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cost.costed import load_and_material_cautions
from evenbed.engine.flatness.account import flatness_explanations_of
from evenbed.engine.rails.account import rail_explanations
from evenbed.engine.slips import Suspect
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.unknown import Unknown
from evenbed.engine.waiting.explaining import readiness_explanations
from evenbed.engine.worked import WorkedRoom

LOOSE_TAPE = 1 / 200  # of the perimeter: a misclosure worth taping again; common practice, no source


def cautions_of(room: WorkedRoom) -> Iterable[Caution]:
    """Every caution of one room, in the order of the job."""
    _, at_material = load_and_material_cautions(room)
    yield from bed_cautions_of(room)
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
    yield from room.hand.cautions
    yield from room.trued.cautions
    yield from room.sections.cautions
    yield from room.readiness.cautions
    yield from room.waiting.cautions()


def explanations_of(room: WorkedRoom, unknown: Unknown | None) -> dict[str, Explanation]:
    """What stands behind the figures, by their paths in the plan; what is unknown, where it was asked for."""
    figure = room.figure
    own = {
        "outline.area": explanation_of("area", corners=len(figure.vertices), cutouts=len(figure.holes)),
        "surface.highest": explanation_of("highest", z=room.ground.extremes[0][2], readings=len(room.floor)),
    }
    shims = dict(rail_explanations(room.rails.rails))
    filling = dict(_filling_explanations(room))
    waiting = readiness_explanations(room.readiness, room.document.curing) | room.waiting.explanations()
    doubt = {} if unknown is None else _doubt_explanations(room, unknown)
    bed = bed_explanations_of(room, unknown)
    joints = room.joints.explanations
    truing = room.trued.explanations
    flat = {} if unknown is None else flatness_explanations_of(room.flatness)
    return own | bed | _levels_explanations(room) | joints | shims | filling | truing | flat | waiting | doubt


def _filling_explanations(room: WorkedRoom) -> Iterator[tuple[str, Explanation]]:
    for n, section in enumerate(room.sections.sections):
        yield f"sections[{n}].volume", explanation_of("section", volume=section.volume)
        yield f"sections[{n}].walk", explanation_of("section_walk", walk=section.walk)
        grooves = math.fsum(channel.length for channel in section.channels)
        yield f"sections[{n}].channel_volume", explanation_of("channel", length=grooves)
    for n, edge in enumerate(room.edges):
        yield f"edges[{n}].highest", explanation_of("edge", lowest=edge.lowest, highest=edge.highest)


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
