"""What can go wrong with truing, in English, by code."""

TRUING_CAUTIONS: dict[str, str] = {}
