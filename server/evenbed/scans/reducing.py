"""From a scan to its readings and the report on it: the one way through this room."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import numpy as np

from evenbed.engine.geometry import Plane
from evenbed.scans.cloud import Cloud, Whole
from evenbed.scans.faults import ScanError
from evenbed.scans.files import opened_scan
from evenbed.scans.flat_grid import flat_grid_of
from evenbed.scans.flat_report import flatness_of
from evenbed.scans.floor import floor_of
from evenbed.scans.grid import Grid, grid_of
from evenbed.scans.heaps import Heaps, heaped
from evenbed.scans.places import apart, places_of
from evenbed.scans.placing import Seat, Unit, bulk_of, seat_of, standing, unit_of
from evenbed.scans.planes import planes_of
from evenbed.scans.room import Room
from evenbed.scans.sample import Sample, sample_of
from evenbed.scans.spots import Spots, spots_of
from evenbed.scans.steps import Pieces, pieces_of
from evenbed.scans.wishes import Wishes
from evenbed.wire.scans import MOST_READINGS, ReadingStage, ScanReading, ScanReply, ScanReport, Stage

Progress = Callable[[Stage, float], None]
DIGITS = 3  # a thousandth of a millimetre: far finer than any scan, and the same on every machine
LARGER = 1.25  # times a cell's side, where the readings were too many
LEAST_PART = 0.1  # of a cell's area in the room: less is nothing to read


@dataclass(frozen=True)
class Understood:
    """What was found out before the points are drawn together."""

    sample: Sample
    unit: Unit
    seat: Seat
    room: Room
    floor: Plane
    inside: int


@dataclass(frozen=True)
class Read:
    """What was found in the room: the readings, the cells with a piece of floor, and what they came from."""

    grid: Grid
    heaps: Heaps
    spots: Spots
    pieces: Pieces
    readings: list[ScanReading]
    cells: Whole


def readings_from(path: Path, room: Room, wishes: Wishes, progress: Progress) -> ScanReply:
    """The readings of a scan and the report on it. Raises ScanError, OSError."""
    with opened_scan(path, partial(progress, "reading")) as cloud:
        found = _understood(sample_of(cloud, partial(progress, "placing")), wishes, room)
        read, cell = _read(cloud, found, wishes, progress), wishes.cell
        while len(read.readings) > MOST_READINGS:
            cell = LARGER * max(read.grid.dx, read.grid.dy)
            read = _read(cloud, found, replace(wishes, cell=cell), progress)
    if not read.readings:
        raise _no_floor(found, read.heaps.near)
    grid = flat_grid_of(read.spots, read.pieces, read.grid)
    flatness = None if wishes.bed is None else flatness_of(grid, found.floor, wishes.bed, room.longest)
    return ScanReply(readings=read.readings, report=_report(found, read, wishes.stage), flatness=flatness)


def _understood(sample: Sample, wishes: Wishes, room: Room) -> Understood:
    unit = unit_of(sample, wishes, room)
    seat = seat_of(sample, wishes, unit, room)
    floor = floor_of(sample, seat, room, unit.name)
    x, y, _ = seat.placed((sample.x, sample.y, sample.z))
    inside = int(room.holds(x, y).sum() * (sample.count / len(x)))
    return Understood(sample, unit, seat, room, floor, inside)


def _read(cloud: Cloud, found: Understood, wishes: Wishes, progress: Progress) -> Read:
    grid = grid_of(found.room, found.inside, wishes.cell, wishes.stage)
    heaps = heaped(cloud, found.seat, found.room, grid, found.floor, partial(progress, "reducing"))
    if heaps.near == 0:
        raise _no_floor(found, 0)
    spots = spots_of(heaps)
    pieces = pieces_of(spots, grid, wishes.minimum_points)
    planes = planes_of(spots, pieces)
    x, y = places_of(planes, pieces, spots, grid, found.room)
    heights, sigmas = planes.at(x, y)
    heights = heights + found.floor.a + found.floor.b * x + found.floor.c * y
    inside = found.room.holds(x, y)
    stays = np.flatnonzero(apart(x, y, planes.points, grid) & inside)
    rows = np.column_stack((x, y, heights, sigmas))[stays].round(DIGITS).tolist()
    points = planes.points[stays].tolist()
    readings = [
        ScanReading(at=[x, y], z=z, sigma=sigma, points=count)
        for (x, y, z, sigma), count in zip(rows, points, strict=True)
    ]
    return Read(grid, heaps, spots, pieces, readings, pieces.cell[inside])


def _no_floor(found: Understood, near: int) -> ScanError:
    return ScanError("scan_no_floor", inside=near, count=found.sample.count, unit=found.unit.name)


def _rounded(length: float) -> float:
    return round(float(length), DIGITS)


def _mm(x: float, y: float) -> list[float]:
    return [_rounded(x), _rounded(y)]


def _report(found: Understood, read: Read, stage: ReadingStage) -> ScanReport:
    used, near, seat = sum(one.points for one in read.readings), read.heaps.near, found.seat
    tally, grid = read.heaps.tally, read.grid
    empty = _empty(found.room, grid, read.cells)
    x, y, _ = standing((found.sample.x, found.sample.y, found.sample.z), seat.up)
    _, per_cell = np.unique(read.cells, return_counts=True)
    return ScanReport(
        points=found.sample.count,
        used=used,
        outside=tally.outside,
        above=tally.above,
        below=tally.below,
        scattered=near - used,
        cells=len(per_cell) + len(empty),
        cell=_rounded(math.sqrt(grid.dx * grid.dy)),
        split_cells=int((per_cell > 1).sum()),
        empty_cells=len(empty),
        empty_area=_rounded(sum(area for *_, area in empty) / 1e6),
        empty=[_mm(*place) for *place, _ in empty],
        spacing=_rounded(math.sqrt(found.room.area_in(*found.room.box[:2], *found.room.size) / used)),
        noise=_rounded(read.spots.noise),
        stage=stage,
        unit=found.unit.name,
        unit_from=found.unit.came_from,
        unit_doubtful=found.unit.is_doubtful,
        scan_size=_mm(bulk_of(x) * seat.scale, bulk_of(y) * seat.scale),
        room_size=_mm(*found.room.size),
        shift=_mm(*seat.shift),
        turn=round(math.degrees(seat.turn), 6),
        two_points_off=None if seat.two_points_off is None else _rounded(seat.two_points_off),
    )


def _empty(room: Room, grid: Grid, read: Whole) -> list[tuple[float, float, float]]:
    """Of every cell in the room without a reading the middle and the area in the room, mm²."""
    found = []
    for cell in np.setdiff1d(grid.in_room(), read):
        row, column = divmod(int(cell), grid.nx)
        x, y = grid.x + column * grid.dx, grid.y + row * grid.dy
        area = room.area_in(x, y, grid.dx, grid.dy)
        if area > LEAST_PART * grid.dx * grid.dy:
            found.append((x + grid.dx / 2, y + grid.dy / 2, area))
    return found
