"""A file that is no scan, or is damaged, is refused in words that say where."""

import gzip
import zipfile
from pathlib import Path

import numpy as np
import pytest
from tests.scans.clouds import SQUARE, Scan, level, read, save_ply

from evenbed.scans.cloud import MOST_POINTS
from evenbed.scans.faults import FAULTS, ScanError
from evenbed.wire.problems import Code

HEAD = (
    b"ply\nformat binary_little_endian 1.0\nelement vertex 3\nproperty float x\nproperty float y\nproperty float z\n"
)
ROWS = np.arange(9, dtype="<f4").tobytes()
ASCII = HEAD.replace(b"binary_little_endian", b"ascii") + b"end_header\n"
ROW = b"100.0 200.0 1.0\n"
LATE = ROW * 200_000


def refused(path: Path) -> ScanError:
    """What is said to a file."""
    with pytest.raises(ScanError) as caught:
        read(path, SQUARE, unit="mm")
    return caught.value


BAD: list[tuple[bytes, str, str]] = [
    (b"", "scan_empty", ""),
    (b"\n\n# nothing\n", "scan_empty", ""),
    (b"x,y,z\n", "scan_empty", ""),
    (HEAD.replace(b"vertex 3", b"vertex 0") + b"end_header\n", "scan_empty", ""),
    (b"ply\nformat ascii 1.0\nend_header\n", "scan_empty", ""),
    (HEAD + b"end_header\n" + ROWS[:-1], "scan_short", ""),
    (HEAD + b"end_header\n", "scan_short", ""),
    (HEAD.replace(b"vertex 3", b"vertex 19000000") + b"end_header\n" + ROWS, "scan_short", ""),
    (HEAD.replace(b"vertex 3", b"vertex 999999999999") + b"end_header\n" + ROWS, "scan_many_points", ""),
    (HEAD.replace(b"vertex 3", b"vertex -3") + b"end_header\n" + ROWS, "scan_header", "line 3"),
    (HEAD.replace(b"vertex 3", b"vertex") + b"end_header\n" + ROWS, "scan_header", "line 3"),
    (HEAD.replace(b"float z", b"floaty z") + b"end_header\n" + ROWS, "scan_header", "line 6"),
    (HEAD.replace(b"float z", b"float y") + b"end_header\n" + ROWS, "scan_no_places", ""),
    (HEAD + b"property float x\nend_header\n" + 2 * ROWS, "scan_header", "line 8"),
    (HEAD.replace(b"little", b"middle") + b"end_header\n" + ROWS, "scan_header", "line 2"),
    (HEAD.replace(b"1.0", b"2.0") + b"end_header\n" + ROWS, "scan_header", "line 2"),
    (b"ply\nelement vertex 3\nend_header\n", "scan_header", "line 2"),
    (HEAD + ROWS, "scan_header", ""),
    (HEAD + b"comment " + 70_000 * b"a" + b"\nend_header\n" + ROWS, "scan_header", ""),
    (
        HEAD.replace(b"element", b"element face 1\nproperty list uchar int i\nelement") + b"end_header\n",
        "scan_header",
        "",
    ),
    (HEAD + b"end_header\n" + ROWS[:-4] + np.float32("nan").tobytes(), "scan_not_a_number", "point 3"),
    (HEAD + b"end_header\n" + np.float32("inf").tobytes() + ROWS[4:], "scan_not_a_number", "point 1"),
    (ASCII + b"0 0 0\n1 1 1\n", "scan_short", ""),
    (ASCII + b"0 0 0\n1 one 1\n2 2 2\n", "scan_not_a_number", "line 9"),
    (ASCII + b"0 0 0\n1 1 nan\n2 2 2\n", "scan_not_a_number", "line 9"),
    (ASCII + b"0 0 0\n1 1\n2 2 2\n", "scan_few_columns", "line 9"),
    (LATE + b"100 2OO 1\n" + ROW, "scan_not_a_number", "line 200001"),
    (LATE + b"100 200\n" + ROW, "scan_few_columns", "line 200001"),
    (LATE + b"100 200\n" + b"1 2 3 4\n", "scan_few_columns", "line 200001"),
    (b"# first\n\n" + LATE + b"1 2 inf\n", "scan_not_a_number", "line 200003"),
    (b"1 2 3\n1 2 nan\n", "scan_not_a_number", "line 2"),
    (b"nan nan nan\n1 2 3\n", "scan_not_a_number", "line 1"),
    (b"1 2 3\n1 2 1_000\n", "scan_not_a_number", "line 2"),
    (b"1,2,3\n1,,3,4\n", "scan_not_a_number", "line 2"),
    (b"x,y,z\n1,2,3\n,2,3\n", "scan_not_a_number", "line 3"),
    (b"1;2;3\n1;2; ;4\n", "scan_not_a_number", "line 2"),
    (b"1 2 3\n\n1 2\n", "scan_few_columns", "line 3"),
    (b"x,y,height,z\nred,2,3,4\n", "scan_not_a_number", "line 2"),
    (b"x,y,intensity\n1,2,3\n", "scan_no_places", "line 1"),
    (b"4\n1 2 3\n4 5 6\n", "scan_short", ""),
    (b"1\n1 2 3\n4 5 6\n", "scan_long", ""),
    (b"hello world\nthis is prose\n", "scan_not_a_number", "line 2"),
    (b'{"readings": [1, 2, 3]}\n', "scan_not_a_number", "line 1"),
    (b"\x00\x01\x02\x03" * 100, "scan_not_text", ""),
    ("1 2 3\n".encode("utf-16"), "scan_not_text", ""),
    (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "scan_not_text", ""),
    (b"7" * 3_000_000, "scan_long_line", "line 1"),
    (ROW + b"7" * 3_000_000, "scan_long_line", "line 2"),
    (gzip.compress(ROW, mtime=0), "scan_packed", ""),
]


@pytest.mark.parametrize(("content", "code", "path"), BAD, ids=[f"{one[1]}-{n}" for n, one in enumerate(BAD)])
def test_a_bad_file_is_refused_by_name_and_place(tmp_path: Path, content: bytes, code: str, path: str) -> None:
    (tmp_path / "scan").write_bytes(content)
    said = refused(tmp_path / "scan")
    assert (said.item.code, said.item.path) == (code, path or said.item.path)
    assert said.code == Code.SCAN_UNREADABLE
    assert said.item.path in str(said)


def test_a_packed_scan_is_called_what_it_is(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "scan.zip", "w") as packed:
        packed.writestr("scan.xyz", ROW)
    assert "zip" in str(refused(tmp_path / "scan.zip"))


@pytest.mark.parametrize("kept", [0.999, 0.5, 0.01])
def test_a_truncated_ply_says_how_many_points_are_left(tmp_path: Path, kept: float) -> None:
    path = save_ply(tmp_path / "scan.ply", Scan(SQUARE, level).add_floor(1000).points)
    whole = path.read_bytes()
    rows = len(whole) - whole.index(b"end_header\n") - len(b"end_header\n")
    path.write_bytes(whole[: len(whole) - rows + int(rows * kept)])
    values = refused(path).item.values
    assert values == {"expected": 1000, "got": int(rows * kept) // 24}


def test_any_damage_to_a_ply_is_a_fault_told_or_other_points_never_a_crash(tmp_path: Path) -> None:
    path = save_ply(tmp_path / "scan.ply", Scan(SQUARE, level).add_floor(200).points, kind="f4")
    whole, dice = path.read_bytes(), np.random.default_rng(1)
    told = []
    for _ in range(300):
        damaged = bytearray(whole)
        for place in dice.integers(0, 160, 3):
            damaged[place] = dice.integers(0, 256)
        path.write_bytes(damaged)
        try:
            read(path, SQUARE, unit="mm")
        except ScanError as error:
            told.append(error.item.code)
    assert len(told) > 200
    assert set(told) <= set(FAULTS)


def test_a_scan_of_another_place_or_in_another_unit_shows_no_floor(tmp_path: Path) -> None:
    points = Scan(SQUARE, level).add_floor(5000).points
    with pytest.raises(ScanError, match=r"0 of 5000 points lie in the room, in mm") as caught:
        read(save_ply(tmp_path / "scan.ply", points + 1e6), SQUARE, unit="mm")
    assert caught.value.code == Code.SCAN_MISSES_FLOOR


@pytest.mark.parametrize("far", [1e30, 1e18, -1e12])
def test_a_point_beyond_all_bounds_is_outside_and_hurts_nothing(tmp_path: Path, far: float) -> None:
    points = Scan(SQUARE, level).add_floor(5000).points
    strange = np.vstack((points, [[far, 0, 0], [0, far, 0], [1000, 1000, far]]))
    plain = read(save_ply(tmp_path / "1.ply", points), SQUARE, unit="mm")
    assert read(save_ply(tmp_path / "2.ply", strange), SQUARE, unit="mm").readings == plain.readings


def test_more_points_than_can_be_taken_are_refused_before_they_are_read(tmp_path: Path) -> None:
    head = HEAD.replace(b"vertex 3", b"vertex %d" % (MOST_POINTS + 1)) + b"end_header\n"
    (tmp_path / "scan.ply").write_bytes(head)
    assert refused(tmp_path / "scan.ply").item.code == "scan_many_points"
