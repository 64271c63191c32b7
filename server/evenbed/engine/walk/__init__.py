"""Walking the floor: which places to read, and in which order."""
