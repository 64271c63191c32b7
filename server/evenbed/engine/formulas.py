"""How figures are reckoned: one formula for each, and the code of the source that its rule rests on.

The formulas are a closed set, so that a screen in another language says its own sentence from the code.
"""

from dataclasses import dataclass

from evenbed.engine.flatness.sentences import FLATNESS_FORMULAS
from evenbed.engine.flatness.work_sentences import WORK_FORMULAS
from evenbed.engine.waiting.sentences import WAITING_FORMULAS


@dataclass(frozen=True)
class Formula:
    """How a figure is reckoned, in words and signs, and the code of the source the rule rests on."""

    text: str
    source_code: str


FORMULAS: dict[str, Formula] = {
    "area": Formula("area = ½ Σ (x₁ y₂ − x₂ y₁) over the walls, cutouts taken out", "geometry"),
    "highest": Formula("high spot = the highest point of the subfloor in the room", "surface"),
    "top_lowest": Formula("top = high spot + minimum thickness", "geometry"),
    "top_given": Formula("top = a + b x + c y, as chosen", "room"),
    "top_through": Formula("top = a + b x + c y through the points chosen, level square to the line of two", "room"),
    "top_to_drain": Formula(
        "walls = drain + least fall × longest way from a corner to the drain's edge; straight falls from the walls "
        "to the edge, beyond cuts along walls square to the cut; the drain's own ring is level and mortar under "
        "it is counted",
        "geometry",
    ),
    "top_from_walls": Formula(
        "straight falls from walls at the height chosen to the drain's edge, beyond cuts along walls at the least "
        "fall square to the cut; the drain's own ring is level and mortar under it is counted",
        "geometry",
    ),
    "top_to_line": Formula(
        "top = drain + fall × distance from the drain's edge, square to its line, level along the line from wall to "
        "wall; the drain's own width is level and mortar under it is counted",
        "geometry",
    ),
    "relief": Formula("saves = ∫ how fast the top sinks as this is relieved, over where there is mortar", "geometry"),
    "relief_by_duals": Formula(
        "saves = the dual value of what is asked: how fast the least mortar follows it", "linear_programme"
    ),
    "top_two_levels": Formula("ramp: slope = difference of the two levels / width of the ramp", "geometry"),
    "least_mortar": Formula(
        "top = the plane a + b x + c y with the least area × (height over the room's centroid) that keeps the "
        "thickness, the held heights and the largest fall",
        "linear_programme",
    ),
    "least_mortar_tied": Formula(
        "top = of the planes a + b x + c y with the least area × (height over the room's centroid) that keep the "
        "thickness and the held heights, the one that falls least",
        "linear_programme",
    ),
    "thickness": Formula("thickness = top − subfloor", "surface"),
    "mean_thickness": Formula("mean thickness = volume / area", "geometry"),
    "thin_area": Formula("too thin = area where top − subfloor < least thickness, exact", "surface"),
    "thick_area": Formula("too thick = area where top − subfloor > greatest thickness, exact", "surface"),
    "shim": Formula("shim = top − strip − subfloor", "geometry"),
    "shim_rounded": Formula(
        "shims to whole units, each up or down, so that first the largest difference of two neighbours' rounding, "
        "then Σ of these differences squared, then Σ of the rounding squared is least",
        "geometry",
    ),
    "ramp_volume": Formula(
        "mortar under the strips = ∫ shim × (strip's width + shim) along the rail: sides slope 1:1, shims straight "
        "between stations, none below 0",
        "common_practice",
    ),
    "truing_worst": Formula(
        "ends of all rails, each a straight line, that make Σ (residual / standard error)² least over all readings "
        "together, the level's own error among the unknowns; worst = the one furthest from the top",
        "least_squares",
    ),
    "truing_raise": Formula(
        "raise = − how much that end stands too high, by all readings together; rails that lie well stay",
        "least_squares",
    ),
    "truing_mortar": Formula(
        "mortar = strip's width × rail's length × raise / 2, a wedge under the rail", "geometry"
    ),
    "level_error": Formula(
        "error = (reading − reading with the level turned end for end) / 2 / length, by all readings together",
        "least_squares",
    ),
    "volume": Formula("volume = ∫ (top − subfloor) over the room, triangle by triangle, exact", "surface"),
    "finished_height": Formula("finished floor = top of bed + bond coat + tile", "geometry"),
    "doorway_thickness": Formula("least of top − subfloor along the opening or at the fixture", "surface"),
    "clearance": Formula("clearance = underside of the door − highest finished floor along the opening", "geometry"),
    "step": Formula("step = finished floor − floor beyond", "geometry"),
    "step_flush": Formula("less than 1 mm either way is flush and needs nothing", "ada_303"),
    "step_upright": Formula("to 1/4 in (6.35 mm) may stand upright, with an edge strip", "ada_303"),
    "step_bevelled": Formula(
        "above 1/4 in to 1/2 in (12.7 mm) is bevelled 1:2: length = 2 × step; the lowest 1/4 in may stand upright, "
        "which makes it shorter",
        "ada_303",
    ),
    "step_ramp": Formula("above 1/2 in (12.7 mm) is a ramp 1:12: length = 12 × step", "ada_303"),
    "fixture_difference": Formula("difference = finished floor − top of the fixture", "geometry"),
    "layer_given": Formula("thickness as set in this room, the same everywhere", "room"),
    "layer_bed": Formula("mortar = top − subfloor − membrane", "surface"),
    "layer_total": Formula("in all = top − subfloor + bond coat + tile", "surface"),
    "chip_lowered": Formula(
        "saves = floor area × depth − chipped off; the top comes down parallel by the depth, not designed anew; "
        "chipped off = ∫ (depth − spare thickness) where that is positive, spare thickness = thickness − minimum",
        "surface",
    ),
    "chip_cleared": Formula(
        "the top stays: chipped off = ∫ (minimum − thickness) where that is positive, no deeper than may be chipped; "
        "saves = mortar before − mortar after, negative",
        "surface",
    ),
    "chip_first": Formula("no prices: the highest spot alone, down to where the next one governs", "common_practice"),
    "chip_best": Formula(
        "depth that makes mortar saved × its cost in place − hours of chipping × cost of an hour greatest; "
        "hours = per area × area + per area and depth × chipped off; margin not counted",
        "room",
    ),
    "adjusted": Formula(
        "heights that make Σ (residual / standard error)² least, counted from the benchmark or the highest reading",
        "least_squares",
    ),
    "sigma0": Formula(
        "sigma0 = √(Σ (residual / standard error)² / measurements beyond those needed); near 1 where instruments err "
        "as was said of them; standard errors of heights are multiplied by it",
        "least_squares",
    ),
    "foretold": Formula(
        "difference = height read − height foretold by the nearest readings; doubted beyond 2.5 standard errors",
        "neighbours",
    ),
    "snooped": Formula(
        "difference = height read − height by all other measurements; doubted beyond 3.29 standard errors",
        "data_snooping",
    ),
    "volume_range": Formula(
        "from the 5 % to the 95 % point of ∫ (top − subfloor) over the room, the top held where it is, the subfloor "
        "a plane and what wanders off it; wide enough to hold the volume itself",
        "kriging",
    ),
    "surface_model": Formula(
        "height = plane + wander + error; of two places a distance h apart the wander's covariance is "
        "sill² (1 + s) exp(−s), s = 4.74 h / range",
        "kriging",
    ),
    "doubt": Formula("standard error = √ of the kriging variance, averaged over the likely covariances", "kriging"),
    "higher": Formula(
        "share of 960 floors drawn from what the readings leave possible whose high spot stands above the highest "
        "reading by more than the amount",
        "kriging",
    ),
    "next_reading": Formula(
        "gain = 1 − √(the volume's variance with one more reading there / without it), those before it taken as read",
        "kriging",
    ),
    "bags_range": Formula("bags = ends of the volume's range × (1 + waste) / yield of a bag, rounded up", "kriging"),
    "mix_yield": Formula(
        "yield = (Σ mass / (relative density × density of water) + water / density of water) / (1 − air)",
        "absolute_volume",
    ),
    "mix_cement": Formula("cement = volume × (1 + waste) / yield of a bag × bag mass", "absolute_volume"),
    "mix_lime": Formula("lime = parts × loose volume of the cement × 40 lb/ft³", "lime_loose"),
    "mix_sand": Formula(
        "dry sand = parts × loose volume of the cement × 80 lb/ft³ × 1.25 / (1 + bulking)", "sand_loose"
    ),
    "mix_water": Formula("water = cement × water-cement ratio, the sand's own water included", "room"),
    "water_to_add": Formula("water to add = water − dry sand × moisture, never below 0", "geometry"),
    "membrane": Formula(
        "membrane = roll width × Σ (length covered + 2 × turned up), strips a roll width less a lap apart, laid "
        "the way that takes less",
        "geometry",
    ),
    "reinforcement": Formula(
        "sheets = area × sheet / ((width − lap) (length − lap)) × (1 + waste)", "common_practice"
    ),
    "perimeter_strip": Formula("strip = (walls + cutouts + round what stands in the bed) × (1 + waste)", "geometry"),
    "bond_coat": Formula("bond coat = area × thickness × density × (1 + waste)", "common_practice"),
    "tile": Formula("tile = area × (1 + waste)", "geometry"),
    "quote_line": Formula("cost = packages (loose m³ of sand) × price", "room"),
    "quote_materials": Formula("material = Σ of the lines", "room"),
    "labour_hours": Formula("hours = to set up + hours a m² × area + hours a m³ × volume", "room"),
    "quote_labour": Formula("labour = hours × price of an hour", "room"),
    "quote_margin": Formula("margin = (material + labour) × margin as a fraction", "room"),
    "quote_total": Formula("total = material + labour + margin, not rounded before", "room"),
    "quote_range": Formula("the total with the ends of the volume's range in place of the volume", "kriging"),
    "mix_density": Formula("density = mass of everything in a bag's mortar / yield of a bag", "absolute_volume"),
    "bed_mass": Formula("mass = bed volume × density", "absolute_volume"),
    "load_mean": Formula("mean load = mass / area", "geometry"),
    "load_max": Formula("worst load = greatest thickness × density", "geometry"),
    "covering_load": Formula(
        "covering = tile × density of tile + bond coat × density of its powder × (1 + mixing water)",
        "common_practice",
    ),
    "load_total": Formula("load = load of the bed + covering", "geometry"),
    "total_mass": Formula("weight = weight of the bed + covering × area", "geometry"),
    "exceeded": Formula("exceeded by = load of bed and covering − what the table allows", "span_tables"),
    "stacked": Formula(
        "load = weight of the heaviest bags that stand on each other / floor of one bag", "common_practice"
    ),
    "batch": Formula("of each = what goes with one bag × batch volume / yield of a bag", "geometry"),
    "mixed_volume": Formula("mixed volume = volume × (1 + waste)", "geometry"),
    "batches": Formula("batches = mixed volume / batch volume, rounded up", "geometry"),
    "joint_perimeter": Formula(
        "at least 1/4 in (6.35 mm) wherever tile meets a wall, a cutout, what stands in it or, in a doorway, another "
        "floor",
        "perimeter_joint",
    ),
    "joint_perimeter_length": Formula("length = walls + cutouts + round what stands in the bed", "geometry"),
    "joint_spacing_indoors": Formula(
        "indoors no panel longer than 25 ft (7.62 m), of a range of 20 to 25 ft", "movement_joints"
    ),
    "joint_spacing_outdoors": Formula(
        "outdoors, in sun or wet no panel longer than 12 ft (3.66 m), of a range of 8 to 12 ft", "movement_joints"
    ),
    "joint_spacing_own": Formula("no panel longer than set in this room", "room"),
    "joint_layout": Formula(
        "first the joints of the slab, then one from each inside corner and one through each large cutout, then even "
        "ones as far apart as the spacing allows, in line with others or on whole tiles where they can be",
        "common_practice",
    ),
    "joint_panel": Formula("the longest side of any panel, along or across the longest wall", "geometry"),
    "joint_width": Formula(
        "width = the greater of the published one and, where the range of temperature is known, the one by movement",
        "movement_joints",
    ),
    "joint_width_indoors": Formula("1/4 in (6.35 mm) indoors", "movement_joints"),
    "joint_width_outdoors": Formula(
        "3/8 in (9.5 mm) to 8 ft (2.44 m), 1/2 in (12.7 mm) at 12 ft (3.66 m), in proportion between and beyond; "
        "1/16 in (1.6 mm) more for each 15 °F (8.3 °C) begun of range above 100 °F (55.6 °C)",
        "movement_joints",
    ),
    "joint_movement": Formula("movement = expansion × longest panel × range of temperature", "expansion"),
    "joint_width_by_movement": Formula("width = movement / how far the sealant gives", "expansion"),
    **{code: Formula(*told) for code, told in (FLATNESS_FORMULAS | WORK_FORMULAS | WAITING_FORMULAS).items()},
    "section": Formula("section = ∫ (top − subfloor) over the section, exact", "surface"),
    "section_walk": Formula(
        "walk = from the middle of the section to the way out, over sections filled later, through the middles of "
        "the sides that they share, round inner corners",
        "geometry",
    ),
    "channel": Formula(
        "channels = Σ width of the strip × its thickness × length in the section; of two sections beside a strip the "
        "one filled later has it",
        "geometry",
    ),
    "edge": Formula("form = greatest of top − subfloor along the edge, exact", "surface"),
    "pace": Formula(
        "pace = Σ hours / Σ volume of finished sections; hours from the end of the section before to its own end, "
        "after a pause of more than 2 h from its own first mixing; stoppages taken out",
        "common_practice",
    ),
    "done": Formula(
        "likely = now + hours left, stoppages known of taken out; early and late = hours left × (1 ∓ spread), "
        "spread = 1.645 × s × √(1 / sections done + 1 / sections left), s² = (3 × 0.2² + Σ deviation²) / "
        "(2 + sections done), deviation of each section's pace as a share of the mean one",
        "common_practice",
    ),
    "last_batch": Formula("last batch = end of the day − working hours for a batch at the pace so far", "geometry"),
    "last_batch_unpaced": Formula(
        "no pace yet: last batch = end of the day − working time of a batch", "common_practice"
    ),
    "channels_due": Formula(
        "channels due = when the section was in place + working time at the temperature then", "common_practice"
    ),
    "stop_edges": Formula(
        "at a joint: half of the edge or more within 25 mm of it; along a rail: half of it or more on its line; "
        "else cut",
        "common_practice",
    ),
    "best_stop": Formula(
        "of the sections that can be filled before the day ends: the one after which the least edge is left away "
        "from rails and joints, then the least away from joints, then the least of all, then the soonest",
        "common_practice",
    ),
}
