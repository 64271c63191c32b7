"""`python -m evenbed` is the command `evenbed`."""

import sys

from evenbed.cli import main

sys.exit(main())
