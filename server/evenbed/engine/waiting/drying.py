"""How long a bed takes to dry before a covering that minds moisture: a band, never a date; a test decides."""

from evenbed.engine.waiting.hardening import Hardening
from evenbed.engine.waiting.shapes import Drying

DAYS_PER_MM = 1.0  # to the knee (BS 5385-3 as quoted)
SLOWER = 2.0  # times as long a mm beyond the knee; common practice, no source
KNEES = (40.0, 50.0, 75.0)  # mm: beyond them drying slows down, by different sources
LATE = 1.5  # times as long at the late end; common practice, no source


def days_from(thickness: float, knee: float) -> float:
    """Days to dry a thickness in mm (≥ 0): one a mm to the knee, twice as many beyond."""
    return DAYS_PER_MM * (min(thickness, knee) + SLOWER * max(0.0, thickness - knee))


def drying_from(thickness: float, hardening: Hardening) -> Drying:
    """The band for a bed of a thickness in mm at its thickest, counted from placing."""
    early, late = days_from(thickness, KNEES[-1]), LATE * days_from(thickness, KNEES[0])
    ends = [hardening.time_at(24.0 * days) if hardening.is_placed else None for days in (early, late)]
    return Drying(thickness, early, late, ends[0], ends[1], KNEES)
