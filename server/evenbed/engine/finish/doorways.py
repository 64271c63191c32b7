"""What the top makes of each doorway: the finished height there, the step beyond, and the room for the door."""

import math
from dataclasses import dataclass

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Covering, Opening
from evenbed.engine.finish.steps import (
    TRANSITIONS,
    StepKind,
    Transition,
    kind_of_step,
    transition_length_of,
)
from evenbed.engine.finish.stretches import Stretch
from evenbed.engine.geometry import between, edge_of
from evenbed.engine.ground import Ground
from evenbed.engine.outline import middle_of_opening
from evenbed.engine.top.facets import BedTop


@dataclass(frozen=True)
class Doorway:
    """What the top makes of one doorway along its opening."""

    id: str = described(about="The opening's id")
    at: Point = height(about="Middle of the opening")
    finished_height: float = height(about="Top of tile in the middle, z")
    low: float = height(about="Lowest top of tile along the opening, z")
    high: float = height(about="Highest top of tile along the opening, z")
    step: float | None = height(
        about="Finished floor less the floor beyond, in the middle; null where that is unknown"
    )
    worst_step: float | None = height(about="The same where it is greatest, up or down")
    kind: StepKind | None = described(about="Class of the worst step; null where the step is unknown")
    transition: Transition | None = described(about="What the worst step needs; null where the step is unknown")
    transition_length: float | None = length(about="How long a bevel or ramp must be, 0 for none")
    bed_thickness: float = height(about="Least thickness of the bed along the opening")
    clearance: float | None = height(
        about="Underside of the door less the highest top of tile along the opening; null where it is unknown"
    )


def doorways_from(
    openings: tuple[Opening, ...], ground: Ground, top: BedTop, covering: Covering
) -> tuple[Doorway, ...]:
    """The finished floor along each doorway and its step to the floor beyond, classed by ADA 2010 section 303."""
    return tuple(_doorway(o, ground, top, covering.bond_thickness + covering.tile_thickness) for o in openings)


def stretch_of(opening: Opening, ground: Ground, top: BedTop) -> Stretch:
    """The doorway's opening along its wall, no further than the wall."""
    start, end = edge_of(ground.figure.vertices, opening.wall)
    wall = math.dist(start, end)
    first, last = (between(start, end, min(1.0, along / wall)) for along in (opening.start, opening.end))
    return Stretch(first, last, top)


def _doorway(opening: Opening, ground: Ground, top: BedTop, cover: float) -> Doorway:
    stretch, at = stretch_of(opening, ground, top), middle_of_opening(opening, ground.figure.vertices)
    finished, low, high = (z + cover for z in (top.at(*at), min(stretch.heights), max(stretch.heights)))
    beyond, leaf = opening.adjoining_height, opening.door_bottom
    worst = None if beyond is None else worst_of(low - beyond, high - beyond)
    kind = None if worst is None else kind_of_step(worst)
    return Doorway(
        id=opening.id,
        at=at,
        finished_height=finished,
        low=low,
        high=high,
        step=None if beyond is None else finished - beyond,
        worst_step=worst,
        kind=kind,
        transition=None if kind is None else TRANSITIONS[kind],
        transition_length=None if worst is None else transition_length_of(worst),
        bed_thickness=stretch.least_thickness(ground),
        clearance=None if leaf is None else leaf - high,
    )


def worst_of(low: float, high: float) -> float:
    """Of two differences the one further from none, the higher one where they are alike."""
    return high if abs(high) >= abs(low) else low
