"""Moves of read spots made places to work over: which spots hang together, where, how deep, how much mortar.

Between the spots a change of height is as the bed is, straight over each triangle; so a place reaches from its spots
to their neighbours, where it runs out to nothing.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.flatness import TouchWay
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.open_lines import Moves
from evenbed.engine.geometry import Ring, integral_over, plane_through, signed_area
from evenbed.engine.region import Region, split_by_line
from evenbed.engine.touching import regions_joined

MM3 = 1e9  # in a cubic metre


@dataclass(frozen=True)
class Place:
    """Spots side by side that are all rubbed down, or all filled up: their moves, mm."""

    surface: BedSurface
    moves: Moves

    @property
    def way(self) -> TouchWay:
        """Rub down or fill up."""
        return "rub" if self._deepest[1] < 0.0 else "fill"

    @property
    def depth(self) -> float:
        """How much at its deepest, mm."""
        return abs(self._deepest[1])

    @property
    def at(self) -> Point:
        """Where that is."""
        return self.surface.mesh.places[self._deepest[0]]

    @property
    def changes(self) -> tuple[Point3, ...]:
        """Its spots, each with what is put on there, mm, negative for what is taken off."""
        return tuple((*self.surface.mesh.places[n], by) for n, by in sorted(self.moves.items()))

    @property
    def _deepest(self) -> tuple[int, float]:
        return max(sorted(self.moves.items()), key=lambda one: abs(one[1]))

    @cached_property
    def _triangles(self) -> tuple[Triangle, ...]:
        return tuple(one for one in self.surface.triangles if any(self._raised[n] for n in one))

    @cached_property
    def _raised(self) -> tuple[float, ...]:
        """By how much each point of the mesh is raised."""
        flat = [0.0] * self.surface.spots
        for n, by in self.moves.items():
            flat[n] = by
        return self.surface.with_heights(flat).heights

    @property
    def volume(self) -> float:
        """Mortar put on or taken off within the room, m³."""
        return abs(math.fsum(self._volume_over(one) for one in self._triangles)) / MM3

    def _volume_over(self, triangle: Triangle) -> float:
        corners = [(*self.surface.mesh.places[n], self._raised[n]) for n in triangle]
        plane = plane_through(*corners)
        return math.fsum(integral_over(ring, plane) for part in self._parts(triangle) for ring in part.rings)

    def _parts(self, triangle: Triangle) -> tuple[Region, ...]:
        """What of a triangle lies in the room."""
        i, j, k = (self.surface.mesh.places[n] for n in triangle)
        if not self.surface.mesh.walls:
            return (Region((i, j, k)),)
        parts = self.surface.regions
        for a, b in ((i, j), (j, k), (k, i)):
            parts, _ = split_by_line(parts, a, (b[0] - a[0], b[1] - a[1]))
        return parts

    @property
    def polygon(self) -> Ring:
        """Its outline, anticlockwise, within the room: the largest part where walls cut it into several."""
        parts = [part for one in self._triangles for part in self._parts(one)]
        joined = regions_joined(parts, _is_cut) if len(parts) > 1 else parts
        return max((region.outer for region in joined), key=signed_area, default=())


def _is_cut(_a: Point, _b: Point) -> bool:
    return False


def places_of(surface: BedSurface, moves: Moves) -> tuple[Place, ...]:
    """The places that some moves make, by the lowest of their spots."""
    left = set(moves)
    found = []
    for first in sorted(moves):
        if first in left:
            group = _group(surface, moves, first)
            left -= group
            found.append(Place(surface, {n: moves[n] for n in sorted(group)}))
    return tuple(found)


def _group(surface: BedSurface, moves: Moves, first: int) -> set[int]:
    """The spots that hang together with the first and are moved the same way."""
    is_up, group, todo = moves[first] > 0.0, {first}, [first]
    while todo:
        for n in neighbours(surface, todo.pop()):
            if n in moves and n not in group and (moves[n] > 0.0) == is_up:
                group.add(n)
                todo.append(n)
    return group


def neighbours(surface: BedSurface, spot: int) -> Iterator[int]:
    """The spots that share a triangle, or a cell of several triangles, with one."""
    for n in surface.mesh.spokes[spot]:
        if n < surface.spots:
            yield n
        else:
            yield from surface.cells[n - surface.spots]


def areas_of(surface: BedSurface) -> list[float]:
    """For every spot the mortar under one mm there, mm³: its part of the triangles round it."""
    areas = [0.0] * len(surface.mesh.places)
    for i, j, k in surface.triangles:
        third = signed_area(tuple(surface.mesh.places[n] for n in (i, j, k))) / 3.0
        for n in (i, j, k):
            areas[n] += third
    for n, cell in enumerate(surface.cells, start=surface.spots):
        for spot in cell:
            areas[spot] += areas[n] / len(cell)
    return areas[: surface.spots]
