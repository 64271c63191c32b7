"""Levels: heights from every reading and levelled difference of a document, adjusted together."""

from evenbed.engine.document.places import Point3
from evenbed.engine.elimination import TooTangledError
from evenbed.engine.heights import (
    DifferenceFit,
    InstrumentError,
    LevelMisclosure,
    Levels,
    MarkHeight,
    ReadHeight,
    SetupHeight,
    Untied,
)
from evenbed.engine.instruments import tilt_of
from evenbed.engine.levels_check import floor_problems, levelling_problems, levels_notices
from evenbed.engine.measured import Levelling, Measured, measured_from, readings_by_setup
from evenbed.engine.network import Adjusted, ContradictionError, Loop, adjusted
from evenbed.engine.outline import Figure
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.engine.stood import Node


def levels_from(levelling: Levelling, figure: Figure | None) -> Levels:
    """Heights of everything read, and how well the measurements fit together.

    z = 0 is the benchmark's; without one the highest subfloor reading of the largest part that hangs together. What
    nothing ties to it has no height. With a room's `figure` the readings must make a surface: three of the subfloor,
    not on one line, inside the room. Raises BadDocumentError with every problem found.
    """
    found = levelling_problems(levelling, figure)
    if found:
        raise BadDocumentError(found)
    measured = measured_from(levelling)
    levels = _levels(levelling, measured, _network(levelling, measured))
    if figure is not None:
        pairs = zip(levelling.readings, measured.places, strict=True)
        read = {place for reading, place in pairs if reading.stage == "subfloor" and place is not None}
        found = floor_problems(read, [at[:2] for at in levels.spots], levels.untied)
    if found:
        raise BadDocumentError(found)
    return levels


def _network(levelling: Levelling, measured: Measured) -> Adjusted:
    free = levelling.adjustment.datum == "free"
    try:
        return adjusted(measured.observations, measured.known, measured.paths, measured.floor, free=free)
    except ContradictionError as bad:
        found = [problem_at(one.path, "contradiction", by=by) for one, by in bad.found]
        raise BadDocumentError(found) from None
    except TooTangledError:
        raise BadDocumentError([problem_at("readings", "too_tangled")]) from None


def _levels(levelling: Levelling, measured: Measured, network: Adjusted) -> Levels:
    untied = _untied(measured, network)
    return Levels(
        heights=_read_heights(levelling, measured, network),
        setups=_setup_heights(measured, network),
        marks=_mark_heights(levelling, measured, network),
        sigma0=network.sigma0,
        datum="benchmark" if network.is_known else "highest_reading",
        redundancy=network.redundancy,
        differences=_difference_fits(levelling, measured, network),
        misclosures=tuple(_misclosure(loop) for loop in network.loops),
        instruments=_instrument_errors(levelling, measured),
        untied=untied,
        notices=levels_notices(levelling, measured, untied),
        spots=_spots(levelling, measured, network),
    )


def _read_heights(levelling: Levelling, measured: Measured, network: Adjusted) -> tuple[ReadHeight, ...]:
    found = []
    for n, (reading, node) in enumerate(zip(levelling.readings, measured.nodes, strict=True)):
        fit = network.fits[measured.observations[n]]
        z, sigma = network.heights.get(node), network.sigmas.get(node)
        taken_off = measured.corrections[n].amount
        found.append(ReadHeight(reading.id, reading.at, z, fit.residual, sigma, fit.standardised, taken_off))
    return tuple(found)


def _setup_heights(measured: Measured, network: Adjusted) -> tuple[SetupHeight, ...]:
    """The set-ups that were read from or whose line is known, in the document's order."""
    read = readings_by_setup(measured)
    found = []
    for setup in measured.setups.values():
        node = Node("setup", setup.id)
        if setup.id in read:
            found.append(SetupHeight(setup.id, network.heights.get(node), network.sigmas.get(node)))
        elif setup.line_height is not None:
            found.append(SetupHeight(setup.id, setup.line_height, 0.0))
    return tuple(found)


def _mark_heights(levelling: Levelling, measured: Measured, network: Adjusted) -> tuple[MarkHeight, ...]:
    """The marks that were read, levelled or known, in the document's order."""
    touched = {node for one in measured.observations for node in (one.start, one.end)}
    found = []
    for mark in levelling.marks:
        node = Node("mark", mark.id)
        if node in touched:
            found.append(MarkHeight(mark.id, network.heights.get(node), network.sigmas.get(node)))
        elif mark.height is not None:
            found.append(MarkHeight(mark.id, mark.height, 0.0))
    return tuple(found)


def _difference_fits(levelling: Levelling, measured: Measured, network: Adjusted) -> tuple[DifferenceFit, ...]:
    observations = measured.observations[len(levelling.readings) :]
    fits = [network.fits[one] for one in observations]
    pairs = zip(levelling.differences, fits, strict=True)
    return tuple(DifferenceFit(one.id, fit.residual, fit.standardised) for one, fit in pairs)


def _misclosure(loop: Loop) -> LevelMisclosure:
    if loop.end.kind == "mark":
        return LevelMisclosure(loop.end.name, None, loop.by, loop.along)
    return LevelMisclosure("", (loop.end.x, loop.end.y), loop.by, loop.along)


def _instrument_errors(levelling: Levelling, measured: Measured) -> tuple[InstrumentError, ...]:
    return tuple(
        InstrumentError(
            check=check.id,
            instrument=check.instrument,
            tilt=tilt_of(check),
            offset=check.offset if check.kind == "rod" else None,
            readings=sum(check.id in correction.checks for correction in measured.corrections),
        )
        for check in levelling.instrument_checks
    )


def _untied(measured: Measured, network: Adjusted) -> tuple[Untied, ...]:
    read = readings_by_setup(measured).items()
    return tuple(Untied(name, count) for name, count in read if Node("setup", name) not in network.heights)


def _spots(levelling: Levelling, measured: Measured, network: Adjusted) -> dict[Point3, str]:
    """The subfloor's read places with their heights, each once, and the least id of the readings made there."""
    found: dict[Point3, str] = {}
    for reading, place, node in zip(levelling.readings, measured.places, measured.nodes, strict=True):
        if reading.stage == "subfloor" and place is not None and node in network.heights:
            spot = (*place, network.heights[node])
            found[spot] = min(reading.id, found.get(spot, reading.id))
    return found
