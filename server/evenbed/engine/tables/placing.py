"""Laying a table's points on the drawing: as they are, by their low left corner, or by two pairs of places."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from evenbed.engine.document.places import Point
from evenbed.engine.geometry import box_of
from evenbed.engine.levels_check import BESIDE_THE_ROOM
from evenbed.engine.outline import Figure
from evenbed.engine.problems import Problem, problem_at
from evenbed.engine.stood import CLOSEST
from evenbed.engine.tables.rows import Measured
from evenbed.engine.tables.shapes import Placing, TablePair, TablePlace

AS_THEY_ARE = Placing("as_they_are", 0.0, (0.0, 0.0), None, None)
LEAST_BASE = 100.0  # mm between two points that are to turn a table: nearer ones turn it anyhow


def placed(row: Measured, placing: Placing) -> Point:
    """Where a point stands on the drawing."""
    (cos, sin), (dx, dy) = _way(placing.rotation), placing.shift
    return cos * row.east - sin * row.north + dx, sin * row.east + cos * row.north + dy


def _way(degrees: float) -> Point:
    return (1.0, 0.0) if degrees == 0.0 else (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))


def own_placings(rows: Sequence[Measured], figure: Figure | None) -> tuple[Placing, ...]:
    """The ways to lay the points that need no pairs, each with how many then stand outside the room."""
    found = [AS_THEY_ARE]
    if rows:
        left, low, _, _ = box_of((row.east, row.north) for row in rows)
        x, y = (0.0, 0.0) if figure is None else box_of(figure.outer)[:2]
        found.append(Placing("low_corner", 0.0, (x - left, y - low), None, None))
    return tuple(with_outside(placing, rows, figure) for placing in found)


def with_outside(placing: Placing, rows: Sequence[Measured], figure: Figure | None) -> Placing:
    """The placing with its count of points outside the room."""
    if figure is None:
        return placing
    return replace(placing, outside=sum(is_outside(placed(row, placing), figure) for row in rows))


def is_outside(at: Point, figure: Figure | None) -> bool:
    """True where a place is outside the room by more than a reading may be."""
    return figure is not None and not figure.holds(at, BESIDE_THE_ROOM)


def pair_problems(rows: Sequence[Measured], pairs: Sequence[TablePair]) -> Iterator[Problem]:
    """What keeps two pairs from laying the points: too few, lines that hold none, places or points too near."""
    by_line = {row.line: row for row in rows}
    if len(pairs) != 2:
        yield problem_at("place.pairs", "wrong_count", expected=2, got=len(pairs))
        return
    missing = [(n, pair.line) for n, pair in enumerate(pairs) if pair.line not in by_line]
    yield from (problem_at(f"place.pairs[{n}].line", "table_no_point", line=line) for n, line in missing)
    if not missing and min(_bases(by_line, pairs)) < LEAST_BASE:
        yield problem_at("place.pairs", "table_pairs_near", least=LEAST_BASE)


def _bases(by_line: dict[int, Measured], pairs: Sequence[TablePair]) -> Point:
    """The distance of the two points in the table, and on the drawing."""
    p, q = (by_line[pair.line] for pair in pairs)
    return math.dist((p.east, p.north), (q.east, q.north)), math.dist(pairs[0].at, pairs[1].at)


def placing_by_pairs(rows: Sequence[Measured], place: TablePlace) -> Placing:
    """The turn and shift that lay two points on two places, for pairs that have passed `pair_problems`.

    Lengths are kept, so each of the two may miss its place by half of what their distances differ.
    """
    by_line = {row.line: row for row in rows}
    p, q = (by_line[pair.line] for pair in place.pairs)
    (px, py), (qx, qy) = (pair.at for pair in place.pairs)
    turned = math.atan2(qy - py, qx - px) - math.atan2(q.north - p.north, q.east - p.east)
    degrees = math.degrees(math.remainder(turned, math.tau))
    cos, sin = _way(degrees)
    east, north = (p.east + q.east) / 2, (p.north + q.north) / 2
    shift = (px + qx) / 2 - cos * east + sin * north, (py + qy) / 2 - sin * east - cos * north
    table, drawing = _bases(by_line, place.pairs)
    return Placing("pairs", degrees, shift, None, abs(table - drawing) / 2)


def doubled_problems(spots: Sequence[tuple[Measured, Point]]) -> Iterator[Problem]:
    """Points that stand where an earlier one of the same stage does."""
    seen: dict[tuple[int, int, str], int] = {}
    for row, at in spots:
        i, j = round(at[0] / CLOSEST), round(at[1] / CLOSEST)
        near = (seen.get((i + di, j + dj, row.stage)) for di in (0, -1, 1) for dj in (0, -1, 1))
        first = next((line for line in near if line is not None), None)
        if first is None:
            seen[(i, j, row.stage)] = row.line
        else:
            yield problem_at("text", "table_same_place", line=row.line, first=first)
