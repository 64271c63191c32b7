"""What must be said beside the fill clock: cautions of the moment, and how its figures explain themselves."""

import math
from collections.abc import Iterable, Iterator

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.filling.standing import Standing
from evenbed.engine.load import ONE_PERSON_LIFT
from evenbed.engine.mix import POUND
from evenbed.engine.sources import Explanation, explanation_of

MOST_NAMED = 5  # sections in one caution


def clock_cautions(standing: Standing) -> Iterator[Caution]:
    """What can hurt a person or spoil the bed now; once every channel is packed, only what makes that doubtful."""
    unfilled = standing.progress.unfilled
    if unfilled or standing.channels_due:
        yield caution_at("filling", "wet_cement")
    bag = standing.document.mix.bag_mass
    if unfilled and bag > ONE_PERSON_LIFT:
        yield caution_at("filling", "lifting", bag_mass=bag, bag_mass_lb=bag / POUND)
    if standing.changed:
        yield caution_at("sections", "sections_changed", **_named(standing, standing.changed))
    if standing.trapped:
        yield caution_at("sections", "trapped", **_named(standing, standing.trapped))
    late = sum(mortar.state == "late" for mortar in standing.mortars)
    if late:
        yield caution_at("batches", "batch_late", count=late)
    overdue = [n for n, due in standing.channels_due.items() if due <= 0.0]
    if overdue:
        yield caution_at("sections", "channels_late", **_named(standing, overdue))
    yield from _stop_cautions(standing)


def _stop_cautions(standing: Standing) -> Iterator[Caution]:
    """Of edges to cut back always; of those along rails, which are the next best, once work is stopping."""
    lengths = standing.open_lengths
    if lengths["cut"]:
        yield caution_at("stop_edges", "cold_joint_cut", length=float(lengths["cut"]))
    if lengths["rail"] and standing.is_stopping:
        yield caution_at("stop_edges", "cold_joint_rail", length=float(lengths["rail"]))


def _named(standing: Standing, sections: Iterable[int]) -> dict[str, float | str]:
    numbers = sorted(sections)
    return {"count": len(numbers), "names": ", ".join(standing.kept.names[n] for n in numbers[:MOST_NAMED])}


def clock_explanations(standing: Standing) -> dict[str, Explanation]:
    """What stands behind the figures, by their paths in the answer."""
    return dict(_explanations(standing))


def _explanations(standing: Standing) -> Iterator[tuple[str, Explanation]]:
    yield "working_time", _working_explanation(standing, 0.0)
    ordered = sorted(standing.mortars, key=lambda mortar: (mortar.mixed, mortar.id))
    for n, mortar in enumerate(ordered):
        yield f"batches[{n}].use_by", _working_explanation(standing, mortar.mixed)
    for n in standing.channels_due:
        filled = standing.progress.records[n].filled
        if filled is not None:
            hours = standing.mildness.working(filled)
            yield f"sections[{n}].channels_due", explanation_of("channels_due", hours=hours)
    if standing.open_lengths:
        yield "stop_edges", explanation_of("stop_edges")
        yield "best_stop", explanation_of("best_stop")
    yield from _day_explanations(standing)


def _working_explanation(standing: Standing, hour: float) -> Explanation:
    curing = standing.document.curing
    return explanation_of(
        "working_time",
        activation=curing.activation,
        reference=curing.reference,
        working_time=curing.working_time,
        temperature=standing.mildness.at(hour),
    )


def _day_explanations(standing: Standing) -> Iterator[tuple[str, Explanation]]:
    forecast = standing.forecast
    if forecast is not None:
        pace = forecast.pace
        yield "pace", explanation_of("pace", sections=pace.sections, hours_per_volume=pace.hours_per_volume)
        unfilled = standing.progress.unfilled
        if unfilled:
            volume = math.fsum(standing.kept.plan.sections[n].volume for n in unfilled)
            yield "done", explanation_of("done", hours_left=forecast.left, volume=volume, spread=forecast.spread)
    if standing.last_batch is not None and standing.day_ends is not None:
        code = "last_batch_unpaced" if forecast is None else "last_batch"
        yield "last_batch_by", explanation_of(code, hours=standing.day_ends - standing.last_batch)
