"""What it costs: every line by the package it is sold in, labour, margin. No price is ever guessed.

Money is a plain number in the company's own currency and is not rounded here: cents are for showing. What has no
price is named, and every sum that it would be part of is null. Water is not bought. A price of zero is a price.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol

from evenbed.engine.cost.material import Span
from evenbed.engine.document.fields import described
from evenbed.engine.document.supplies import Labour, Prices
from evenbed.engine.sources import Explanation, explanation_of

PRICED_BY: dict[str, str] = {
    "cement": "cement_bag",
    "lime": "lime_bag",
    "sand": "sand",
    "membrane": "membrane_roll",
    "reinforcement": "reinforcement_sheet",
    "perimeter_strip": "perimeter_strip_piece",
    "bond_coat": "bond_coat_bag",
    "tile": "tile_box",
}
"""Which price each item goes by, a field of Prices. Sand goes by the cubic metre, the rest by the package."""


class Bought(Protocol):
    """A row of material, as far as its price goes."""

    @property
    def item(self) -> str:
        """What it is."""
        ...

    @property
    def packages(self) -> int | None:
        """Whole packages."""
        ...

    @property
    def packages_range(self) -> tuple[int, int] | None:
        """Fewest and most."""
        ...

    @property
    def loose_volume(self) -> float | None:
        """Loose volume, m³."""
        ...

    @property
    def loose_range(self) -> Span | None:
        """Least and most of it."""
        ...


@dataclass(frozen=True)
class QuoteLine:
    """One line of a quote."""

    item: str = described(about="What is bought")
    code: str = described(about="Which price it goes by: a field of `prices`")
    packages: int | None = described(about="Whole packages, null for sand")
    quantity: float = described(about="What the price is multiplied by: packages, or m³ of loose sand")
    unit: str = described(about="`package` or `m3`")
    each: float | None = described(about="Price of one, null where nobody said")
    cost: float | None = described(about="What it costs, not rounded")
    cost_range: Span | None = described(about="Least and most, where it follows how well the floor was read")


@dataclass(frozen=True)
class Hours:
    """Hours of one person, and their range where the floor's doubt was asked for."""

    hours: float
    between: Span | None


@dataclass(frozen=True)
class Quote:
    """What it costs. Sums are null where something in them has no price; nothing is rounded."""

    currency: str = described(about="Code or sign of the currency")
    lines: tuple[QuoteLine, ...] = described(about="Everything bought, in the order of the material")
    unpriced: tuple[str, ...] = described(about="Items without a price, and `labour` where the hour has none")
    materials: float | None = described(about="All lines")
    labour_hours: float = described(about="Hours of one person", unit="h")
    labour_hours_range: Span | None = described(about="Least and most hours", unit="h")
    labour: float | None = described(about="What the hours cost")
    margin: float | None = described(about="What is added to material and labour")
    total: float | None = described(about="Everything")
    total_range: Span | None = described(about="Least and most, where it follows how well the floor was read")


def hours_from(labour: Labour, area: float, volume: float, volume_range: Span | None) -> Hours:
    """Hours for one room: to set up, by the area (m²) and by the mortar in place (m³)."""
    fixed = labour.set_up + labour.per_area * area
    hours = fixed + labour.per_volume * volume
    if volume_range is None:
        return Hours(hours, None)
    return Hours(hours, (fixed + labour.per_volume * volume_range[0], fixed + labour.per_volume * volume_range[1]))


def quote_from(
    materials: Iterable[Bought], hours: Hours, prices: Prices, unclear: frozenset[str] = frozenset()
) -> Quote:
    """The quote for rows of material. Items in `unclear` stay without a price: theirs fits no one package."""
    lines = tuple(_line(row, prices, unclear) for row in materials if row.item in PRICED_BY)
    work = _work(hours, prices.labour.hour)
    unpriced = dict.fromkeys(line.item for line in lines if line.each is None)
    bought = _sum([line.cost for line in lines])
    direct = _sum([bought, work])
    return Quote(
        currency=prices.currency,
        lines=lines,
        unpriced=(*unpriced, *(("labour",) if work is None else ())),
        materials=bought,
        labour_hours=hours.hours,
        labour_hours_range=hours.between,
        labour=work,
        margin=None if direct is None else direct * prices.margin,
        total=None if direct is None else direct * (1.0 + prices.margin),
        total_range=None if direct is None else _total_range(lines, hours, prices),
    )


def _line(row: Bought, prices: Prices, unclear: frozenset[str]) -> QuoteLine:
    code = PRICED_BY[row.item]
    each: float | None = None if row.item in unclear else getattr(prices, code)
    loose = row.packages is None
    quantity = float(row.packages or 0) if not loose else row.loose_volume or 0.0
    between = row.loose_range if loose else row.packages_range
    return QuoteLine(
        item=row.item,
        code=code,
        packages=row.packages,
        quantity=quantity,
        unit="m3" if loose else "package",
        each=each,
        cost=None if each is None else quantity * each,
        cost_range=None if between is None or each is None else (between[0] * each, between[1] * each),
    )


def _work(hours: Hours, hour: float | None) -> float | None:
    """What the hours cost: unknown without a rate, unless there are none."""
    if hours.hours == 0.0 and hours.between in (None, (0.0, 0.0)):
        return 0.0
    return None if hour is None else hours.hours * hour


def _sum(parts: list[float | None]) -> float | None:
    known = [part for part in parts if part is not None]
    return math.fsum(known) if len(known) == len(parts) else None


def _total_range(lines: tuple[QuoteLine, ...], hours: Hours, prices: Prices) -> Span | None:
    """The total's ends; what does not follow the volume costs the same at both."""
    if hours.between is None and all(line.cost_range is None for line in lines):
        return None
    low, high = (_end(n, lines, hours, prices) for n in (0, 1))
    return (low, high)


def _end(end: int, lines: tuple[QuoteLine, ...], hours: Hours, prices: Prices) -> float:
    bought = [(line.cost or 0.0) if line.cost_range is None else line.cost_range[end] for line in lines]
    worked = hours.hours if hours.between is None else hours.between[end]
    return math.fsum((*bought, worked * (prices.labour.hour or 0.0))) * (1.0 + prices.margin)


def quote_explanations(quote: Quote, prices: Prices, area: float, volume: float) -> dict[str, Explanation]:
    """What stands behind the quote's figures, keyed by their path; sums without a price have nothing to explain."""
    rates = {
        "set_up": prices.labour.set_up,
        "per_area": prices.labour.per_area,
        "per_volume": prices.labour.per_volume,
    }
    hours = explanation_of("labour_hours", area=area, volume=volume, **rates)
    lines = {
        f"quote.lines[{n}]": explanation_of("quote_line", count=line.quantity, each=line.each)
        for n, line in enumerate(quote.lines)
        if line.each is not None
    }
    return lines | {"quote.labour_hours": hours} | _sum_explanations(quote, prices)


def _sum_explanations(quote: Quote, prices: Prices) -> dict[str, Explanation]:
    sums: dict[str, tuple[str, dict[str, float | None]]] = {
        "materials": ("quote_materials", {"lines": len(quote.lines)}),
        "labour": ("quote_labour", {"hours": quote.labour_hours, "each": prices.labour.hour}),
        "margin": ("quote_margin", {"bought": quote.materials, "worked": quote.labour, "margin": prices.margin}),
        "total": ("quote_total", {"bought": quote.materials, "worked": quote.labour, "added": quote.margin}),
    }
    explained = {
        f"quote.{name}": explanation_of(code, **{key: value for key, value in inputs.items() if value is not None})
        for name, (code, inputs) in sums.items()
        if getattr(quote, name) is not None
    }
    if quote.total_range is not None:
        explained["quote.total_range"] = explanation_of("quote_range", margin=prices.margin)
    return explained
