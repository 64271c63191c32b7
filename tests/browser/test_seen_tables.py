"""Readings from tables: previewed, taken whole or not at all, taken back by one undo, and written out again."""

import csv
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect
from tests.browser.phone import Phone
from tests.browser.running import Service

pytestmark = pytest.mark.browser

ROOM = [("12", "left"), ("9", "left"), ("12", "left"), ("9", "left")]
FOOT = 304.8
# name, northing, easting, elevation in feet, description
POINTS = [
    ("101", "0,5", "0,5", "2,1000", "door"),
    ("102", "0,5", "6", "2,0500", ""),
    ("103", "0,5", "11,5", "2,0250", "corner"),
    ("104", "4,5", "0,5", "2,0750", ""),
    ("105", "4,5", "6", "2,1250", "hump"),
    ("106", "4,5", "11,5", "2,0000", ""),
    ("107", "8,5", "0,5", "2,0600", ""),
    ("108", "8,5", "6", "2,0400", ""),
    ("109", "8,5", "11,5", "2,0100", "low"),
]
TABLE = "Point;Northing;Easting;Elevation;Description\n" + "".join(f"{';'.join(point)}\n" for point in POINTS)
WRONG = "Point;Northing;Easting;Elevation\n1;0,5;0,5;2,1\n2;0,5;six;2,0\n3;4,5;6;2,0\n4;8,5\n"


@pytest.fixture(scope="module")
def one_phone(shared_phones: Callable[..., Phone], shared_service: Service) -> Phone:
    phone: Phone = shared_phones()
    phone.open(shared_service.address)
    phone.wait_until_kept()
    phone.lose_network()
    return phone


@pytest.fixture
def phone(one_phone: Phone, request: pytest.FixtureRequest) -> Phone:
    """A new room of twelve feet by nine, nothing read, where tables come in; no network."""
    one_phone.to_jobs()
    one_phone.begin_room(request.node.name, "Mill End", "Hall")
    one_phone.walk(ROOM)
    one_phone.tap("step-room")
    open_tables(one_phone)
    return one_phone


def open_tables(phone: Phone) -> None:
    phone.tap("readings-in-out")
    phone.wait_for("way-table_in")


def choose_file(phone: Phone, folder: Path, text: str, name: str = "readings.csv") -> None:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    phone.page.get_by_test_id("table-file").set_input_files(path)


def check_readings(phone: Phone, count: int) -> None:
    """As many as the room's own screen counts."""
    told = expect(phone.page.get_by_test_id("step-levels").locator("visible=true").last)
    if count:
        told.to_have_text(re.compile(rf"(?<!\d){count} readings?"))
    else:
        told.not_to_have_text(re.compile(r"[1-9]\d* readings?"))


def heights(phone: Phone) -> list[str]:
    """The heights of all readings, as the point sheets tell them, in the order of the readings."""
    phone.go_to("levels")
    phone.tap("levels-note")
    phone.wait_for("listed-reading")
    count = phone.page.get_by_test_id("listed-reading").count()
    found = []
    for number in range(count):
        phone.page.get_by_test_id("listed-reading").nth(number).click()
        phone.wait_for("point-height")
        found.append(phone.text("point-height").split("±")[0].strip().replace("\u00a0", " "))
        phone.tap("reading-close")
        phone.tap("levels-note")
    phone.tap("levels-about-close")
    return found


def sixteenths(z: float) -> str:
    """A height as the app writes it, reckoned here once more: the nearest sixteenth of an inch."""
    steps = round(abs(z) / 25.4 * 16)
    whole, part = divmod(steps, 16)
    under = 16
    while part and part % 2 == 0:
        part, under = part // 2, under // 2
    text = " ".join(
        piece for piece in (str(whole) if whole or not part else "", f"{part}/{under}" if part else "") if piece
    )
    return f"{'' if steps == 0 else '+' if z > 0 else '−'}{text}″"


def test_a_table_with_semicolons_and_decimal_commas_in_feet_is_previewed_and_then_taken(
    phone: Phone, tmp_path: Path
) -> None:
    choose_file(phone, tmp_path, TABLE)
    phone.wait_for_text("table-found", r"9 points found.*Feet")
    for mark in ("separator-semicolon", "decimal-comma", "unit-ft", "header-yes", "heights-elevation"):
        expect(phone.page.get_by_test_id(mark)).to_have_attribute("aria-pressed", "true")
    chosen = [phone.page.get_by_test_id(f"column-{n}").input_value() for n in range(5)]
    assert chosen == ["point", "northing", "easting", "elevation", "description"]
    phone.wait_for_text("placing-says", r"9 of 9")
    expect(phone.page.locator(".room-drawing .spot.read")).to_have_count(9)
    phone.shot("seen-table-in")
    phone.wait_for_text("take-readings", r"^Take 9 readings$")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    check_readings(phone, 9)
    elevations = [float(point[3].replace(",", ".")) * FOOT for point in POINTS]
    assert heights(phone) == [sixteenths(z - max(elevations)) for z in elevations]


def test_one_undo_takes_a_whole_table_back(phone: Phone, tmp_path: Path) -> None:
    choose_file(phone, tmp_path, TABLE)
    phone.wait_for("take-readings")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    phone.tap("undo")
    expect(phone.page.get_by_test_id("figure-bed-volume-value")).to_have_count(0)
    check_readings(phone, 0)


def test_a_wrong_table_is_refused_with_its_lines_and_nothing_is_taken(phone: Phone, tmp_path: Path) -> None:
    choose_file(phone, tmp_path, WRONG)
    phone.wait_for_text("table-problems", r"Nothing was taken")
    told = phone.text("table-problems")
    assert "Line 3, column 3" in told
    assert "six" in told
    assert "Line 5" in told
    expect(phone.page.get_by_test_id("take-readings")).to_have_count(0)
    phone.shot("seen-table-refused")
    phone.tap("back")
    check_readings(phone, 0)


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("photo.csv", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x01"),
        ("empty.csv", b"\n\n"),
        ("letter.csv", b"Dear sir,\nthe floor is high.\n"),
    ],
)
def test_a_file_that_is_no_table_is_refused(phone: Phone, tmp_path: Path, name: str, content: bytes) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    phone.page.get_by_test_id("table-file").set_input_files(path)
    if content.strip():
        phone.wait_for_text("table-problems", r"Nothing was taken")
    expect(phone.page.get_by_test_id("take-readings")).to_have_count(0)


def test_what_was_pasted_waits_until_one_comes_back(phone: Phone) -> None:
    phone.fill("table-text", TABLE)
    phone.wait_for("take-readings")
    phone.tap("back")
    open_tables(phone)
    phone.wait_for_text("take-readings", r"^Take 9 readings$")


def test_another_meaning_of_a_column_and_another_unit_change_what_would_be_taken(phone: Phone) -> None:
    phone.fill("table-text", TABLE)
    phone.wait_for("take-readings")
    phone.tap("unit-m")
    phone.wait_for_text("placing-says", r"\b[0-8] of 9")
    phone.tap("unit-ft")
    phone.wait_for_text("placing-says", r"9 of 9")
    phone.page.get_by_test_id("column-1").select_option("easting")
    phone.wait_for("table-problems")
    phone.page.get_by_test_id("column-2").select_option("northing")
    phone.wait_for("take-readings")
    expect(phone.page.get_by_test_id("table-problems")).to_have_count(0)


def test_a_table_written_out_and_read_in_again_says_the_same(phone: Phone, tmp_path: Path) -> None:
    choose_file(phone, tmp_path, TABLE)
    phone.wait_for("take-readings")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    first = heights(phone)
    phone.tap("step-room") if phone.page.get_by_test_id("step-room").count() else phone.tap("back")
    open_tables(phone)
    phone.tap("way-table_out")
    phone.tap("out-decimal-comma")
    expect(phone.page.get_by_test_id("out-separator-semicolon")).to_have_attribute("aria-pressed", "true")
    phone.wait_for_text("table-written", r"^9 readings")
    phone.wait_for_text("table-sample", r"\d+,\d+;")
    phone.shot("seen-table-out")
    with phone.page.expect_download() as download:
        phone.tap("save-table")
    saved = tmp_path / "hall.csv"
    download.value.save_as(saved)
    rows = list(csv.reader(saved.read_text(encoding="utf-8").splitlines(), delimiter=";"))
    assert len(rows) == 10
    phone.to_jobs()
    phone.begin_room("Read in again", "Mill End", "Hall")
    phone.walk(ROOM)
    phone.tap("step-room")
    open_tables(phone)
    phone.page.get_by_test_id("table-file").set_input_files(saved)
    phone.wait_for_text("take-readings", r"^Take 9 readings$")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    assert heights(phone) == first


def test_places_read_before_are_read_again_and_tie_the_two_or_are_left_out(phone: Phone) -> None:
    phone.fill("table-text", TABLE)
    phone.wait_for("take-readings")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    open_tables(phone)
    phone.fill("table-text", "\n".join(TABLE.splitlines()[:4]) + "\n200;2,5;3;2,0900;new\n")
    phone.wait_for_text("already-read", r"3 stand")
    phone.wait_for_text("take-readings", r"^Take 4 readings$")
    expect(phone.page.get_by_test_id("take-apart")).to_have_count(0)
    phone.tap("already-skip")
    phone.wait_for_text("take-readings", r"^Take 1 reading$")
    expect(phone.page.get_by_test_id("take-apart")).to_be_visible()
    phone.tap("already-again")
    phone.tap("take-readings")
    phone.wait_for("figure-bed-volume-value")
    check_readings(phone, 13)
