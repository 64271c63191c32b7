"""What is asked beside the plan gets one answer in CPython and in the phone's Python."""

import json
import math
import subprocess
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from tests.checked_bed import checked_room, over_grid
from tests.documents import SQUARE, Json, plan_of
from tests.engine.calendars import A_CALENDAR
from tests.engine.fill_days import A_DAY
from tests.engine.waits import A_LOG, A_WAIT
from tests.rooms import random_room

from evenbed.engine.bridge import answer_text

WEB = Path(__file__).parents[2] / "web"
ROOMS = 30
CLOSE = 1e-6  # mm: a micron's thousandth; a last bit of a square root or a sine may differ between C libraries


def uneven(n: int, x: float, y: float) -> float:
    """A bed of which no two places are equally bad: of two such each Python may tell the other one."""
    return round(2.0 * math.sin(n + x / 713.0) + 1.3 * math.cos(y / 391.0 - x / 1009.0), 3)


def asked() -> list[tuple[str, Json]]:
    rooms = [random_room(seed) for seed in range(ROOMS)]
    tables = [
        'Punto;Norte;Este;Cota;Descripción\n1;2,5;0,1;0,2;"a; b"\n2;2,4;3,1;0,25;ñ',
        "1\t3' 5 7/16\"\t1' 2\"\t6\"\tnail\n2\t4'\t5'\t½\"\t",
        "1,2,3\n4,oh,6",
        *(f"{x},{y},1,x\n9,9,9,y\n" for x, y in ((1, 2), (1000.5, 3), (1e6, 4))),
    ]
    logs = [A_LOG, "04.05.2026 08:00;21,5\n04.05.2026 09:00;21,7", "#,Time,Temp (F)\n1,05/14/26 8:00 AM,70", "a,b"]
    checked = [checked_room(SQUARE, over_grid(4000, 3000, 1000, partial(uneven, n))) for n in (2, 3)]
    return [
        *(("walk", room) for room in rooms),
        *(("bed_design", room) for room in rooms[:10]),
        *(("fill_clock", {"document": room | A_DAY, "now": "2026-05-04T10:00:00-05:00"}) for room in rooms[:10]),
        *(("straightedge", {"document": bed, "from": [0, 0], "to": [3000, 2900]}) for bed in checked),
        *(("plan", bed) for bed in checked),
        *(("waiting", {"document": room | A_WAIT, "now": "2026-05-05T10:00:00-05:00"}) for room in rooms[:10]),
        *(("log_in", {"text": text, "offset_minutes": -300}) for text in logs),
        *(("order", {"rooms": [{"materials": plan_of(r)["materials"]} for r in rooms[n : n + 5]]}) for n in (0, 5)),
        ("calendar", A_CALENDAR),
        *(("profile", {"document": room, "from": [-6000, -5000], "to": [6000, 5100]}) for room in rooms),
        *(("table_out", {"document": room, "unit": "ft"}) for room in rooms),
        *(("table_in", {"text": text, "outline": {"vertices": SQUARE}}) for text in tables),
        *(
            ("taped_place", {"outline": {"vertices": SQUARE}, "from": SQUARE[:2], "distances": [first, 2600.0]})
            for first in range(100, 5000, 300)
        ),
    ]


def differences(mine: Any, theirs: Any, path: str = "") -> list[str]:
    """Where two answers differ in anything but the last bits of a number."""
    if isinstance(mine, dict) and isinstance(theirs, dict) and mine.keys() == theirs.keys():
        return [found for key in mine for found in differences(mine[key], theirs[key], f"{path}.{key}")]
    if isinstance(mine, list) and isinstance(theirs, list) and len(mine) == len(theirs):
        return [
            found
            for n, pair in enumerate(zip(mine, theirs, strict=True))
            for found in differences(*pair, f"{path}[{n}]")
        ]
    if isinstance(mine, float) and isinstance(theirs, int | float):
        return [] if abs(mine - theirs) <= CLOSE else [f"{path}: {mine} {theirs}"]
    return [] if mine == theirs else [f"{path}: {mine!r} {theirs!r}"]


@pytest.mark.pyodide
def test_both_pythons_answer_alike() -> None:
    questions = asked()
    lines = "\n".join(f"{question}\t{json.dumps(given)}" for question, given in questions)
    run = subprocess.run(
        ["node", "build/run_engine.mjs"], cwd=WEB, input=lines, capture_output=True, text=True, check=False
    )
    assert run.returncode == 0, run.stderr
    theirs = [json.loads(line) for line in run.stdout.splitlines()]
    mine = [json.loads(answer_text(question, json.dumps(given))) for question, given in questions]
    assert len(theirs) == len(mine)
    assert sum(answer.keys() == {"problems"} for answer in mine) < len(mine) / 5
    assert [found for pair in zip(mine, theirs, strict=True) for found in differences(*pair)] == []


def test_a_difference_beyond_the_last_bits_is_seen() -> None:
    assert differences({"at": [1.0, "a"]}, {"at": [1.0 + 1e-5, "a"]}) == [".at[0]: 1.0 1.00001"]
