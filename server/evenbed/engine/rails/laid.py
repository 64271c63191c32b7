"""Rails: the entry. Lay-outs of the regions, then the rails made of strips on them, with what must be said."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby, islice

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.places import Point
from evenbed.engine.document.rails import RailDesign
from evenbed.engine.document.room import Fixture
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.rails.as_placed import check_lines, letters_of, placed_layouts
from evenbed.engine.rails.broken import as_placed_cautions
from evenbed.engine.rails.choice import CLEAR_OF_FIXTURE, Layout, layout_of, longest_straightedge
from evenbed.engine.rails.made import Heights, MadeRails
from evenbed.engine.rails.moves import LEAST_MOVE
from evenbed.engine.rails.neighbours import Planes
from evenbed.engine.rails.shapes import FirstStation, Rail
from evenbed.engine.rails.stations import Height
from evenbed.engine.rails.strips import kinds_of, with_widest_strip
from evenbed.engine.rails.thickness import thick_strips
from evenbed.engine.region import Region

LEAST_SPAN = 100.0  # mm between rails: less is a slip of the finger


@dataclass(frozen=True)
class RailPlan:
    """The rails of the room with what must be known about them.

    `layouts` are the same rails in their own frames, one for each region of the room, for dividing it into sections.
    """

    direction: float
    rails: tuple[Rail, ...]
    first_station: FirstStation | None
    cautions: tuple[Caution, ...]
    layouts: tuple[Layout, ...]


def check_rail_design(design: RailDesign) -> list[Problem]:
    """Problems of the tools at hand: a straightedge that spans nothing, an overlap that lets no strip move on."""
    found = []
    least = 2.0 * design.bearing + LEAST_SPAN
    longest = longest_straightedge(design)
    if longest < least:
        values = {"straightedge": longest, "bearing": design.bearing, "least": least}
        found.append(problem_at("rails.straightedge", "straightedge_too_short", **values))
    most = max(0.0, max(kind.length for kind in kinds_of(design)) - LEAST_MOVE)
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
    planes: Planes | None = None,
) -> RailPlan:
    """The rails of a room.

    `regions` are the bed's areas, `exits` the places where the crew leaves (none: the first end counts as far),
    `subfloor` and `top` give z in mm at (x, y), `planes` the top's planes along a straight way (none: it is straight
    everywhere). A room too small for rails gives none, and a caution.
    `direction` of the answer is the first region's, in degrees. The design must have passed `check_rail_design`.
    """
    layouts = _layouts(regions, fixtures, with_widest_strip(design))
    made = _made(layouts, design, exits, Heights(subfloor, top, planes))
    rails = tuple(rail for region in made for rail in region.rails)
    broken = as_placed_cautions(layouts, design) if design.lines is not None else ()
    cautions = (*broken, *_layout_cautions(layouts, design), *thick_strips(rails), *_made_cautions(made))
    direction = layouts[0].frame.degrees if layouts else 0.0
    return RailPlan(direction, rails, _first_station(rails), cautions, layouts)


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


def _made(
    layouts: Sequence[Layout], design: RailDesign, exits: Sequence[Point], heights: Heights
) -> tuple[MadeRails, ...]:
    """Each layout's rails, their letters going on from one region to the next."""
    names = iter(_names(layouts))
    return tuple(
        MadeRails(layout, tuple(islice(names, len(layout.pieces))), design, tuple(exits), heights)
        for layout in layouts
    )


def _made_cautions(made: Sequence[MadeRails]) -> Iterable[Caution]:
    first = 0
    for region in made:
        for n, caution in region.cautions:
            yield caution if n is None else replace(caution, where=f"rails[{first + n}]")
        first += len(region.rails)


def _names(layouts: Sequence[Layout]) -> Iterable[str]:
    lines = [list(run) for layout in layouts for _, run in groupby(layout.pieces, key=lambda p: p.v)]
    for n, run in enumerate(lines):
        for m, piece in enumerate(run):
            yield piece.id or letters_of(n) + (str(m + 1) if len(run) > 1 else "")


def _layout_cautions(layouts: Sequence[Layout], design: RailDesign) -> Iterable[Caution]:
    for layout in layouts:
        area = layout.floor.region.area / 1e6
        if layout.is_placed:
            pass
        elif layout.is_too_wide:
            yield caution_at("rails", "too_many_rails", straightedge=longest_straightedge(design))
        elif not layout.pieces:
            yield caution_at("rails", "no_rails_fit", area=area, inset=design.inset)
        elif layout.floor.inset != design.inset:
            code = "inset_reduced" if layout.floor.inset < design.inset else "inset_raised"
            yield caution_at("rails", code, used=layout.floor.inset, inset=design.inset)
        if len(layout.pieces) == 1:
            yield caution_at("rails", "one_rail", area=area)
