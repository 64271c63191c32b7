"""Evenbed: mortar beds for tile, from the first reading to the hand-over."""

__version__ = "0.1.0"
