"""What must be said beside the flatness of a bed: cautions, and how its figures explain themselves."""

import math
from collections.abc import Iterable, Iterator

from evenbed.engine.cautions import Caution, caution_at
from evenbed.engine.flatness.coverage import ENOUGH
from evenbed.engine.flatness.implausible import FAR_OFF, far_off_among, lean_of
from evenbed.engine.flatness.levelled import FALLS
from evenbed.engine.flatness.lying import longest_stretch
from evenbed.engine.flatness.shapes import FallCheck, LevelCheck, StraightedgeCheck
from evenbed.engine.flatness.verdicts import DOUBT, Laid, sigma_of_none, telling_of
from evenbed.engine.flatness.worked_flatness import WorkedFlatness
from evenbed.engine.sources import Explanation, explanation_of
from evenbed.engine.top.facets import BedTop, Facet

LEAST_FALL = 1.0 / 48.0  # 1/4 in per foot
COARSE = 0.5  # of the limit: a gap no better known than this is hardly judged by it
LIMITS = {"ansi": "limit_ansi", "bs": "limit_bs", "din": "limit_din", "aci": "limit_aci", "own": "limit_own"}


def flatness_cautions_of(found: WorkedFlatness) -> Iterable[Caution]:
    """Every caution of one bed's flatness; none where nothing was measured."""
    if not found.is_measured:
        return
    yield caution_at("flatness.verdict", "flatness_computed")
    if found.readings and not found.surface.triangles:
        yield caution_at("flatness.points", "flatness_one_line")
    yield from _implausible(found)
    if not found.limits.rows:
        yield caution_at("flatness.checks", "flatness_no_limits")
    for n, laid in enumerate(found.laid):
        yield from _check_cautions(f"flatness.checks[{n}]", laid, found)
    if found.unread:
        yield caution_at("flatness.verdict", "flatness_touched", count=len(found.unread))
    if found.flat_and_level.overall is not None:
        lines = found.flat_and_level.overall.lines
        yield caution_at("flatness.f_numbers", "flatness_numbers_partly", lines=lines)
    if found.is_floating:
        yield caution_at("flatness.level", "flatness_floating")
    if found.level is not None:
        yield from _fall_cautions(found.level, found.bed.top, is_to_drain=found.drain is not None)


def _implausible(found: WorkedFlatness) -> Iterator[Caution]:
    """Readings to look at again before anything is worked over, and how the bed leans by all the others."""
    spots = [(*one.at, one.z - found.bed.top.at(*one.at)) for one in found.readings]
    far_off = far_off_among(spots)
    if far_off:
        (x, y), by = far_off[0].at, abs(far_off[0].by)
        yield caution_at("flatness.points", "flatness_far_off", count=len(far_off), x=x, y=y, by=by, most=FAR_OFF)
    slips = {one.at for one in far_off}
    sigma = max((one.sigma for one in found.readings), default=0.0)
    lean = lean_of([spot for spot in spots if spot[:2] not in slips], sigma)
    if lean is not None:
        yield caution_at("flatness.level", "flatness_leans", lean=lean.slope, rise=lean.rise)


def _check_cautions(where: str, laid: Laid, found: WorkedFlatness) -> Iterator[Caution]:
    check, longest = laid.check, longest_stretch(found.bed.regions)
    if check.length > longest:
        yield caution_at(where, "flatness_longer", length=check.length, fits=longest)
    if found.readings and check.judged_share < ENOUGH:
        yield caution_at(where, "flatness_sparse", length=check.length, share=check.judged_share)
    if laid.is_reduced:
        yield caution_at(where, "flatness_reduced", length=check.length)
    known = [(one.gap, one.sigma) for one in (check.gap, check.hump) if one is not None]
    if not found.readings:
        return
    unseen = [(0.0, sigma_of_none(found.surface))]
    gap, sigma = telling_of(known or unseen, is_beyond=check.verdict == "beyond")
    doubt = DOUBT * sigma
    if known and abs(gap - check.limit) < doubt:
        values = {"gap": gap, "limit": check.limit, "doubt": doubt}
        yield caution_at(where, "flatness_near_limit", length=check.length, **values)
    elif doubt >= COARSE * check.limit:
        yield caution_at(where, "flatness_coarse", limit=check.limit, doubt=doubt)


def _fall_cautions(level: LevelCheck, top: BedTop, *, is_to_drain: bool) -> Iterator[Caution]:
    away = sum(_falls_back(one, top.facets[one.facet]) for one in level.falls if one.designed >= FALLS)
    if away:
        yield caution_at("flatness.level.falls", "flatness_fall_away", count=away)
    built = [one.fall for one in level.falls if one.designed > 0.0 and one.fall is not None]
    if is_to_drain and built and min(built) < LEAST_FALL:
        yield caution_at("flatness.level.falls", "flatness_fall_short", fall=min(built), least=LEAST_FALL)
    if level.standing_water:
        yield caution_at("flatness.level.standing_water", "flatness_water", count=len(level.standing_water))


def _falls_back(check: FallCheck, designed: Facet) -> bool:
    """True where a facet as built falls more against its designed way than along it."""
    if check.direction is None:
        return False
    way = math.radians(check.direction)
    return designed.b * math.cos(way) + designed.c * math.sin(way) > 0.0


def flatness_explanations_of(found: WorkedFlatness) -> dict[str, Explanation]:
    """What stands behind the figures, by their paths in the plan; none where nothing was measured."""
    return dict(_explained(found)) if found.is_measured else {}


def _explained(found: WorkedFlatness) -> Iterator[tuple[str, Explanation]]:
    readings = len(found.readings)
    for n, laid in enumerate(found.laid):
        yield f"flatness.checks[{n}].limit", _limit_explained(found, laid.check.length, laid.check.limit)
        yield from _check_explained(f"flatness.checks[{n}]", laid.check, readings)
    for n, gap in enumerate(found.gap_verdicts):
        if gap.limit is not None:
            yield f"flatness.gaps[{n}].limit", _limit_explained(found, gap.length, gap.limit)
    for n, work in enumerate(found.work.work):
        values = {"straightedge": work.length, "depth": work.depth, "readings": readings}
        yield f"flatness.work[{n}]", explanation_of("work_least", **values)
    if found.level is not None:
        yield "flatness.level", explanation_of("bed_level", bed_high=found.level.mean, readings=readings)
        for n, fall in enumerate(found.level.falls):
            if fall.fall is not None:
                yield f"flatness.level.falls[{n}].fall", explanation_of("built_fall", readings=fall.readings)
    overall = found.flat_and_level.overall
    if overall is not None:
        counts = {"lines": overall.lines, "heights": overall.heights}
        yield "flatness.f_numbers.ff", explanation_of("f_flatness", **counts)
        if overall.fl is not None:
            yield "flatness.f_numbers.fl", explanation_of("f_levelness", **counts)


def _limit_explained(found: WorkedFlatness, length: float, limit: float) -> Explanation:
    """A limit by its rule, with what the rule goes by."""
    rule, values = found.limits.standard.split("_")[0], {"straightedge": length, "allowed": limit}
    if rule == "ansi":
        values["tile_edge"] = found.bed.document.bed.covering.longest_edge
    if found.needs is not None:
        values["ff_asked"] = found.needs[0]
    return explanation_of(LIMITS[rule], **values)


def _check_explained(path: str, check: StraightedgeCheck, readings: int) -> Iterator[tuple[str, Explanation]]:
    length = check.length
    yield f"{path}.judged_share", explanation_of("judged_share", straightedge=length, readings=readings)
    if check.beyond_share > 0.0:
        yield f"{path}.beyond_share", explanation_of("beyond_share", straightedge=length, allowed=check.limit)
    for key, code, one in (("gap", "straightedge_gap", check.gap), ("hump", "straightedge_hump", check.hump)):
        if one is not None:
            values = {"straightedge": length, "readings": readings, "error": one.sigma}
            yield f"{path}.{key}", explanation_of(code, **values)
