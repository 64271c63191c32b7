"""Filling: the bed in sections, in the order that traps nobody, and the clock that knows the mortar."""
