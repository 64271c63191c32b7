"""What must be said beside the bed itself: its cautions, and how its figures explain themselves.

In the plan and beside a top that is only tried: nothing here asks for rails, sections, joints or what is unknown.
"""

from collections.abc import Iterable

from evenbed.engine.bed import LIMIT_SLACK
from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.chipping.telling import chipping_cautions, chipping_explanations
from evenbed.engine.cost.costed import cost_explanations, load_and_material_cautions
from evenbed.engine.finish.telling import finish_explanations
from evenbed.engine.load import load_explanations
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked import WorkedRoom


def bed_cautions_of(room: WorkedRoom) -> Iterable[Caution]:
    """Cautions of load, thickness, top, finished floor and chipping."""
    at_load, _ = load_and_material_cautions(room)
    yield from at_load
    if room.thickness.max > room.limits[1] + LIMIT_SLACK:
        yield caution_at("bed.thickness.max", "too_thick", thickness=room.thickness.max, maximum=room.limits[1])
    if any(f.kind == "drain" for f in room.document.fixtures):
        yield caution_at("bed.top", "drain")
    yield from room.designed_top.cautions
    yield from room.finished.cautions
    yield from chipping_cautions(room.chipping)


def bed_explanations_of(room: WorkedRoom, unknown: Unknown | None) -> dict[str, Explanation]:
    """What stands behind the figures of bed, material and quote, by their paths in the plan."""
    quantities, thickness, figure = room.quantities, room.thickness, room.figure
    minimum, maximum = room.limits
    own = {
        "bed.thickness.min": explanation_of("thickness", x=thickness.min_at[0], y=thickness.min_at[1]),
        "bed.thickness.max": explanation_of("thickness", x=thickness.max_at[0], y=thickness.max_at[1]),
        "bed.thickness.mean": explanation_of("mean_thickness", volume=quantities.volume, area=figure.area),
        "bed.too_thin_area": explanation_of("thin_area", minimum=minimum, area=figure.area),
        "bed.too_thick_area": explanation_of("thick_area", maximum=maximum, area=figure.area),
        "bed.volume": explanation_of("volume", triangles=len(room.surface.triangles), area=figure.area),
    }
    loads = load_explanations(room.weight, quantities.volume, figure.area, room.thickest, room.mix.density)
    finish = finish_explanations(room.finished, room.document) | chipping_explanations(room.chipping)
    return (
        own | finish | _top_explanations(room) | _relief_explanations(room) | loads | cost_explanations(room, unknown)
    )


def _top_explanations(room: WorkedRoom) -> dict[str, Explanation]:
    """Each facet of the top, all for the same reason."""
    own, plane = room.designed_top.explanation, room.top.cells[0].plane
    why = own or explanation_of("top_given", a=plane.a, b=plane.b, c=plane.c)
    return {f"bed.top[{n}]": why for n in range(len(room.top.facets))}


def _relief_explanations(room: WorkedRoom) -> dict[str, Explanation]:
    """What each requirement's relief would save, and where it governs."""
    code = "relief_by_duals" if room.document.bed.top.kind == "least_mortar" else "relief"
    places = (dict(zip("xy", r.at or (), strict=False)) for r in room.designed_top.requirements)
    return {
        f"bed.requirements[{n}]": explanation_of(code, volume=room.quantities.volume, **place)
        for n, place in enumerate(places)
    }
