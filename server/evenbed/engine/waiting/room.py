"""The waiting of one room, each part worked out once, when it is first asked for."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from evenbed.engine.cautions import Caution
from evenbed.engine.cure import moment_from_time
from evenbed.engine.document.room import Document
from evenbed.engine.readiness import Beside, Readiness, readiness_from
from evenbed.engine.sources import Explanation
from evenbed.engine.waiting.drying import drying_from
from evenbed.engine.waiting.evaporation import Weather, evaporation_rows, weather_from
from evenbed.engine.waiting.explaining import part_explanations
from evenbed.engine.waiting.foretold import foretold_curve_from
from evenbed.engine.waiting.knowledge import Foretold, knowledge_cautions
from evenbed.engine.waiting.shapes import Drying, EvaporationRow, Spell, TileWindow
from evenbed.engine.waiting.spells import spells_from
from evenbed.engine.waiting.tile import tile_window_from
from evenbed.engine.waiting.warning import tick_cautions, tile_cautions, weather_cautions
from evenbed.engine.waiting.windows import NOMINAL, BedKind


@dataclass(frozen=True)
class RoomWaiting:
    """A room's waiting. `thickness` is the thickest mortar in mm, None where the bed is not known."""

    document: Document
    thickness: float | None

    @cached_property
    def readiness(self) -> Readiness:
        """When the milestones are met. Raises BadDocumentError for temperatures that contradict each other."""
        document = self.document
        bed = BedKind(NOMINAL if self.thickness is None else self.thickness, document.bed.build)
        beside = Beside(document.logs, document.forecast, document.ticks, bed)
        return readiness_from(document.curing, document.climate, document.placements, document.batches, beside)

    @cached_property
    def weather(self) -> tuple[Weather, ...]:
        """Every moment at which humidity and wind are known."""
        return weather_from(self.document.climate, self.document.forecast, self.readiness.hardening)

    @cached_property
    def evaporation(self) -> tuple[EvaporationRow, ...]:
        """How fast a wet bed dries at those moments."""
        return evaporation_rows(self.weather)

    @cached_property
    def hardened(self) -> float:
        """The hour until which the bed hardens: when it takes tile at the latest, else the last hour known."""
        row = next(row for row in self.readiness.rows if row.milestone == "tile")
        late = row.late_after_h if row.late_after_h is not None else row.after_h
        return max(0.0, self.readiness.hardening.temperatures.hours[-1]) if late is None else late

    @cached_property
    def foretold(self) -> tuple[tuple[float, float], ...]:
        """The lows and highs of the days foretold, hour and °C of the bed, in order."""
        document, zero = self.document, self.readiness.hardening.zero
        curve = foretold_curve_from(document.forecast, document.curing, zero)
        return () if curve is None else curve.told

    @property
    def _foretold(self) -> Foretold:
        hardening, rows = self.readiness.hardening, self.document.climate
        told = [row for row in rows if row.forecast and not (row.bed is None and row.air is None)]
        moments = [hardening.hour(moment_from_time(row.at)) for row in told]
        return Foretold([hour for hour, _ in self.foretold], moments)

    @cached_property
    def spells(self) -> tuple[Spell, ...]:
        """Weather that harms the bed while it hardens."""
        return spells_from(self.readiness.hardening, self.weather, self.hardened, self.foretold)

    @cached_property
    def tile(self) -> TileWindow:
        """When tile can be set."""
        return tile_window_from(self.document.curing, self.document.placements, self.readiness)

    @cached_property
    def drying(self) -> Drying | None:
        """How long the bed dries; None where nobody minds, or there is no bed."""
        if not self.document.curing.moisture_sensitive or not self.thickness:
            return None
        return drying_from(self.thickness, self.readiness.hardening)

    def cautions(self) -> Iterator[Caution]:
        """What the plan says of the waiting beside its prediction."""
        yield from weather_cautions(self.readiness.hardening, self.weather, self.hardened)
        yield from tile_cautions(self.tile, self.readiness.hardening, self.drying)
        yield from knowledge_cautions(self.readiness.hardening, self._foretold, self.hardened)
        yield from tick_cautions(self.readiness)

    def explanations(self) -> dict[str, Explanation]:
        """What stands behind evaporation, drying and the window of tile, by path."""
        return part_explanations(self.document.curing, self.weather, self.drying, self.tile)
