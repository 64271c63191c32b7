"""Against which limits a scanned bed is held: as wished, or else as its room has it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from evenbed.engine.document.fields import described
from evenbed.engine.document.flatness import FlatnessDesign
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import BedDesign
from evenbed.scans.wishes import BedWish, Wishes


@dataclass(frozen=True)
class _Kept:
    """What a room document says of it, whatever else it has."""

    flatness: FlatnessDesign = described(FlatnessDesign(), about="Against which limits the bed is checked")
    bed: BedDesign = described(BedDesign(), about="The bed's design")


def wishes_with_limits(wishes: Wishes, document: Mapping[str, object]) -> Wishes:
    """The wishes with what they leave open filled in from a room document. Raises BadDocumentError."""
    if wishes.bed is None:
        return wishes
    kept, _ = read_json(_Kept, {name: document[name] for name in ("flatness", "bed") if name in document})
    standard = wishes.bed.standard or kept.flatness.standard
    longest_edge = wishes.bed.longest_edge or kept.bed.covering.longest_edge
    return replace(wishes, bed=BedWish(standard, longest_edge, kept.flatness.own))
