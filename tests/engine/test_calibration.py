"""What the unknown promises, held against simulated floors whose truth is known. Every figure is printed.

`EVENBED_FLOORS` says how many floors; `make test` takes a share, `make deep` 500. The floors are no more than a
sample: a count may stand as far from the promise as one in a thousand samples of floors would, and three readings
where proposed may look that far worse than three elsewhere. Five hundred floors must keep the promise as it is told.
"""

import json
import math
import os
from collections.abc import Callable, Sequence
from dataclasses import astuple, dataclass

import numpy as np
import pytest
from scipy.stats import binom, norm
from tests.floors import Array, Dice
from tests.simulated import Json, Simulated, simulated

from evenbed.engine.bridge import answer_text
from evenbed.engine.cost.material import whole_from
from evenbed.engine.document.check import check_document
from evenbed.engine.mix import bag_yield_from
from evenbed.engine.worked import WorkedRoom

FLOORS = int(os.environ.get("EVENBED_FLOORS", "10"))
ENOUGH = 500  # floors of which a promise is asked without an allowance for luck
LEAST, MOST = 0.85, 0.95  # share of floors that a 90 % range is to hold
CHANCE = 0.001
PART_READ = (0.5, 0.85)  # of the walk still to come, where the next readings are asked for
TOP = 60.0  # mm: a top that stays where it is while more is read
FINE, APART = (
    400.0,
    200.0,
)  # mm: the straightedge whose plain grid lies between the places read, and how far from them
DRAWS = 6  # of the errors, and of the places on a grid or at random: less is left to luck


@dataclass(frozen=True)
class Told:
    """One simulated floor: what the engine told of it, and the truth."""

    make: str
    readings: int
    volume_range: tuple[float, float]
    volume: float
    bags_range: tuple[int, int]
    bags: int
    higher: dict[float, float]
    true_height: float

    @property
    def is_volume_held(self) -> bool:
        """Whether the range holds the true mortar under the plan's own top."""
        return self.volume_range[0] <= self.volume <= self.volume_range[1]

    @property
    def are_bags_held(self) -> bool:
        """Whether the range holds the bags that the true volume takes."""
        return self.bags_range[0] <= self.bags <= self.bags_range[1]


def told(seed: int) -> Told:
    floor = simulated(seed)
    room = room_of(floor.document)
    heights, mix = floor.height(floor.cells()), room.document.mix
    volume = volume_under(room.top.at(0.0, 0.0), heights, room)
    bags = whole_from(volume * (1.0 + mix.waste), bag_yield_from(mix).volume)
    assert room.mix_in_doubt.bags_range is not None
    return Told(
        make=floor.make,
        readings=len(room.unknown.spots),
        volume_range=room.unknown.volume_range,
        volume=volume,
        bags_range=room.mix_in_doubt.bags_range,
        bags=bags,
        higher={h.by: h.probability for h in room.unknown.statistics.higher},
        true_height=float(heights.max() - room.unknown.high_spot.read),
    )


def room_of(document: Json) -> WorkedRoom:
    return WorkedRoom(check_document(document)[0])


def volume_under(top: float, heights: Array, room: WorkedRoom) -> float:
    """Mortar in m³ between a level top and the true floor, from its mean thickness."""
    return float(np.maximum(0.0, top - heights).mean() * room.figure.area / 1e3)


BINS = ((0.0, 0.2), (0.2, 0.5), (0.5, 0.8), (0.8, 1.01))
AMOUNTS = (0.0, 1.5, 3.0)  # mm: higher ones are too rare to count


@pytest.mark.deep
def test_nine_in_ten_ranges_hold_the_truth_and_higher_spots_come_as_often_as_said(
    figures: Callable[[str], None],
) -> None:
    floors = [told(seed) for seed in range(FLOORS)]
    check_ranges(floors, figures)
    for by in AMOUNTS:
        check_high_spot(floors, by, figures)


def check_ranges(floors: list[Told], figures: Callable[[str], None]) -> None:
    """Whole bags round outwards, so that they hold more often than the volume."""
    held, bags = sum(t.is_volume_held for t in floors), sum(t.are_bags_held for t in floors)
    width = np.mean([np.diff(t.volume_range)[0] / t.volume for t in floors])
    figures(
        f"90 % ranges hold the volume on {held} of {FLOORS} simulated floors, {held / FLOORS:.1%}, and the bags on "
        f"{bags}, {bags / FLOORS:.1%}; {np.mean([t.readings for t in floors]):.0f} readings a floor, the range "
        f"{width:.1%} of the volume wide; {by_make(floors)}"
    )
    assert binom.ppf(CHANCE, FLOORS, LEAST) <= held <= binom.ppf(1.0 - CHANCE, FLOORS, MOST)
    assert FLOORS < ENOUGH or LEAST <= held / FLOORS <= MOST
    assert bags >= held


def by_make(floors: list[Told]) -> str:
    makes = sorted({t.make for t in floors})
    counts = {m: [t.is_volume_held for t in floors if t.make == m] for m in makes}
    return ", ".join(f"{m} {sum(held)}/{len(held)}" for m, held in counts.items())


def check_high_spot(floors: list[Told], by: float, figures: Callable[[str], None]) -> None:
    said = np.array([t.higher[by] for t in floors])
    came = np.array([t.true_height > by for t in floors], dtype=float)
    brier, ignorant = float(np.mean((said - came) ** 2)), float(came.mean() * (1.0 - came.mean()))
    figures(
        f"a high spot more than {by} mm above any reading: said {said.mean():.1%}, came {came.mean():.1%}; Brier "
        f"score {brier:.3f}, of who always says the share {ignorant:.3f}; "
        + "; ".join(f"said {low:.0%} to {high:.0%}, {bin_of(said, came, low, high)}" for low, high in BINS)
    )
    spread = math.sqrt(float(np.sum(said * (1.0 - said)))) / FLOORS
    assert abs(said.mean() - came.mean()) < 3.3 * spread + 0.05
    assert by > 1.5 or brier < ignorant


def bin_of(said: Array, came: Array, low: float, high: float) -> str:
    inside = (said >= low) & (said < high)
    return f"came {came[inside].mean():.0%} of {inside.sum()}" if inside.any() else "never said"


@dataclass(frozen=True)
class ReadOn:
    """Mean square, mm² of thickness, of what a part-read floor's volume is missed by after three more readings."""

    before: float
    proposed: float
    on_a_grid: float
    at_random: float


def read_on(seed: int) -> ReadOn:
    floor = simulated(seed, PART_READ)
    document = floor.document | {"bed": {"maximum_thickness": 500.0, "top": {"kind": "level", "height": TOP}}}
    room, dice = room_of(document), np.random.default_rng([7, seed])
    true = volume_under(TOP, floor.height(floor.cells()), room)

    def missed(places: Sequence[Sequence[float]]) -> float:
        more = document | {"readings": [*document["readings"], *floor.read_at(places, dice)]}
        return float((1e3 * (room_of(more).quantities.volume - true) / room.figure.area) ** 2)

    def often(places: Callable[[], Sequence[Sequence[float]]]) -> float:
        return float(np.mean([missed(places()) for _ in range(DRAWS)]))

    proposed, free = [n.at for n in room.unknown.next_readings], grid_left(floor)
    return ReadOn(
        missed([]),
        often(lambda: proposed),
        often(lambda: some_of(free, dice)),
        often(lambda: some_of(floor.cells().tolist(), dice)),
    )


def some_of(places: list[list[float]], dice: Dice) -> list[list[float]]:
    return [places[n] for n in dice.permutation(len(places))[:3]]


def grid_left(floor: Simulated) -> list[list[float]]:
    """Places of the walk's own grid for a short straightedge where nothing is read yet."""
    question = {"outline": floor.document["outline"], "rails": {"straightedge": FINE}}
    walk = json.loads(answer_text("walk", json.dumps(question)))["places"]
    read = [r["at"] for r in floor.document["readings"]]
    return [p["at"] for p in walk if min(math.dist(p["at"], at) for at in read) > APART]


@pytest.mark.deep
def test_three_readings_where_proposed_cut_the_volumes_error_more_than_on_a_grid_or_at_random(
    figures: Callable[[str], None],
) -> None:
    missed = np.array([astuple(read_on(seed)) for seed in range(FLOORS)])
    before, proposed, grid, rolled = np.sqrt(np.mean(missed, axis=0))
    figures(
        f"volume of {FLOORS} part-read floors, root mean square error in mm of thickness: {before:.2f}; three more "
        f"readings where proposed {proposed:.2f}, on a plain grid {grid:.2f}, at random {rolled:.2f}; "
        f"ratio to the grid {proposed / grid:.2f}, to random places {proposed / rolled:.2f}"
        + ("" if FLOORS >= ENOUGH else "; so few floors tell no more than that it is not worse beyond luck")
    )
    worse = missed[:, 1:2] - missed[:, [0, 2, 3]]
    luck = np.std(worse, axis=0, ddof=1) / math.sqrt(FLOORS)
    assert np.all(np.mean(worse, axis=0) <= norm.ppf(1.0 - CHANCE) * luck)
    assert FLOORS < ENOUGH or proposed < min(before, grid, rolled)
