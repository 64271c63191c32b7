"""Where a figure comes from: the sources the engine rests on, and how a figure explains itself.

Every shown figure can be tapped for its formula, what went into it and the source it rests on. Sources and formulas
are closed sets, so that a screen in another language says its own sentence from the code and the inputs.
"""

from dataclasses import dataclass

from evenbed.engine.document.fields import described

SOURCES: dict[str, str] = {
    "common_practice": "Common practice, no source.",
    "geometry": "Geometry: follows from the figures that went in.",
    "room": "As set in this room.",
    "surface": (
        "The subfloor is the Delaunay triangulation of the readings, linear in each triangle "
        "(Guibas and Stolfi, ACM Transactions on Graphics 4, 1985)."
    ),
    "kriging": (
        "Universal kriging over a plane (G. Matheron, 1969; N. Cressie, Statistics for Spatial Data, 1993), its "
        "Matérn covariance not fitted once but averaged over all that the readings leave likely by REML "
        "(D. A. Harville, 1977); all three from memory. Beliefs behind it, common practice, no source: a floor "
        "wanders off its plane by about 3 mm, an instrument errs about as much as is said of it, the floor's grain "
        "is 0.3 mm. The volume's range is a tenth wider than that says, as simulated floors ask."
    ),
    "neighbours": (
        "Kriging from the nearest readings: a plane of any lean and a Matérn covariance with ν = 3/2 (C. E. "
        "Rasmussen and C. K. I. Williams, Gaussian Processes for Machine Learning, 2006, from memory). How uneven an "
        "ordinary floor is: common practice, no source; a rougher one forgives more."
    ),
    "least_squares": (
        "Least squares over all readings and levelled differences, each weighed by one over its variance "
        "(C. D. Ghilani, Adjustment Computations, chapters 11 and 12, from memory)."
    ),
    "data_snooping": (
        "Data snooping: a good observation's residual is beyond 3.29 of its own standard errors once in a thousand "
        "times (W. Baarda, A Testing Procedure for Use in Geodetic Networks, 1968, from memory)."
    ),
    "absolute_volume": (
        "Absolute volume: the solid volumes, the water and the voids add up to the mortar. Relative density of "
        "cement 3.15 (Portland Cement Association, Design and Control of Concrete Mixtures, as quoted), of sand 2.65 "
        "(published range 2.60 to 2.75), of hydrated lime 2.30 (from memory); water 62.4 lb/ft³ by convention."
    ),
    "sand_loose": (
        "1 ft³ of damp loose sand holds 80 lb of dry sand, and a 94 lb bag of cement is 1 ft³ loose: "
        "conventions of ASTM C150 and C270 (from memory)."
    ),
    "lime_loose": (
        "1 ft³ of hydrated lime weighs 40 lb, and a 94 lb bag of cement is 1 ft³ loose: "
        "conventions of ASTM C150 and C270 (from memory)."
    ),
    "span_tables": (
        "Span tables for wood floors allow 10 or 20 lb/ft² of dead load (IRC R502.3.1, as quoted). Dead load is all "
        "that stays, the floor's own boards, joists and ceiling included."
    ),
    "linear_programme": (
        "A linear programme, solved exactly by the dual simplex method (C. E. Lemke, Naval Research Logistics "
        "Quarterly 1, 1954, from memory). What relief saves are its dual values."
    ),
    "movement_joints": (
        "Movement joints: tile handbook, detail EJ171, as quoted in trade journals. Indoors each 20 to 25 ft both "
        "ways, outdoors and indoors in sun or wet each 8 to 12 ft, at every wall and inside corner; outdoors 3/8 in "
        "wide at 8 ft, 1/2 in at 12 ft and 1/16 in more for each 15 °F of range above 100 °F, indoors 1/4 in. "
        "Editions differ: the one in force decides."
    ),
    "perimeter_joint": (
        "Perimeter joint of at least 1/4 in (from memory). That it runs on through doorways, where tile meets "
        "another floor: common practice, no source."
    ),
    "expansion": (
        "Linear expansion, as physics has it. How much tile grows and how far a sealant gives is for their makers to "
        "say; 6 millionths for each °F and ±25 % are common (from memory)."
    ),
    "maturity": (
        "Equivalent age in the form of ASTM C1074, with Q = 5000 K unless the room says otherwise (both from memory)."
    ),
    "tile_on_cured_bed": (
        "Tile on a cured bed: at least 20 h at 21 °C or more, ANSI A108.1B (from memory). "
        "An older bulletin asks 24 h at 70 °F."
    ),
    "ada_303": (
        "Changes in level: 2010 ADA Standards for Accessible Design, section 303 (to 1/4 in upright, to 1/2 in "
        "bevelled 1:2, more is a ramp) and section 405 (a ramp 1:12). Flush below 1 mm: common practice, no source."
    ),
}


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
        "walls = drain + least fall × longest way from a corner to the drain's edge; straight falls from the walls to "
        "the edge, beyond cuts along walls square to the cut; the drain's own ring is level and mortar under it is "
        "counted",
        "geometry",
    ),
    "top_from_walls": Formula(
        "straight falls from walls at the height chosen to the drain's edge, beyond cuts along walls at the least fall "
        "square to the cut; the drain's own ring is level and mortar under it is counted",
        "geometry",
    ),
    "top_to_line": Formula(
        "top = drain + fall × distance from the drain's edge, square to its line, level along the line from wall to "
        "wall; the drain's own width is level and mortar under it is counted",
        "geometry",
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
    "shim": Formula("shim = top − strip − subfloor", "geometry"),
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
        "load = bags / (their number / bags on each other, rounded up × floor of one)", "common_practice"
    ),
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
    "readiness_tile": Formula("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what tile needs", "tile_on_cured_bed"),
    "readiness_practice": Formula("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what the milestone needs", "common_practice"),
    "readiness_room": Formula("Σ exp(−Q (1/T − 1/Tr)) Δt reaches what the milestone needs", "room"),
    "equivalent_age": Formula("equivalent age = Σ exp(−Q (1/T − 1/Tr)) Δt, T in kelvin", "maturity"),
    "working_time": Formula("working time = working time at Tr / exp(−Q (1/T − 1/Tr))", "common_practice"),
}


@dataclass(frozen=True)
class Explanation:
    """What stands behind one figure of the plan."""

    code: str = described(about="Which formula, from a closed set")
    formula: str = described(about="How the figure is reckoned")
    inputs: dict[str, float | str] = described(about="What went in, by name")
    source: str = described(about="What the rule rests on")
    source_code: str = described(about="Which source, from a closed set")


def explanation_of(code: str, **inputs: float | str) -> Explanation:
    """The explanation `code` with what went in. Raises KeyError for a code outside FORMULAS."""
    formula = FORMULAS[code]
    return Explanation(code, formula.text, inputs, SOURCES[formula.source_code], formula.source_code)
