"""Cautions: what can hurt a person or spoil the bed, said where the decision is made.

The codes are a closed set. The English sentence is made here; a screen in another language says its own from the code
and the values. Nothing here ever says that a floor is strong enough.
"""

from dataclasses import dataclass

from evenbed.engine.document.fields import described
from evenbed.engine.filling.sentences import FILLING_CAUTIONS
from evenbed.engine.flatness.sentences import FLATNESS_CAUTIONS
from evenbed.engine.flatness.work_sentences import WORK_CAUTIONS
from evenbed.engine.rails.sentences import RAIL_CAUTIONS
from evenbed.engine.truing.sentences import TRUING_CAUTIONS
from evenbed.engine.waiting.sentences import WAITING_CAUTIONS

CAUTIONS: dict[str, str] = {
    "load": (
        "The bed is dead load: {mean:.0f} kg/m² ({mean_lb_ft2:.1f} lb/ft²) on average, {max:.0f} kg/m² "
        "({max_lb_ft2:.1f} lb/ft²) at the thickest spot, {mass:.0f} kg in all, without tile. "
        "Whether the floor may carry it is for the local code and a licensed engineer."
    ),
    "span_tables": (
        "With tile it is {mean:.0f} kg/m² ({mean_lb_ft2:.1f} lb/ft²) on average, {max:.0f} kg/m² "
        "({max_lb_ft2:.1f} lb/ft²) at the thickest spot: more than the {limit_lb_ft2:.0f} lb/ft² of dead load that "
        "span tables for wood floors allow (IRC R502.3.1), the floor's own weight included. "
        "Turn to a licensed engineer and the local building office."
    ),
    "sand_too_wet": (
        "The sand brings {own:.1f} kg of water to a batch that wants {wanted:.1f} kg: add none, "
        "and let the sand drain before it is used."
    ),
    "wet_cement": (
        "Wet cement burns skin and eyes, sometimes without pain at first. Wear waterproof gloves and goggles; "
        "wash it off at once with clean water."
    ),
    "silica": (
        "Cutting, grinding, chipping and dry mixing throw silica dust: work wet or with extraction, "
        "and wear a respirator."
    ),
    "stacked_bags": (
        "{bags:.0f} bags and the sand are a point load where they are stacked: spread them out along the walls, "
        "and ask the engineer where the floor is in doubt."
    ),
    "lifting": "A bag of {bag_mass:.1f} kg ({bag_mass_lb:.0f} lb) is a lift for two people.",
    "too_thick": (
        "The bed is {thickness:.1f} mm at its thickest, more than {maximum:.1f} mm: "
        "a bed that thick must be designed by somebody licensed to."
    ),
    "shallow_fall": (
        "A fall of {fall:.2%} is less than the {least:.2%} (1/4 in per foot) asked of shower floors "
        "(IRC P2709.1, as quoted): water may stand."
    ),
    "steep_fall": (
        "At its steepest the top falls {fall:.2%}, more than the {most:.2%} (1/2 in per foot) allowed on shower "
        "floors (IRC P2709.1, as quoted): people slip. Move the drain towards the middle, or take a linear one."
    ),
    "drain_short": (
        "The drain leaves out {short:.0f} mm of the floor along its line: the floor is level along it there, "
        "and water stands. Take a longer drain."
    ),
    "steep_ramp": (
        "The ramp rises 1 in {run:.1f}, steeper than 1 in 12 (ADA 2010 Standards, section 405.2): "
        "for a rise of {rise:.1f} mm it takes {needed:.0f} mm."
    ),
    "step_in_floor": (
        "The floor has a step of {rise:.1f} mm. Beyond 6.35 mm (1/4 in) a change in level needs a bevel or a ramp "
        "(ADA 2010 Standards, section 303): people trip."
    ),
    "estimated_governs": (
        "No reading was taken at {x:.0f}, {y:.0f}: its height is estimated, and it decides. Read that place."
    ),
    "misread": (
        "Readings that the others do not bear out: {count:.0f}, the worst by {by:.0f} mm. "
        "Read them again before anything rests on them: one wrong reading makes the whole bed too thick or too thin."
    ),
    "tape_again": "The taped walls miss closing by {length:.0f} mm. Tape the longest ones again.",
    "drain": (
        "Showers, drains and waterproofing are for the local plumbing code and a licensed trade: "
        "only falls are reckoned here."
    ),
    "door_blocked": (
        "Doorway {id}: the finished floor stands {by:.1f} mm above the underside of the door. "
        "Trim the door or lower the floor."
    ),
    "door_tight": (
        "Doorway {id}: only {clearance:.1f} mm are left under the door. Trim the door or lower the floor."
    ),
    "fixture_proud": (
        "Fixture {id} stands {by:.1f} mm above the finished floor. How high a drain or flange must stand is for the "
        "local plumbing code and a licensed trade."
    ),
    "fixture_low": (
        "Fixture {id} lies {by:.1f} mm below the finished floor. How deep a drain or flange may lie is for the "
        "local plumbing code and a licensed trade."
    ),
    "joints_decide": (
        "Where movement joints go and how wide they are is for the edition of the tile handbook in force and for the "
        "designer: this is a lay-out to begin with. Never tile across a joint of the slab."
    ),
    "joints_far_apart": (
        "Joints {used:.0f} mm apart are further than the {most:.0f} mm of the tile handbook: ask the designer."
    ),
    "joints_range_unknown": (
        "No range of temperature is given: the width is the handbook's for up to 100 °F (56 °C) of it. "
        "Give the range that this floor goes through."
    ),
    "slab_joints_passed": (
        "Joints of the slab that hardly run through this room and were left out: {count:.0f}. Check where they are."
    ),
    "corners_without_joint": (
        "Inside corners without a joint, as one would leave a strip narrower than a tile: {count:.0f}. "
        "A crack begins there: ask the designer."
    ),
    "too_many_panels": (
        "Joints {spacing:.0f} mm apart would make more than {most:.0f} panels: only the joints of the slab are laid "
        "out. Take them further apart, or the floor in parts."
    ),
    "chip_silica": (
        "Chipping and grinding throw silica dust. Use water at the tool or a shroud with extraction; indoors wear a "
        "respirator of APF 10 or more (OSHA 1926.1153 table 1, Cal/OSHA 1532.3, read in part)."
    ),
    "chip_structure": (
        "Chipping goes into what carries the floor: never deeper than {most:.1f} mm here, and ask a licensed "
        "engineer first. A post-tensioned slab must not be chipped. A wood subfloor is planed or replaced, not "
        "chipped."
    ),
    "chip_too_deep": (
        "At {x:.0f}, {y:.0f} the bed would need {needed:.1f} mm chipped away, more than the {most:.1f} mm allowed: "
        "raise the top there."
    ),
    "chip_unread": (
        "The corner at {x:.0f}, {y:.0f} was never read: its height is estimated, and nothing deeper than {depth:.1f} "
        "mm is chipped for it. Read it first, then decide about chipping."
    ),
    "prediction": (
        "A prediction is not a test. The site and the makers' instructions decide; "
        "try the bed before anybody relies on it."
    ),
    "cold": (
        "Down to {lowest:.1f} °C while the bed hardens: below {limit:.0f} °C is outside the usual work range, "
        "and every wait grows longer."
    ),
    "frost": (
        "Down to {lowest:.1f} °C before the bed would be hard: frost ruins it. Warm the room or do not place it."
    ),
    "frost_placed": (
        "Down to {lowest:.1f} °C before the bed has hardened: frost ruins it. Keep it warm until then. Where it "
        "froze, sound it and look at it before anything goes on it."
    ),
    "heat": (
        "Up to {highest:.1f} °C while the bed hardens: above {limit:.0f} °C is outside the usual work range. "
        "Shade it and keep it damp; wind and dry heat crack a fresh bed."
    ),
    "temperature_assumed": (
        "No temperature was measured: {assumed:.1f} °C is assumed. A colder room waits longer than this says."
    ),
    **RAIL_CAUTIONS,
    **TRUING_CAUTIONS,
    **FILLING_CAUTIONS,
    **FLATNESS_CAUTIONS,
    **WORK_CAUTIONS,
    **WAITING_CAUTIONS,
}


@dataclass(frozen=True)
class Caution:
    """One caution: `where` names the part of the plan it stands at (`bed.load`, `readiness`)."""

    code: str = described(about="Which caution, from a closed set")
    text: str = described(about="The caution in English")
    where: str = described(about="The part of the plan it stands at")
    values: dict[str, float | str] = described(about="The figures in the text, by name")


def caution_at(where: str, code: str, **values: float | str) -> Caution:
    """The caution `code` at `where`. Raises KeyError for a code outside the closed set, or a value it lacks."""
    return Caution(code, CAUTIONS[code].format(**values), where, values)
