"""Chip or raise: what bringing high spots of the subfloor down would save over the whole floor."""
