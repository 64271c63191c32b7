"""What a room takes, weighs and costs, without a network; who sees the money; several rooms ordered together."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect
from tests.browser.people import assign, let_in
from tests.browser.phone import PLAN_PATIENCE_MS, Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser
PRICES = {
    "cement": ("prices.cement_bag", "14"),
    "sand": ("prices.sand", "45"),
    "membrane": ("prices.membrane_roll", "60"),
    "reinforcement": ("prices.reinforcement_sheet", "9"),
    "perimeter_strip": ("prices.perimeter_strip_piece", "18"),
    "bond_coat": ("prices.bond_coat_bag", "22"),
    "tile": ("prices.tile_box", "30"),
}
MONEY = re.compile(r"[\d,]+\.\d\d")


@pytest.fixture(scope="module")
def foreman(demo_phone: Phone) -> Phone:
    """With the app kept, so that it needs no network."""
    demo_phone.wait_until_kept()
    return demo_phone


def material_of(phone: Phone, room: str = "Upstairs bath") -> Phone:
    phone.find_demo_room(room)
    phone.go_to("material")
    phone.wait_for("figure-materials-0--value")
    return phone


def price(phone: Phone, field: str, digits: str) -> None:
    phone.tap(f"field-{field}")
    phone.keys(*digits, "next")
    expect(phone.page.get_by_test_id("value")).to_have_count(0)


def amount(found: Locator) -> float:
    match = MONEY.search(found.inner_text())
    assert match is not None, found.inner_text()
    return float(match[0].replace(",", ""))


def test_a_quote_comes_from_no_price_at_all_to_a_total_with_its_range(foreman: Phone) -> None:
    foreman.lose_network()
    material_of(foreman)
    expect(foreman.page.get_by_test_id("unpriced")).to_contain_text("Membrane")
    for field, digits in [*PRICES.values(), ("prices.labour.hour", "55"), ("prices.margin", "20")]:
        price(foreman, field, digits)
    expect(foreman.page.get_by_test_id("unpriced")).to_have_count(0)
    foreman.wait_for_text("figure-quote-total-value", r"\d")
    expect(foreman.page.get_by_test_id("figure-quote-total-range")).to_have_text(MONEY, timeout=PLAN_PATIENCE_MS)
    values = foreman.page.locator("[data-testid^=figure-quote-lines-][data-testid$=value]")
    lines = [amount(one) for one in values.all()]
    labour = amount(foreman.page.get_by_test_id("figure-quote-labour-value"))
    total = amount(foreman.page.get_by_test_id("figure-quote-total-value"))
    assert total == pytest.approx((sum(lines) + labour) * 1.2, abs=0.01 * len(lines))
    # The range follows the total: until it is there again, nothing stands in its place.
    expect(foreman.page.get_by_test_id("figure-quote-total-range")).to_have_text(MONEY, timeout=PLAN_PATIENCE_MS)
    low, high = MONEY.findall(foreman.text("figure-quote-total-range"))
    assert float(low.replace(",", "")) <= total <= float(high.replace(",", ""))
    foreman.shot("design-quote")
    foreman.tap("figure-quote-total")
    expect(foreman.page.get_by_test_id("explain")).to_contain_text("labour")
    foreman.tap("explain-close")
    foreman.find_network()


def test_several_rooms_are_added_up_before_they_are_rounded_and_say_what_that_saves(foreman: Phone) -> None:
    foreman.lose_network()
    material_of(foreman)
    alone = bags_in_the_order(foreman)
    material_of(foreman, "Powder room")
    alone_too = bags_in_the_order(foreman)
    foreman.tap("to-order")
    rooms = foreman.page.get_by_test_id("order-room")
    expect(rooms).to_have_count(2, timeout=PLAN_PATIENCE_MS)
    together = foreman.page.get_by_test_id("figure-order-cement-value")
    expect(together).to_be_visible()
    packages = int(together.inner_text().split()[0])
    assert packages in (alone + alone_too, alone + alone_too - 1)
    saving = foreman.page.locator("[data-testid^=figure-order-][data-testid$=by]")
    assert saving.count() > 0
    foreman.tap("figure-order-cement")
    expect(foreman.page.get_by_test_id("explain")).to_contain_text("rounded up")
    foreman.tap("explain-close")
    foreman.wait_for_text("figure-quote-total-value", r"\d")
    foreman.shot("design-order")
    rooms.first.click()
    expect(rooms.first).to_have_attribute("aria-pressed", "false")
    expect(together).to_have_text(re.compile(rf"^{alone_too} |^{alone} "))
    expect(saving).to_have_count(0)
    rooms.first.click()
    foreman.find_network()


def bags_in_the_order(phone: Phone) -> int:
    return int(phone.text("figure-materials-0--value").split()[0])


def test_cautions_stand_where_material_and_load_are_decided(foreman: Phone) -> None:
    material_of(foreman)
    page = foreman.page
    at_load = page.get_by_test_id("load").locator(".cautions [data-code]")
    assert {one.get_attribute("data-code") for one in at_load.all()} >= {"load", "span_tables"}
    expect(page.get_by_test_id("turn-to")).to_contain_text("engineer")
    expect(page.get_by_test_id("figure-bed-stacked")).to_contain_text("lb/ft²")
    everywhere = {one.get_attribute("data-code") for one in page.locator(".room-panel [data-code]").all()}
    assert everywhere >= {"wet_cement", "silica", "lifting", "stacked_bags"}
    assert not re.search(r"\b(OK|safe|sufficient)\b", page.get_by_test_id("load").inner_text())


def test_a_setter_sees_the_order_in_the_companys_packages_and_no_money_anywhere(
    foreman: Phone, demo_service: Service, shared_phones: Callable[..., Phone]
) -> None:
    foreman.to_jobs()
    setter = let_in(foreman, demo_service, shared_phones(), "Sol", "setter")
    foreman.go("/prices")
    foreman.fill("currency", "Quills")
    foreman.tap("keep-currency")
    price(foreman, "prices.cement_bag", "14")
    price(foreman, "supplies.tile.box_area", "9")
    foreman.to_jobs()
    assign(foreman, "", "Sol")
    material_of(setter)
    expect(setter.page.get_by_test_id("quote")).to_have_count(0)
    expect(setter.page.get_by_test_id("figure-materials-7--value")).to_contain_text("boxes")
    setter.shot("design-setter")
    material_of(foreman)
    for one in (setter, foreman):
        one.wait_for_text("figure-materials-7--value", r"^19 boxes")  # 166.6 ft² in boxes of 9 ft²
    for path in (None, "/prices", "/settings"):
        if path is not None:
            setter.go(path)
        expect(setter.page.locator("main")).to_be_visible()
        assert "Quills" not in setter.page.locator("body").inner_text()
        expect(setter.page.locator("[data-testid^='field-prices']")).to_have_count(0)
