"""One room's order, quote and load together: what the plan tells of them, and what stands behind it."""

from collections.abc import Iterable

from evenbed.engine.cautions import Caution
from evenbed.engine.cost.allowances import allowance_cautions, allowance_explanations
from evenbed.engine.cost.build_up import build_up_explanations
from evenbed.engine.cost.material import Material
from evenbed.engine.cost.quote import Quote, hours_from, quote_explanations, quote_from
from evenbed.engine.cost.stacked import stacked_explanations, stacked_from
from evenbed.engine.load import covering_explanations, load_cautions, material_cautions
from evenbed.engine.mix import MixPlan, mix_cautions, mix_explanations
from evenbed.engine.sources import Explanation
from evenbed.engine.unknown import Unknown
from evenbed.engine.worked import WorkedRoom


def mix_of(room: WorkedRoom, unknown: Unknown | None) -> MixPlan:
    """The room's mix, with ranges where what is unknown was asked for."""
    return room.mix if unknown is None else room.mix_in_doubt


def materials_of(room: WorkedRoom, unknown: Unknown | None) -> tuple[Material, ...]:
    """Everything to buy or carry in for one room: the mortar's four first, then what the bed is built of besides."""
    return (*mix_of(room, unknown).materials, *room.build_up)


def quote_of(room: WorkedRoom, unknown: Unknown | None) -> Quote:
    """The quote for one room, with a range where what is unknown was asked for."""
    between = None if unknown is None else unknown.volume_range
    prices = room.document.prices
    hours = hours_from(prices.labour, room.figure.area, room.quantities.volume, between)
    return quote_from(materials_of(room, unknown), hours, prices)


def load_and_material_cautions(room: WorkedRoom) -> tuple[Iterable[Caution], Iterable[Caution]]:
    """Cautions that stand at the load, and those at material and mix."""
    load = room.weight
    at_load = (*load_cautions(load), *(allowance_cautions(load.load) if load.mass > 0.0 else ()))
    return at_load, (*material_cautions(room.mix), *mix_cautions(room.mix))


def cost_explanations(room: WorkedRoom, unknown: Unknown | None) -> dict[str, Explanation]:
    """What stands behind material, quote and load with the covering on it, keyed by path in the plan."""
    document, area = room.document, room.figure.area
    bond = document.supplies.bond_coat.density
    return (
        mix_explanations(room.mix, document.mix)
        | build_up_explanations(room.build_up, len(room.mix.materials))
        | quote_explanations(quote_of(room, unknown), document.prices, area, room.quantities.volume)
        | covering_explanations(room.weight, area, document.bed.covering, bond)
        | allowance_explanations(room.weight.load)
        | stacked_explanations(stacked_from(materials_of(room, unknown)))
    )
