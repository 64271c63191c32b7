"""Where to rub the bed down and where to fill it up, the most effect first.

The moves are those of least mortar (`least_work`): of rubbing a hump and filling beside it the lighter work is
chosen, and nothing is rubbed below the least thickness. Spots side by side make one place. First comes the one that
leaves the worst straightedge of the whole bed best off, then the next; what nothing needs is left out.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from evenbed.engine.document.flatness import Touch
from evenbed.engine.flatness.bed_surface import BedSurface
from evenbed.engine.flatness.effects import Effects
from evenbed.engine.flatness.least_work import MOST_LOOKED, LeastWork
from evenbed.engine.flatness.open_lines import Moves
from evenbed.engine.flatness.places import Place, areas_of, places_of
from evenbed.engine.flatness.search import worst_lying
from evenbed.engine.flatness.shapes import Work
from evenbed.engine.flatness.standards import Limit
from evenbed.engine.flatness.touched import is_near

FEW_SPOTS = 15  # read, of a bed that is looked at as a whole with each place alone done, and
MOST_SPOTS = 150  # of one that is with all of them done
MOST_CHECKS = 20  # of all the work by the whole search
MOST_PLACES = 60  # told; a bed with more is not mended place by place


@dataclass(frozen=True)
class WorkList:
    """The places in order; `is_cut` where there are more than are told.

    `is_reduced`: there are so many readings, or so much is beyond its limit, that the whole bed was not looked at
    again with the work done: more may be found then.
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
    places, is_reduced = _places_of(least, surface)
    told = list(islice(_told(least, places, touches), MOST_PLACES))
    return WorkList(tuple(told), len(places) > MOST_PLACES, is_reduced)


def _places_of(least: LeastWork, surface: BedSurface) -> tuple[list[Place], bool]:
    """The places that are needed, in order; True where the whole bed was not looked at again with them done."""
    for _ in range(MOST_CHECKS if surface.spots <= MOST_SPOTS else 0):
        if least.is_partly or least.looked > MOST_LOOKED:
            break
        made = places_of(surface, least.moves)
        for place in made if surface.spots <= FEW_SPOTS else ():
            least.see(place.moves)
        places = Effects(least.seen, made).needed(is_whole=True)
        if least.holds(_moves_of(places)):
            return places, False
    return Effects(least.seen, places_of(surface, least.moves)).needed(is_whole=False), True


def _is_beyond(surface: BedSurface, limit: Limit) -> bool:
    worst = worst_lying(surface, limit.length, limit.gap)
    return any(found is not None and found.gap > limit.gap for found in (worst.gap, worst.hump))


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
