"""What each level is out by, as far as readings tell."""

from evenbed.engine.truing.equations import LEVEL_SIGMA
from evenbed.engine.truing.lying import Lying
from evenbed.engine.truing.shapes import LevelError

KNOWN = LEVEL_SIGMA / 4.0  # mm/m: an error less sure than this is not told


def level_errors_of(lying: Lying) -> tuple[LevelError, ...]:
    """Every level that was used, by name."""
    return tuple(_level_error(lying, name) for name in sorted(lying.system.level))


def _level_error(lying: Lying, name: str) -> LevelError:
    unknown = lying.system.level[name]
    flips = sum(
        read.check.level == name and read.check.reversed_off is not None and read.span is not None
        for read in lying.system.reads
    )
    sigma = lying.solution.variance({unknown: 1.0}) ** 0.5
    return LevelError(name, lying.solution.values[unknown], sigma, flips)


def level_known(lying: Lying) -> LevelError | None:
    """The level used most, of several the first by name; None where its error is not known well enough."""
    used = most_used(lying)
    error = None if used is None else _level_error(lying, used)
    return error if error is not None and error.sigma <= KNOWN else None


def most_used(lying: Lying) -> str | None:
    """The level with most readings; None where none was used."""
    counts = dict.fromkeys(sorted(lying.system.level), 0)
    for read in lying.system.reads:
        if read.span is not None and read.check.level in counts:
            counts[read.check.level] += 1
    return max(counts, key=lambda name: counts[name], default=None)
