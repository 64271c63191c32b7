"""Which readings of the bed count, and how high above the designed top they are.

Of several readings at one place the last taken holds; of those that are of one time, or have none, the mean.
"""

import math
from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import datetime

from evenbed.engine.document.levelling import Reading
from evenbed.engine.document.places import Point
from evenbed.engine.heights import Levels
from evenbed.engine.measured import Levelling, measured_from


@dataclass(frozen=True)
class BedReading:
    """One read place of the bed: the ids of the readings that count there, its height z, and its standard error.

    `sigma` is what one reading errs by, not what the set-up's whole line does: that lifts all of them alike.
    """

    ids: tuple[str, ...]
    at: Point
    z: float
    sigma: float
    taken_at: str | None

    @property
    def id(self) -> str:
        """The least of the ids."""
        return min(self.ids)


def bed_readings_from(levelling: Levelling, levels: Levels, stale: Collection[str] = ()) -> tuple[BedReading, ...]:
    """The bed's read places in the order of their places; readings with no place or no height tell nothing.

    `stale` are ids of readings whose place was worked over since: they are left out.
    """
    measured = measured_from(levelling)
    at: dict[Point, list[tuple[Reading, float, float]]] = defaultdict(list)
    rows = zip(levelling.readings, measured.places, levels.heights, measured.observations, strict=False)
    for reading, place, height, observed in rows:
        is_told = reading.stage == "bed" and place is not None and height.z is not None
        if is_told and (not reading.id or reading.id not in stale):
            at[place].append((reading, height.z, observed.sigma))  # type: ignore[index,arg-type]
    return tuple(_held(place, at[place]) for place in sorted(at))


def _held(place: Point, read: Sequence[tuple[Reading, float, float]]) -> BedReading:
    last = max(moment_of(reading.taken_at) for reading, _, _ in read)
    held = [row for row in read if moment_of(row[0].taken_at) == last]
    z = math.fsum(z for _, z, _ in held) / len(held)
    sigma = math.sqrt(math.fsum(s * s for _, _, s in held)) / len(held)
    return BedReading(tuple(r.id for r, _, _ in held), place, z, sigma, held[0][0].taken_at)


def moment_of(at: str | None) -> float:
    """A time as a number; without one it is before all."""
    return -math.inf if at is None else datetime.fromisoformat(at).timestamp()
