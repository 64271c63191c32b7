"""Phones and service exchange, over lines that hold and lines that break."""

from datetime import timedelta
from typing import get_args

from hypothesis import strategies as st

from tests.machine.base import FINE, Base, numbers, tabs
from tests.machine.happenings import NothingToDoError, happens
from tests.machine.network import OK, Fault, send

A_BLINK = timedelta(milliseconds=1)
MEANWHILE = ("an edit", "another phone", "its other tab")
faults = st.lists(st.sampled_from(["fine", "fine", *get_args(Fault)]), min_size=1, max_size=4)


class Exchanges(Base):
    """Syncing, in every way in which it can go wrong."""

    @happens(often=6, n=numbers, tab=tabs)
    def sync(self, n: int, tab: int) -> None:
        """One exchange over a good line."""
        self.tool.sync(self.phones[n], self.tool.line(self.phones[n], FINE), tab)

    @happens(often=4, order=st.permutations(range(3)))
    def everybody_syncs(self, order: list[int]) -> None:
        """One after the other."""
        for n in order:
            self.tool.sync(self.phones[n], self.tool.line(self.phones[n], FINE))

    @happens(often=8, n=numbers, tab=tabs, broken=faults, meanwhile=st.sampled_from(MEANWHILE), other=numbers)
    def sync_over_a_bad_line(self, n: int, tab: int, broken: list[Fault], meanwhile: str, other: int) -> None:
        """One exchange; its first requests fare as `broken` says."""
        line = self.tool.line(self.phones[n], list(broken), lambda: self._meanwhile(meanwhile, n, tab, other))
        self.tool.sync(self.phones[n], line, tab)

    @happens(often=2, n=numbers, broken=faults)
    def join_over_a_bad_line(self, n: int, broken: list[Fault]) -> None:
        """With a fresh code, whether the phone has joined or not."""
        self.join(self.phones[n], list(broken))

    def _meanwhile(self, what: str, n: int, tab: int, other: int) -> None:
        """While a request of a phone is on its way: its person goes on, its other tab or another phone syncs."""
        self.time.pass_by(A_BLINK)
        phone = self.phones[n]
        if what == "an edit":
            self.write(n, 0, [{"kind": "job", "id": self.names.new(), "fields": {"name": "meanwhile"}}])
        elif what == "its other tab":
            busy = phone.tabs[tab % len(phone.tabs)]
            if len(phone.tabs) == 1:
                self.tool.open_tab(phone)
            self.tool.sync(phone, self.tool.line(phone, FINE), tab=1 - phone.tabs.index(busy))
        elif other != n:
            self.tool.sync(self.phones[other], self.tool.line(self.phones[other], FINE))

    @happens(often=3, which=st.integers(0, 9))
    def what_was_held_up_arrives(self, which: int) -> None:
        """A request reaches the service after others that were sent later; nobody hears the reply."""
        if not self.tool.late:
            raise NothingToDoError
        held = self.tool.late.pop(which % len(self.tool.late))
        answer, _cookie = send(self.office, held)
        if held.question.path == "/api/push" and answer.status == OK:
            self.taken(None, answer)

    @happens(often=2, n=numbers, further=st.integers(1, 2))
    def unsent_changes_go_by_file(self, n: int, further: int) -> None:
        """What a phone has not sent is saved as a file, and read in by another one; the first keeps it too."""
        other = self.phones[(n + further) % len(self.phones)]
        self.tool.read_in(other, self.tool.unsent(self.phones[n]))
