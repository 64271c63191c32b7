"""What a process that reads a scan is told."""

from pydantic import BaseModel, ConfigDict

from evenbed.engine.geometry import Ring
from evenbed.scans.wishes import Wishes


class Task(BaseModel):
    """Where the file is, the room's rings in mm, how the scan is to be read."""

    model_config = ConfigDict(frozen=True)

    path: str
    rings: tuple[Ring, ...]
    wishes: Wishes
