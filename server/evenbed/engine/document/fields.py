"""How a field of the document or the plan is described, once: its key in JSON, its range, its unit, its purpose.

The descriptions serve three readers: `reading` (JSON to dataclass, with problems), `writing` (dataclass to JSON)
and `schema` (JSON Schema for the service's description and the phone's types).
"""

from dataclasses import MISSING, dataclass, field
from typing import Any

FARTHEST = 1_000_000.0  # mm: a kilometre; anything beyond is a slip of the unit or of the finger
LONGEST_TEXT = 2_000
MOST_ENTRIES = 20_000


@dataclass(frozen=True)
class Facts:
    """What is true of one field. `low` and `high` are inclusive and None where there is no bound."""

    about: str = ""
    unit: str = ""
    low: float | None = None
    high: float | None = None
    key: str = ""
    is_time: bool = False
    most: int = MOST_ENTRIES
    longest: int = LONGEST_TEXT


def described(default: Any = MISSING, **facts: Any) -> Any:
    """A dataclass field with its facts. Without a default the key is required in JSON."""
    metadata = {"facts": Facts(**facts)}
    if isinstance(default, list | dict):
        raise TypeError("A default is shared between documents: use a tuple or a frozen dataclass.")
    return field(metadata=metadata) if default is MISSING else field(default=default, metadata=metadata)


def length(
    default: Any = MISSING, about: str = "", *, low: float = 0.0, high: float = FARTHEST, key: str = ""
) -> Any:
    """A length in mm that may not be negative."""
    return described(default, about=about, unit="mm", low=low, high=high, key=key)


def height(default: Any = MISSING, about: str = "", *, key: str = "", most: int = MOST_ENTRIES) -> Any:
    """A height z or a coordinate in mm, either sign."""
    return described(default, about=about, unit="mm", low=-FARTHEST, high=FARTHEST, key=key, most=most)


def ratio(default: Any = MISSING, about: str = "", *, low: float = 0.0, high: float = 1.0) -> Any:
    """A number without a unit."""
    return described(default, about=about, low=low, high=high)


def time(default: Any = MISSING, about: str = "") -> Any:
    """A moment: ISO 8601 with its offset from UTC."""
    return described(default, about=about, is_time=True)
