"""What is told of the movement joints."""

from dataclasses import dataclass

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point


@dataclass(frozen=True)
class PerimeterJoint:
    """The joint along every wall and cutout and round what stands in the bed."""

    width: float = length(about="Least width")
    length: float = length(about="Length, doorways counted in")


@dataclass(frozen=True)
class JointSpacing:
    """How far apart joints may be."""

    least: float = length(about="The handbook's range, lower end")
    most: float = length(about="The handbook's range, upper end")
    used: float = length(about="No panel is longer than this")


@dataclass(frozen=True)
class FieldJoint:
    """One joint within the floor, from one end to the other."""

    id: str = described(about="J1 and on")
    start: Point = described(about="One end", unit="mm", key="from")
    end: Point = described(about="The other end", unit="mm", key="to")
    kind: str = described(about="`slab` where the slab below has a joint, else `field`")
    why: str = described(
        about="`slab`, `carried_on` from a joint of the slab, `inside_corner`, `cutout` or `spacing`"
    )
    module_off: float | None = length(about="From the nearest line of whole tiles, null for a slanting joint")


@dataclass(frozen=True)
class Panel:
    """Tile between joints."""

    polygon: tuple[Point, ...] = height(about="A simple polygon, anticlockwise")
    holes: tuple[tuple[Point, ...], ...] = height(about="Small cutouts in it, clockwise")
    width: float = length(about="Its shorter side")
    length: float = length(about="Its longer side, along or across the longest wall")


@dataclass(frozen=True)
class TileModule:
    """The tile that joints are moved to."""

    along: float = length(about="Along the longest wall")
    across: float = length(about="Square to it")


@dataclass(frozen=True)
class JointsAnswer:
    """The movement joints of a room."""

    edition: str = described(about="Which edition of which rules, and how it is known")
    perimeter: PerimeterJoint = described(about="Along walls, cutouts and fixtures")
    width: float = length(about="Width of the joints in the floor: the greater of the two below")
    width_published: float = length(about="Width that the handbook asks for")
    width_by_movement: float | None = length(about="Width the movement asks for, null where no range is known")
    governs: str = described(about="`published` or `movement`: which of the two is greater")
    movement: float | None = length(about="How much the longest panel grows, null where no range is known")
    spacing: JointSpacing = described(about="How far apart joints may be")
    field: tuple[FieldJoint, ...] = described(about="Joints within the floor")
    panels: tuple[Panel, ...] = described(about="What the joints leave, together the floor")
    longest_panel: float = length(about="The longest side of any panel")
    tile_module: TileModule = described(about="Joints in the floor lie on these lines where they can")
