"""The room as a rod sees it: where its foot can stand."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Fixture
from evenbed.engine.frame import Frame, frame_at, way_of
from evenbed.engine.geometry import Box, Ring, box_of, distance_to_ring, edges_of, is_inside
from evenbed.engine.outline import Figure
from evenbed.engine.region import Region, chords_at
from evenbed.engine.touching import regions_of_room

FOOT = 25.0  # mm: half a rod's foot, the least that a place lies off every wall; common practice, no source


@dataclass(frozen=True)
class Floor:
    """A room's figure and what stands in it."""

    figure: Figure
    fixtures: tuple[Fixture, ...]

    @cached_property
    def frame(self) -> Frame:
        """Along the longest wall, so that a grid lies square in the room."""
        longest = max(edges_of(self.figure.vertices), key=lambda wall: round(math.dist(*wall), 3))
        return frame_at(way_of(*longest))

    @cached_property
    def regions(self) -> tuple[Region, ...]:
        """The floor in the frame's directions."""
        return tuple(self.frame.turned_region(r) for r in regions_of_room(self.figure.outer, self.figure.holes))

    @cached_property
    def box(self) -> Box:
        """The floor's box in the frame's directions."""
        return box_of(self.frame.turned_ring(self.figure.outer))

    @cached_property
    def walls(self) -> Ring:
        """The outline's corners in the document's order."""
        return self.figure.vertices

    @cached_property
    def room_is_left(self) -> bool:
        """True where the room lies to the left of its walls, walked in the document's order."""
        return self.figure.vertices == self.figure.outer

    def along(self, v: float) -> Iterator[tuple[float, float]]:
        """Where the floor reaches along the frame's direction, at `v` across it."""
        for region in self.regions:
            yield from chords_at(region, (0.0, v), (1.0, 0.0))

    def clearance(self, at: Point) -> float:
        """Distance to the nearest wall or cutout, mm; negative outside the floor."""
        if not is_inside(self.figure.outer, *at) or any(is_inside(hole, *at) for hole in self.figure.holes):
            return -1.0
        return min(distance_to_ring(ring, at) for ring in self.figure.rings)

    def holds(self, at: Point, clear: float = FOOT) -> bool:
        """True where a rod's foot can stand, `clear` mm off the walls and off everything that stands in the room."""
        return not self._is_on_a_fixture(at) and self.clearance(at) >= clear

    @cached_property
    def _across(self) -> tuple[list[Fixture], list[float], float]:
        """The fixtures from left to right, where they stand, and how far the widest keeps a foot away."""
        ordered = sorted(self.fixtures, key=lambda fixture: fixture.at[0])
        return ordered, [f.at[0] for f in ordered], FOOT + max((f.radius for f in ordered), default=0.0)

    def _is_on_a_fixture(self, at: Point) -> bool:
        ordered, places, reach = self._across
        near = ordered[bisect_left(places, at[0] - reach) : bisect_right(places, at[0] + reach)]
        return any(math.dist(f.at, at) < f.radius + FOOT for f in near)
