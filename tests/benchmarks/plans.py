"""A full plan in CPython: its time at 200 readings, its growth, and a rival that computes the volume alone."""

import math
import time
from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np
from scipy.spatial import Delaunay
from shapely.geometry import Polygon

from evenbed.engine.bridge import answer_text
from tests.benchmarks.floors import read_anew, read_floor
from tests.benchmarks.sizes import Sizes


def best_ms(work: Callable[[], object], runs: int) -> float:
    """Least time of several runs, ms: the one the machine disturbed least."""
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1000.0 * min(times)


def asking(question: str, texts: list[str]) -> Callable[[], object]:
    """Asks the engine about the next of the texts each time."""
    left = iter(texts)
    return lambda: answer_text(question, next(left))


def rival_volume(document: dict[str, Any]) -> float:
    """The bed's volume over z = 0 by scipy's triangulation and shapely's clipping: one figure of the plan's many."""
    room = Polygon(document["outline"]["vertices"], document["outline"]["cutouts"])
    places = np.array([r["at"] for r in document["readings"]])
    heights = np.array([-r["down"] for r in document["readings"]])
    total = 0.0
    for simplex in Delaunay(places).simplices:
        part = Polygon(places[simplex]).intersection(room)
        if part.area > 0.0:
            plane = np.linalg.solve(np.c_[np.ones(3), places[simplex]], heights[simplex])
            total += part.area * float(plane @ [1.0, part.centroid.x, part.centroid.y])
    return total


def print_plans(sizes: Sizes) -> None:
    """Print the table and the growth from the first count to the last."""
    print(f"full plan in CPython, ms (best of {sizes.runs}), against scipy + shapely for the volume alone")
    first = last = 0.0
    for count in sizes.readings:
        document = read_floor(count)
        mine = best_ms(asking("plan", read_anew(document, sizes.runs)), sizes.runs)
        rival = best_ms(partial(rival_volume, document), sizes.runs)
        print(f"  {count:5d} readings  {mine:8.1f}  rival {rival:8.1f}  ratio {mine / rival:5.2f}")
        first, last = first or mine, mine
    few, many = sizes.readings[0], sizes.readings[-1]
    n_log_n = many * math.log(many) / (few * math.log(few))
    print(f"  growth {few} to {many}: {last / first:.0f} times; n log n would be {n_log_n:.0f} times")
