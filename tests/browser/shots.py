"""Pictures of screens and pages for a person to look at: `make pictures` keeps them, other runs save the time."""

import os
from pathlib import Path

SHOTS = Path(__file__).parents[2] / "out" / "screenshots"
PICTURED = "EVENBED_PICTURES" in os.environ
