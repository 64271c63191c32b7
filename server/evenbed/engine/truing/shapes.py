"""What the plan says of truing: errors of rails and levels, and the corrections."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.document.fields import described, height, length


@dataclass(frozen=True)
class Correction:
    """One thing to do: raise or let down one end of a rail, where its strip lies now."""

    check: str = described(about="The reading that asks for it most")
    rail: str = described(about="The rail's id")
    lie: int = described(about="Which lie of its strip, by its order; 1 for a rail of one")
    station: int = described(about="The station at that end of the lie, counted from 0 along the rail")
    end: Literal["from", "to"] = described(
        about="Which end of the lie: nearer to the rail's beginning, or to its end"
    )
    raise_by: float = described(about="How much to raise it; negative lets it down", unit="mm", key="raise")
    sixteenths: int = described(about="The same in whole sixteenths of an inch")
    thirty_seconds: int = described(about="The same in whole thirty-seconds of an inch, which one round is worth")
    millimetres: int = described(about="The same in whole millimetres")
    mortar: float = described(about="About how much mortar to add to the ramp; negative to shave off", unit="m3")


@dataclass(frozen=True)
class LevelError:
    """What one level is out by: + where it shows its `to` end too high."""

    level: str = described(about="Which level; empty where none was named")
    per_metre: float = described(about="Its error", unit="mm/m")
    sigma: float = described(about="Standard error of that", unit="mm/m")
    flips: int = described(about="How many readings were taken both ways round")


@dataclass(frozen=True)
class RailError:
    """How one rail lies against the top of bed where its strip lies now, as far as the readings tell.

    No level tells how high all rails lie together: they are taken to lie, on the whole, as they were set.
    """

    rail: str = described(about="The rail's id")
    lie: int = described(about="Which lie of its strip, by its order; 1 for a rail of one")
    from_off: float = height(about="How much its beginning stands too high")
    to_off: float = height(about="How much its end stands too high")
    sigma: float = length(about="Standard error of the worse end")
    checks: int = described(about="How many readings tell of it")
    from_after: float = height(about="How much its beginning will stand too high once raised as told, to 1/32 in")
    to_after: float = height(about="How much its end will")


@dataclass(frozen=True)
class CheckFit:
    """One reading among the others."""

    check: str = described(about="The reading's id")
    counts: bool = described(
        about="False where its rail was bedded anew since or is not there any more, or it lay over two lies"
    )
    off: float | None = height(about="What it shows without the level's own error and the fall; null where unknown")
    residual: float | None = height(about="What of it the rails, as reckoned, leave unexplained")


@dataclass(frozen=True)
class NextCheck:
    """The reading that would tell most now, taken both ways round: the level turned end for end."""

    rail: str | None = described(about="The rail to lay the level along, null for across")
    rails: tuple[str, str] | None = described(about="The two rails to bridge, null for along")
    start: float = length(about="Where its one end lies", key="from")
    end: float = length(about="Where its other end lies", key="to")


@dataclass(frozen=True)
class TruingAnswer:
    """How the rails lie, and whether that is good enough. `worst` is the most that a rail's end is out."""

    tolerance: float = length(about="Most a rail may be out")
    is_good_enough: bool = described(
        about="True where every rail was read and nothing need be corrected as the strips lie now"
    )
    worst: float = length(about="The worst end as it lies")
    worst_after: float = length(about="The worst end once corrected as told")
    rails: tuple[RailError, ...] = described(about="Every rail, where its strip lies now")
    checks: tuple[CheckFit, ...] = described(about="Every reading, in their order")
    levels: tuple[LevelError, ...] = described(about="Every level that was used")
    next_check: NextCheck | None = described(about="What to read next, null where it would tell nothing new")
