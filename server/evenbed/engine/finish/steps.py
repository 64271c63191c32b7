"""Changes in level: the published class of a step, and what carries people over it."""

from typing import Literal

StepKind = Literal["flush", "upright", "bevelled", "ramp"]
Transition = Literal["none", "edge_strip", "bevelled_strip", "ramp"]

FLUSH = 1.0  # mm: less than this nobody feels; common practice, no source
ROUNDING = 1e-6  # mm by which a step may pass its class through rounding alone
UPRIGHT, BEVELLED = 6.35, 12.7  # mm: 1/4 in and 1/2 in, changes in level, ADA 2010 Standards section 303
RUN: dict[StepKind, float] = {"flush": 0.0, "upright": 0.0, "bevelled": 2.0, "ramp": 12.0}
"""Length of the transition by its rise: a bevel 1:2 (303.3), a ramp 1:12 (303.4 with 405.2)."""
TRANSITIONS: dict[StepKind, Transition] = {
    "flush": "none",
    "upright": "edge_strip",
    "bevelled": "bevelled_strip",
    "ramp": "ramp",
}


def kind_of_step(step: float) -> StepKind:
    """The published class of a step, mm up or down: upright to 1/4 in, bevelled to 1/2 in, a ramp beyond."""
    size = abs(step) - ROUNDING
    if size < FLUSH:
        return "flush"
    if size <= UPRIGHT:
        return "upright"
    return "bevelled" if size <= BEVELLED else "ramp"


def transition_length_of(step: float) -> float:
    """How long the transition over a step is, mm: 0 where it is flush or may stand upright.

    A bevel is reckoned over the whole rise; section 303.3 lets its lowest 1/4 in stand upright, which is shorter.
    """
    return RUN[kind_of_step(step)] * abs(step)
