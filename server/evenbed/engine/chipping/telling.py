"""What must be said where chipping is decided, and how its figures explain themselves."""

from collections.abc import Iterator

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.chipping.chipping import Chipping
from evenbed.engine.sources import Explanation, explanation_of

PLACE = "bed.chipping"


def chipping_cautions(chipping: Chipping) -> Iterator[Caution]:
    """Dust and the structure wherever there is something to chip; places too deep to chip, or never read."""
    most = chipping.document.bed.chip_depth
    if chipping.rows:
        yield caution_at(PLACE, "chip_silica")
        yield caution_at(PLACE, "chip_structure", most=most)
    spot = chipping.too_deep
    if spot is not None:
        yield caution_at(PLACE, "chip_too_deep", x=spot.at[0], y=spot.at[1], needed=-spot.spare, most=most)
    if chipping.unread is not None:
        x, y = chipping.unread.at
        yield caution_at(PLACE, "chip_unread", x=x, y=y, depth=max(0.0, chipping.unread.spare))


def chipping_explanations(chipping: Chipping) -> dict[str, Explanation]:
    """What stands behind each row and the plan, by their paths in the plan."""
    code = "chip_lowered" if chipping.comes_down else "chip_cleared"
    told = {
        f"bed.chipping[{n}]": explanation_of(code, depth=row.depth, chipped=row.chipped_volume, area=chipping.room)
        for n, row in enumerate(chipping.rows)
    }
    plan, worth = chipping.plan, chipping.worth
    if plan is None:
        return told
    if worth.mortar is None or not chipping.comes_down:
        why = "chip_first" if chipping.comes_down else code
        return told | {"bed.chip_plan": explanation_of(why, depth=plan.depth)}
    costs = {"mortar_price": worth.mortar, "hour": worth.hour}
    rates = {"hours_area": worth.hours_area, "hours_depth": worth.hours_depth}
    return told | {"bed.chip_plan": explanation_of("chip_best", **costs, **rates)}
