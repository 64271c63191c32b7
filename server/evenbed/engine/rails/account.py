"""How figures of rails explain themselves."""

from collections.abc import Iterator, Sequence

from evenbed.engine.rails.rounding import SIXTEENTH
from evenbed.engine.rails.shapes import Rail
from evenbed.engine.sources import Explanation, explanation_of


def rail_explanations(rails: Sequence[Rail]) -> Iterator[tuple[str, Explanation]]:
    """What stands behind shims, their rounding and the ramps, by their paths in the plan."""
    for n, rail in enumerate(rails):
        strip, count = rail.strip, len(rail.stations)
        for m, station in enumerate(rail.stations):
            heights = {"top": station.top, "strip": strip.thickness, "subfloor": station.subfloor}
            yield f"rails[{n}].stations[{m}].shim", explanation_of("shim", **heights)
        off = max(abs(s.sixteenths * SIXTEENTH - s.shim) for s in rail.stations)
        off_mm = max(abs(s.millimetres - s.shim) for s in rail.stations)
        rounding = {"stations": count, "rounded_sixteenth": off, "rounded_millimetre": off_mm}
        yield f"rails[{n}].stations", explanation_of("shim_rounded", **rounding)
        sizes = {"strip_width": strip.width, "length": rail.stations[-1].along, "stations": count}
        yield f"rails[{n}].ramp_volume", explanation_of("ramp_volume", **sizes)
