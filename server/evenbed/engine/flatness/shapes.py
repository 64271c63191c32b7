"""What is answered about the flatness of the finished bed."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.cautions import Caution
from evenbed.engine.delaunay import Triangle
from evenbed.engine.document.fields import described, height, length, time
from evenbed.engine.document.flatness import Standard, TouchWay
from evenbed.engine.document.places import Point, Point3
from evenbed.engine.document.room import Document
from evenbed.engine.identity import Identity

Verdict = Literal["within", "beyond", "too_sparse", "not_read"]
"""`too_sparse`: nothing beyond the limit was found, and the readings are too far apart to say that nothing is."""


@dataclass(frozen=True)
class Lying:
    """A straightedge where it lies worst: on a high place at each side of a gap, or rocking on a hump."""

    start: Point = height(about="One end of the straightedge", key="from")
    end: Point = height(about="The other end", key="to")
    at: Point = height(about="Where it stands open most, or where the hump is highest")
    rests: tuple[Point, Point] = height(about="Where it rests, or the feet of the hump")
    gap: float = length(about="How far it stands open there, or how high the hump is")
    sigma: float = length(about="Standard error of that, from the readings alone")


@dataclass(frozen=True)
class StraightedgeCheck:
    """One length of straightedge over the whole bed, against one limit."""

    limit: float = length(about="Most that may stand open under it")
    basis: str = described(about="What the limit rests on, in English")
    code: str = described(about="Code of `basis`, from a closed set")
    verdict: Verdict = described(about="Against this limit")
    sure: bool = described(about="False where the worst place is nearer to the limit than the readings can tell")
    gap: Lying | None = described(about="Worst place under it, null where nothing was read")
    hump: Lying | None = described(about="Worst hump that it rocks on, null where there is none")
    judged_share: float = described(about="Share of the bed where the readings are near enough for this length")
    beyond_share: float = described(about="Share of the bed that lies under a gap, or on a hump, beyond the limit")
    length: float = length(about="Length of the straightedge")


@dataclass(frozen=True)
class GapVerdict:
    """A gap measured with a wedge, against the limit for that length of straightedge."""

    gap: str = described(about="The measured gap's id")
    measured: float = length(about="What the wedge showed")
    limit: float | None = length(about="Most that may stand open; null where no limit is for so short a straightedge")
    verdict: Literal["within", "beyond", "no_limit"] = described(about="Against that limit")
    length: float = length(about="Length of the straightedge that lay there")


@dataclass(frozen=True)
class FallCheck:
    """One facet of the top as built, against the top as designed."""

    facet: int = described(about="Which facet of the top, counted from 0")
    readings: int = described(about="Readings of the bed on it")
    designed: float = described(about="Fall asked for, as a ratio; 0 for a level one")
    fall: float | None = described(about="Fall as built, by the plane that fits best; null for fewer than three")
    direction: float | None = described(about="Way it falls, anticlockwise from +x; null where level", unit="degree")


@dataclass(frozen=True)
class LevelCheck:
    """The bed as built against the top as designed: + where the bed is high."""

    mean: float = height(about="Mean of what the bed is high by")
    rms: float = length(about="Root mean square about that mean")
    highest: float = height(about="Highest above the top")
    highest_at: Point = height(about="Where")
    lowest: float = height(about="Lowest, below the top where it is negative")
    lowest_at: Point = height(about="Where")
    falls: tuple[FallCheck, ...] = described(about="Facet by facet")
    standing_water: tuple[Point, ...] = height(about="Low places of a falling top from which no water runs off")


@dataclass(frozen=True)
class FNumbers:
    """F-numbers by ASTM E1155M."""

    ff: float = described(about="Overall FF, flatness")
    fl: float | None = described(about="Overall FL, levelness; null where no line is long enough, or the top falls")
    lines: int = described(about="Lines of heights they rest on")
    heights: int = described(about="Heights in those lines")


@dataclass(frozen=True)
class LineNumbers:
    """F-numbers of one line alone."""

    line: str = described(about="The height line's id, or the ids of its first and last reading")
    heights: int = described(about="How many heights")
    ff: float = described(about="FF")
    fl: float | None = described(about="FL; null for a line of fewer than 12 heights")


@dataclass(frozen=True)
class Work:
    """One place to work over: rub down, or fill up. In order of effect."""

    id: str = described(about="K1, K2 ... in order")
    way: TouchWay = described(about="Rub down or fill up")
    at: Point = height(about="Where it is deepest")
    polygon: tuple[Point, ...] = height(about="Where, anticlockwise")
    changes: tuple[Point3, ...] = height(about="Its read places, each with what is put on there as z, - taken off")
    depth: float = length(about="At its deepest, how much to take off or put on")
    volume: float = described(about="Mortar taken off or put on", unit="m3")
    before: float = length(about="Worst gap or hump there before")
    after: float = length(about="And when it is done")
    done_at: str | None = time(about="When somebody said that it was done; it counts when the place is read again")
    length: float = length(about="Under which straightedge")


@dataclass(frozen=True)
class FlatnessAnswer:
    """How flat, level and true the finished bed is, by what was measured on it."""

    standard: Standard = described(about="Whose limits hold")
    verdict: Verdict = described(about="Of all checks and measured gaps: the worst of them")
    readings: int = described(about="Readings of the bed that count")
    stale: tuple[str, ...] = described(about="Readings and gaps left out, for their place was rubbed or filled since")
    spacing: float | None = length(about="How far a place of the bed is from the nearest reading, at most")
    points: tuple[Point3, ...] = height(
        about="Read places, each with its height above the designed top as z; then middles of squares of them"
    )
    spots: int = described(about="How many of the points were read, from the first on")
    triangles: tuple[Triangle, ...] = described(about="Between them, within the walls")
    checks: tuple[StraightedgeCheck, ...] = described(about="The long straightedge first")
    gaps: tuple[GapVerdict, ...] = described(about="Gaps measured with a wedge")
    level: LevelCheck | None = described(about="Against the designed top; null for fewer than three readings")
    f_numbers: FNumbers | None = described(about="Null where the readings allow none")
    f_lines: tuple[LineNumbers, ...] = described(about="Line by line")
    f_needs: str | None = described(about="Why there are no F-numbers, a code; null where there are")
    needs_ff: float | None = described(about="Overall FF asked for, null where the standard asks for none")
    needs_fl: float | None = described(about="Overall FL asked for, null where the standard asks for none")
    work: tuple[Work, ...] = described(about="Where to rub down and fill up, the most effect first")
    is_green: bool | None = described(
        about="True where the bed could still be rubbed when it was last measured or worked over; null: not placed"
    )
    green_until: str | None = time(
        about="When it will have hardened too far to be rubbed: as soon as it may be walked on; null where not known"
    )
    next_readings: tuple[Point, ...] = height(about="Where to read next, so that the bed can be judged")


@dataclass(frozen=True)
class StraightedgeQuestion:
    """A straightedge laid on the bed by hand."""

    document: Document = described(about="The room document")
    start: Point = height(about="One end", key="from")
    end: Point = height(about="The other end", key="to")


@dataclass(frozen=True)
class StraightedgeAnswer:
    """The bed under a straightedge, along it."""

    engine: Identity = described(about="Which engine computed it")
    profile: tuple[tuple[float, float], ...] = height(about="Along it, and the bed's height over the designed top")
    edge: tuple[tuple[float, float], ...] = height(about="The line from rest to rest over the profile (upper hull)")
    gap: Lying | None = described(about="Where it stands open most; null where it lies on no read bed")
    hump: Lying | None = described(about="The highest hump under it")
    limit: float | None = length(about="Most that may stand open; null where no limit is for so short a straightedge")
    cautions: tuple[Caution, ...] = described(about="What to know before it is relied on")
    length: float = length(about="Its length on the bed: ends beyond walls are left out")
