"""What a cubic metre of mortar in place costs, and what chipping does, as far as prices are given."""

from dataclasses import dataclass

from evenbed.engine.document.room import Mix
from evenbed.engine.document.supplies import Prices
from evenbed.engine.mix import LIME_BAG_MASS, bag_yield_from


@dataclass(frozen=True)
class Worth:
    """Costs in the company's currency: mortar a m³ in place, chipping a m² and a m² and mm; hours of chipping alike.

    `mortar` is None where a price that it needs is unknown: then nothing is weighed against anything.
    """

    mortar: float | None
    hour: float
    hours_area: float
    hours_depth: float

    def hours(self, area: float, volume: float) -> float:
        """Hours of one person for so many m² and m³ chipped."""
        return self.hours_area * area + self.hours_depth * volume * 1e3

    def saved(self, mortar: float, area: float, volume: float) -> float | None:
        """What so many m³ less mortar save beyond what the chipping costs; None where prices are missing."""
        return None if self.mortar is None else self.mortar * mortar - self.hour * self.hours(area, volume)


def worth_of(prices: Prices, mix: Mix) -> Worth:
    """What mortar and chipping cost: the material of the mix with its waste, and the labour of placing it."""
    labour, material = prices.labour, _material(prices, mix)
    known = material is not None and labour.hour is not None
    hour = labour.hour or 0.0
    mortar = material + labour.per_volume * hour if known and material is not None else None
    return Worth(mortar, hour, labour.chipping, labour.chipping_depth)


def _material(prices: Prices, mix: Mix) -> float | None:
    """Cement, lime and sand of a m³ in place."""
    bag = bag_yield_from(mix)
    amounts = ((1.0, prices.cement_bag), (bag.lime / LIME_BAG_MASS, prices.lime_bag), (bag.sand_loose, prices.sand))
    rows = [(amount, price) for amount, price in amounts if amount > 0.0]
    costs = [amount * price for amount, price in rows if price is not None]
    return sum(costs) * (1.0 + mix.waste) / bag.volume if len(costs) == len(rows) else None
