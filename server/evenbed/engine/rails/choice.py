"""Which rails to lay in one region: the lines, and the direction where that is left open."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Fixture
from evenbed.engine.frame import SAME_WAY, Frame, between_ways, frame_at, way_of
from evenbed.engine.rails.cover import Cell, Cross, Reach, cells_of, crosses_of
from evenbed.engine.rails.lines import (
    LEAST_RAIL,
    ROUNDING,
    Floor,
    Obstacle,
    Piece,
    close_groups,
    lines_along_walls,
    lines_between,
    outermost_lines,
    pieces_at,
    shunned_intervals,
)
from evenbed.engine.rails.moves import move_of
from evenbed.engine.rails.trimming import trimmed, worth_laying
from evenbed.engine.region import Region

CLEAR_OF_FIXTURE = 25.0  # mm between a strip's side and a fixture; common practice, no source
CLEAR_AT_END = 25.0  # mm between a strip's end and a wall: room for the perimeter strip; common practice, no source
WORTH_TRYING = 0.4  # walls shorter than this share of the longest do not set the direction
SAME_DIRECTION = 0.5  # degrees within which two walls are taken as parallel
GOOD_ENOUGH = 0.05  # share of the floor left to hand work below which no more spacings are tried
DENSER = (1.0, 0.6)  # shares of the straightedge's span tried, the second where walls slant and much is left
LEAST_MARGIN = 100.0  # mm: what the float always does beyond a rail; common practice, no source
MOST_WAYS = 4  # directions tried, those of the longest walls
LOOKED_AT_TWICE = 2  # directions that are tried with denser rails
MANY_CORNERS = 150  # a region with more is laid out along its longest wall, and evenly: round walls, or nonsense
MOST_PIECES = 250  # rails tried at once, those for single walls among them
MOST_LINES = 400  # across one region: beyond this the room is a hangar or the straightedge a slip
MOST_LENGTH = 1e7  # mm of rails in one region: ten kilometres, for the same reason


@dataclass(frozen=True)
class Layout:
    """The rails of one region in their frame: pieces by line, then along it; and what no pair of them serves.

    `is_placed` where a person placed them.
    """

    frame: Frame
    floor: Floor
    pieces: tuple[Piece, ...]
    reach: Reach
    is_placed: bool = False

    @cached_property
    def crosses(self) -> tuple[Cross, ...]:
        """The floor's stretches across the rails."""
        return tuple(crosses_of(self.floor, self.pieces))

    @cached_property
    def cells(self) -> tuple[Cell, ...]:
        """What no straightedge on rails serves, in pieces along the rails."""
        return tuple(cells_of(self.crosses, self.pieces, self.reach))

    @property
    def is_too_wide(self) -> bool:
        """Whether the straightedge is so short for this floor that rails would be past counting."""
        start, low, end, high = self.floor.region.box
        lines = (high - low) / self.reach.span
        return lines > MOST_LINES or lines * (end - start) > MOST_LENGTH

    @cached_property
    def left(self) -> float:
        """How much of the floor no straightedge on rails serves, mm²."""
        return math.fsum(cell.area for cell in self.cells)

    @cached_property
    def cost(self) -> tuple[float, float, float]:
        """What it takes, to be compared in this order.

        How often a strip is laid, moves counted, together with the floor left to hand work, as much of which counts
        as a strip's lie as one is worth; then the widest pull between neighbouring rails; then all rails' length.
        """
        if not self.pieces:
            return (math.inf, math.inf, math.inf)
        length = math.fsum(piece.length for piece in self.pieces)
        lies = sum(self.reach.lies(piece.length) for piece in self.pieces)
        return (round(lies + self.left / worth_laying(self.floor), 3), round(self._widest_pull, 3), round(length, 3))

    @property
    def _widest_pull(self) -> float:
        pairs = (pair for cross in self.crosses for pair in pairwise(self.pieces[i].v for i in cross.rails))
        return max((b - a for a, b in pairs if b - a <= self.reach.span + ROUNDING), default=0.0)


def layout_of(region: Region, fixtures: Sequence[Fixture], design: RailDesign, inset: float) -> Layout:
    """The rails of one region at a given inset; the best direction where the design says "auto".

    Best is what costs least (`Layout.cost`), then what runs along the longest wall. A region of many corners is laid
    out once, along its longest wall.
    """
    is_plain = sum(map(len, region.rings)) <= MANY_CORNERS
    ways = _ways_to_try(region, MOST_WAYS if is_plain else 1) if design.direction == "auto" else [design.direction]
    frames = [frame_at(way) for way in ways]
    floors = [(frame, floor_at(frame, region, fixtures, design, inset)) for frame in frames]
    reach, longest = reach_of(design, inset), _walls_by_length(region)[0][1]
    bare = [Layout(*floor, (), reach) for floor in floors]
    layouts = [_best_of(layout, _line_sets(layout.floor, reach, DENSER[0])) for layout in bare]
    if not is_plain:
        return layouts[0]
    layouts.sort(key=lambda layout: _rank(layout, longest))
    densest = [_best_of(one, _line_sets(one.floor, reach, DENSER[1])) for one in layouts[:LOOKED_AT_TWICE]]
    return min(densest, key=lambda layout: _rank(layout, longest))


def reach_of(design: RailDesign, inset: float) -> Reach:
    """What the tools at hand reach: the longest straightedge on the rails, the longest strips under it."""
    edge, strip = longest_straightedge(design), max((s.length for s in design.strips), default=design.strip.length)
    move = move_of(strip, design.overlap)
    margin = max(2.0 * inset, LEAST_MARGIN)
    return Reach(edge - 2.0 * design.bearing, edge, design.bearing, margin, strip, move)


def longest_straightedge(design: RailDesign) -> float:
    """The longest straightedge on hand, mm."""
    return max((design.straightedge, *design.straightedges))


def _rank(layout: Layout, longest: float) -> tuple[float, ...]:
    aside = round(between_ways(layout.frame.degrees, longest), 6)
    return (*layout.cost, aside, round(layout.frame.degrees, 6))


def _walls_by_length(region: Region) -> list[tuple[float, float]]:
    """(length, direction) of the outer walls, the longest first."""
    straight = Floor(Region(region.outer), (), 0.0, 0.0).walls
    walls = [(math.dist(w[:2], w[2:]), way_of(w[:2], w[2:])) for w in straight]
    return sorted(walls, key=lambda wall: (-round(wall[0], 3), wall[1]))


def _ways_to_try(region: Region, most: int) -> list[float]:
    """Directions of the walls and across them, near ones once, each by its longest wall."""
    walls = _walls_by_length(region)
    kept: list[float] = []
    for size, way in walls:
        for candidate in (way, frame_at(way + 90.0).degrees):
            if len(kept) < most and size >= WORTH_TRYING * walls[0][0] and not _is_near_any(candidate, kept):
                kept.append(candidate)
    return kept


def _is_near_any(way: float, others: list[float]) -> bool:
    return any(between_ways(way, other) <= SAME_DIRECTION + SAME_WAY for other in others)


def floor_at(frame: Frame, region: Region, fixtures: Sequence[Fixture], design: RailDesign, inset: float) -> Floor:
    """A region in the rails' frame, with the fixtures that its rails keep clear of."""
    clear = CLEAR_OF_FIXTURE + design.strip.width / 2.0
    obstacles = tuple(obstacle_at(frame, fixture, clear) for fixture in fixtures)
    end = min(inset, CLEAR_AT_END + design.strip.width / 2.0)
    return Floor(frame.turned_region(region), obstacles, inset, end)


def obstacle_at(frame: Frame, fixture: Fixture, clear: float) -> Obstacle:
    """A fixture that rails keep `clear` of; a straightedge passes over a drain alone."""
    core = 0.0 if fixture.kind == "drain" else fixture.radius
    to = frame.turned(fixture.to) if fixture.to else (None, None)
    return Obstacle(*frame.turned(fixture.at), fixture.radius + clear, core, *to)


def _best_of(best: Layout, sets: Iterable[tuple[list[float], list[float]]]) -> Layout:
    """The cheapest layout of this floor on these lines, or the one given; good enough ends the search."""
    for lines in () if best.is_too_wide else sets:
        if best.pieces and best.left < GOOD_ENOUGH * best.floor.region.area:
            break
        layout = replace(best, pieces=_laid(best.floor, *lines, best.reach))
        best = min(best, layout, key=lambda one: one.cost)
    return best


def _line_sets(floor: Floor, reach: Reach, share: float) -> Iterator[tuple[list[float], list[float]]]:
    """Ways to choose lines at a share of the span: those across the whole floor, and those for single walls only.

    Evenly from side to side, the walls between, cutouts and fixtures served by lines of their own where needed; then
    with every wall's line taken into the even filling.
    """
    below, above = lines_along_walls(floor)
    ends = outermost_lines(floor, below, above)
    if ends is None:
        return
    first, last = ends
    if last - first < max(floor.inset, LEAST_MARGIN):
        return
    shunned = shunned_intervals(floor)
    inner = sorted(v for v in (*below, *above) if first < v < last)
    beside = [v for span in shunned for v in span if first < v < last]
    yield [first, *lines_between(first, last, reach.span * share, shunned), last], [*inner, *beside]
    yield _filled([first, *inner, last], reach.span * share, floor.inset, shunned), []


def _filled(lines: list[float], span: float, near: float, shunned: list[tuple[float, float]]) -> list[float]:
    """These lines and what must lie between them. Of lines nearer than `near` any one may later go."""
    full = list(lines)
    for one, other in pairwise(close_groups(lines, near)):
        between = lines_between(one[0], other[-1], span, shunned)
        full += [v for v in between if one[-1] < v < other[0]]
    return sorted(full)


def _laid(floor: Floor, through: list[float], local: list[float], reach: Reach) -> tuple[Piece, ...]:
    """The lines' free pieces, cut down to where they are needed; of too many local ones none."""
    only_local = set(local) - set(through)
    pieces = _long_pieces(floor, {*through, *local})
    if len(pieces) > MOST_PIECES:
        pieces = [piece for piece in pieces if piece.v not in only_local]
    spare = sorted(range(len(pieces)), key=lambda i: (pieces[i].v not in only_local, round(pieces[i].length, 3), i))
    rails = trimmed(floor, pieces, spare, reach)
    return tuple(sorted(rails, key=lambda piece: (piece.v, piece.start)))


def _long_pieces(floor: Floor, lines: set[float]) -> list[Piece]:
    return [piece for v in sorted(lines) for piece in pieces_at(floor, v) if piece.length >= LEAST_RAIL]
