"""The command `scan`, as a person runs it."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.scans.clouds import ROOM, Array, furnished, read, save_ply, save_xyz, wavy

from evenbed.cli import main
from evenbed.engine.bridge import answer_text

POINTS = furnished(1, points=150_000).points
DOCUMENT: dict[str, Any] = {
    "document": 1,
    "outline": {"vertices": [list(p) for p in ROOM.rings[0]], "cutouts": [[list(p) for p in ROOM.rings[1]]]},
    "readings": [{"down": 3.0, "at": [1.0, 1.0]}],
    "mix": {"sand": 4.0},
}


@pytest.fixture
def room(tmp_path: Path) -> Path:
    """A room document."""
    path = tmp_path / "room.json"
    path.write_text(json.dumps(DOCUMENT), encoding="utf-8")
    return path


def printed(capfd: pytest.CaptureFixture[str]) -> Any:
    """What was printed, as JSON."""
    return json.loads(capfd.readouterr().out)


def test_it_prints_what_the_service_answers(tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str]) -> None:
    scan = save_ply(tmp_path / "scan.ply", POINTS)
    assert main(["scan", str(scan), "--room", str(room), "--unit", "mm", "--cell", "400"]) == 0
    assert printed(capfd) == read(scan, ROOM, unit="mm", cell=400.0).model_dump(mode="json")


def test_two_places_on_the_command_line_fit_the_scan(
    tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    scan = save_xyz(tmp_path / "scan.xyz", POINTS + np.array([1000.0, 500.0, 0.0]), 1000.0)
    told = ["--in-scan", "1,0.5,7,0.5", "--in-room", "0,0,6000,0"]
    assert main(["scan", str(scan), "--room", str(room), *told]) == 0
    report = printed(capfd)["report"]
    assert (report["unit"], report["shift"]) == ("m", [-1000.0, -500.0])


def test_the_document_it_prints_has_a_plan_of_the_scanned_floor(
    tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    scan = save_ply(tmp_path / "scan.ply", POINTS)
    assert main(["scan", str(scan), "--room", str(room), "--unit", "mm", "--document"]) == 0
    document = printed(capfd)
    assert document["mix"] == DOCUMENT["mix"]
    plan = json.loads(answer_text("quick_plan", json.dumps(document)))
    heights = np.array([(*one["at"], one["z"]) for one in plan["levels"]["heights"]])
    assert len(heights) == len(document["readings"]) > 100
    assert np.abs(spread(heights)).max() < 1.5
    assert heights[:, 2].max() == 0.0


def test_a_scan_of_the_bed_goes_beside_the_subfloor_and_is_held_against_the_documents_limits(
    tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    limits = {"standard": "own", "own": [{"length": 1500.0, "gap": 4.0}]}
    old = {"down": 1.0, "at": [2.0, 2.0], "stage": "bed", "setup": "bed_scan"}
    corners = [[0.0, 0.0], [6000.0, 0.0], [0.0, 5000.0]]
    subfloor = [{"down": 3.0, "at": at, "setup": "laser"} for at in corners]
    setups = [{"id": "laser"}, {"id": "bed_scan"}]
    told = DOCUMENT | {"flatness": limits, "readings": [*subfloor, old], "setups": setups}
    room.write_text(json.dumps(told), encoding="utf-8")
    scan = save_ply(tmp_path / "scan.ply", POINTS)
    command = ["scan", str(scan), "--room", str(room), "--unit", "mm", "--stage", "bed"]
    assert main(command) == 0
    assert [one["length"] for one in printed(capfd)["flatness"]["checks"]] == [1500.0]
    assert main([*command, "--document"]) == 0
    document = printed(capfd)
    assert document["readings"][:3] == subfloor
    assert {one["stage"] for one in document["readings"][3:]} == {"bed"}
    assert old not in document["readings"]
    assert [one["id"] for one in document["setups"]] == ["laser", "bed_scan"]
    plan = json.loads(answer_text("quick_plan", json.dumps(document)))
    assert plan["bed"]["volume"] > 0.0


def spread(heights: Array) -> Array:
    """What is left of the heights beside the true floor's, about their mean: the plan's zero is its own."""
    off: Array = heights[:, 2] - wavy(heights[:, 0], heights[:, 1])
    return np.asarray(off - off.mean())


@pytest.mark.parametrize(
    ("content", "code", "path"),
    [
        (b"1 2 3\n1 x 3\n", "scan_not_a_number", "line 2"),
        (b"", "scan_empty", ""),
        (b"7e9 7e9 7\n" * 9, "scan_no_floor", ""),
    ],
)
def test_a_bad_scan_is_a_problem_and_a_sentence(
    tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str], content: bytes, code: str, path: str
) -> None:
    (tmp_path / "bad.xyz").write_bytes(content)
    assert main(["scan", str(tmp_path / "bad.xyz"), "--room", str(room), "--unit", "mm"]) == 2
    told = capfd.readouterr()
    assert [(one["code"], one["path"]) for one in json.loads(told.out)["problems"]] == [(code, path)]
    assert "bad.xyz" in told.err
    assert path in told.err


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("{", "not_json"),
        ("[]", "missing"),
        ("{}", "missing"),
        ('{"outline": {}}', "outline_missing"),
        ("\xff", "not_json"),
    ],
)
def test_a_room_that_is_none_is_a_problem(
    tmp_path: Path, capfd: pytest.CaptureFixture[str], text: str, code: str
) -> None:
    (tmp_path / "room.json").write_bytes(text.encode("latin-1"))
    scan = save_xyz(tmp_path / "scan.xyz", POINTS[:10])
    assert main(["scan", str(scan), "--room", str(tmp_path / "room.json")]) == 2
    assert printed(capfd)["problems"][0]["code"] == code


@pytest.mark.parametrize("missing", ["scan.xyz", "room.json"])
def test_a_file_that_is_not_there_is_named(
    tmp_path: Path, room: Path, capfd: pytest.CaptureFixture[str], missing: str
) -> None:
    save_xyz(tmp_path / "scan.xyz", POINTS[:10])
    (tmp_path / missing).unlink()
    assert main(["scan", str(tmp_path / "scan.xyz"), "--room", str(room)]) == 1
    assert missing in capfd.readouterr().err


@pytest.mark.parametrize(
    "told", [["--cell", "1"], ["--unit", "cubits"], ["--in-scan", "1,2,3"], ["--minimum-points", "0"]]
)
def test_a_wish_out_of_range_is_refused(room: Path, told: list[str], capfd: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["scan", "scan.ply", "--room", str(room), *told])
    assert ended.value.code == 2
    assert told[0] in capfd.readouterr().err
