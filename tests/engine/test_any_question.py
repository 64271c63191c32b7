"""Whatever is asked beside the plan, and however badly, an answer or a list of problems comes back."""

import copy
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checked_bed import checked_room, over_grid
from tests.documents import SQUARE, places_of, plan_of, value_at
from tests.engine.calendars import A_CALENDAR
from tests.engine.fill_days import A_DAY
from tests.engine.waits import A_LOG, A_WAIT
from tests.questions import reply_to
from tests.rooms import random_room
from tests.share import share_of

from evenbed.engine.bridge import QUESTIONS
from evenbed.engine.contract import QUESTION_SHAPES

ROOM = random_room(4)
LINES = [
    "point,northing,easting,elevation,description",
    '1,2.5,0.1,0.2,"a, b"',
    "2;2,5;3' 1\";9",
    "# x",
    "",
    "7 8 9 10",
]
MARKS = " \t,;\"'#.\n\r\\-+eE0123456789abnmft½′\u2028\x1c\x00\ufeff"
CHECKED = checked_room(SQUARE, over_grid(4000, 3000, 1000, lambda x, y: (x * y / 1e6) % 2.0))
GOOD: dict[str, Any] = {
    "bed_design": ROOM,
    "walk": ROOM,
    "order": {
        "rooms": [{"name": "Bath", "materials": plan_of(ROOM)["materials"], "labour_hours": 9.5}],
        "prices": {"currency": "USD", "cement_bag": 15, "sand": 40, "labour": {"hour": 50}, "margin": 0.2},
    },
    "taped_place": {"outline": {"vertices": SQUARE}, "from": [[0, 0], [4000, 0]], "distances": [2500, 2500]},
    "fill_clock": {"document": ROOM | A_DAY, "now": "2026-05-04T10:00:00-05:00"},
    "straightedge": {"document": CHECKED, "from": [100, 100], "to": [3500, 2500]},
    "waiting": {"document": ROOM | A_WAIT, "now": "2026-05-05T10:00:00-05:00"},
    "log_in": {"text": A_LOG, "offset_minutes": -300, "unit": "celsius", "time_column": 0, "temperature_column": 2},
    "profile": {"document": ROOM, "from": [-5000, -5000], "to": [5000, 5000]},
    "table_in": {
        "text": "\n".join(LINES[:2]),
        "mapping": {"columns": {"northing": 1, "easting": 2, "elevation": 3}, "unit": "m"},
        "place": {"kind": "pairs", "pairs": [{"line": 2, "at": [0, 0]}, {"line": 3, "at": [900, 0]}]},
        "outline": {"vertices": SQUARE},
    },
    "table_out": {"document": ROOM, "unit": "ft", "separator": "tab", "decimal": "comma"},
    "calendar": A_CALENDAR,
}
JUNK: list[Any] = [None, True, -1, 0, 1e308, -1e6, 10**400, "", "x", [], {}, [[]], [1, 2], "\ud800", 1e6, 5e-324]
CELLS = st.text(st.sampled_from(MARKS), max_size=9) | st.text(max_size=4) | st.floats(-1e30, 1e30).map(str)
TABLES = st.lists(st.sampled_from(LINES) | st.lists(CELLS, max_size=7).map(",".join), max_size=8).map("\n".join)


def test_every_question_has_its_shapes() -> None:
    assert QUESTION_SHAPES.keys() == QUESTIONS.keys()


@pytest.mark.parametrize("question", GOOD)
def test_a_good_question_changed_anywhere_gets_an_answer_or_problems(question: str) -> None:
    dice = random.Random(question)
    places = sorted(places_of(GOOD[question]))
    for _ in range(60):
        asked = copy.deepcopy(GOOD[question])
        *way, last = dice.choice(places).split(".")
        inner = value_at(asked, ".".join(way)) if way else asked
        inner[int(last) if isinstance(inner, list) else last] = copy.deepcopy(dice.choice(JUNK))
        reply_to(question, asked)


@pytest.mark.parametrize("question", GOOD)
@pytest.mark.parametrize("junk", JUNK, ids=repr)
def test_junk_in_place_of_a_question_gets_problems(question: str, junk: object) -> None:
    assert reply_to(question, junk).keys() == {"problems"}


@given(TABLES | st.text(st.sampled_from(MARKS), max_size=200) | st.text(max_size=100), st.booleans(), st.booleans())
@settings(max_examples=share_of(500), deadline=None)
def test_any_text_is_a_table_or_has_problems_and_never_both(text: str, in_a_room: bool, is_shifted: bool) -> None:
    place = {"kind": "low_corner"} if is_shifted else None
    answer = reply_to(
        "table_in", {"text": text, "outline": GOOD["table_in"]["outline"] if in_a_room else None, "place": place}
    )
    if answer.keys() != {"problems"}:
        assert bool(answer["rows"]) != bool(answer["problems"])
        assert len(answer["rows"]) == (0 if answer["problems"] else answer["row_count"])
