"""A walk through every screen and sheet of a planned room, stopping at each."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from playwright.sync_api import expect
from tests.browser.phone import Phone

STEPS = ("outline", "levels", "bed", "material", "rails", "filling", "checking", "waiting")
LAYERS = ("readings", "ground", "thickness", "doubt", "rails", "sections", "live")
WAYS = ("table_in", "scan_in", "table_out")
# step, what opens the sheet, the sheet's own mark
SHEETS = (
    ("outline", "add-doorway", "form-doorway"),
    ("outline", "add-cutout", "form-cutout"),
    ("outline", "add-fixture", "form-fixture"),
    ("outline", "open-doorway", "heights-doorway"),
    ("outline", "open-fixture", "heights-fixture"),
    ("outline", "figure-outline-area", "explain"),
    ("levels", "levels-note", "levels-about"),
    ("levels", "last-reading", "reading"),
    ("levels", "place-by-tape", "offset"),
    ("bed", "figure-bed-thickness-min", "explain"),
    ("bed", "field-top-height", "value"),
    ("bed", "doorway-hall door", "doorway-sheet"),
    ("bed", "fixture-drain stub", "fixture-sheet"),
    ("bed", "figure-bed-load-max", "explain"),
    ("bed", "higher", "higher-sheet"),
    ("bed", "field-bed.minimum_thickness", "value"),
    ("material", "field-mix.air", "value"),
    ("rails", "shim-table", "shim-sheet"),
    ("rails", "rail-cautions", "rails-know"),
    ("filling", "open-section-1", "section-sheet"),
    ("filling", "add-note", "note"),
    ("filling", "day-ends", "time"),
    ("waiting", "add-climate", "climate"),
    ("waiting", "add-log", "log"),
    ("waiting", "add-forecast", "forecast"),
    ("waiting", "look-walk", "tick"),
    ("waiting", "window-walk", "explain"),
)
TABLE = "1;0,9;0,6;0,010;puerta\n2;2,1;0,6;0,004;\n3;0,9;1,2;0,007;\n"
# of the sheets behind the line that says from where one reads: what opens the form on each, the sheet's own mark
LEVELS_SHEETS = (("new-setup", "setups"), ("new-mark", "marks"), ("new-laser", "instruments"))
Stop = Callable[[str], None]


@contextmanager
def sheet(phone: Phone, opener: str, mark: str) -> Iterator[None]:
    """The sheet, open; closed again afterwards."""
    opened = phone.page.locator(f'dialog[data-testid="{mark}"]')
    phone.tap(opener)
    expect(opened).to_be_visible()
    yield
    phone.tap(f"{mark}-close")
    expect(opened).to_have_count(0)


@contextmanager
def on_paper(phone: Phone) -> Iterator[None]:
    """As the room's page prints."""
    phone.page.emulate_media(media="print")
    yield
    phone.page.emulate_media(media="screen")


def walk_the_steps(phone: Phone, stop: Stop) -> None:
    """From the room's own screen through its eight steps, by way of tables, scans and joints."""
    stop("floor")
    walk_in_and_out(phone, stop)
    phone.tap("open-joints")
    phone.wait_for("figure-joints-width-value")
    stop("joints")
    phone.tap("back")
    walk_the_record(phone, stop)
    for step in STEPS:
        phone.go_to(step)
        expect(phone.page.locator(f".at-{step}")).to_be_visible()
        stop(step)


def walk_the_record(phone: Phone, stop: Stop) -> None:
    """The record of the room, its tables, and signing it; nobody signs."""
    phone.tap("open-record")
    phone.wait_for("record-paper")
    stop("record")
    with sheet(phone, "open-tables", "tables-sheet"):
        stop("record-tables")
    with sheet(phone, "sign", "sign-sheet"):
        stop("record-sign")
    phone.tap("back")
    expect(phone.page.locator(".at-floor")).to_be_visible()


def walk_in_and_out(phone: Phone, stop: Stop) -> None:
    """Tables in, scans in, tables out, and back to the room's own screen."""
    phone.tap("readings-in-out")
    for way in WAYS:
        phone.tap(f"way-{way}")
        phone.wait_for({"table_in": "table-text", "scan_in": "scan-unit-auto", "table_out": "table-written"}[way])
        if way == "table_in":
            phone.fill("table-text", TABLE)
            phone.wait_for("how-read")
        stop(way)
    phone.tap("way-table_in")
    phone.tap("table-clear")
    phone.tap("back")
    expect(phone.page.locator(".at-floor")).to_be_visible()


def walk_the_sheets(phone: Phone, stop: Stop) -> None:
    """The sheets of the steps, one at a time, and what is done on the knees."""
    walk_the_rails(phone, stop)
    walk_the_check(phone, stop)
    for step, opener, mark in SHEETS:
        if not phone.page.locator(f".at-{step}").count():
            phone.go_to(step)
        with sheet(phone, opener, mark):
            stop(f"{step}-{opener}")
    phone.go_to("levels")
    for opener, mark in LEVELS_SHEETS:
        phone.tap("levels-note")
        with sheet(phone, f"open-{mark}", mark):
            stop(f"levels-{mark}")
            phone.tap(opener)
            phone.wait_for(f"{mark.removesuffix('s')}-form")
            stop(f"levels-{opener}")
            phone.tap(f"{mark.removesuffix('s')}-form-close")
            if mark == "setups":
                phone.tap("levels-note")
                phone.tap("open-setups")


def walk_the_rails(phone: Phone, stop: Stop) -> None:
    """Laying out, setting with wet hands, truing, and a reading of the level as it is entered."""
    phone.go_to("rails")
    phone.tap("rails-layout")
    phone.wait_for("figure-layout-rails-value")
    stop("rails-layout")
    with sheet(phone, "add-strips", "strips-form"):
        stop("rails-layout-strips")
    phone.page.get_by_test_id("take-rail").first.click()
    phone.wait_for("rail-deck")
    stop("rails-layout-hand")
    phone.tap("back")
    phone.tap("rails-hands")
    phone.wait_for("hands-where")
    stop("rails-hands")
    phone.tap("hands-leave")
    phone.tap("rails-true")
    phone.wait_for("read-next")
    stop("rails-true")
    phone.tap("read-next")
    with sheet(phone, "check-where", "check-where-sheet"):
        stop("rails-true-where")
    stop("rails-true-reading")
    phone.tap("check-put-away")
    phone.wait_for("read-next")
    phone.tap("back")


def walk_the_check(phone: Phone, stop: Stop) -> None:
    """Reading the finished bed, a straightedge laid by hand, a line of heights, the standards to choose from."""
    phone.go_to("checking")
    with sheet(phone, "standard", "standards"):
        stop("checking-standards")
    phone.tap("read-bed")
    phone.wait_for("keypad")
    stop("checking-read")
    phone.tap("back")
    phone.tap("height-line")
    with sheet(phone, "line-how-open", "line-how"):
        stop("checking-heights-how")
    stop("checking-heights")
    phone.tap("back")
    phone.tap("lay-edge")
    for across, up in ((0.25, 0.4), (0.5, 0.6)):
        box = phone.page.get_by_test_id("drawing").locator("visible=true").first.bounding_box()
        assert box is not None
        phone.page.mouse.click(box["x"] + box["width"] * across, box["y"] + box["height"] * up)
    phone.wait_for("edge-length")
    stop("checking-edge")
    with sheet(phone, "type-gap", "wedge"):
        stop("checking-wedge")
    phone.tap("edge-up")
    phone.tap("back")


def walk_outside_the_room(phone: Phone, stop: Stop) -> None:
    """Jobs, the board, a job and its order, a new one, settings, people, prices, an address to nowhere, stories."""
    for name, path, mark in (
        ("jobs", "/", "jobs"),
        ("board", "/board", "board"),
        ("new-job", "/new", "begin-job"),
        ("settings", "/settings", "settings"),
        ("people", "/people", "person"),
        ("review", "/review", "review"),
        ("prices", "/prices", "company-supplies"),
        ("missing", "/nowhere", "to-jobs"),
    ):
        phone.go(path)
        phone.wait_for(mark)
        stop(name)
    phone.to_jobs()
    phone.tap("job")
    phone.wait_for("job-page")
    stop("job")
    with sheet(phone, "change-job", "change-job"):
        stop("job-change")
    phone.tap("job-order")
    phone.wait_for("job-order")
    stop("job-order")
    phone.tap("back")
    phone.tap("change-job")
    phone.tap("job-history")
    phone.wait_for("story-step")
    stop("job-history")
    walk_the_people(phone, stop)


def walk_the_people(phone: Phone, stop: Stop) -> None:
    """The sheets on the foreman's list of people."""
    phone.go("/people")
    phone.wait_for("person")
    for opener, mark in (
        ("change-person", "person-sheet"),
        ("device", "device-sheet"),
        ("invite-somebody", "invite"),
    ):
        with sheet(phone, opener, mark):
            if mark == "device-sheet":
                phone.tap("remove-device")
                phone.wait_for("removing")
            stop(f"people-{mark}")
    with sheet(phone, "another-device", "invite"):
        phone.tap("make-code")
        phone.wait_for("invite-code")
        stop("people-code")
