"""A million points in a process of its own: how much memory that takes at most, imports and all."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from tests.scans.clouds import ROOM, Array, furnished, save_ply, save_xyz

MOST_MB = 600
POINTS = furnished(1, points=680_000).points
MEASURED = """
import pathlib, runpy, sys
runpy.run_module("evenbed.scans", run_name="__main__")
status = pathlib.Path("/proc/self/status").read_text()
print(status.split("VmHWM:")[1].split()[0], file=sys.stderr)
"""
"""The kernel's own high-water mark, which starts with the program: that of `resource` is inherited from the tests."""


def read_apart(path: Path, **wishes: object) -> tuple[float, list[dict[str, object]]]:
    """Most megabytes that the process held, and the lines it said."""
    task = {"path": str(path), "rings": ROOM.rings, "wishes": wishes}
    done = subprocess.run(
        [sys.executable, "-c", MEASURED], input=json.dumps(task), capture_output=True, text=True, check=True
    )
    return int(done.stderr) / 1024, [json.loads(line) for line in done.stdout.splitlines()]


def saved(folder: Path, kind: str, points: Array) -> Path:
    """The points as one kind of file."""
    if kind == "xyz":
        return save_xyz(folder / "scan.xyz", points)
    return save_ply(folder / "scan.ply", points, **({"text": True} if kind == "ascii" else {"byte_order": ">"}))


def eight_times(path: Path, count: int) -> Path:
    """The same file of so many points with all of them eight times over: text is slow to write."""
    head, mark, rows = path.read_bytes().rpartition(b"end_header\n")
    with path.open("wb") as file:
        file.write(head.replace(b"vertex %d" % count, b"vertex %d" % (8 * count)) + mark)
        for _ in range(8):
            file.write(rows)
    return path


@pytest.mark.parametrize("kind", ["binary", "ascii", "xyz"])
def test_a_million_points_take_less_than_600_megabytes(tmp_path: Path, kind: str) -> None:
    assert len(POINTS) >= 1_000_000
    path = saved(tmp_path, kind, POINTS[:: 1 if kind == "binary" else 8])
    if kind != "binary":
        path = eight_times(path, len(POINTS[::8]))
    most, lines = read_apart(path)
    print(f"{kind}: {most:.0f} MB at most")
    assert most < MOST_MB
    assert len(lines[-1]["readings"]) > 300  # type: ignore[arg-type]


def test_eight_times_as_many_points_take_little_more(tmp_path: Path) -> None:
    path = eight_times(save_ply(tmp_path / "scan.ply", POINTS, kind="f4"), len(POINTS))
    most, lines = read_apart(path)
    print(f"{8 * len(POINTS)} points: {most:.0f} MB at most")
    assert most < MOST_MB
    assert len(lines[-1]["readings"]) > 300  # type: ignore[arg-type]


def test_a_million_points_of_a_bed_and_the_report_on_it_take_no_more(tmp_path: Path) -> None:
    bed = {"standard": "own", "own": [{"length": 7000.0, "gap": 3.0}, {"length": 300.0, "gap": 1.0}]}
    most, lines = read_apart(saved(tmp_path, "binary", POINTS), bed=bed)
    print(f"a bed: {most:.0f} MB at most")
    assert most < MOST_MB
    assert len(lines[-1]["flatness"]["checks"]) == 2  # type: ignore[index]


def test_progress_never_goes_back_and_the_answer_comes_last(tmp_path: Path) -> None:
    _, lines = read_apart(saved(tmp_path, "xyz", POINTS[:150_000]))
    *progress, answer = lines
    order = ["reading", "placing", "reducing"]
    told = [(order.index(str(line["stage"])), float(str(line["done"]))) for line in progress]
    assert told == sorted(told)
    assert {stage for stage, _ in told} == {0, 1, 2}
    assert all(0 <= done <= 1 for _, done in told)
    assert len(told) < 160
    assert set(answer) == {"readings", "report", "flatness"}
