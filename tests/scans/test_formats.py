"""Whatever a scan is saved as, the same points come out. The judge of PLY is plyfile, of text numpy's own reader."""

import io
from pathlib import Path
from typing import Any

import numpy as np
import plyfile
import pytest
from tests.scans.clouds import SQUARE, Array, Scan, read, save_ply, save_xyz, wavy

from evenbed.scans.files import opened_scan

POINTS = np.round(Scan(SQUARE, wavy).add_floor(3000).points, 3)
TEXT = "\n".join(" ".join(f"{value:.3f}" for value in row) for row in POINTS) + "\n"


def points_in(path: Path) -> Array:
    """All points of a file, one a row, gone through twice."""
    with opened_scan(path, lambda _done: None) as cloud:
        first = np.concatenate([np.column_stack(block) for block in cloud.blocks()])
        assert np.array_equal(first, np.concatenate([np.column_stack(block) for block in cloud.blocks()]))
        assert cloud.count == len(first)
    return first


@pytest.mark.parametrize("kind", ["f4", "f8"])
@pytest.mark.parametrize("told", [{"byte_order": "<"}, {"byte_order": ">"}, {"text": True}])
def test_ply_of_every_kind(tmp_path: Path, kind: str, told: dict[str, Any]) -> None:
    path = save_ply(tmp_path / "scan.ply", POINTS, kind=kind, **told)
    judged = plyfile.PlyData.read(str(path))["vertex"]
    expected = np.column_stack([judged[axis] for axis in "xyz"]).astype(float)
    assert np.allclose(points_in(path), expected, rtol=1e-7, atol=0)
    assert np.abs(points_in(path) - POINTS).max() < 1e-3


@pytest.mark.parametrize("told", [{"byte_order": "<"}, {"byte_order": ">"}, {"text": True}])
def test_a_mesh_with_colours_normals_and_what_else_there_is(tmp_path: Path, told: dict[str, Any]) -> None:
    kinds = [("nx", "f4"), ("z", "f8"), ("red", "u1"), ("x", "f4"), ("quality", "i2"), ("y", "f8"), ("mark", "i4")]
    rows = np.zeros(len(POINTS), kinds)
    rows["x"], rows["y"], rows["z"] = POINTS.T
    faces = np.array([([0, 1, 2],), ([0, 1, 2, 3],)], dtype=[("vertex_indices", "O")])
    camera = np.zeros(2, [("focus", "f8")])
    binary = [] if "text" in told else [plyfile.PlyElement.describe(camera, "camera")]
    elements = [plyfile.PlyElement.describe(rows, "vertex", comments=["element of surprise"])]
    face = plyfile.PlyElement.describe(faces, "face", val_types={"vertex_indices": "i4"})
    path = tmp_path / "mesh.ply"
    plyfile.PlyData([*binary, *elements, face], comments=["by hand"], **told).write(str(path))
    assert np.allclose(points_in(path), POINTS, atol=2e-4)


@pytest.mark.parametrize("separator", [" ", "  ", "\t", ",", ", ", ";", "; "])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("is_last_ended", [True, False])
def test_rows_of_every_make(tmp_path: Path, separator: str, end: str, is_last_ended: bool) -> None:
    text = TEXT.replace(" ", separator).replace("\n", end)
    path = tmp_path / "scan.csv"
    path.write_text(text if is_last_ended else text.removesuffix(end), newline="")
    assert np.array_equal(points_in(path), np.loadtxt(io.StringIO(TEXT)))


@pytest.mark.parametrize(
    ("head", "order"),
    [
        ("x,y,z", (0, 1, 2)),
        ("X , Y , Z", (0, 1, 2)),
        ('"z","x","y"', (2, 0, 1)),
        ("northing,easting,elevation", (1, 0, 2)),
        ("Norte (m),Este (m),Cota (m)", (1, 0, 2)),
        ("x [m],y [m],z [m]", (0, 1, 2)),
        ("first,second,third", (0, 1, 2)),
    ],
)
def test_a_head_names_the_columns(tmp_path: Path, head: str, order: tuple[int, int, int]) -> None:
    (tmp_path / "scan.csv").write_text(
        head + "\n" + "\n".join(",".join(f"{v:.3f}" for v in row) for row in POINTS[:, order])
    )
    wanted = POINTS if set(head) & set("xXnN") else POINTS[:, order]
    assert np.array_equal(points_in(tmp_path / "scan.csv"), wanted)


@pytest.mark.parametrize(
    "made",
    [
        lambda row: ";".join(f"{v:.3f}".replace(".", ",") for v in row),
        lambda row: "\t".join(f"{v:.3f}".replace(".", ",") for v in row),
        lambda row: " ".join(f"{v:.3f}".replace(".", ",") for v in row),
        lambda row: ",".join(f"{v:.3f}" for v in row) + ",0.5,wall,,7",
        lambda row: " ".join(f"{v:.6e}" for v in row) + " 255 0 0",
        lambda row: " ".join(f"{v:+.3f}" for v in row) + " wall",
        lambda row: "  " + " ".join(f"{v:.3f}" for v in row) + "  ",
    ],
)
def test_decimal_commas_and_more_columns(tmp_path: Path, made: object) -> None:
    assert callable(made)
    (tmp_path / "scan.txt").write_text("\n".join(made(row) for row in POINTS))
    assert np.allclose(points_in(tmp_path / "scan.txt"), POINTS, atol=1e-3, rtol=1e-6)


def test_remarks_blank_lines_a_mark_in_front_and_a_count_are_passed_over(tmp_path: Path) -> None:
    lines = TEXT.splitlines()
    text = "\n".join(
        ["\ufeff# made by hand", "", "// x y z", str(len(lines)), *lines[:10], "", "# more", *lines[10:]]
    )
    (tmp_path / "scan.pts").write_text(text, encoding="utf-8")
    assert np.array_equal(points_in(tmp_path / "scan.pts"), np.loadtxt(io.StringIO(TEXT)))


def test_a_file_of_many_chunks_is_read_whole(tmp_path: Path) -> None:
    points = np.round(Scan(SQUARE, wavy).add_floor(250_000).points, 3)
    path = save_xyz(tmp_path / "scan.xyz", points)
    assert np.allclose(points_in(path), points, atol=1e-9)


def test_all_formats_give_the_same_readings(tmp_path: Path) -> None:
    points = np.round(Scan(SQUARE, wavy).add_floor(20_000).points, 3)
    files = [
        save_ply(tmp_path / "little.ply", points, byte_order="<"),
        save_ply(tmp_path / "big.ply", points, byte_order=">"),
        save_ply(tmp_path / "text.ply", points, text=True),
        save_xyz(tmp_path / "scan.xyz", points),
        save_xyz(tmp_path / "scan.csv", points, separator=","),
    ]
    answers = [read(file, SQUARE, unit="mm") for file in files]
    assert all(answer == answers[0] for answer in answers)
    assert len(answers[0].readings) > 100
