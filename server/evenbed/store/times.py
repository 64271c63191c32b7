"""Moments as the tables keep them."""

from datetime import UTC, datetime
from functools import lru_cache


@lru_cache(maxsize=256)  # one push has the same few moments thousands of times
def text_from_moment(at: datetime) -> str:
    """ISO 8601 in UTC, always with microseconds, so that texts sort as moments do."""
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def moment_from_text(text: str) -> datetime:
    """The moment again."""
    return datetime.fromisoformat(text)
