"""A bed with one hump, read when it was finished, and what the plan says of working it over."""

from typing import Any

from evenbed.engine.document.check import check_document
from evenbed.engine.flatness.answer import flatness_answer_of
from evenbed.engine.flatness.work_account import work_cautions_of
from evenbed.engine.worked import WorkedRoom

WIDE, DEEP = 3000.0, 2400.0
CORNERS = [[0.0, 0.0], [WIDE, 0.0], [WIDE, DEEP], [0.0, DEEP]]
PLACED, READ, LATER, NEXT_DAY = (f"2026-05-{at}:00:00+00:00" for at in ("04T08", "04T10", "04T11", "05T11"))
PLACES = [(x, y) for x in (150.0, 850.0, 1550.0, 2250.0, 2850.0) for y in (150.0, 850.0, 1550.0, 2250.0)]
HUMP = (1550.0, 850.0)


def reading(n: int, at: tuple[float, float], high: float, taken_at: str | None = READ) -> dict[str, Any]:
    """One of the bed, 40 mm over the subfloor when `high` is nothing."""
    told = {} if taken_at is None else {"taken_at": taken_at}
    return {"id": f"b{n}", "stage": "bed", "at": list(at), "down": 10.0 - high} | told


def document(hump: float = 6.0, **more: Any) -> dict[str, Any]:
    """A level room with a bed that is flat but for one hump."""
    floor = [{"id": f"s{n}", "at": at, "down": 50.0} for n, at in enumerate(CORNERS)]
    bed = [reading(n, at, hump if at == HUMP else 0.0) for n, at in enumerate(PLACES)]
    own = {"standard": "own", "own": [{"length": 2000.0, "gap": 3.0}]}
    top = {"top": {"kind": "level", "height": 40.0}, "minimum_thickness": 30.0}
    return {
        "document": 1,
        "outline": {"vertices": CORNERS},
        "readings": [*floor, *bed],
        "bed": top,
        "flatness": own,
    } | more


PLACEMENT = [{"section": "S1", "mixed_at": PLACED, "placed_at": PLACED}]
RUBBED = {"at": list(HUMP), "way": "rub", "done_at": LATER}


def worked(given: dict[str, Any]) -> WorkedRoom:
    """The room on its way to a plan."""
    return WorkedRoom(check_document(given)[0])


def flatness(given: dict[str, Any]) -> Any:
    """What the plan says of it."""
    return flatness_answer_of(worked(given))


def cautions(given: dict[str, Any]) -> set[str]:
    """The codes of what must be said at the work list."""
    return {one.code for one in work_cautions_of(worked(given))}
