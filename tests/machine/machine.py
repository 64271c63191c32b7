"""The machine whole: everything that may happen, in any order."""

from tests.machine.exchanges import Exchanges
from tests.machine.mishaps import Mishaps
from tests.machine.work import Work


class PhonesAndOffice(Work, Exchanges, Mishaps):
    """Draws what happens next."""
