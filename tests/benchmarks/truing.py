"""Truing: how long all readings together take, and what they are worth beside chasing one after the other."""

import random
import time

from evenbed.engine.document.rails import Check
from evenbed.engine.document.room import Document
from evenbed.engine.truing.trued import trued_from
from tests.bedded import (
    SIXTEENTH,
    STRAIGHTEDGE,
    Bedded,
    Level,
    chased,
    document_of,
    raises_of,
    random_bedding,
    straight_rail,
)
from tests.benchmarks.sizes import Sizes

RAILS, READINGS = 12, 200
ROOMS = 100  # for each run


def print_truing(sizes: Sizes) -> None:
    """Print the time of a large room, and how often every rail comes within 1 mm."""
    bedded, checks = _large_room()
    document = document_of(checks)
    took = min(_seconds(document, bedded) for _ in range(10 * sizes.runs))
    print(f"truing {RAILS} rails of 5 m by {READINGS} readings both ways round: {1000.0 * took:.1f} ms")
    rooms, together, one_by_one = ROOMS * sizes.runs, 0, 0
    for seed in range(rooms):
        rng = random.Random(seed)
        bedded = random_bedding(rng)
        level = Level(bedded, rng)
        trued = trued_from(document_of(level.protocol()), bedded.rails)
        together += bedded.moved(raises_of(trued, bedded, rng, SIXTEENTH / 2.0)).is_within_a_millimetre
        one_by_one += chased(bedded, level, rng, SIXTEENTH / 2.0)[0].is_within_a_millimetre
    print(f"every rail within 1 mm after one round: {together / rooms:.1%}, chasing {one_by_one / rooms:.1%}")


def _large_room() -> tuple[Bedded, list[Check]]:
    rng = random.Random(0)
    rails = tuple(straight_rail(f"R{n}", (0.0, 1500.0 * n), (5000.0, 1500.0 * n), [0.0] * 9) for n in range(RAILS))
    bedded = Bedded(rails, tuple((rng.gauss(0.0, 3.0), rng.gauss(0.0, 3.0)) for _ in rails), 1.0)
    level = Level(bedded, rng)
    checks = []
    for n in range(READINGS):
        one, start = rng.randrange(RAILS), rng.uniform(0.0, 5000.0 - STRAIGHTEDGE)
        other = min(RAILS - 1, one + n % 2)
        checks.append(level.check(f"c{n}", one, start, other, start + (STRAIGHTEDGE if one == other else 0.0)))
    return bedded, checks


def _seconds(document: Document, bedded: Bedded) -> float:
    started = time.process_time()
    trued_from(document, bedded.rails)
    return time.process_time() - started
