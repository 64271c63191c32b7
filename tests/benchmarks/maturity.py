"""Ten thousand temperatures to windows of readiness in CPython, beside a plain sum and scipy over the same rows."""

import json
import math
from collections.abc import Callable
from datetime import datetime, timedelta
from functools import partial
from itertools import pairwise

from scipy.integrate import quad

from evenbed.engine.bridge import answer_text
from evenbed.engine.cure import AgeCurve, Temperatures
from evenbed.engine.document.filling import Placement
from evenbed.engine.document.waiting import ClimateRow, Curing, ForecastDay, TemperatureLog
from evenbed.engine.readiness import Beside, readiness_from
from evenbed.engine.waiting.maturity import Rate
from tests.benchmarks.floors import read_floor
from tests.benchmarks.plans import best_ms
from tests.benchmarks.sizes import Sizes

ROWS = 10_000
PLACED = datetime.fromisoformat("2026-05-04T08:00:00-05:00")
PLACEMENT = Placement("S1", None, PLACED.isoformat())
RATE = Rate(5000.0, 20.0)


def at(minutes: float) -> str:
    """A moment so many minutes after placing."""
    return (PLACED + timedelta(minutes=minutes)).isoformat()


CELSIUS = [round(18.0 + 6.0 * math.sin(n / 230.0) + 0.1 * (n % 3), 1) for n in range(ROWS)]
TYPED = [ClimateRow(at(n), bed=celsius) for n, celsius in enumerate(CELSIUS)]
LOG = TemperatureLog(PLACED.isoformat(), tuple(60.0 * n for n in range(ROWS)), tuple(CELSIUS))
DAYS = [ForecastDay(8.0, 20.0, at(1440 * n - 120), at(1440 * n + 420)) for n in range(7, 17)]
COURSE = Temperatures(tuple(n / 60.0 for n in range(ROWS)), tuple(CELSIUS), None)


def plain_sum() -> float:
    """The rival: one exponential a row, at the middle of its two temperatures, in a plain loop."""
    total, inverse = 0.0, 1.0 / 293.15
    for one, other in pairwise(CELSIUS):
        total += math.exp(-5000.0 * (1.0 / (0.5 * (one + other) + 273.15) - inverse)) / 60.0
    return total


def scipys_sum() -> float:
    """The judge: scipy's adaptive quadrature over each pair of rows."""
    return math.fsum(
        quad(lambda s, a=one, b=other: RATE.at(a + (b - a) * s), 0.0, 1.0)[0] / 60.0
        for one, other in pairwise(CELSIUS)
    )


def _shown(name: str, work: Callable[[], object], runs: int) -> None:
    print(f"  {name:58} {best_ms(work, runs):8.1f}")


def print_maturity(sizes: Sizes) -> None:
    """Print the table: each way in to the windows, its rivals, and how far they are from each other."""
    document = read_floor(50) | {"placements": [{"section": "S1", "placed_at": PLACED.isoformat()}]}
    logged = document | {"logs": [{"start": LOG.start, "seconds": list(LOG.seconds), "celsius": CELSIUS}]}
    asked = json.dumps({"document": logged, "now": at(2000)})
    lines = "Date Time,Temp\r\n" + "".join(f"{at(n)},{celsius}\r\n" for n, celsius in enumerate(CELSIUS))
    own = AgeCurve.of(COURSE, 0.0, COURSE.hours[-1], RATE).ages[-1]
    print(f"{ROWS} temperatures in CPython, ms (best of {sizes.runs})")
    for method in ("equivalent_age", "temperature_time"):
        curing = Curing(method="equivalent_age" if method == "equivalent_age" else "temperature_time")
        _shown(f"typed rows to windows, {method}", partial(readiness_from, curing, TYPED, [PLACEMENT]), sizes.runs)
        for name, beside in (("a log", Beside([LOG])), ("a log and ten days foretold", Beside([LOG], DAYS))):
            ask = partial(readiness_from, curing, [], [PLACEMENT], (), beside)
            _shown(f"{name} to windows, {method}", ask, sizes.runs)
    _shown("the question `waiting` over a log, JSON to JSON", partial(answer_text, "waiting", asked), sizes.runs)
    _shown("a logger's file read in", partial(answer_text, "log_in", json.dumps({"text": lines})), sizes.runs)
    _shown("rival: one exponential a row in a plain loop, age alone", plain_sum, sizes.runs)
    _shown("scipy's quad, row by row, age alone", scipys_sum, 1)
    print(f"  age {own:.6f} h; plain loop off by {plain_sum() / own - 1:.1e}, scipy by {scipys_sum() / own - 1:.1e}")
