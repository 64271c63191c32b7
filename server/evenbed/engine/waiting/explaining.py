"""What stands behind the figures of the waiting, by their paths."""

from collections.abc import Iterator, Sequence

from evenbed.engine.document.waiting import Curing
from evenbed.engine.readiness import Readiness, ReadinessRow
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.waiting.evaporation import Weather, evaporation_rate
from evenbed.engine.waiting.shapes import Drying, TileWindow
from evenbed.engine.waiting.windows import BedKind

_FORMULA = {
    "tile_on_cured_bed": "readiness_tile",
    "common_practice": "readiness_practice",
    "room": "readiness_room",
}


def readiness_explanations(readiness: Readiness, curing: Curing) -> dict[str, Explanation]:
    """What stands behind each milestone, its window and the working time, keyed by their path in the plan."""
    found: dict[str, Explanation] = {}
    for i, row in enumerate(readiness.rows):
        found[f"readiness[{i}]"] = milestone_explanation(row, curing)
        found[f"readiness[{i}].equivalent_age"] = age_explanation(curing, row.equivalent_age)
        if row.factor is not None:
            found[f"readiness[{i}].factor"] = factor_explanation(curing, row.factor)
        ends = {"early": row.early_after_h, "late": row.late_after_h}
        for end, told in window_explanations(curing, readiness.bed):
            if ends[end] is not None:
                found[f"readiness[{i}].{end}_after_h"] = told
    temperature = readiness.working_time.temperature
    constants = {"activation": curing.activation, "reference": curing.reference}
    batch = explanation_of("working_time", **constants, working_time=curing.working_time, temperature=temperature)
    return found | {"working_time": batch}


def milestone_explanation(row: ReadinessRow, curing: Curing) -> Explanation:
    """How the likely moment of a milestone is reckoned."""
    if row.needs_factor is not None:
        code = f"{_FORMULA[row.code]}_factor"
        return explanation_of(code, datum=curing.datum, needs_factor=row.needs_factor, **row.values)
    constants = {"activation": curing.activation, "reference": curing.reference}
    return explanation_of(_FORMULA[row.code], **constants, needs=row.needs, **row.values)


def age_explanation(curing: Curing, age: float) -> Explanation:
    """How an equivalent age is reckoned."""
    return explanation_of("equivalent_age", activation=curing.activation, reference=curing.reference, age=age)


def factor_explanation(curing: Curing, factor: float) -> Explanation:
    """How a temperature-time factor is reckoned."""
    return explanation_of("temperature_time", datum=curing.datum, factor=factor)


def window_explanations(curing: Curing, bed: BedKind) -> Iterator[tuple[str, Explanation]]:
    """How both ends of a window are reckoned."""
    doubt, ends = curing.forecast_doubt, bed.late_share(curing.late)
    yield "early", explanation_of("window_early", early_share=curing.early, doubt=doubt)
    wide = {"doubt": doubt, "thickness": bed.thickness, "widening": bed.widening}
    yield "late", explanation_of("window_late", late_share=curing.late, need_share=ends, **wide)


def part_explanations(
    curing: Curing, weather: Sequence[Weather], drying: Drying | None, tile: TileWindow
) -> dict[str, Explanation]:
    """What stands behind evaporation (its worst moment), drying and the window of tile on a fresh bed."""
    found: dict[str, Explanation] = {}
    worst = max(weather, key=lambda one: evaporation_rate(one.bed, one.air, one.humidity, one.wind), default=None)
    if worst is not None:
        found["evaporation"] = explanation_of(
            "evaporation",
            bed_temperature=worst.bed,
            air_temperature=worst.air,
            humidity=worst.humidity,
            wind=worst.wind,
            evaporation=evaporation_rate(worst.bed, worst.air, worst.humidity, worst.wind),
        )
    if drying is not None:
        found["drying"] = explanation_of("drying", thickness=drying.thickness)
    constants = {"activation": curing.activation, "reference": curing.reference}
    fresh = explanation_of("fresh_window", **constants, fresh_window=curing.fresh_window, hours=tile.fresh_hours)
    return found | {"tile.fresh_hours": fresh}
