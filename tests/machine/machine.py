"""The machine whole: everything that may happen, in any order."""

from collections import Counter

from tests.machine.bases import Bases
from tests.machine.carrying import Carrying
from tests.machine.exchanges import Exchanges
from tests.machine.mishaps import Mishaps
from tests.machine.pipe import Pipe


class PhonesAndOffice(Carrying, Exchanges, Mishaps):
    """Draws what happens next."""


def machine_on(bases: Bases, pipe: Pipe) -> type[PhonesAndOffice]:
    """A machine over these databases, with counts of its own."""
    told = {"bases": bases, "pipe": pipe, "steps": Counter(), "met": Counter()}
    return type("Machine", (PhonesAndOffice,), told)
