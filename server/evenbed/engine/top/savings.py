"""What a little relief of a requirement would save: how fast the volume follows each figure asked for. Exact."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from evenbed.engine.bed import Mortar, Part
from evenbed.engine.document.places import Point
from evenbed.engine.geometry import Plane
from evenbed.engine.top.facets import BedTop
from evenbed.engine.top.requirements import Requirement

LEVEL = Plane(1.0, 0.0, 0.0)
PER_MM, PER_THOUSANDTH = 1.0, 1 / 1000


@dataclass(frozen=True)
class Relief:
    """A requirement, and by how much the top sinks per unit of its relief: one plane for each cell of the top."""

    kind: str
    path: str
    limit: float
    sinks: tuple[Plane, ...]
    id: str | None = None
    at: Point | None = None
    step: float = PER_MM


def everywhere(top: BedTop) -> tuple[Plane, ...]:
    """The whole top sinks by as much as is relieved."""
    return (LEVEL,) * len(top.cells)


def requirements_from(mortar: Mortar, reliefs: Iterable[Relief]) -> tuple[Requirement, ...]:
    """The requirements that would save mortar if they were relieved, the dearest first."""
    parts = mortar.room_parts
    found = (Requirement(r.kind, r.path, r.id, r.at, r.limit, _saved(parts, r.sinks) * r.step) for r in reliefs)
    return tuple(sorted((one for one in found if one.saves > 0), key=lambda one: -one.saves))


def _saved(parts: Sequence[Part], sinks: tuple[Plane, ...]) -> float:
    """Mortar in m³ saved per unit: the integral of how fast the top sinks, over where there is mortar."""
    return math.fsum(part.mortared.integral(sinks[part.piece.cell]) for part in parts) / 1e9
