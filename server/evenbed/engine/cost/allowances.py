"""Published allowances of dead load that a bed goes past, by how much, and whom to turn to. Never a verdict."""

from collections.abc import Iterable
from dataclasses import dataclass

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.document.fields import described
from evenbed.engine.load import POUND_PER_SQUARE_FOOT, Load
from evenbed.engine.sources import Explanation, explanation_of

SPAN_TABLES = {"span_tables_10": 10.0, "span_tables_20": 20.0}  # lb/ft² of dead load; IRC R502.3.1, as quoted
TURN_TO = "engineer_and_building_office"


@dataclass(frozen=True)
class Allowance:
    """One published allowance. That it is not exceeded says nothing: the floor's own weight is part of it too."""

    code: str = described(about="Which allowance, from a closed set")
    limit_kg_m2: float = described(about="Dead load it allows", unit="kg/m2")
    limit_lb_ft2: float = described(about="Dead load it allows", unit="lb/ft2")
    exceeded_by_mean: float | None = described(about="By how much bed and covering pass it on average", unit="kg/m2")
    exceeded_by_max: float | None = described(about="By how much they pass it at the thickest spot", unit="kg/m2")
    source_code: str = described(about="Which source, from a closed set")
    turn_to: str = described(about="Whom to turn to: `engineer_and_building_office`")


def allowances_of(load: Load) -> tuple[Allowance, ...]:
    """The published allowances beside the load of bed and covering; null where they are not passed."""
    return tuple(
        Allowance(
            code=code,
            limit_kg_m2=(limit := pounds * POUND_PER_SQUARE_FOOT),
            limit_lb_ft2=pounds,
            exceeded_by_mean=_beyond(load.total_mean, limit),
            exceeded_by_max=_beyond(load.total_max, limit),
            source_code="span_tables",
            turn_to=TURN_TO,
        )
        for code, pounds in SPAN_TABLES.items()
    )


def _beyond(load: float, limit: float) -> float | None:
    return load - limit if load > limit else None


def allowance_cautions(load: Load) -> Iterable[Caution]:
    """The largest allowance that is passed anywhere, said where the load is shown."""
    passed = [a for a in allowances_of(load) if a.exceeded_by_max is not None or a.exceeded_by_mean is not None]
    for allowance in passed[-1:]:
        yield caution_at(
            "bed.load",
            "span_tables",
            mean=load.total_mean,
            max=load.total_max,
            mean_lb_ft2=load.total_mean_lb_ft2,
            max_lb_ft2=load.total_max_lb_ft2,
            limit=allowance.limit_kg_m2,
            limit_lb_ft2=allowance.limit_lb_ft2,
        )


def allowance_explanations(load: Load) -> dict[str, Explanation]:
    """What stands behind each allowance, keyed by its path in the plan."""
    return {
        f"bed.allowances[{n}]": explanation_of(
            "exceeded", total_mean=load.total_mean, total_max=load.total_max, limit=allowance.limit_kg_m2
        )
        for n, allowance in enumerate(allowances_of(load))
    }
