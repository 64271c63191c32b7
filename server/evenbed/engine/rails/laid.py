"""Rails: where the strips go, and how high the ramp under each is, station by station."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign, Strip
from evenbed.engine.document.room import Fixture
from evenbed.engine.geometry import between
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.rails.as_placed import check_lines, letters_of, placed_layouts
from evenbed.engine.rails.broken import as_placed_cautions
from evenbed.engine.rails.choice import CLEAR_OF_FIXTURE, Layout, layout_of, longest_straightedge
from evenbed.engine.rails.lines import ROUNDING, Piece
from evenbed.engine.rails.shapes import FirstStation, HandArea, LaidStrip, Rail, Setting, Station
from evenbed.engine.region import Region

Height = Callable[[float, float], float]
LEAST_SPAN = 100.0  # mm between rails: less is a slip of the finger
SIXTEENTH = 25.4 / 16.0  # mm
LEAST_MOVE = 100.0  # mm that a strip moves on: less is a slip of the finger


@dataclass(frozen=True)
class RailPlan:
    """The rails of the room with what must be known about them.

    `layouts` are the same rails in their own frames, one for each region of the room, for dividing it into sections.
    """

    direction: float
    rails: tuple[Rail, ...]
    first_station: FirstStation | None
    hand_areas: tuple[HandArea, ...]
    hand_share: float
    cautions: tuple[Caution, ...]
    layouts: tuple[Layout, ...]


def check_rail_design(design: RailDesign) -> list[Problem]:
    """Problems of the tools at hand: a straightedge that spans nothing, an overlap as long as the strip."""
    found = []
    least = 2.0 * design.bearing + LEAST_SPAN
    longest = longest_straightedge(design)
    if longest < least:
        values = {"straightedge": longest, "bearing": design.bearing, "least": least}
        found.append(problem_at("rails.straightedge", "straightedge_too_short", **values))
    most = max(0.0, design.strip.length - LEAST_MOVE)
    if design.overlap > most:
        found.append(problem_at("rails.overlap", "overlap_too_long", overlap=design.overlap, most=most))
    return [*found, *check_lines(design)]


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
    layouts = _layouts(regions, fixtures, design)
    rails = tuple(_rail(*named, design, exits, (subfloor, top)) for named in _named(layouts))
    hands = tuple(_hand_areas(layouts))
    broken = as_placed_cautions(layouts, design) if design.lines is not None else ()
    cautions = (*broken, *_layout_cautions(layouts, hands, design), *_thick_strips(rails, design.strip))
    direction = layouts[0].frame.degrees if layouts else 0.0
    whole = math.fsum(region.area for region in regions) / 1e6
    share = math.fsum(hand.area for hand in hands) / whole if whole > 0.0 else 0.0
    return RailPlan(direction, rails, _first_station(rails), hands, share, cautions, layouts)


def _layouts(regions: Sequence[Region], fixtures: Sequence[Fixture], design: RailDesign) -> tuple[Layout, ...]:
    """The rails as a person placed them, or as they are proposed."""
    if design.lines is not None:
        return placed_layouts(regions, fixtures, design)
    return tuple(_layout_that_fits(region, fixtures, design) for region in regions)


def _first_station(rails: Sequence[Rail]) -> FirstStation | None:
    """The station with the least shim: where to start."""
    shims = [(station.shim, n, m) for n, rail in enumerate(rails) for m, station in enumerate(rail.stations)]
    if not shims:
        return None
    _, n, m = min(shims)
    return FirstStation(rails[n].id, m)


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
            yield (piece.id or letters_of(n) + (str(m + 1) if len(run) > 1 else ""), layout, piece)


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
    ramps = _ramp_volume(stations, design.strip.width)
    strip = design.strip
    laid = LaidStrip(strip.thickness, strip.width, strip.length)
    return Rail(name, start, end, laid, stations, settings, ramps)


def _ramp_volume(stations: Sequence[Station], width: float) -> float:
    """Mortar under the strips, as wide as they are, m3."""
    return math.fsum(
        (b.along - a.along) * (max(0.0, a.shim) + max(0.0, b.shim)) / 2.0 * width / 1e9 for a, b in pairwise(stations)
    )


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
    shim = z_top - thickness - z
    return Station(at, share * size, z, z_top, shim, round(shim / SIXTEENTH), round(shim), is_break=False)


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
    overlaps = (0.0, *(min(a[1], b[1]) - max(a[0], b[0]) for a, b in pairwise(ordered)))
    return tuple(
        Setting(n + 1, *lie, _under(stations, lie), overlap, strip=None)
        for n, (lie, overlap) in enumerate(zip(ordered, overlaps, strict=True))
    )


def _under(stations: Sequence[float], lie: tuple[float, float]) -> tuple[int, ...]:
    """Stations under the strip; they stand in order, and in a long rail there are many."""
    first, past = bisect_left(stations, lie[0] - ROUNDING), bisect_right(stations, lie[1] + ROUNDING)
    return tuple(range(first, past))


def _hand_areas(layouts: Sequence[Layout]) -> Iterable[HandArea]:
    spots = [(layout, spot) for layout in layouts if layout.pieces for spot in layout.by_hand]
    for n, (layout, spot) in enumerate(spots, start=1):
        us, vs = (spot.start, spot.end), (spot.low, spot.high)
        corners = ((us[0], vs[0]), (us[1], vs[0]), (us[1], vs[1]), (us[0], vs[1]))
        middle = layout.frame.placed(sum(us) / 2.0, sum(vs) / 2.0)
        ring = layout.frame.placed_ring(corners)
        yield HandArea(f"H{n}", "between", "float", None, middle, ring, spot.area / 1e6)


def _layout_cautions(layouts: Sequence[Layout], hands: Sequence[HandArea], design: RailDesign) -> Iterable[Caution]:
    for layout in layouts:
        area = layout.floor.region.area / 1e6
        if layout.is_placed:
            pass
        elif layout.is_too_wide:
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
