"""What the top must meet, which of it governs, and what a little relief would save."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height


@dataclass(frozen=True)
class Requirement:
    """One requirement that governs the top: were it relieved, the bed would take less mortar."""

    kind: str = described(
        about="`minimum_thickness`, `maximum_thickness`, `held_low`, `held_high`, `largest_fall`, `given_height`, "
        "`drain_height` or `least_fall`"
    )
    path: str = described(about="Where in the document it is asked for")
    id: str | None = described(about="The doorway or fixture concerned, if it is one")
    at: tuple[float, float] | None = height(about="Where it governs, null where it is of the whole room")
    limit: float = described(about="What is asked for: mm, or a ratio for falls")
    saves: float = described(
        about="Mortar saved by each mm of relief (by each 1/1000 for falls), as long as nothing else comes to govern",
        unit="m3",
    )
