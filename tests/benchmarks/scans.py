"""A scan against bare numpy that does no more than read it and bin it, in the same run.

Bare numpy knows where everything is: unit, placing, floor. It reads all points, takes those in the room's box, and
has count and mean height of every bin, walls, ceiling and strays included.
"""

import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

import numpy as np
import numpy.typing as npt

from tests.benchmarks.plans import best_ms
from tests.benchmarks.sizes import Sizes
from tests.scans.clouds import ROOM, furnished, read, save_ply, save_xyz
from tests.scans.test_memory import read_apart

Array = npt.NDArray[np.float64]
CELL = 250.0


def loaded_ply(path: Path) -> Array:
    """All points of a binary PLY file of three floats each."""
    content = path.read_bytes()
    start = content.index(b"end_header\n") + len(b"end_header\n")
    return np.frombuffer(content, "<f4", offset=start).reshape(-1, 3).astype(float)


def binned(load: Callable[[Path], Array], path: Path) -> tuple[Array, Array]:
    """Count and mean height in every bin of the room's box."""
    x, y, z = load(path).T * 1000.0
    width, depth = (int(size / CELL) for size in ROOM.size)
    inside = (x >= 0) & (x < width * CELL) & (y >= 0) & (y < depth * CELL)
    x, y, z = x[inside], y[inside], z[inside]
    bins = (y / CELL).astype(int) * width + (x / CELL).astype(int)
    count = np.bincount(bins, minlength=width * depth)
    return count.astype(float), np.bincount(bins, z, width * depth) / np.maximum(count, 1)


def print_scans(sizes: Sizes) -> None:
    """Print time, ratio and memory of both formats."""
    points = furnished(1, points=sizes.points).points
    print(f"a scan of {len(points)} points becomes readings, ms (best of {sizes.runs}), against bare numpy")
    with tempfile.TemporaryDirectory() as folder:
        ply = save_ply(Path(folder) / "scan.ply", points, 1000.0, "f4")
        xyz = save_xyz(Path(folder) / "scan.xyz", points, 1000.0)
        for name, path, load in (("PLY", ply, loaded_ply), ("XYZ", xyz, np.loadtxt)):
            mine = best_ms(partial(read, path, ROOM), sizes.runs)
            rival = best_ms(partial(binned, load, path), sizes.runs)
            most, lines = read_apart(path)
            count = len(lines[-1]["readings"])  # type: ignore[arg-type]
            told = f"{most:4.0f} MB at most, imports too; {count} readings"
            print(f"  {name}  {mine:8.1f}  rival {rival:8.1f}  ratio {mine / rival:5.2f}  {told}")
