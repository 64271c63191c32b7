"""Keeping: the log of changes, the records made from it, the devices. Its tables never leave this room."""
