"""The build-up: what lies between the subfloor and the finished floor, from the subfloor up."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.bed import Thickness
from evenbed.engine.document.fields import described, height
from evenbed.engine.document.room import Document


@dataclass(frozen=True)
class Layer:
    """One layer, or all of them together."""

    layer: Literal["membrane", "bed", "bond_coat", "tile", "total"] = described(
        about="Which; the bed is here without the membrane under it, the total is all of them"
    )
    least: float = height(about="Least thickness; of the bed negative where the top lies below the subfloor")
    mean: float = height(about="Mean thickness")
    most: float = height(about="Greatest thickness")


def layers_from(document: Document, thickness: Thickness) -> tuple[Layer, ...]:
    """The layers over the subfloor. A bonded bed has no membrane; `thickness` counts the membrane to the bed."""
    covering = document.bed.covering
    membrane = document.supplies.membrane.thickness if document.bed.build == "unbonded" else 0.0
    bond, tile = covering.bond_thickness, covering.tile_thickness
    under = (_even("membrane", membrane),) if document.bed.build == "unbonded" else ()
    bed = _over("bed", thickness, -membrane)
    return (*under, bed, _even("bond_coat", bond), _even("tile", tile), _over("total", thickness, bond + tile))


def _even(layer: Literal["membrane", "bond_coat", "tile"], thickness: float) -> Layer:
    return Layer(layer, thickness, thickness, thickness)


def _over(layer: Literal["bed", "total"], bed: Thickness, more: float) -> Layer:
    return Layer(layer, bed.min + more, bed.mean + more, bed.max + more)
