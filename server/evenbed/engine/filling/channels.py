"""Channels: the grooves that strips leave in the bed, each in the section after which it is filled and packed.

A strip between two sections guides the straightedge in both and is pulled after the later one. So its channel belongs
to that one. A strip with one section on both sides leaves its channel there. Every stretch of a rail over floor is in
one section's channels, once.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from evenbed.engine.document.places import Point
from evenbed.engine.filling.shapes import Channel
from evenbed.engine.geometry import Ring, between, box_of, boxes_meet
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.region import Interval, Region, chords_at

LEAST_CHANNEL = 1e-2  # mm: shorter is rounding
BESIDE = 1.0  # mm round a rail within which a section's box is looked at


def channels_of(rings: Sequence[Ring], rails: Iterable[Rail]) -> list[tuple[Channel, ...]]:
    """The channels in each of these sections, which are given in the order they are filled."""
    found: list[list[Channel]] = [[] for _ in rings]
    boxes = [box_of(ring) for ring in rings]
    for rail in rails:
        box = box_of((rail.start, rail.end))
        grown = (box[0] - BESIDE, box[1] - BESIDE, box[2] + BESIDE, box[3] + BESIDE)
        beside = {n: rings[n] for n, one in enumerate(boxes) if boxes_meet(grown, one)}
        for n, start, end in _stretches(beside, rail):
            found[n].append(_channel(rail, start, end))
    return [tuple(channels) for channels in found]


def _channel(rail: Rail, start: float, end: float) -> Channel:
    size = math.dist(rail.start, rail.end)
    first, last = (between(rail.start, rail.end, along / size) for along in (start, end))
    volume = rail.strip.width * rail.strip.thickness * (end - start) / 1e9
    return Channel(rail.id, first, last, end - start, volume)


def _stretches(rings: dict[int, Ring], rail: Rail) -> Iterator[tuple[int, float, float]]:
    """From where to where along the rail its channel belongs to which section: of those beside it, to the last."""
    size = math.dist(rail.start, rail.end)
    if size <= 0.0:
        return
    spans = [(n, *span) for n, ring in rings.items() for span in _spans(ring, rail.start, rail.end, size)]
    places = _apart(sorted({place for _, *span in spans for place in span}))
    owners = ((_last_at(spans, (a + b) / 2.0), a, b) for a, b in pairwise(places))
    yield from _joined(owner for owner in owners if owner[0] >= 0)


def _last_at(spans: Sequence[tuple[int, float, float]], along: float) -> int:
    return max((n for n, low, high in spans if low <= along <= high), default=-1)


def _apart(places: Sequence[float]) -> list[float]:
    """Places that are one but for rounding once."""
    kept = list(places[:1])
    for place in places:
        if place - kept[-1] > LEAST_CHANNEL:
            kept.append(place)
    return kept


def _spans(ring: Ring, start: Point, end: Point, size: float) -> Iterator[Interval]:
    """Where a section lies beside a line, on either side of it, from 0 to its length."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    region = Region(ring)
    right = chords_at(region, start, (dx, dy))
    left = ((-b, -a) for a, b in chords_at(region, start, (-dx, -dy)))
    for low, high in (*right, *left):
        if min(size, high) - max(0.0, low) > LEAST_CHANNEL:
            yield (_snapped(low, size), _snapped(high, size))


def _snapped(along: float, size: float) -> float:
    return 0.0 if along < LEAST_CHANNEL else size if size - along < LEAST_CHANNEL else along


def _joined(stretches: Iterable[tuple[int, float, float]]) -> Iterator[tuple[int, float, float]]:
    """Stretches of one section that run on, made one."""
    whose, start, end = -1, 0.0, 0.0
    for n, low, high in stretches:
        if n == whose and low == end:
            end = high
            continue
        if whose >= 0:
            yield (whose, start, end)
        whose, start, end = n, low, high
    if whose >= 0:
        yield (whose, start, end)
