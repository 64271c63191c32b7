"""On the knees: stations set with wet hands, one hit each; rails trued across by what the level shows."""

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from playwright.sync_api import expect
from tests.browser.levels import begin_floor, here, inches_from, sent_plan, wait_for_pattern
from tests.browser.phone import Phone
from tests.browser.records import pulled_records
from tests.browser.running import Service

pytestmark = pytest.mark.browser

SIXTEENTH = 25.4 / 16
PAUSE_MS = 420.0  # a second hit sooner counts as the same one
L_SHAPE = [("8", "left"), ("4", "left"), ("4", "right"), ("3", "left"), ("4", "left"), ("7", "left")]
ROOM = "Wet room"
CUT = """() => {
  const figure = document.querySelector(".hands-figure");
  return [figure.scrollWidth - figure.clientWidth, figure.scrollHeight - figure.clientHeight];
}"""
READ = (5, 9, 3, 12, 7, 1, 10, 4)  # sixteenths over 41"


@pytest.fixture(scope="module")
def rails(joined: Phone) -> str:
    """The address of the rails of a room that was read without a network; its plan has taken every reading in."""
    joined.lose_network()
    joined.to_jobs()
    begin_floor(joined, ROOM, L_SHAPE)
    wait_for_pattern(joined)
    for sixteenths in READ:
        here(joined, "41", sixteenths)
    joined.go_to("rails")
    joined.wait_for("station-where")
    joined.page.reload()  # a plan of fewer readings is gone
    joined.wait_for("station-where")
    address: str = joined.page.evaluate("location.pathname")
    return address


def sixteenths_from(text: str) -> int:
    """`1 3/16″` as sixteenths."""
    words = text.replace("″", "").replace("−", "-").replace("\u00a0", " ").split()
    return int(sum(Fraction(word) for word in words) * 16)


def hit(phone: Phone, mark: str) -> None:
    """One hit, and the pause that parts it from the next."""
    phone.tap(mark)
    phone.page.wait_for_timeout(PAUSE_MS)


def in_hand(phone: Phone) -> tuple[str, int]:
    """The rail and the shim on the view for wet hands."""
    shim = phone.page.get_by_test_id("hands-shim").get_attribute("aria-label")
    rail = re.search(r"[A-Z]+\d*", phone.text("hands-where").removeprefix("Rail"))
    assert shim
    assert rail
    return rail.group(), sixteenths_from(shim)


def set_on(phone: Phone, most: int) -> Iterator[tuple[str, int]]:
    """Set what is in hand, up to so many, with what each showed; moves of a strip are passed."""
    for _ in range(most):
        if phone.page.get_by_test_id("hands-done").count():
            return
        if phone.page.get_by_test_id("hands-move").count():
            hit(phone, "hands-set")
        yield in_hand(phone)
        hit(phone, "hands-set")


def test_every_station_is_set_with_wet_hands_one_hit_each_and_a_reload_loses_none(
    rails: str, phone: Phone, shared_service: Service
) -> None:
    phone.go(rails)
    phone.wait_for("station-where")
    phone.shot("rails-set-1-start")
    phone.tap("rails-hands")
    phone.wait_for("hands-shim")
    phone.shot("rails-set-2-hands")
    first = in_hand(phone)
    shown = [*set_on(phone, 3)]
    shown.append(in_hand(phone))
    phone.page.get_by_test_id("hands-set").dblclick()  # a wet finger hits twice: it counts once
    phone.page.wait_for_timeout(PAUSE_MS)
    after = (in_hand(phone), phone.text("hands-where"))
    phone.page.reload()
    phone.wait_for("hands-shim")
    assert (in_hand(phone), phone.text("hands-where")) == after
    hit(phone, "hands-back")
    phone.wait_for_text("hands-set", "It is set")
    assert in_hand(phone) == shown[-1]
    hit(phone, "hands-set")
    shown += set_on(phone, 60)
    phone.wait_for_text("hands-done", "All stations are set")
    hit(phone, "hands-leave")
    phone.wait_for("rails-done")

    _, plan = sent_plan(phone, shared_service, ROOM)
    laid: list[dict[str, Any]] = plan["rails"]
    planned = [(rail["id"], station["sixteenths"]) for rail in laid for station in rail["stations"]]
    assert Counter(shown) == Counter(planned)
    least = plan["first_station"]
    start = next(rail for rail in laid if rail["id"] == least["rail"])["stations"][least["station"]]
    assert first == (least["rail"], start["sixteenths"])
    assert start["shim"] == min(station["shim"] for rail in laid for station in rail["stations"])
    kept = [r["fields"] for r in pulled_records(shared_service) if r["kind"] == "station"]
    told = sorted((f["rail"], *f["at"], f["shim"]) for f in kept)
    exact = sorted((rail["id"], *station["at"], station["shim"]) for rail in laid for station in rail["stations"])
    assert [row[0] for row in told] == [row[0] for row in exact]
    assert [row[1:] for row in told] == [pytest.approx(row[1:], abs=1e-6) for row in exact]


def corrections_on(phone: Phone) -> dict[tuple[str | None, str | None], str]:
    """The amounts to raise or let down, by rail and end."""
    rows = phone.page.get_by_test_id("correction").all()
    return {
        (row.get_attribute("data-rail"), row.get_attribute("data-end")): row.locator(".number").inner_text()
        for row in rows
    }


def test_rails_read_across_are_corrected_as_the_engine_says_and_one_undo_takes_the_new_bed_back(
    rails: str, phone: Phone, shared_service: Service
) -> None:
    phone.go(f"{rails}/true")
    phone.tap("read-next")
    phone.tap("check-where")
    phone.tap("check-rail-A")
    phone.tap("check-rail-to-B")
    phone.shot("rails-true-1-where")
    phone.tap("check-where-sheet-close")
    phone.keys("part-6")
    phone.tap("end-to")
    phone.tap("check-turn")
    phone.keys("part-6")
    phone.page.reload()  # in mid-reading
    phone.wait_for_text("typed", "3/8")
    phone.keys("next")  # which end is high was not said yet
    phone.wait_for_text("entry-what", "Which end is high")
    phone.shot("rails-true-2-reading")
    phone.tap("end-to")
    phone.keys("next")
    phone.wait_for("correction")
    phone.shot("rails-true-3-what-to-do")
    told = corrections_on(phone)
    rail = next(iter(told))[0]
    phone.tap(f"bedded-{rail}")
    expect(phone.page.locator(f".correction-end[data-rail={rail}]")).to_have_count(0)
    phone.wait_for_text("check", "no longer counts")
    phone.shot("rails-true-4-bedded")
    phone.tap("undo")
    expect(phone.page.locator(".value-button.outdated")).to_have_count(0)
    phone.wait_for(f"bedded-{rail}")
    assert corrections_on(phone) == told

    document, plan = sent_plan(phone, shared_service, ROOM)
    check = document["checks"][0]
    assert (check["off"], check["reversed_off"]) == (pytest.approx(6 * SIXTEENTH), pytest.approx(6 * SIXTEENTH))
    corrections = {(c["rail"], c["end"]): c["thirty_seconds"] for c in plan["corrections"] if c["thirty_seconds"]}
    assert corrections
    assert {w: inches_from(text) * 32 for w, text in told.items()} == {w: abs(n) for w, n in corrections.items()}
    # The end on rail B was high, so that B is let down or A raised: by hand.
    assert all((n > 0) == (one == "A") for (one, _), n in corrections.items())


def test_in_spanish_a_gap_under_one_end_is_kept_as_the_other_end_high(rails: str, phone: Phone) -> None:
    phone.go("/settings")
    phone.tap("language-es")
    phone.go(f"{rails}/true")
    phone.tap("read-next")
    phone.tap("check-way")
    phone.tap("end-from")
    phone.keys("part-4")
    phone.shot("rails-true-5-spanish")
    phone.keys("next")
    expect(phone.page.get_by_test_id("check").first).to_contain_text("alto el extremo 2")
    phone.wait_for("rails-lie")
    phone.shot("rails-true-6-spanish")
    phone.go(f"{rails}/hands")
    phone.wait_for_text("hands-done", "Todos los puntos están puestos")
    hit(phone, "hands-back")
    phone.wait_for_text("hands-set", "Está puesto: sigue")
    phone.shot("rails-set-3-spanish")
    phone.go("/settings")
    phone.tap("units-metric")
    phone.go(f"{rails}/hands")
    phone.wait_for("hands-done")
    for _ in range(4):
        hit(phone, "hands-back")
        expect(phone.page.get_by_test_id("hands-shim")).to_have_attribute("aria-label", re.compile(r"\d\u202fmm$"))
        assert phone.page.evaluate(CUT) == [0, 0]
    phone.shot("rails-set-4-millimetres")
    phone.go("/settings")
    phone.tap("units-imperial")
    phone.tap("language-en")
