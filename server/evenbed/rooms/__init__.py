"""Rooms: the room document composed of records, as the phone composes it; pure, it asks neither engine nor store."""
