"""What is asked beside the plan, in CPython: a long table of points, the longest walk, a section."""

import csv
import io
import json
from functools import partial
from typing import Any

from evenbed.engine.bridge import answer_text
from tests.benchmarks.floors import read_floor
from tests.benchmarks.plans import best_ms
from tests.benchmarks.sizes import Sizes

SIDES = ((3, 4), (5, 4), (10, 8), (60, 60))  # m


def table_text(rows: int) -> str:
    """A table of points all over a room of 3 m by 4 m."""
    return "\r\n".join(f"{n},{n * 7919 % 3000}.{n:05},{n * 104729 % 4000}.{n:05},{n % 9},floor" for n in range(rows))


def room_of(width: float, depth: float) -> dict[str, Any]:
    """An oblong room, sides in mm."""
    return {"outline": {"vertices": [[0, 0], [width, 0], [width, depth], [0, depth]]}}


def print_questions(sizes: Sizes) -> None:
    """Print the table: each question's time, and what bare csv needs to take the same text apart."""
    text = table_text(sizes.rows)
    asked = json.dumps({"text": text, **room_of(4000, 3000)})
    mine = best_ms(partial(answer_text, "table_in", asked), sizes.runs)
    bare = best_ms(lambda: list(csv.reader(io.StringIO(text))), sizes.runs)
    print(f"what is asked beside the plan in CPython, ms (best of {sizes.runs})")
    print(f"  table of {sizes.rows} points read in and judged {mine:8.1f}  csv alone, cells as text {bare:8.1f}")
    for width, depth in SIDES:
        walk = json.dumps(room_of(1000 * width, 1000 * depth))
        places = len(json.loads(answer_text("walk", walk))["places"])
        took = best_ms(partial(answer_text, "walk", walk), sizes.runs)
        print(f"  walk over {width} m by {depth} m, {places:3d} places {took:8.1f}")
    section = json.dumps({"document": read_floor(400), "from": [-1000, -1000], "to": [20_000, 20_000]})
    took = best_ms(partial(answer_text, "profile", section), sizes.runs)
    print(f"  section through 400 readings {took:8.1f}")
