"""Where to rub the bed down and where to fill it up, the most effect first.

The moves are those of least mortar (`least_work`): of rubbing a hump and filling beside it the lighter work is
chosen, and nothing is rubbed below the least thickness. Spots side by side make one place. First comes the one that
leaves the worst straightedge of the whole bed best off, then the next; what nothing needs is left out.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from evenbed.engine.document.flatness import Touch
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.least_work import REACHED, LeastWork
from evenbed.engine.flatness.open_lines import MOST_SPOTS, Moves
from evenbed.engine.flatness.places import Place, areas_of, places_of
from evenbed.engine.flatness.search import worst_lying
from evenbed.engine.flatness.shapes import Work
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.flatness.touched import is_near

MOST_CHECKS = 20  # of all the work by the whole search
MOST_PLACES = 60  # told; a bed with more is not mended place by place


@dataclass(frozen=True)
class WorkList:
    """The places in order; `is_cut` where there are more than are told.

    `is_reduced`: there are so many readings that not every line was looked at, nor the whole bed again at the end.
    """

    work: tuple[Work, ...]
    is_cut: bool = False
    is_reduced: bool = False


NOTHING = WorkList(())


def work_from(
    surface: BedSurface, limits: Sequence[Limit], lowest: Sequence[float], touches: Sequence[Touch] = ()
) -> WorkList:
    """The work list of a bed as it was read. `lowest`: by how much each spot may be lowered, mm, 0 or less."""
    if not surface.triangles or not any(_is_beyond(surface, limit) for limit in limits):
        return NOTHING
    least = LeastWork(surface, limits, areas_of(surface), lowest)
    places = _needed(least, places_of(surface, least.moves))
    is_reduced = surface.spots > MOST_SPOTS
    for _ in range(0 if is_reduced else MOST_CHECKS):
        if least.holds(_moves_of(places)):
            break
        places = _needed(least, places_of(surface, least.moves))
    told = list(_told(least, places, touches))
    return WorkList(tuple(told[:MOST_PLACES]), len(told) > MOST_PLACES, is_reduced)


def _is_beyond(surface: BedSurface, limit: Limit) -> bool:
    worst = worst_lying(surface, limit.length)
    return any(found is not None and found.gap > limit.gap for found in (worst.gap, worst.hump))


def _needed(least: LeastWork, places: Sequence[Place]) -> list[Place]:
    """The places in order of effect, without those that nothing needs any more when the others are done."""
    ordered = list(_in_order(least, places))
    for place in reversed(ordered):
        others = [one for one in ordered if one is not place]
        if least.worst(_moves_of(others)) <= REACHED:
            ordered = others
    return ordered


def _in_order(least: LeastWork, places: Sequence[Place]) -> Iterator[Place]:
    done: Moves = {}
    left = list(places)
    while left:
        best = min(left, key=lambda place: (round(least.worst({**done, **place.moves}), 6), -place.depth))
        left.remove(best)
        done = {**done, **best.moves}
        yield best


def _moves_of(places: Iterable[Place]) -> Moves:
    return {n: by for place in places for n, by in place.moves.items()}


def _told(least: LeastWork, places: Sequence[Place], touches: Sequence[Touch]) -> Iterator[Work]:
    done: Moves = {}
    for count, place in enumerate(places, start=1):
        here = [one for one in least.seen if one.factors.keys() & place.moves.keys()]
        worst = max(here, key=lambda one: one.excess(done))
        after = {**done, **place.moves}
        yield Work(
            id=f"K{count}",
            way=place.way,
            at=place.at,
            polygon=place.polygon,
            changes=place.changes,
            depth=place.depth,
            volume=place.volume,
            before=worst.after(done),
            after=max(0.0, *(one.after(after) for one in here if one.limit == worst.limit)),
            done_at=_done_at(place, touches),
            length=worst.limit.length,
        )
        done = after


def _done_at(place: Place, touches: Sequence[Touch]) -> str | None:
    """When somebody last worked near it, the same way."""
    return max((one.done_at for one in touches if one.way == place.way and is_near(one, place.at)), default=None)
