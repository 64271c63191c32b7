"""Readings that look mis-read, and what may have been read in their place."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height


@dataclass(frozen=True)
class Slip:
    """What may have been read or typed in place of what stood on the rod."""

    kind: str = described(
        about="`whole_inch`, `whole_foot`, `whole_centimetre`, `whole_decimetre`, `whole_metre`, `fraction` (1/2 for "
        "1/4 and the like), `transposed` (two digits changed places), `wrong_way` (counted from the mark's other "
        "side) or `other_side` (the rod's other face)"
    )
    down: float = height(about="What the reading would be without it")


@dataclass(frozen=True)
class Suspect:
    """A reading that its neighbours or the network do not bear out."""

    reading: str = described(about="The reading's id")
    expected: float = height(about="Height foretold without it")
    difference: float = height(about="Height read less foretold")
    score: float = described(about="The difference over its standard error")
    why: str = described(about="`neighbours` or `network`")
    slip: Slip | None = described(about="The likely slip, null where none fits")
