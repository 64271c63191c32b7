"""Dense scans become a clean set of readings: a million points in, at most two thousand readings out.

Points are never all in memory: they are gone through in blocks, twice. Whatever is worked out depends on the points
alone, never on their order.
"""
