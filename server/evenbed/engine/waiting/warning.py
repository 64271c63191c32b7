"""What is said beside the waiting: what the weather does to the bed, and what to do about it."""

from collections.abc import Iterable, Iterator, Sequence

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.cure import moment_from_time
from evenbed.engine.readiness import COLDEST_WORK_C, Readiness
from evenbed.engine.waiting.countdown import ticked_early
from evenbed.engine.waiting.evaporation import THRESHOLD, Weather, evaporation_rate, level_of
from evenbed.engine.waiting.hardening import Hardening
from evenbed.engine.waiting.shapes import Drying, Spell, TileWindow

LB_PER_FT2 = 0.3048**2 / 0.45359237  # in one kg/m²
KM_PER_MILE = 1.609344


def weather_cautions(hardening: Hardening, weather: Sequence[Weather], until: float) -> Iterator[Caution]:
    """How fast the bed dries at the worst while it hardens; where nothing is placed, at any moment told."""
    within = [one for one in weather if not hardening.is_placed or hardening.fresh_from <= one.hour <= until]
    rate = max((evaporation_rate(one.bed, one.air, one.humidity, one.wind) for one in within), default=0.0)
    level = level_of(rate)
    if level != "low":
        yield caution_at("evaporation", f"evaporation_{level}", rate=rate, rate_lb=rate * LB_PER_FT2, limit=THRESHOLD)


def spell_cautions(spells: Iterable[Spell], hardening: Hardening) -> Iterator[Caution]:
    """What to do about frost, cold, heat and wind."""
    kinds = {spell.kind for spell in spells}
    if "frost" in kinds and not hardening.is_placed:
        yield caution_at("spells", "frozen_subfloor")
    if any(spell.kind == "frost" and spell.forecast for spell in spells):
        yield caution_at("spells", "frost_cover", limit=COLDEST_WORK_C)
    if kinds & {"frost", "cold"}:
        yield caution_at("spells", "warm_the_room")
        yield caution_at("spells", "unvented_heater")
    if "heat" in kinds:
        yield caution_at("spells", "heat_fresh")
    if "wind" in kinds:
        wind = max(spell.worst for spell in spells if spell.kind == "wind")
        yield caution_at("spells", "wind", wind=wind, wind_mph=wind / KM_PER_MILE)


def tile_cautions(tile: TileWindow, hardening: Hardening, drying: Drying | None) -> Iterator[Caution]:
    """What goes with the way of tiling that was chosen, and with a covering that minds moisture."""
    if tile.chosen == "same_day":
        yield caution_at("tile", "tile_same_day")
        if tile.fresh_until is not None and tile.last_from is not None:
            closed = hardening.hour(moment_from_time(tile.last_from)) - hardening.hour(
                moment_from_time(tile.fresh_until)
            )
            if closed > 0.0:
                yield caution_at("tile", "tile_by_section", hours=closed)
    if tile.chosen == "overnight":
        yield caution_at("tile", "tile_overnight")
    if drying is not None:
        days = {"early": drying.early_days, "late": drying.late_days}
        yield caution_at("drying", "drying_test", thickness=drying.thickness, **days)


def tick_cautions(readiness: Readiness) -> Iterator[Caution]:
    """Ticks from before a window opened."""
    early = ticked_early(readiness)
    if early:
        yield caution_at("readiness", "ticked_early", count=len(early))
