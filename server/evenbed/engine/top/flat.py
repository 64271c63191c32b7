"""Tops of one plane over the whole room: level, or through given points; with what governs them."""

from evenbed.engine.bed import Mortar
from evenbed.engine.document.room import BedDesign
from evenbed.engine.document.tops import LevelTop, PlaneTop
from evenbed.engine.geometry import Plane
from evenbed.engine.ground import Ground
from evenbed.engine.sources import explanation_of
from evenbed.engine.top.designed import DesignedTop, minimum_thickness_of
from evenbed.engine.top.facets import whole_room
from evenbed.engine.top.savings import Relief, everywhere, requirements_from
from evenbed.engine.top.through import plane_of, shares_of


def level_top(design: BedDesign, top: LevelTop, ground: Ground) -> DesignedTop:
    """A level top; without a height it stands the minimum thickness above the subfloor's highest point."""
    x, y, highest = ground.extremes[0]
    minimum = minimum_thickness_of(design)
    height = highest + minimum if top.height is None else top.height
    bed = whole_room(Plane(height, 0.0, 0.0), ground.figure.outer)
    relief = Relief("given_height", "bed.top.height", height, everywhere(bed))
    why = explanation_of("top_given", a=height, b=0.0, c=0.0)
    if top.height is None:
        relief = Relief("minimum_thickness", "bed.minimum_thickness", minimum, everywhere(bed), at=(x, y))
        why = explanation_of("top_lowest", highest=highest, minimum=minimum)
    mortar = Mortar(ground, bed)
    return DesignedTop(mortar, requirements_from(mortar, [relief]), why)


def plane_top(top: PlaneTop, ground: Ground) -> DesignedTop:
    """A plane through given points. Raises BadDocumentError where they fix none that is a floor."""
    plane = plane_of(top.through)
    bed = whole_room(plane, ground.figure.outer)
    reliefs = [
        Relief("given_height", f"bed.top.through[{n}]", point[2], (share,), at=point[:2])
        for n, (point, share) in enumerate(zip(top.through, shares_of(top.through), strict=False))
    ]
    why = explanation_of("top_through", points=len(top.through), a=plane.a, b=plane.b, c=plane.c)
    mortar = Mortar(ground, bed)
    return DesignedTop(mortar, requirements_from(mortar, reliefs), why)
