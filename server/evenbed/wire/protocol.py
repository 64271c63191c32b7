"""Versions and limits that both ends agree on."""

PROTOCOL = 2
"""Version of the exchange itself; 2 tells where changes out of a file come from. Older ones are always taken; a newer
one is answered `update_needed`."""

SCHEMA = 3
"""Version of what the fields of a change mean. A service that knows only older ones asks for its own update, and the
changes wait on the phones."""

MOST_CHANGES = 500
"""Changes in one push."""

MOST_RECORDS = 500
"""Records in one page of a pull, and changes in one of a job's history."""

MOST_KNEW = 1_000
"""Devices that one record may have been edited on, as far as a file tells of them."""

MOST_PART_BYTES = 262_144
"""Bytes of a photo in one part."""

LONGEST_ID = 64
LONGEST_NAME = 200
LONGEST_TEXT = 10_000
