"""Strips thicker than the bed: where, by how much, and what cures it."""

from collections.abc import Iterator, Sequence

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.rails.shapes import Rail

LEAST_STRIP = 6.0  # mm: a thinner strip carries no straightedge; common practice, no source


def thick_strips(rails: Sequence[Rail]) -> Iterator[Caution]:
    """Rails whose strip would stand above the top of bed: one caution each, at its worst station.

    `thickest_fitting` is the thickest strip that all its stations take, `raise` by how much the whole top must come
    up for this strip. Where the bed is thinner than `LEAST_STRIP` no strip fits, which is said otherwise. Chipping is
    one of the cures, so its dust is told beside them.
    """
    if any(station.shim < 0.0 for rail in rails for station in rail.stations):
        yield caution_at("rails", "silica")
    for n, rail in enumerate(rails):
        over = [m for m, station in enumerate(rail.stations) if station.shim < 0.0]
        if over:
            worst = min(over, key=lambda m: rail.stations[m].shim)
            yield _thick_strip(f"rails[{n}]", rail, worst, len(over))


def _thick_strip(where: str, rail: Rail, worst: int, count: int) -> Caution:
    station = rail.stations[worst]
    bed, thickest = station.top - station.subfloor, min(s.top - s.subfloor for s in rail.stations)
    depths = {"bed": bed, "strip": rail.strip.thickness, "over": -station.shim, "raise": -station.shim}
    place = {"x": station.at[0], "y": station.at[1], "station": worst + 1, "count": count}
    if thickest < LEAST_STRIP:
        return caution_at(where, "no_bed_for_strip", rail=rail.id, least=LEAST_STRIP, **depths, **place)
    return caution_at(where, "strip_too_thick", rail=rail.id, thickest_fitting=thickest, **depths, **place)
