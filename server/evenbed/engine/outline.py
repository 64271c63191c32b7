"""The room's figure: corners from vertices or taped walls, cutouts, doorways, and what is wrong with them."""

import math
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Opening, Wall
from evenbed.engine.document.room import Outline as OutlineGiven
from evenbed.engine.figures import LEAST_AREA, check_cutouts, check_ring
from evenbed.engine.geometry import (
    Ring,
    between,
    edge_of,
    perimeter_of,
    signed_area,
)
from evenbed.engine.problems import BadDocumentError, Problem, problem_at
from evenbed.engine.walls import Walls

OPEN_BEYOND = 1 / 20  # of the perimeter: a wall is missing or mistyped, not badly taped; common practice, no source
MOST_CUTOUT_CORNERS = 500
ON_THE_WALL = 1.0  # mm that a doorway may run past its wall, for rounding to the nearest sixteenth


@dataclass(frozen=True)
class Misclosure:
    """How far the taped walk ended from where it began, before it was spread over the walls."""

    dx: float = height(about="Along x")
    dy: float = height(about="Along y")
    length: float = length(about="Straight")
    ratio: float = described(about="Length over perimeter")


@dataclass(frozen=True)
class Figure:
    """The room on the drawing.

    `vertices` are the corners in the order given, so that wall n runs from corner n to the next; `outer` is the
    same ring anticlockwise and `holes` are the cutouts clockwise.
    """

    vertices: Ring
    outer: Ring
    holes: tuple[Ring, ...]
    misclosure: Misclosure

    @property
    def rings(self) -> tuple[Ring, ...]:
        """The outer ring and the holes: what is summed for the room."""
        return (self.outer, *self.holes)

    @property
    def area(self) -> float:
        """Area in m², cutouts taken out."""
        return math.fsum(signed_area(ring) for ring in self.rings) / 1e6

    @property
    def perimeter(self) -> float:
        """Length of the outline's walls in mm; a cutout's walls are not counted."""
        return perimeter_of(self.outer)

    def holds(self, at: Point, margin: float = 0.0) -> bool:
        """True where the bed has mortar at `at`, or within `margin` mm of such a place."""
        outer, *holes = self._walls
        inside = outer.hold(*at) and not any(hole.hold(*at) for hole in holes)
        return inside or any(walls.are_within(margin, at) for walls in self._walls)

    @cached_property
    def _walls(self) -> tuple[Walls, ...]:
        return tuple(Walls(ring) for ring in self.rings)


def figure_from(given: OutlineGiven) -> Figure:
    """The figure from what was drawn or taped.

    Raises BadDocumentError where there are no walls, too few, no area, walls that cross or a figure that does not
    close, and where a cutout leaves the room or meets another.
    """
    path, vertices, misclosure = _corners_from(given)
    check_ring(path, vertices)
    outer = vertices if signed_area(vertices) > 0 else vertices[::-1]
    corners = sum(len(c) for c in given.cutouts)
    if corners > MOST_CUTOUT_CORNERS:
        raise BadDocumentError([problem_at("outline.cutouts", "too_many", count=corners, most=MOST_CUTOUT_CORNERS)])
    cutouts = [_without_repeated_end(c) for c in given.cutouts]
    for n, cutout in enumerate(cutouts):
        check_ring(f"outline.cutouts[{n}]", cutout)
    check_cutouts(outer, cutouts)
    holes = tuple(c if signed_area(c) < 0 else c[::-1] for c in cutouts)
    figure = Figure(vertices, outer, holes, misclosure)
    if figure.area * 1e6 < LEAST_AREA:
        raise BadDocumentError([problem_at("outline.cutouts", "no_area", area=round(figure.area * 1e6, 1))])
    return figure


def _corners_from(given: OutlineGiven) -> tuple[str, Ring, Misclosure]:
    if given.vertices is not None:
        return "outline.vertices", _without_repeated_end(given.vertices), Misclosure(0.0, 0.0, 0.0, 0.0)
    if given.walls is None:
        raise BadDocumentError([problem_at("outline", "outline_missing")])
    if len(given.walls) < 3:
        raise BadDocumentError([problem_at("outline.walls", "too_few_corners", count=len(given.walls))])
    turnless = [n for n, wall in enumerate(given.walls[:-1]) if wall.turn is None]
    if turnless:
        raise BadDocumentError([problem_at(f"outline.walls[{n}].turn", "missing") for n in turnless])
    vertices, misclosure = closed_walk(given.walls)
    if misclosure.ratio > OPEN_BEYOND:
        raise BadDocumentError([_does_not_close(given.walls, misclosure)])
    return "outline.walls", vertices, misclosure


def _does_not_close(walls: tuple[Wall, ...], gap: Misclosure) -> Problem:
    return problem_at(
        f"outline.walls[{len(walls) - 1}]",
        "does_not_close",
        length=round(gap.length, 1),
        x=round(gap.dx, 1),
        y=round(gap.dy, 1),
    )


def _without_repeated_end(ring: Ring) -> Ring:
    return ring[:-1] if len(ring) > 3 and ring[0] == ring[-1] else ring


def closed_walk(walls: tuple[Wall, ...]) -> tuple[Ring, Misclosure]:
    """The corners of a taped walk, its misclosure spread by the compass (Bowditch) rule.

    The walk starts at the origin heading along +x. Every corner moves back by the share of the misclosure that the
    length walked so far has of the whole. What turns after the last wall changes nothing.
    """
    x = y = walked = heading = 0.0
    corners, lengths = [(0.0, 0.0)], [0.0]
    for wall in walls:
        cos, sin = _direction(heading)
        x, y, walked = x + wall.length * cos, y + wall.length * sin, walked + wall.length
        heading += wall.turn or 0.0
        corners.append((x, y))
        lengths.append(walked)
    shares = [done / walked for done in lengths[:-1]]
    closed = tuple((cx - s * x, cy - s * y) for (cx, cy), s in zip(corners, shares, strict=False))
    gap = math.hypot(x, y)
    return closed, Misclosure(x, y, gap, gap / walked)


def _direction(degrees: float) -> Point:
    """Cosine and sine, exact at quarter turns so that square rooms stay square."""
    quarter, rest = divmod(degrees % 360.0, 90.0)
    cos, sin = math.cos(math.radians(rest)), math.sin(math.radians(rest))
    return ((cos, sin), (-sin, cos), (-cos, -sin), (sin, -cos))[int(quarter) % 4]


def check_openings(figure: Figure, openings: tuple[Opening, ...]) -> list[Problem]:
    """Problems of doorways: a wall that is not there, an empty width, an end beyond the wall."""
    found = []
    for n, opening in enumerate(openings):
        path = f"openings[{n}]"
        if opening.wall >= len(figure.vertices):
            found.append(problem_at(f"{path}.wall", "no_such_wall", wall=opening.wall, most=len(figure.vertices) - 1))
        elif opening.end <= opening.start:
            found.append(problem_at(f"{path}.to", "opening_empty", start=opening.start, end=opening.end))
        elif opening.end > (wall := math.dist(*edge_of(figure.vertices, opening.wall))) + ON_THE_WALL:
            found.append(problem_at(f"{path}.to", "opening_past_wall", end=opening.end, length=round(wall, 3)))
    return found


def ends_of_opening(opening: Opening, vertices: Ring) -> tuple[Point, Point]:
    """Where the jambs of a doorway stand that has passed `check_openings`, in the order along its wall."""
    start, end = edge_of(vertices, opening.wall)
    size = math.dist(start, end)
    return between(start, end, opening.start / size), between(start, end, opening.end / size)


def middle_of_opening(opening: Opening, vertices: Ring) -> Point:
    """The middle of a doorway that has passed `check_openings`; `vertices` in the order that walls are counted in."""
    start, end = edge_of(vertices, opening.wall)
    return between(start, end, (opening.start + opening.end) / 2 / math.dist(start, end))
