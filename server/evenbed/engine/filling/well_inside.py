"""A place well inside a section: what an entry keeps of it, because sections are numbered anew when rails move."""

from collections.abc import Iterator
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.filling.inside import Inside
from evenbed.engine.geometry import Ring, distance_to_ring, edges_of, is_inside, perimeter_of, signed_area

ENOUGH = 0.25  # of the width that the centroid stands off the walls to be well inside: half would be the very middle
ALIKE = 3  # decimals of a mm: what differs by less is alike, and the first of them counts, whatever the rounding
MOST_CHORDS = 12  # each way, where the centroid will not do: across the widest gaps between corners


def well_inside(ring: Ring) -> Point:
    """A place in a simple anticlockwise polygon, away from its walls (mm); the same for the same polygon.

    The centroid where it stands off the walls; else of the middles of chords along x and along y the one that stands
    off the most. In a polygon without area, where there is no chord, a place on its walls.
    """
    at = Inside(ring).middle
    if is_inside(ring, *at) and distance_to_ring(ring, at) >= ENOUGH * width_of(ring):
        return at
    turned = tuple((y, x) for x, y in ring)
    places = [*_middles(ring), *((x, y) for y, x in _middles(turned))]
    return max(places, key=lambda place: round(distance_to_ring(ring, place), ALIKE), default=at)


def width_of(ring: Ring) -> float:
    """Twice the area over half the outline's length: for a long strip its width, mm."""
    return 2.0 * abs(signed_area(ring)) / perimeter_of(ring)


def _middles(ring: Ring) -> Iterator[Point]:
    """The middles of chords along x, each halfway between two corners' heights."""
    heights = sorted({y for _, y in ring})
    gaps = sorted(pairwise(heights), key=lambda gap: (round(gap[0] - gap[1], ALIKE), round(gap[0], ALIKE)))
    for low, high in gaps[:MOST_CHORDS]:
        y = (low + high) / 2.0
        meets = sorted(
            ax + (bx - ax) * (y - ay) / (by - ay) for (ax, ay), (bx, by) in edges_of(ring) if _spans(ay, by, y)
        )
        yield from (((a + b) / 2.0, y) for a, b in zip(meets[::2], meets[1::2], strict=False))


def _spans(one: float, other: float, y: float) -> bool:
    return (one > y) != (other > y)
