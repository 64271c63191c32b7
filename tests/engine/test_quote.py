"""The quote: judged in whole fractions, null where nothing is known, never rounded and never guessed."""

from fractions import Fraction
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.documents import SQUARE, Json, plan_of, room_over
from tests.rooms import random_room

from evenbed.engine.cost.quote import PRICED_BY, Hours, Quote, hours_from, quote_from
from evenbed.engine.document.room import Mix
from evenbed.engine.document.supplies import Labour, Prices
from evenbed.engine.mix import materials_for

FLAT = [(x, y, 0.0) for x, y in SQUARE]
PRICES: Json = {
    "currency": "USD",
    "cement_bag": 15.5,
    "lime_bag": 11.0,
    "sand": 42.0,
    "membrane_roll": 60.0,
    "reinforcement_sheet": 9.25,
    "perimeter_strip_piece": 18.0,
    "bond_coat_bag": 21.0,
    "tile_box": 33.3,
    "labour": {"hour": 55.0, "set_up": 3.0, "per_area": 0.5, "per_volume": 5.0},
    "margin": 0.15,
}
MONEY = st.floats(0.0, 1e6)
HOURS = Hours(8.5, None)


@cache
def doubted() -> Json:
    """The plan of one room with what is unknown of it."""
    return plan_of(random_room(9) | {"prices": PRICES}, "plan")


def quoted(**changed: Any) -> Json:
    quote: Json = plan_of(random_room(9) | {"prices": PRICES | changed}, "bed_design")["quote"]
    return quote


def mortar_quote(prices: Prices, volume: float = 0.5, hours: Hours = HOURS) -> Quote:
    return quote_from(materials_for(volume, Mix(lime=0.5)).materials, hours, prices)


def priced(**changed: Any) -> Prices:
    return Prices(cement_bag=15.0, lime_bag=10.0, sand=40.0, labour=Labour(hour=50.0), **changed)


def test_every_line_and_sum_is_what_whole_fractions_make_it() -> None:
    plan = plan_of(random_room(9) | {"prices": PRICES})
    quote, rows = plan["quote"], [row for row in plan["materials"] if row["item"] != "water"]
    counts = [Fraction(row["loose_volume"] if row["item"] == "sand" else row["packages"]) for row in rows]
    costs = [n * Fraction(PRICES[PRICED_BY[row["item"]]]) for n, row in zip(counts, rows, strict=True)]
    hours = 3 + Fraction(plan["outline"]["area"]) / 2 + 5 * Fraction(plan["bed"]["volume"])
    direct = sum(costs) + hours * 55
    assert [line["item"] for line in quote["lines"]] == [row["item"] for row in rows]
    assert [line["cost"] for line in quote["lines"]] == pytest.approx([float(cost) for cost in costs], rel=1e-12)
    assert quote["materials"] == pytest.approx(float(sum(costs)), rel=1e-12)
    assert quote["labour"] == pytest.approx(float(hours * 55), rel=1e-12)
    assert quote["margin"] == pytest.approx(float(direct * Fraction(0.15)), rel=1e-12)
    assert quote["total"] == pytest.approx(float(direct * (1 + Fraction(0.15))), rel=1e-12)
    assert (quote["currency"], quote["unpriced"]) == ("USD", [])


@pytest.mark.parametrize("missing", ["cement_bag", "sand", "tile_box"])
def test_what_has_no_price_is_named_and_leaves_no_silent_zero(missing: str) -> None:
    quote = plan_of(random_room(9) | {"prices": PRICES | {missing: None}}, "bed_design")["quote"]
    (line,) = (line for line in quote["lines"] if line["code"] == missing)
    assert quote["unpriced"] == [line["item"]]
    assert (line["each"], line["cost"]) == (None, None)
    assert all(quote[name] is None for name in ("materials", "margin", "total", "total_range"))
    assert quote["labour"] > 0.0


def test_an_hour_without_a_price_is_named_too_and_material_is_still_summed() -> None:
    quote = quoted(labour=PRICES["labour"] | {"hour": None})
    assert quote["unpriced"] == ["labour"]
    assert quote["materials"] > 0.0
    assert (quote["labour"], quote["margin"], quote["total"]) == (None, None, None)
    assert quote["labour_hours"] > 3.0


def test_a_document_without_prices_still_gives_lines_and_hours_and_no_money() -> None:
    plan = plan_of(room_over(SQUARE, FLAT))
    quote = plan["quote"]
    assert quote["unpriced"] == [*(line["item"] for line in quote["lines"]), "labour"]
    assert quote["total"] is None
    assert not any(path in plan["explanations"] for path in ("quote.total", "quote.lines[0]", "quote.margin"))


def test_a_price_of_zero_is_a_price() -> None:
    quote = quoted(tile_box=0.0)
    assert quote["unpriced"] == []
    assert quote["lines"][-1]["cost"] == 0.0
    assert quote["total"] < quoted()["total"]


@settings(max_examples=40)
@given(st.floats(0.001, 1000.0))
def test_prices_scaled_scale_every_sum(scale: float) -> None:
    once = mortar_quote(priced(margin=0.2))
    labour = Labour(hour=50.0 * scale)
    scaled = Prices(cement_bag=15.0 * scale, lime_bag=10.0 * scale, sand=40.0 * scale, labour=labour, margin=0.2)
    more = mortar_quote(scaled)
    for name in ("materials", "labour", "margin", "total"):
        assert getattr(more, name) == pytest.approx(scale * getattr(once, name), rel=1e-12)


@given(st.floats(0.0, 10.0))
def test_a_margin_is_a_share_of_material_and_labour(margin: float) -> None:
    quote = mortar_quote(priced(margin=margin))
    assert None not in (quote.materials, quote.labour, quote.margin, quote.total)
    direct = (quote.materials or 0.0) + (quote.labour or 0.0)
    assert quote.margin == pytest.approx(margin * direct, rel=1e-12)
    assert quote.total == pytest.approx((1.0 + margin) * direct, rel=1e-12)


@given(st.floats(0.001, 20.0), st.floats(1.0, 3.0))
def test_more_mortar_never_costs_less(volume: float, factor: float) -> None:
    few, more = (
        mortar_quote(priced(), v, hours_from(Labour(), 12.0, v, None)).total for v in (volume, volume * factor)
    )
    assert few is not None
    assert more is not None
    assert few <= more * (1 + 1e-12)


def test_the_range_holds_the_total_and_is_there_only_where_the_floors_doubt_was_asked_for() -> None:
    plain, ranged = quoted(), doubted()["quote"]
    assert plain["total_range"] is None
    low, high = ranged["total_range"]
    assert low < plain["total"] == ranged["total"] < high
    assert ranged["labour_hours_range"][0] < plain["labour_hours"] < ranged["labour_hours_range"][1]


def test_the_ends_of_the_range_are_the_totals_of_the_ends_of_the_volume() -> None:
    plan = doubted()
    rest = sum(line["cost"] for line in plan["quote"]["lines"] if line["cost_range"] is None)
    for end in (0, 1):
        volume = plan["bed"]["volume_range"][end]
        mortar = quote_from(materials_for(volume, Mix()).materials, HOURS, priced()).lines
        counts = {line.item: line.quantity for line in mortar}
        hours = 3.0 + 0.5 * plan["outline"]["area"] + 5.0 * volume
        total = (rest + counts["cement"] * 15.5 + counts["sand"] * 42.0 + hours * 55.0) * 1.15
        assert plan["quote"]["total_range"][end] == pytest.approx(total, rel=1e-9)


def test_every_figure_of_the_quote_explains_itself() -> None:
    plan = doubted()
    paths = {f"quote.lines[{n}]" for n in range(len(plan["quote"]["lines"]))}
    paths |= {f"quote.{name}" for name in ("materials", "labour_hours", "labour", "margin", "total", "total_range")}
    assert paths <= plan["explanations"].keys()
    assert plan["explanations"]["quote.total"]["inputs"]["bought"] == plan["quote"]["materials"]
