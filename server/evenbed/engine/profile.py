"""A section through the floor along a straight line: subfloor, top of bed and thickness, exact.

Nothing is sampled: the subfloor is straight between the places where the line crosses an edge of its triangles.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.check import checked_document
from evenbed.engine.document.fields import FARTHEST, described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.room import Document
from evenbed.engine.geometry import between, box_of, boxes_meet, meeting_of
from evenbed.engine.problems import BadDocumentError, problem_at, problems_under
from evenbed.engine.region import stretches_along
from evenbed.engine.surface import Surface
from evenbed.engine.top.facets import BedTop
from evenbed.engine.touching import regions_of_room
from evenbed.engine.worked import WorkedRoom

SHORTEST = 1.0  # mm: a shorter line is a tap, not a line
ONE_PLACE = 1e-6  # mm along the line: nearer bends are one


@dataclass(frozen=True)
class ProfileQuestion:
    """A room and the line to cut it along."""

    document: Document = described(about="The room document")
    start: Point = described(about="Where the line begins", unit="mm", key="from", low=-FARTHEST, high=FARTHEST)
    end: Point = described(about="Where it ends", unit="mm", key="to", low=-FARTHEST, high=FARTHEST)


@dataclass(frozen=True)
class ProfilePoint:
    """A place where the section bends, begins or ends; between two of them everything is straight."""

    along: float = length(about="From the beginning of the line")
    at: Point = height(about="Where")
    subfloor: float = height(about="Height of the subfloor, z")
    top: float = height(about="Height of the top of bed, z")
    thickness: float = height(about="Top less subfloor; negative where there is no bed")
    estimated: bool = described(about="True where the subfloor beside it leans on a corner that was not read")


@dataclass(frozen=True)
class ProfileAnswer:
    """The section: unbroken runs inside the room, with gaps outside it and over cutouts."""

    length: float = length(about="Length of the whole line")
    runs: tuple[tuple[ProfilePoint, ...], ...] = described(about="Each at least two points, in the line's order")


def profile_from(given: object) -> ProfileAnswer:
    """The section along a line (parsed JSON in); no runs where the line misses the room.

    Raises BadDocumentError for a room that gives no plan and for a line shorter than SHORTEST.
    """
    question, _ = read_json(ProfileQuestion, given)
    line = _Line(question.start, question.end)
    if line.length < SHORTEST:
        raise BadDocumentError([problem_at("to", "profile_no_length")])
    with problems_under("document"):
        room = WorkedRoom(checked_document(question.document))
        regions = regions_of_room(room.figure.outer, room.figure.holes)
        bends = sorted([*_bends(room.surface, line), *_creases(room.top, line)])
        stretches = stretches_along(regions, line.start, line.end)
        runs = (_run(room, line, [start, *_inside(bends, start, end), end]) for start, end in stretches)
        return ProfileAnswer(line.length, tuple(runs))


@dataclass(frozen=True)
class _Line:
    start: Point
    end: Point

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    def at(self, along: float) -> Point:
        return between(self.start, self.end, along / self.length)


def _bends(surface: Surface, line: _Line) -> list[float]:
    """Where the line crosses edges of the surface, in order."""
    box = box_of((line.start, line.end))
    found = []
    for p, q in surface.edges:
        if boxes_meet(box, box_of((p[:2], q[:2]))):
            meeting = meeting_of(line.start, line.end, p[:2], q[:2])
            if meeting is not None and 0.0 <= meeting[1] <= 1.0:
                found.append(meeting[0] * line.length)
    return sorted(found)


def _creases(top: BedTop, line: _Line) -> Iterator[float]:
    """Where the line crosses the lines along which planes of the top end."""
    return (share * line.length for share in top.crossings(line.start, line.end))


def _inside(bends: list[float], start: float, end: float) -> list[float]:
    """The bends between two places, those at one place once."""
    kept: list[float] = []
    for along in bends:
        if along - (kept[-1] if kept else start) > ONE_PLACE and end - along > ONE_PLACE:
            kept.append(along)
    return kept


def _run(room: WorkedRoom, line: _Line, bends: list[float]) -> tuple[ProfilePoint, ...]:
    guessed = _guessed(room.surface)
    triangles = (_triangle_at(room.surface, line.at((a + b) / 2)) for a, b in pairwise(bends))
    leans = [not guessed.isdisjoint(triangle) for triangle in triangles]
    beside = zip(bends, [False, *leans], [*leans, False], strict=True)
    return tuple(_point(room, line, along, before or after) for along, before, after in beside)


def _guessed(surface: Surface) -> frozenset[int]:
    """The points that no reading made: estimated corners, and centres of cells that such a corner helped to make."""
    estimated = frozenset(surface.estimated)
    beside = {point for t in surface.triangles if not estimated.isdisjoint(t) for point in t}
    return estimated | (beside & set(surface.centres))


def _triangle_at(surface: Surface, at: Point) -> Triangle:
    return surface.triangles[surface.triangle_at(*at)]


def _point(room: WorkedRoom, line: _Line, along: float, estimated: bool) -> ProfilePoint:
    at = line.at(along)
    subfloor, top = room.surface.height_at(*at), room.top.at(*at)
    return ProfilePoint(along, at, subfloor, top, top - subfloor, estimated)
