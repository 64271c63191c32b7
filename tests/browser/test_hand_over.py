"""The record of a room without a network: read, printed on either paper, signed as a dated copy, saved as tables."""

import csv
import json
import re
from collections.abc import Callable, Iterator
from hashlib import sha256
from io import StringIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
import rfc8785
from playwright.sync_api import expect
from tests.browser import handover
from tests.browser.pdfs import SIZES, printed, squeezed
from tests.browser.people import assign, let_in
from tests.browser.phone import Phone
from tests.browser.printed_record import check_headers, check_pages, check_words
from tests.browser.pushed import push_job
from tests.browser.records import pulled_records
from tests.browser.running import Service
from tests.browser.words import sentences
from tests.pictures import jpeg

from evenbed.engine.bridge import answer_text

pytestmark = pytest.mark.browser

Json = dict[str, Any]
PERSON = "Rosa"
RECORD_PATIENCE_MS = 120_000  # a busy machine is slow, not wrong
INCH = 25.4
PARTS = (
    *("room", "subfloor", "top", "thickness", "material", "rails"),
    *("filling", "joints", "waiting", "flatness", "photos", "decisions"),
)
DRAWINGS = (
    *("outline", "ground", "thickness", "profile", "rails", "sections", "waiting"),
    *("flat-height", "flat-gaps"),
)
CAPTION = "the hall's threshold"


@pytest.fixture(scope="module")
def away(
    shared_service: Service, shared_phones: Callable[..., Phone], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Phone]:
    """A phone of somebody who joined, has the room with everything in it, lost the network, and took a photo."""
    push_job(shared_service, "Alder Court", [handover.room()])
    phone: Phone = shared_phones()
    phone.open(shared_service.address)
    phone.join(shared_service.join_code(), PERSON)
    phone.wait_until_kept()
    phone.lose_network()
    take_photo(phone, tmp_path_factory.mktemp("camera") / "hall.jpg")
    yield phone
    assert phone.complaints == []


def take_photo(phone: Phone, file: Path) -> None:
    """Of the room, with a caption."""
    file.write_bytes(jpeg().content)
    phone.to_jobs()
    phone.open_room(handover.ROOM)
    phone.page.get_by_test_id("choose-photo").set_input_files(file)
    phone.tap("photo-image")
    phone.fill("photo-note", CAPTION)
    phone.tap("keep-photo-note")


@pytest.fixture
def phone(away: Phone) -> Phone:
    """At the room's record as it stands, in English and inches."""
    reads(away, "en", "imperial")
    open_record(away)
    return away


def reads(phone: Phone, language: str, units: str) -> None:
    phone.to_jobs()
    phone.tap("open-settings")
    phone.tap(f"language-{language}")
    phone.tap(f"units-{units}")
    phone.to_jobs()


def open_record(phone: Phone) -> None:
    phone.to_jobs()
    phone.open_room(handover.ROOM)
    phone.tap("open-record")
    wait_for_record(phone)


def wait_for_record(phone: Phone) -> None:
    """The whole plan stands behind it, flatness included."""
    expect(phone.page.get_by_test_id("record-paper")).to_be_visible(timeout=RECORD_PATIENCE_MS)


def said(phone: Phone, part: str) -> str:
    return phone.text(f"part-{part}")


def sign(phone: Phone, note: str) -> None:
    phone.tap("sign")
    phone.fill("sign-note", note)
    phone.tap("sign-now")
    expect(phone.page.get_by_test_id("record-paper")).to_have_attribute("data-shown", "copy")


def test_the_record_tells_everything_from_the_first_reading_to_the_check_and_what_never_was(phone: Phone) -> None:
    for part in PARTS:
        expect(phone.page.get_by_test_id(f"part-{part}")).to_have_count(1)
    assert phone.page.get_by_test_id("record-readings").locator("tbody tr").count() == 2 * len(handover.PLACES)
    assert "Rosa decided this, Apr 29, 2026" in said(phone, "top")
    assert "Higher" in said(phone, "top")
    assert "logger" in said(phone, "waiting").lower()
    assert "Scratched" in said(phone, "waiting")
    assert "DIN 18202" in said(phone, "flatness")
    assert "beyond" in said(phone, "flatness")
    assert "No rail was bedded anew" not in said(phone, "rails")
    expect(phone.page.get_by_test_id("record-photo").locator("img")).to_have_count(1)
    assert CAPTION in said(phone, "photos")
    assert "doorway" in said(phone, "joints").lower()
    for drawing in DRAWINGS:
        picture = phone.page.get_by_test_id(f"drawing-{drawing}").locator("svg[role=img]").first
        assert len(picture.get_attribute("aria-label") or "") > 10, drawing
    phone.shot("hand-over-record")


@pytest.mark.parametrize("language", ["en", "es"])
def test_it_prints_whole_on_a4_and_on_letter_with_its_foot_on_every_page(away: Phone, language: str) -> None:
    reads(away, language, "imperial" if language == "en" else "metric")
    open_record(away)
    for paper in SIZES:
        away.tap(f"paper-{paper}")
        expect(away.page.get_by_test_id(f"paper-{paper}")).to_have_attribute("aria-pressed", "true")
        found = printed(away, f"hand-over-{paper}-{language}")
        check_pages(found, paper)
        check_words(away, found)
        check_headers(away, found)
        hashed = away.text("record-inputs-hash")[:12]
        count = sentences(language)["record.page"].split("#")
        for number, page in enumerate(found.pages, 1):
            assert squeezed(f"{handover.ROOM} · ") in page.text
            assert hashed in page.text
            assert squeezed(f"{count[0]}{number}{count[1]}{len(found.pages)}") in page.text


def test_what_is_signed_stays_as_it_was_and_later_changes_show_as_later(
    phone: Phone, shared_service: Service
) -> None:
    phone.tap("sign")
    left = phone.text("unfinished")
    assert "beyond its limits" in left
    assert "nobody has let pass" in left
    phone.shot("hand-over-sign")
    phone.tap("sign-sheet-close")
    sign(phone, "for the tilers")
    assert f"Signed by {PERSON}" in phone.text("record-signed-by")
    expect(phone.page.get_by_test_id("nothing-later")).to_be_visible()
    before = said(phone, "thickness")
    on_paper = printed(phone, "hand-over-copy")

    phone.tap("back")
    expect(phone.page.get_by_test_id("signed-line")).to_have_text(re.compile(r"^Signed by Rosa, [^.]*\.$"))
    phone.go_to("bed")
    phone.tap("choose-alternative")
    phone.wait_for_text("decision", PERSON)
    open_record(phone)
    phone.wait_for_text("part-top", "4.?″|48|3/8")
    assert said(phone, "thickness") != before
    phone.tap("show-copy")
    expect(phone.page.get_by_test_id("later-change").first).to_be_visible()
    assert said(phone, "thickness") == before
    later = " ".join(phone.texts("later-change"))
    assert "Top of bed" in later
    expect(phone.page.get_by_test_id("later-who").filter(has_text=PERSON).first).to_be_visible()  # stories come later
    assert [page.text for page in printed(phone, "hand-over-copy-later").pages] == [
        page.text for page in on_paper.pages
    ]
    phone.shot("hand-over-later")
    phone.tap("back")
    expect(phone.page.get_by_test_id("signed-line")).to_contain_text("Changed since")
    check_the_copy_at_the_office(phone, shared_service)


def check_the_copy_at_the_office(phone: Phone, service: Service) -> None:
    """The hash is of the document in its canonical form (RFC 8785), and this engine still answers as was signed."""
    phone.find_network()
    phone.to_jobs()
    phone.wait_for_text("save-line", r"[Ss]ent")
    signed = [record for record in pulled_records(service) if record["kind"] == "sign_off"]
    assert len(signed) == 1
    fields = signed[0]["fields"]
    copy = json.loads(fields["copy"])
    assert sha256(rfc8785.dumps(copy["document"])).hexdigest() == fields["inputs_hash"]
    assert len(fields["copy"]) < 2_000_000
    plan = json.loads(answer_text("plan", json.dumps(copy["document"])))
    assert plan["engine"]["hash"] == fields["engine_hash"]
    plan["explanations"], plan["surface"]["statistics"] = {}, None
    assert handover.unlike(plan, copy["plan"]) == []
    phone.lose_network()


def saved_tables(phone: Phone, folder: Path) -> ZipFile:
    with phone.page.expect_download() as download:
        phone.tap("save-tables")
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    return ZipFile(path)


def rows_of(packed: ZipFile, table: str, delimiter: str) -> list[dict[str, str]]:
    text = packed.read(f"{table}.csv").decode("utf-8-sig")
    return list(csv.DictReader(StringIO(text, newline=""), delimiter=delimiter, strict=True))


def test_the_tables_come_in_one_zip_and_say_what_the_records_say_in_inches(phone: Phone, tmp_path: Path) -> None:
    given = handover.room()
    phone.tap("open-tables")
    phone.tap("csv-separator-comma")
    phone.tap("csv-decimal-point")
    with saved_tables(phone, tmp_path) as packed:
        assert packed.testzip() is None
        assert len(packed.namelist()) >= 13
        readings = rows_of(packed, "readings", ",")
        gaps = rows_of(packed, "gaps", ",")
        book = rows_of(packed, "day_book", ",")
        temperatures = rows_of(packed, "temperatures", ",")
        milestones = rows_of(packed, "milestones", ",")
    down = [float(row["Below the level line (in)"]) * INCH for row in readings]
    assert down == pytest.approx([one["down"] for one in given["readings"]], abs=1e-4)
    places = [[float(row["Place, across (in)"]) * INCH, float(row["Place, up (in)"]) * INCH] for row in readings]
    assert places == [pytest.approx(one["at"], abs=1e-4) for one in given["readings"]]
    assert [row["Taken"] for row in readings] == [one["taken_at"] for one in given["readings"]]
    assert [float(row["Gap (in)"]) * INCH for row in gaps] == pytest.approx([4.5, 1.0], abs=1e-4)
    assert f"'{handover.FORMULA}" in [row["Words"] for row in book]
    assert (milestones[0]["Let pass"], milestones[0]["By"]) == ("2026-05-05T08:00:00Z", PERSON)
    air = [float(row["Air (°F)"]) for row in temperatures if row["Air (°F)"]]
    assert air == pytest.approx([21.0 * 1.8 + 32, -2.5 * 1.8 + 32])
    phone.tap("tables-sheet-close")


def test_one_table_alone_in_millimetres_with_decimal_commas_and_negative_numbers_as_they_are(
    away: Phone, tmp_path: Path
) -> None:
    reads(away, "es", "metric")
    open_record(away)
    away.tap("open-tables")
    away.tap("csv-decimal-comma")
    expect(away.page.get_by_test_id("csv-separator-semicolon")).to_have_attribute("aria-pressed", "true")
    away.tap("csv-mark-no")
    with away.page.expect_download() as download:
        away.tap("save-table-truings")
    path = tmp_path / "truings.csv"
    download.value.save_as(path)
    content = path.read_bytes()
    assert not content.startswith(b"\xef\xbb\xbf")
    assert content.count(b"\r\n") == content.count(b"\n") == 2
    (row,) = csv.DictReader(StringIO(content.decode(), newline=""), delimiter=";", strict=True)
    assert "-0,8" in row.values()
    away.tap("csv-mark-yes")
    away.tap("tables-sheet-close")


def test_who_only_looks_reads_and_prints_and_cannot_sign(
    shared_service: Service, shared_phones: Callable[..., Phone], away: Phone
) -> None:
    away.find_network()
    viewer = let_in(away, shared_service, shared_phones(), "Vera", "viewer")
    assign(away, "Alder Court", "Vera")
    viewer.wait_for("job")
    away.lose_network()
    viewer.open_room(handover.ROOM)
    viewer.lose_network()
    viewer.tap("open-record")
    wait_for_record(viewer)
    expect(viewer.page.get_by_test_id("print-record")).to_be_visible()
    expect(viewer.page.get_by_test_id("sign")).to_have_count(0)
