"""Rails: where the strips go, and how high the ramp under each is, station by station."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby
from string import ascii_uppercase

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.fields import described, height, length
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Fixture, RailDesign, Strip
from evenbed.engine.geometry import between
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.rail_choice import CLEAR_OF_FIXTURE, Layout, layout_of
from evenbed.engine.rail_cover import Spot
from evenbed.engine.rail_lines import ROUNDING, Piece
from evenbed.engine.region import Region

Height = Callable[[float, float], float]
LEAST_SPAN = 100.0  # mm between rails: less is a slip of the finger
LEAST_MOVE = 100.0  # mm that a strip moves on: less is a slip of the finger


@dataclass(frozen=True)
class Station:
    """A place on a rail where the ramp's height is given."""

    at: Point = height(about="Where on the drawing")
    along: float = length(about="From the rail's beginning")
    subfloor: float = height(about="Subfloor, z")
    top: float = height(about="Top of bed, z")
    shim: float = height(about="Height of the ramp under the strip: top less strip less subfloor")


@dataclass(frozen=True)
class Setting:
    """One lie of the strip along a rail, in the order they are used."""

    order: int = described(about="1 is laid first, at the end away from the way out")
    start: float = length(about="Where the strip begins, from the rail's beginning", key="from")
    end: float = length(about="Where it ends, from the rail's beginning", key="to")
    stations: tuple[int, ...] = described(about="Stations under the strip, counted from 0")


@dataclass(frozen=True)
class Rail:
    """One rail: a straight line of strips whose top edges lie in the top of bed."""

    id: str = described(about="A letter from one side to the other, a number where the line is interrupted")
    start: Point = described(about="Its beginning", unit="mm", key="from")
    end: Point = described(about="Its end", unit="mm", key="to")
    stations: tuple[Station, ...] = described(about="From its beginning to its end")
    settings: tuple[Setting, ...] = described(about="The strip's lies, first to last")


@dataclass(frozen=True)
class HandArea:
    """A place that no pair of rails serves: finished with the float or a short straightedge."""

    at: Point = height(about="Its middle")
    polygon: tuple[Point, ...] = height(about="A rectangle along the rails that holds it")
    area: float = described(about="How much bed there is in it", unit="m2")


@dataclass(frozen=True)
class RailPlan:
    """The rails of the room with what must be known about them.

    `layouts` are the same rails in their own frames, one for each region of the room, for dividing it into sections.
    """

    direction: float
    rails: tuple[Rail, ...]
    hand_areas: tuple[HandArea, ...]
    cautions: tuple[Caution, ...]
    layouts: tuple[Layout, ...]


def check_rail_design(design: RailDesign) -> list[Problem]:
    """Problems of the tools at hand: a straightedge that spans nothing, an overlap as long as the strip."""
    found = []
    least = 2.0 * design.bearing + LEAST_SPAN
    if design.straightedge < least:
        values = {"straightedge": design.straightedge, "bearing": design.bearing, "least": least}
        found.append(problem_at("rails.straightedge", "straightedge_too_short", **values))
    most = max(0.0, design.strip.length - LEAST_MOVE)
    if design.overlap > most:
        found.append(problem_at("rails.overlap", "overlap_too_long", overlap=design.overlap, most=most))
    return found


def rails_from(
    regions: Sequence[Region],
    fixtures: Sequence[Fixture],
    design: RailDesign,
    exits: Sequence[Point],
    *,
    subfloor: Height,
    top: Height,
) -> RailPlan:
    """The rails of a room.

    `regions` are the bed's areas, `exits` the places where the crew leaves (none: the first end counts as far),
    `subfloor` and `top` give z in mm at (x, y). A room too small for rails gives none, and a caution.
    `direction` of the answer is the first region's, in degrees. The design must have passed `check_rail_design`.
    """
    layouts = tuple(_layout_that_fits(region, fixtures, design) for region in regions)
    rails = tuple(_rail(*named, design, exits, (subfloor, top)) for named in _named(layouts))
    hands = tuple(_hand_area(layout, spot) for layout in layouts if layout.pieces for spot in layout.by_hand)
    cautions = (*_layout_cautions(layouts, hands, design), *_thick_strips(rails, design.strip))
    direction = layouts[0].frame.degrees if layouts else 0.0
    return RailPlan(direction, rails, hands, cautions, layouts)


def _layout_that_fits(region: Region, fixtures: Sequence[Fixture], design: RailDesign) -> Layout:
    """The layout at the inset asked for; where no rail fits, at half of it, then with the strip just off the wall.

    An inset of less than half the strip's width counts as that: the strip would lie in the wall.
    """
    inset = max(design.inset, design.strip.width / 2.0)
    closest = min(inset, CLEAR_OF_FIXTURE + design.strip.width / 2.0)
    tries = sorted({inset, max(inset / 2.0, closest), closest}, reverse=True)
    layouts = (layout_of(region, fixtures, design, each) for each in tries)
    first = next(layouts)
    return first if first.pieces else next((layout for layout in layouts if layout.pieces), first)


def _named(layouts: Sequence[Layout]) -> Iterable[tuple[str, Layout, Piece]]:
    lines = [(layout, list(run)) for layout in layouts for _, run in groupby(layout.pieces, key=lambda p: p.v)]
    for n, (layout, run) in enumerate(lines):
        for m, piece in enumerate(run):
            yield (_letters(n) + (str(m + 1) if len(run) > 1 else ""), layout, piece)


def _letters(n: int) -> str:
    """A, B, ... Z, AA, AB, ..."""
    return (_letters(n // 26 - 1) if n >= 26 else "") + ascii_uppercase[n % 26]


def _rail(
    name: str,
    layout: Layout,
    piece: Piece,
    design: RailDesign,
    exits: Sequence[Point],
    heights: tuple[Height, Height],
) -> Rail:
    start, end = layout.frame.placed(piece.start, piece.v), layout.frame.placed(piece.end, piece.v)
    stations = stations_along(start, end, design, *heights)
    is_start_far = not exits or _to_nearest(start, exits) >= _to_nearest(end, exits)
    settings = settings_along(piece.length, [station.along for station in stations], design, is_start_far)
    return Rail(name, start, end, stations, settings)


def _to_nearest(at: Point, places: Sequence[Point]) -> float:
    return min(math.dist(at, place) for place in places)


def stations_along(
    start: Point, end: Point, design: RailDesign, subfloor: Height, top: Height
) -> tuple[Station, ...]:
    """Stations at both ends and evenly between, no further apart than the design's spacing.

    `shim` is computed as top less strip less subfloor, in this order, and not rounded.
    """
    size = math.dist(start, end)
    count = max(1, math.ceil(size / design.station_spacing - 1e-9))
    return tuple(
        _station(start, end, n / count, size, design.strip.thickness, subfloor, top) for n in range(count + 1)
    )


def _station(
    start: Point, end: Point, share: float, size: float, thickness: float, subfloor: Height, top: Height
) -> Station:
    at = end if share == 1.0 else between(start, end, share)
    z, z_top = subfloor(*at), top(*at)
    return Station(at, share * size, z, z_top, z_top - thickness - z)


def settings_along(
    size: float, stations: Sequence[float], design: RailDesign, is_start_far: bool
) -> tuple[Setting, ...]:
    """The strip's lies along a rail of `size` mm, from its far end to the way out.

    Each keeps at least the design's overlap of the one before, the moves being even; a rail no longer than a strip
    has one lie.
    """
    strip = design.strip.length
    moves = max(0, math.ceil((size - strip) / (strip - design.overlap) - 1e-9))
    starts = [0.0] if moves == 0 else [(size - strip) * n / moves for n in range(moves + 1)]
    lies = [(start, min(size, start + strip)) for start in starts]
    ordered = lies if is_start_far else lies[::-1]
    return tuple(Setting(n + 1, *lie, _under(stations, lie)) for n, lie in enumerate(ordered))


def _under(stations: Sequence[float], lie: tuple[float, float]) -> tuple[int, ...]:
    """Stations under the strip; they stand in order, and in a long rail there are many."""
    first, past = bisect_left(stations, lie[0] - ROUNDING), bisect_right(stations, lie[1] + ROUNDING)
    return tuple(range(first, past))


def _hand_area(layout: Layout, spot: Spot) -> HandArea:
    us, vs = (spot.start, spot.end), (spot.low, spot.high)
    corners = ((us[0], vs[0]), (us[1], vs[0]), (us[1], vs[1]), (us[0], vs[1]))
    middle = layout.frame.placed(sum(us) / 2.0, sum(vs) / 2.0)
    return HandArea(middle, layout.frame.placed_ring(corners), spot.area / 1e6)


def _layout_cautions(layouts: Sequence[Layout], hands: Sequence[HandArea], design: RailDesign) -> Iterable[Caution]:
    for layout in layouts:
        area = layout.floor.region.area / 1e6
        if layout.is_too_wide:
            yield caution_at("rails", "too_many_rails", straightedge=design.straightedge)
        elif not layout.pieces:
            yield caution_at("rails", "no_rails_fit", area=area, inset=design.inset)
        elif layout.floor.inset != design.inset:
            code = "inset_reduced" if layout.floor.inset < design.inset else "inset_raised"
            yield caution_at("rails", code, used=layout.floor.inset, inset=design.inset)
        if len(layout.pieces) == 1:
            yield caution_at("rails", "one_rail", area=area)
    if hands:
        total = math.fsum(hand.area for hand in hands)
        yield caution_at("rails", "by_hand", count=len(hands), area=total, largest=max(hand.area for hand in hands))
    yield from _left_out(layouts)


def _left_out(layouts: Sequence[Layout]) -> Iterable[Caution]:
    """Stretches of a line too short for a rail, where that leaves bed to the float."""
    for layout in layouts:
        for piece in layout.left_out:
            u = (piece.start + piece.end) / 2.0
            if any(s.start <= u <= s.end and s.low <= piece.v <= s.high for s in layout.by_hand):
                x, y = layout.frame.placed(u, piece.v)
                yield caution_at("rails", "rail_too_short", length=piece.length, x=x, y=y)


def _thick_strips(rails: Sequence[Rail], strip: Strip) -> Iterable[Caution]:
    """Rails whose strip would stand above the top of bed: one caution each, at its worst station.

    Chipping is one of the cures, so its dust is told beside them.
    """
    if any(station.shim < 0.0 for rail in rails for station in rail.stations):
        yield caution_at("rails", "silica")
    for n, rail in enumerate(rails):
        over = [m for m, station in enumerate(rail.stations) if station.shim < 0.0]
        if over:
            worst = min(over, key=lambda m: rail.stations[m].shim)
            yield _thick_strip(f"rails[{n}]", rail, worst, len(over), strip)


def _thick_strip(where: str, rail: Rail, worst: int, count: int, strip: Strip) -> Caution:
    station = rail.stations[worst]
    depths = {"bed": station.top - station.subfloor, "strip": strip.thickness, "over": -station.shim}
    place = {"x": station.at[0], "y": station.at[1], "station": worst + 1, "count": count}
    return caution_at(where, "strip_too_thick", rail=rail.id, **depths, **place)
