"""A straightedge's line turned and shifted until the gap under it grows no more."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from evenbed.engine.document.places import Point
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.hull import Rest, worst_under
from evenbed.engine.flatness.lines import Line
from evenbed.engine.flatness.mesh import Edge, Way, way_through

SHRINKS = 4.0  # by how much turns become smaller where none wins anything
BESIDE = 0.25  # of the length: so far beside its rests a straightedge is looked for when it is turned
WON = 1e-5  # mm: less is not worth another turn


@dataclass(frozen=True)
class Lying:
    """A line, and how the straightedge lies on it worst."""

    line: Line
    rest: Rest

    @property
    def gap(self) -> float:
        """How far it stands open."""
        return self.rest.gap

    @property
    def at(self) -> Point:
        """Where."""
        return self.line.way.at(self.rest.at)


@dataclass(frozen=True)
class Under:
    """A straightedge of a length over some heights of a bed's mesh."""

    surface: BedSurface
    heights: Sequence[float]
    length: float

    def lying_on(self, line: Line, above: float) -> Lying | None:
        """How it lies worst on a line, None where no gap is over `above`."""
        course = self.surface.mesh.course_along(line.way, line.edge, line.low, line.high)
        if course is None:
            return None
        best = None
        for part in course.profiles(self.heights):
            rest = worst_under(part, self.length, above)
            if rest is not None:
                best, above = Lying(line, rest), rest.gap
        return best

    def improved(self, lying: Lying, step: float, end: float) -> Lying:
        """The same turned about each of its three places, and shifted, by turns from `step` to `end` radians.

        Each turn that wins is made again twice as large; where none wins they become smaller.
        """
        while step > end:
            better = self._round(lying, step)
            if better is lying:
                step /= SHRINKS
            lying = better
        return lying

    def _round(self, lying: Lying, step: float) -> Lying:
        for move in range(4):
            for turn in (step, -step):
                lying = self._followed(lying, move, turn)
        return lying

    def _followed(self, lying: Lying, move: int, turn: float) -> Lying:
        while True:
            better = self._moved(lying, move, turn)
            if better is None:
                return lying
            lying, turn = better, 2.0 * turn

    def _moved(self, lying: Lying, move: int, turn: float) -> Lying | None:
        turned = turned_by(lying.line.way, lying.rest, move, turn, self.length)
        edge = self._edge_near(lying.line.edge, turned)
        if edge is None:
            return None
        along, rest, spare = turned.along(lying.at) - lying.rest.at, lying.rest, BESIDE * self.length
        low, high = max(rest.first - spare, rest.at - self.length), min(rest.second + spare, rest.at + self.length)
        return self.lying_on(Line(turned, edge, along + low, along + high), lying.gap + WON)

    def _edge_near(self, edge: Edge, way: Way) -> Edge | None:
        """An edge that the line crosses, at one of the ends of the edge that the line before crossed."""
        mesh = self.surface.mesh
        return mesh.edge_among(way, (edge,)) or mesh.edge_at(way, edge[0]) or mesh.edge_at(way, edge[1])


def turned_by(way: Way, rest: Rest, move: int, turn: float, length: float) -> Way:
    """A line turned about the place under it, or one of its rests, or (3) shifted."""
    if move == 3:
        return way._replace(left=way.left + turn * length / 2.0)
    cos, sin = math.cos(turn), math.sin(turn)
    return way_through(
        way.at((rest.at, rest.first, rest.second)[move]), way.dx * cos - way.dy * sin, way.dx * sin + way.dy * cos
    )
