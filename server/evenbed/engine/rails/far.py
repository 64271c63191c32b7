"""Which end of a rail is farther from the way out, on foot: round corners and cutouts, not through them."""

import heapq
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import distance_to_ring, nearest_on_segment, turn_of
from evenbed.engine.rails.lines import Floor

AT_THE_WALL = 1.0  # mm within which a way out counts as in the wall of a floor
CLEAR = 1.0  # mm that ways are led clear of corners, so that none runs along a wall
MOST_CORNERS = 60  # to walk round: beyond this nobody's floor, and nobody's to wait for
Wall = tuple[float, float, float, float]


@dataclass(frozen=True)
class WaysOut:
    """The walks over one floor to where the crew leaves; all in the rails' frame, mm."""

    floor: Floor
    exits: tuple[Point, ...]

    def walk(self, at: Point) -> float:
        """The shortest walk from a place on the floor to the nearest way out.

        Straight over everything where no way out lies in this floor's walls, none can be walked to, or there are more
        than `MOST_CORNERS` to walk round; 0 where none is given at all.
        """
        if not self._doors:
            return min((math.dist(at, each) for each in self.exits), default=0.0)
        nearest = min(self._doors, key=lambda door: math.dist(at, door))
        if len(self._corners) > MOST_CORNERS or self._is_open(at, nearest):
            return math.dist(at, nearest)
        ways = [math.dist(at, place) + walk for place, walk in self._walks.items() if self._is_open(at, place)]
        return min(ways, default=math.dist(at, nearest))

    @cached_property
    def _doors(self) -> tuple[Point, ...]:
        """Ways out in this floor's walls, a step inside."""
        rings = self.floor.region.rings
        beside = [at for at in self.exits if min(distance_to_ring(ring, at) for ring in rings) <= AT_THE_WALL]
        return tuple(_inside(at, self.floor.walls) for at in beside)

    @cached_property
    def _walks(self) -> dict[Point, float]:
        """The walk from each corner that can be walked round, and from the ways out themselves, to a way out."""
        corners = [*self._corners, *self._doors]
        queue, walks = [(0.0, door) for door in self._doors], dict[Point, float]()
        while queue:
            walk, at = heapq.heappop(queue)
            if at not in walks:
                walks[at] = walk
                for other in corners:
                    if other not in walks and self._is_open(at, other):
                        heapq.heappush(queue, (walk + math.dist(at, other), other))
        return walks

    @cached_property
    def _corners(self) -> tuple[Point, ...]:
        return tuple(_corners_round(self.floor.walls))

    def _is_open(self, p: Point, q: Point) -> bool:
        """Whether no wall stands across the straight way between two places inside."""
        (px, py), (qx, qy) = p, q
        dx, dy = qx - px, qy - py
        left, right, low, high = min(px, qx), max(px, qx), min(py, qy), max(py, qy)
        for ax, ay, bx, by in self.floor.walls:
            if (ax < left and bx < left) or (ax > right and bx > right):
                continue
            if (ay < low and by < low) or (ay > high and by > high):
                continue
            if (dx * (ay - py) > dy * (ax - px)) != (dx * (by - py) > dy * (bx - px)):
                ex, ey = bx - ax, by - ay
                if (ex * (py - ay) > ey * (px - ax)) != (ex * (qy - ay) > ey * (qx - ax)):
                    return False
        return True


def _inside(at: Point, walls: Sequence[Wall]) -> Point:
    """A place on a wall, moved off it onto the floor, which lies to its left."""
    wall = min(walls, key=lambda w: math.dist(at, nearest_on_segment(w[:2], w[2:], at)))
    x, y = _left(wall)
    return at[0] + CLEAR * x, at[1] + CLEAR * y


def _corners_round(walls: Sequence[Wall]) -> Iterable[Point]:
    """The corners that stick out into the floor, each moved off both its walls."""
    following = {wall[:2]: wall for wall in walls}
    for wall in walls:
        after = following[wall[2:]]
        if turn_of(wall[:2], wall[2:], after[2:]) < 0.0:
            (ax, ay), (bx, by) = _left(wall), _left(after)
            size = math.hypot(ax + bx, ay + by)
            if size > 0.0:
                yield wall[2] + 2.0 * CLEAR * (ax + bx) / size, wall[3] + 2.0 * CLEAR * (ay + by) / size


def _left(wall: Wall) -> Point:
    size = math.dist(wall[:2], wall[2:])
    return (wall[1] - wall[3]) / size, (wall[2] - wall[0]) / size
