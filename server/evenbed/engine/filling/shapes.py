"""What the plan and the fill clock say of sections, channels, edges and times."""

from dataclasses import dataclass
from typing import Literal

from evenbed.engine.cautions import Caution
from evenbed.engine.document.fields import described, height, length, time
from evenbed.engine.document.places import Point
from evenbed.engine.document.room import Document
from evenbed.engine.identity import Identity
from evenbed.engine.problems import Problem
from evenbed.engine.readiness import WorkingTime
from evenbed.engine.sources import Explanation

SectionState = Literal["waiting", "filling", "placed", "screeded", "packed"]
BatchState = Literal["fresh", "soon", "late", "placed", "thrown"]
EdgeKind = Literal["doorway", "rail", "joint", "cut"]
AlarmCode = Literal["use_soon", "use_by", "channels", "last_batch", "day_ends"]


@dataclass(frozen=True)
class Channel:
    """The groove that a strip leaves in a section once it is pulled."""

    rail: str = described(about="The rail's id")
    start: Point = described(about="Where it begins", unit="mm", key="from")
    end: Point = described(about="Where it ends", unit="mm", key="to")
    length: float = length(about="How long it is")
    volume: float = described(about="Mortar that fills it, part of the section's volume", unit="m3")


@dataclass(frozen=True)
class Section:
    """One piece of the bed, filled and cut off in one go."""

    id: str = described(about="S1 is filled first")
    polygon: tuple[Point, ...] = height(about="A simple polygon, anticlockwise")
    at: Point = described(
        about="A place well inside it: what is entered for it keeps that, so that it is known by any number",
        unit="mm",
    )
    volume: float = described(about="Compacted mortar in it", unit="m3")
    mixed_volume: float = described(about="Compacted mortar to mix for it, waste included", unit="m3")
    batches: float = described(about="Batches to mix for it, waste included")
    order: int = described(about="1 is filled first")
    walk: float = length(
        about="From its middle to the way out, over sections filled later, through the middles of their sides"
    )
    channels: tuple[Channel, ...] = described(
        about="Grooves to fill and pack at once after it; of two sections beside a strip the later one has it"
    )
    channel_volume: float = described(about="Mortar in its channels, strips' widths times thicknesses", unit="m3")


@dataclass(frozen=True)
class OpenEdge:
    """An edge of the bed with nothing beside it: it gets a form at bed height, or is cut back and keyed."""

    id: str = described(about="E1, E2, ...")
    kind: EdgeKind = described(about="In a doorway; or where work stops: along a rail, at a joint, anywhere else")
    opening: str | None = described(about="The doorway's id, null for another edge")
    start: Point = described(about="Where it begins", unit="mm", key="from")
    end: Point = described(about="Where it ends", unit="mm", key="to")
    lowest: float = length(about="Least bed thickness along it: the form's least height")
    highest: float = length(about="Greatest bed thickness along it")
    length: float = length(about="How long it is")


@dataclass(frozen=True)
class FillClockQuestion:
    """A room, and the moment it is looked at."""

    document: Document = described(about="The room document")
    now: str = time(about="The moment")


@dataclass(frozen=True)
class BatchClock:
    """One batch and how long it may still be worked. A section's own mixing is none: batches are entered."""

    id: str = described(about="The batch's id")
    section: str | None = described(about="The section it is for, or was the one being filled when it was mixed")
    state: BatchState = described(about="soon: to be used within a quarter of its working time; late: past it")
    use_by: str = time(about="When it must be in place")
    is_in_time: bool = described(
        about="False where at the pace so far it will not be used in time, or was not; false for one thrown away"
    )


@dataclass(frozen=True)
class SectionClock:
    """How far one section is. One without channels is packed once it is cut off."""

    id: str = described(about="The section's id")
    polygon: tuple[Point, ...] = height(about="Where it lies, as in the plan")
    state: SectionState = described(about="How far it is")
    batches_mixed: float = described(about="Full batches mixed for it so far, those thrown away left out")
    batches_needed: float = described(about="Full batches it takes, waste included")
    channels_due: str | None = time(about="When its channels must be packed at the latest; null where none are due")
    is_trapped: bool = described(about="True where fresh bed cuts it, still unfilled, off from the way out")


@dataclass(frozen=True)
class Pace:
    """How fast it goes, stoppages taken out: moving rails and packing channels are part of it."""

    hours_per_volume: float = described(about="Working hours for a cubic metre of bed", unit="h/m3")
    hours_per_batch: float = described(about="Working hours for a batch", unit="h")
    sections: int = described(about="How many sections it is reckoned from")


@dataclass(frozen=True)
class DoneTimes:
    """When the whole room will be filled, nothing stopping the work from now on."""

    early: str = time(about="Early: one time in twenty it is done before")
    likely: str = time(about="Likely")
    late: str = time(about="Late: one time in twenty it takes longer")


@dataclass(frozen=True)
class BestStop:
    """Where work is best stopped, if it must be: at joints before along rails, along rails before anywhere else."""

    after: str | None = described(about="The section to finish first; null where it is best to stop at once")
    at: str | None = time(about="When that will be at the pace so far; null without a pace")
    joint: float = length(about="Edge left at movement joints")
    rail: float = length(about="Edge left along rails")
    cut: float = length(about="Edge left anywhere else, to cut back square and key")


@dataclass(frozen=True)
class Alarm:
    """A moment at which somebody wants to be told."""

    at: str = time(about="When")
    code: AlarmCode = described(about="What for")
    batch: str | None = described(about="The batch it is about")
    section: str | None = described(about="The section it is about")


@dataclass(frozen=True)
class FillClockAnswer:
    """How the filling stands at a moment."""

    engine: Identity = described(about="Which engine computed it")
    working_time: WorkingTime = described(about="How long a batch can be worked")
    sections: tuple[SectionClock, ...] = described(about="In the order they are filled")
    next_section: str | None = described(about="What to fill now, null where all is filled")
    batches: tuple[BatchClock, ...] = described(about="Every batch, the oldest first")
    pace: Pace | None = described(about="Null until a section is filled")
    done: DoneTimes | None = described(about="Null until there is a pace, or where all is filled")
    fits_day: bool | None = described(about="Whether all is filled before the day ends; null where unknown")
    last_batch_by: str | None = time(about="The last moment to mix a batch that is in place before the day ends")
    is_stopped: bool = described(about="True while a stoppage lasts")
    stopped_hours: float = described(about="Hours stopped since the first batch", unit="h")
    stop_edges: tuple[OpenEdge, ...] = described(about="Edges left if work stops now, between filled and unfilled")
    best_stop: BestStop | None = described(about="Null where nothing is filled yet, or all is")
    alarms: tuple[Alarm, ...] = described(about="What is still to come, the first first")
    cautions: tuple[Caution, ...] = described(about="What can hurt a person or spoil the bed, at this moment")
    notices: tuple[Problem, ...] = described(about="Entries left out, and why")
    explanations: dict[str, Explanation] = described(about="What stands behind a figure, by its path in this answer")
