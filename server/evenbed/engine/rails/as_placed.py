"""Rails as a person placed them: their lines in the frame of the lay-out, cut to the floor, each with its name.

A line is put exactly parallel to the longest one, about its own middle: within `PARALLEL` its ends move little. What
runs outside the floor or through a fixture is cut off. What such rails break is told by `as_placed_cautions`.
"""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import count
from string import ascii_uppercase

from evenbed.engine.document.rails import RailDesign, RailLine
from evenbed.engine.document.room import Fixture
from evenbed.engine.frame import Frame, between_ways, frame_at, way_of
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.rails.choice import Layout, floor_at, obstacle_at, reach_of
from evenbed.engine.rails.lines import Floor, Piece, pieces_at
from evenbed.engine.region import Region

PARALLEL = 0.5  # degrees by which a line may differ from the longest: 35 mm over 4 m; common practice, no source
LEAST_PIECE = 10.0  # mm: what is cut off shorter than this is no rail at all
MOST_PIECES = 500  # rails in one room: beyond this walls cut lines to shreds, and nobody should wait for it


def check_lines(design: RailDesign) -> list[Problem]:
    """Problems of lines as placed: without length, not parallel to the longest, or two of one name."""
    lines = design.lines or ()
    pointless = [n for n, line in enumerate(lines) if _length(line) < LEAST_PIECE]
    found = [problem_at(f"rails.lines[{n}]", "rail_without_length", least=LEAST_PIECE) for n in pointless]
    return [*found, *_not_parallel(lines), *_named_twice(lines)]


def placed_layouts(regions: Sequence[Region], fixtures: Sequence[Fixture], design: RailDesign) -> tuple[Layout, ...]:
    """The lines of a design as layouts, one for each region of the room; lines must have passed `check_lines`.

    No lines at all give layouts without rails. Of more than `MOST_PIECES` the longest are kept.
    """
    frame = _frame_of(design)
    floors = [_floor(frame, region, fixtures, design) for region in regions]
    found = _longest_pieces([list(_pieces_on(floor, frame, design.lines or ())) for floor in floors])
    named = iter(list(_with_names([piece for pieces in found for piece in pieces], design.lines or ())))
    return tuple(
        Layout(frame, floor, tuple(next(named) for _ in pieces), reach_of(design, floor.inset), is_placed=True)
        for floor, pieces in zip(floors, found, strict=True)
    )


def _longest_pieces(found: list[list[Piece]]) -> list[list[Piece]]:
    lengths = sorted((piece.length for pieces in found for piece in pieces), reverse=True)
    if len(lengths) <= MOST_PIECES:
        return found
    return [[piece for piece in pieces if piece.length > lengths[MOST_PIECES]] for pieces in found]


def _length(line: RailLine) -> float:
    return math.dist(line.start, line.end)


def _longest(lines: Sequence[RailLine]) -> RailLine:
    return max(lines, key=_length)


def _frame_of(design: RailDesign) -> Frame:
    if design.lines:
        longest = _longest(design.lines)
        return frame_at(way_of(longest.start, longest.end))
    return frame_at(0.0 if design.direction == "auto" else design.direction)


def _not_parallel(lines: Sequence[RailLine]) -> Iterator[Problem]:
    long_enough = [(n, line) for n, line in enumerate(lines) if _length(line) >= LEAST_PIECE]
    if not long_enough:
        return
    longest = _longest([line for _, line in long_enough])
    way = way_of(longest.start, longest.end)
    for n, line in long_enough:
        angle = between_ways(way_of(line.start, line.end), way)
        if angle > PARALLEL:
            yield problem_at(f"rails.lines[{n}]", "rails_not_parallel", angle=angle, most=PARALLEL)


def _named_twice(lines: Sequence[RailLine]) -> Iterator[Problem]:
    seen: set[str] = set()
    for n, line in enumerate(lines):
        if line.id and line.id in seen:
            yield problem_at(f"rails.lines[{n}].id", "duplicate_id", id=line.id)
        seen.add(line.id)


def _floor(frame: Frame, region: Region, fixtures: Sequence[Fixture], design: RailDesign) -> Floor:
    """The region with fixtures that a strip only must not run through: a person may come nearer than is proposed."""
    half = design.strip.width / 2.0
    floor = floor_at(frame, region, fixtures, design, max(design.inset, half))
    return replace(floor, obstacles=tuple(obstacle_at(frame, fixture, half) for fixture in fixtures))


def _pieces_on(floor: Floor, frame: Frame, lines: Sequence[RailLine]) -> Iterable[Piece]:
    """What of the lines lies on a floor, from one side to the other and along them."""
    open_floor = replace(floor, inset=0.0, end=0.0)
    pieces = [piece for n, line in enumerate(lines) for piece in _on_floor(open_floor, _spread(frame, line), n)]
    return sorted(pieces, key=lambda piece: (piece.v, piece.start, piece.line))


def _spread(frame: Frame, line: RailLine) -> Piece:
    """A line in the frame, whole."""
    (ua, va), (ub, vb) = frame.turned(line.start), frame.turned(line.end)
    v = va if va == vb else (va + vb) / 2.0
    return Piece(v, min(ua, ub), max(ua, ub))


def _on_floor(floor: Floor, whole: Piece, n: int) -> Iterator[Piece]:
    for free in pieces_at(floor, whole.v):
        piece = Piece(whole.v, max(whole.start, free.start), min(whole.end, free.end), line=n)
        if piece.length >= LEAST_PIECE:
            yield piece


def _with_names(pieces: Sequence[Piece], lines: Sequence[RailLine]) -> Iterator[Piece]:
    """Pieces under their lines' names, with a number where a line is interrupted; the nameless get letters."""
    taken = {line.id for line in lines}
    letters = (name for name in map(letters_of, count()) if name not in taken)
    parts = Counter(piece.line for piece in pieces)
    names: dict[int, str] = {}
    for piece in pieces:
        name = names.get(piece.line) or lines[piece.line].id or next(letters)
        names[piece.line] = name
        numbered = (f"{name}{n}" for n in count(1))
        own = name if parts[piece.line] == 1 else next(each for each in numbered if each not in taken)
        taken.add(own)
        yield replace(piece, id=own)


def letters_of(n: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    return (letters_of(n // 26 - 1) if n >= 26 else "") + ascii_uppercase[n % 26]
