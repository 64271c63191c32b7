"""What the bed is built of besides its mortar: membrane, reinforcement, perimeter strip, bond coat, tile."""

import math
from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.cost.material import Material, area_material
from evenbed.engine.cost.membrane import MOST_CUTS, MOST_STRIPS, best_strips, count_across, roll_yield
from evenbed.engine.document.room import BedDesign, Document, Fixture
from evenbed.engine.document.supplies import BondCoat, PerimeterStrip, Reinforcement, Supplies, TileSupply
from evenbed.engine.geometry import box_of, perimeter_of
from evenbed.engine.outline import Figure
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.region import Region
from evenbed.engine.sources import Explanation, explanation_of


def check_supplies(document: Document, figure: Figure) -> list[Problem]:
    """Problems of what an unbonded bed is laid with: laps that leave nothing, rolls too narrow for the room."""
    if document.bed.build != "unbonded":
        return []
    membrane, sheet = document.supplies.membrane, document.supplies.reinforcement
    narrow = [
        ("membrane", membrane.lap, min(membrane.roll_width, membrane.roll_length)),
        ("reinforcement", sheet.lap, min(sheet.sheet_width, sheet.sheet_length)),
    ]
    found = [
        problem_at(f"supplies.{name}.lap", "lap_too_wide", lap=lap, width=width, most=width / 2.0)
        for name, lap, width in narrow
        if lap > width / 2.0
    ]
    return found or _narrow_rolls(document, figure)


def _narrow_rolls(document: Document, figure: Figure) -> list[Problem]:
    membrane, (left, low, right, high) = document.supplies.membrane, box_of(figure.outer)
    count = count_across(math.hypot(right - left, high - low), membrane)
    most = min(MOST_STRIPS, MOST_CUTS // sum(len(ring) for ring in figure.rings))
    if count <= most:
        return []
    values = {"width": membrane.roll_width, "count": count, "most": most}
    return [problem_at("supplies.membrane.roll_width", "roll_too_narrow", **values)]


def build_up_materials(document: Document, figure: Figure, regions: Sequence[Region]) -> tuple[Material, ...]:
    """What the room's figure asks for, in the order of the job. Supplies have passed `check_supplies`.

    Membrane and reinforcement belong to an unbonded bed. Areas are those of the bed, cutouts taken out.
    """
    supplies, fixtures = document.supplies, document.fixtures
    edges = restraint_of(regions, fixtures)
    unbonded = _unbonded_materials(supplies, figure, regions) if document.bed.build == "unbonded" else ()
    return (*unbonded, _strip(edges, supplies.perimeter_strip), *_covering(document.bed, supplies, figure.area))


def restraint_of(regions: Iterable[Region], fixtures: Iterable[Fixture]) -> float:
    """Length in mm of all that the bed must be kept clear of: walls, cutouts, and round what stands in it."""
    walls = [perimeter_of(ring) for region in regions for ring in region.rings]
    return math.fsum((*walls, *(_round(fixture) for fixture in fixtures)))


def _round(fixture: Fixture) -> float:
    """Round a fixture: a circle, or for a linear drain a circle drawn out; 0 where its radius is unknown."""
    along = 0.0 if fixture.to is None else math.dist(fixture.at, fixture.to)
    return math.tau * fixture.radius + 2.0 * along


def _unbonded_materials(supplies: Supplies, figure: Figure, regions: Sequence[Region]) -> tuple[Material, ...]:
    membrane = supplies.membrane
    strips = best_strips(regions, figure.vertices, membrane)
    metres = strips.length / 1e3
    laid = area_material(
        "membrane",
        metres * membrane.roll_width / 1e3,
        "m2",
        roll_yield(membrane),
        strips=strips.pieces,
        metres=metres,
        length=strips.length,
        roll_width=membrane.roll_width,
        lap=membrane.lap,
        turned_up=membrane.turned_up,
    )
    return (laid, _sheets(figure.area, supplies.reinforcement))


def _sheets(area: float, sheet: Reinforcement) -> Material:
    whole = sheet.sheet_width * sheet.sheet_length / 1e6
    net = (sheet.sheet_width - sheet.lap) * (sheet.sheet_length - sheet.lap) / 1e6
    quantity = area / net * whole * (1.0 + sheet.waste)
    return area_material(
        "reinforcement",
        quantity,
        "m2",
        whole,
        area=area,
        net_area=net,
        lap=sheet.lap,
        waste=sheet.waste,
        waste_percent=100.0 * sheet.waste,
    )


def _strip(edges: float, strip: PerimeterStrip) -> Material:
    metres, waste = edges / 1e3, strip.waste
    told = {"metres": metres, "length": edges, "waste": waste, "waste_percent": 100.0 * waste}
    return area_material("perimeter_strip", metres * (1.0 + waste), "m", strip.piece / 1e3, **told)


def _covering(bed: BedDesign, supplies: Supplies, area: float) -> Iterator[Material]:
    """Bond coat and tile; what has no thickness is not there."""
    covering = bed.covering
    if covering.bond_thickness > 0.0:
        yield _bond_coat(covering.bond_thickness, area, supplies.bond_coat)
    if covering.tile_thickness > 0.0:
        yield _tile(area, supplies.tile)


def _bond_coat(thickness: float, area: float, bond: BondCoat) -> Material:
    quantity = area * thickness / 1e3 * bond.density * (1.0 + bond.waste)
    told = {"area": area, "thickness": thickness, "density": bond.density, "waste": bond.waste}
    return area_material("bond_coat", quantity, "kg", bond.bag_mass, **told, waste_percent=100.0 * bond.waste)


def _tile(area: float, tile: TileSupply) -> Material:
    told = {"area": area, "waste": tile.waste, "waste_percent": 100.0 * tile.waste}
    return area_material("tile", area * (1.0 + tile.waste), "m2", tile.box_area, **told)


EXPLAINED: dict[str, tuple[str, ...]] = {
    "membrane": ("strips", "length", "roll_width", "lap", "turned_up"),
    "reinforcement": ("area", "package_size", "net_area", "waste"),
    "perimeter_strip": ("length", "waste"),
    "bond_coat": ("thickness", "area", "density", "waste"),
    "tile": ("area", "waste"),
}
"""Which of a row's figures went into its quantity."""


def build_up_explanations(materials: Iterable[Material], first: int) -> dict[str, Explanation]:
    """What stands behind the rows, keyed by their path in the plan; `first` is the place of the first one there."""
    return {
        f"materials[{n}]": explanation_of(m.code, **{name: m.values[name] for name in EXPLAINED[m.code]})
        for n, m in enumerate(materials, start=first)
    }
