"""Evenbed: mortar beds for tile, from the first reading to the hand-over."""
