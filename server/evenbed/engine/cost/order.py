"""An order for several rooms: what they need is added up before it is rounded to packages."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from evenbed.engine.cost.material import Span, packages_range_from, whole_from
from evenbed.engine.cost.quote import Hours, Quote, quote_from
from evenbed.engine.document.fields import described
from evenbed.engine.document.reading import read_json
from evenbed.engine.document.supplies import Prices
from evenbed.engine.identity import Identity, identity
from evenbed.engine.problems import BadDocumentError, Problem, problem_at

Item = Literal["cement", "lime", "sand", "water", "membrane", "reinforcement", "perimeter_strip", "bond_coat", "tile"]
ITEMS: tuple[str, ...] = get_args(Item)
LOOSE = ("sand", "water")  # what comes in no package
MOST = 1e9


def _amount(about: str, unit: str = "") -> float | None:
    """An amount, or null where there is none."""
    amount: float | None = described(None, about=about, unit=unit, low=0.0, high=MOST)
    return amount


def _span(about: str, unit: str = "") -> Span | None:
    """Least and most, or null where nobody asked."""
    span: Span | None = described(None, about=about, unit=unit, low=0.0, high=MOST)
    return span


@dataclass(frozen=True)
class OrderedRow:
    """A row of a plan's material, as far as an order needs it; the row's other keys are passed over."""

    item: Item = described(about="What it is")
    quantity: float = described(about="How much, not rounded", low=0.0, high=MOST)
    package_size: float | None = described(None, about="What one package gives", low=1e-6, high=MOST)
    loose_volume: float | None = _amount("Loose volume; sand is priced by it", "m3")
    quantity_range: Span | None = _span("Least and most")
    loose_range: Span | None = _span("Least and most loose volume", "m3")


@dataclass(frozen=True)
class OrderedRoom:
    """One room of the order."""

    materials: tuple[OrderedRow, ...] = described(about="Its plan's material", most=100)
    name: str = described("", about="What the room is called")
    labour_hours: float = described(0.0, about="Its quote's hours, 0 without labour", unit="h", low=0.0, high=MOST)
    labour_hours_range: Span | None = _span("Least and most hours", "h")


@dataclass(frozen=True)
class OrderQuestion:
    """What is asked: the material of several rooms, and what things cost."""

    rooms: tuple[OrderedRoom, ...] = described(about="The rooms", most=500)
    prices: Prices = described(Prices(), about="What things cost")


@dataclass(frozen=True)
class OrderRow:
    """One thing to buy for all rooms; packages of different sizes stand in rows of their own."""

    item: str = described(about="What it is")
    quantity: float = described(about="How much for all rooms, not rounded")
    unit: str = described(about="The quantity's unit: kg, m or m2")
    packages: int | None = described(about="Whole packages for all rooms together, null where it comes in none")
    packages_apart: int | None = described(about="Whole packages if every room were ordered alone")
    package_size: float | None = described(about="What one package gives, in the quantity's unit")
    loose_volume: float | None = described(about="Volume as measured loose", unit="m3")
    quantity_range: Span | None = described(about="The rooms' ranges added up, wider than that of their sum")
    packages_range: tuple[int, int] | None = described(about="Fewest and most whole packages")
    loose_range: Span | None = described(about="The rooms' ranges added up", unit="m3")
    rooms: tuple[str, ...] = described(about="Names of the rooms that need it, in their order")


@dataclass(frozen=True)
class OrderAnswer:
    """The order of several rooms."""

    engine: Identity = described(about="Which engine computed it")
    materials: tuple[OrderRow, ...] = described(about="What to buy, in the order of the material")
    quote: Quote = described(about="What it costs")
    mixed_packages: tuple[str, ...] = described(
        about="Items in packages of several sizes: no one price fits, so they stay without one"
    )
    saves: float | None = described(
        about="What rounding all rooms together saves, before margin; null where it has no price"
    )


UNITS: dict[str, str] = {"membrane": "m2", "reinforcement": "m2", "perimeter_strip": "m", "tile": "m2"}


def order_from(given: object) -> OrderAnswer:
    """The order for several rooms (parsed JSON in). Rooms may come in any order; none of them orders nothing.

    Raises BadDocumentError with every problem found.
    """
    question, _ = read_json(OrderQuestion, given)
    found = [p for n, room in enumerate(question.rooms) for p in _problems(f"rooms[{n}]", room)]
    if found:
        raise BadDocumentError(found)
    rows = _rows(question.rooms)
    mixed = tuple(item for item in ITEMS if sum(row.item == item for row in rows) > 1)
    quote = quote_from(rows, _hours(question.rooms), question.prices, frozenset(mixed))
    return OrderAnswer(identity(), rows, quote, mixed, _saves(rows, quote))


def _problems(path: str, room: OrderedRoom) -> Iterable[Problem]:
    for n, row in enumerate(room.materials):
        if row.item not in LOOSE and row.package_size is None:
            yield problem_at(f"{path}.materials[{n}].package_size", "missing")
        if row.item == "sand" and row.loose_volume is None:
            yield problem_at(f"{path}.materials[{n}].loose_volume", "missing")


def _rows(rooms: Sequence[OrderedRoom]) -> tuple[OrderRow, ...]:
    """Rows of one item and one size of package put together, in the order of the material."""
    groups: dict[tuple[int, float], list[tuple[str, OrderedRow]]] = defaultdict(list)
    for room in rooms:
        for row in room.materials:
            size = 0.0 if row.item in LOOSE else row.package_size or 0.0
            groups[(ITEMS.index(row.item), size)].append((room.name, row))
    return tuple(_together(ITEMS[place], size or None, groups[(place, size)]) for place, size in sorted(groups))


def _together(item: str, size: float | None, named: list[tuple[str, OrderedRow]]) -> OrderRow:
    rows = [row for _, row in named]
    quantity, between = math.fsum(row.quantity for row in rows), _added([row.quantity_range for row in rows])
    apart = None if size is None else sum(whole_from(row.quantity, size) for row in rows)
    return OrderRow(
        item=item,
        quantity=quantity,
        unit=UNITS.get(item, "kg"),
        packages=None if size is None or apart is None else min(apart, whole_from(quantity, size)),
        packages_apart=apart,
        package_size=size,
        loose_volume=_loose(rows),
        quantity_range=between,
        packages_range=packages_range_from(between, size),
        loose_range=_added([row.loose_range for row in rows]),
        rooms=tuple(name for name, _ in named),
    )


def _loose(rows: list[OrderedRow]) -> float | None:
    known = [row.loose_volume for row in rows if row.loose_volume is not None]
    return math.fsum(known) if len(known) == len(rows) else None


def _added(spans: list[Span | None]) -> Span | None:
    """Ranges added up end by end; null where one of them is."""
    known = [span for span in spans if span is not None]
    if len(known) < len(spans):
        return None
    return (math.fsum(low for low, _ in known), math.fsum(high for _, high in known))


def _hours(rooms: Sequence[OrderedRoom]) -> Hours:
    return Hours(math.fsum(r.labour_hours for r in rooms), _added([r.labour_hours_range for r in rooms]))


def _saves(rows: tuple[OrderRow, ...], quote: Quote) -> float | None:
    each = {line.item: line.each for line in quote.lines}
    saved = [(row.item, row.packages_apart - row.packages) for row in rows if row.packages_apart and row.packages]
    costs = [(count, each[item]) for item, count in saved if count]
    known = [count * price for count, price in costs if price is not None]
    return math.fsum(known) if len(known) == len(costs) else None
