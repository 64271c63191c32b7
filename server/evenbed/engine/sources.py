"""Where a figure comes from: the sources the engine rests on, and how a figure explains itself.

Every shown figure can be tapped for its formula, what went into it and the source it rests on. Sources are a closed
set like formulas, so that a screen in another language says its own sentence from the code and the inputs.
"""

from dataclasses import dataclass

from evenbed.engine.document.fields import described
from evenbed.engine.flatness.sentences import FLATNESS_SOURCES
from evenbed.engine.formulas import FORMULAS
from evenbed.engine.waiting.sentences import WAITING_SOURCES

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
    **FLATNESS_SOURCES,
    **WAITING_SOURCES,
    "ada_303": (
        "Changes in level: 2010 ADA Standards for Accessible Design, section 303 (to 1/4 in upright, to 1/2 in "
        "bevelled 1:2, more is a ramp) and section 405 (a ramp 1:12). Flush below 1 mm: common practice, no source."
    ),
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
