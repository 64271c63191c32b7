"""A crew's phones as the machine sees them: what a person does with one, and what happens to it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import timedelta
from typing import Any

from tests.machine.bases import Worker
from tests.machine.network import Fault, Held, Jar, Line
from tests.machine.office import Office, TrueTime
from tests.machine.pipe import Answer, Network, PhoneError, Pipe, no_network

Row = dict[str, Any]
Contents = dict[str, list[Row]]


@dataclass(frozen=True)
class Copy:
    """A backup of a whole phone."""

    disk: str
    token: str | None


@dataclass
class Phone:
    """One phone. `turns` counts how often its clock was set; `life` how often its storage was lost or put back."""

    worker: Worker
    disk: str
    offset: timedelta
    jar: Jar = field(default_factory=Jar)
    tabs: list[str] = field(default_factory=list)
    copies: list[Copy] = field(default_factory=list)
    opened: int = 0
    turns: int = 0
    life: int = 0
    is_in_trouble: bool = False


class Phones:
    """Carries out what happens to phones. A phone is always open again afterwards, in one tab at least."""

    def __init__(self, pipe: Pipe, office: Office, time: TrueTime, on_taken: Callable[[Phone, Answer], None]) -> None:
        self._pipe = pipe
        self._on_taken = on_taken
        self._office = office
        self._time = time
        self.late: list[Held] = []
        self._pipe.call("reset", lambda: 0)

    def _call(self, phone: Phone, do: str, network: Network = no_network, **told: Any) -> Any:
        """One command. What the phone's code complains of may only be what was done to its disk."""
        opened, where = phone.opened, {"disk": phone.disk, "tab": phone.tabs[0]}
        try:
            return self._pipe.call(do, lambda: self._clock_of(phone), network, **where | told)
        finally:
            is_dead = self._pipe.is_dead
            self._listen(is_excused=phone.is_in_trouble or phone.opened != opened)
            if is_dead:
                self.start(phone)

    def _attempt(self, phone: Phone, do: str, network: Network = no_network, **told: Any) -> Any:
        """One command that may fail where the phone's disk is in trouble, and there alone: then None."""
        opened, could_fail = phone.opened, phone.is_in_trouble
        try:
            return self._call(phone, do, network, **told)
        except PhoneError:
            if not could_fail and phone.opened == opened:
                raise
            return None

    def _listen(self, *, is_excused: bool) -> None:
        complaints, self._pipe.complaints = self._pipe.complaints, []
        for complaint in complaints:
            is_of_disk = complaint.removeprefix("unhandled: ").startswith("StorageError")
            assert is_excused, complaint
            assert is_of_disk, complaint

    def _clock_of(self, phone: Phone) -> int:
        return round((self._time.now + phone.offset).timestamp() * 1000)

    def start(self, phone: Phone) -> None:
        """The phone is switched on again, whatever it was doing, and the app is opened."""
        self._shut(phone)
        self.open_tab(phone)
        phone.is_in_trouble = False

    def open_first(self, phone: Phone) -> None:
        """A new phone, the app just installed."""
        self.open_tab(phone)

    def open_tab(self, phone: Phone) -> None:
        """The app in one more tab."""
        phone.opened += 1
        tab = f"{phone.disk} tab {phone.opened}"
        phone.tabs.append(tab)
        self._call(phone, "open", tab=tab)

    def close_tab(self, phone: Phone, tab: int) -> None:
        """Close one of several."""
        self._call(phone, "close", tab=phone.tabs.pop(tab % len(phone.tabs)))

    def write(self, phone: Phone, tab: int, edits: list[Row]) -> list[Row] | None:
        """Save edits together. The changes that the phone made of them; None where it said that it did not save."""
        made: list[Row] | None = self._attempt(phone, "write", tab=phone.tabs[tab % len(phone.tabs)], edits=edits)
        return made

    def line(self, phone: Phone, faults: list[Fault], meanwhile: Any = lambda: None) -> Line:
        """The phone's way to the service for one command."""
        on_taken = lambda answer: self._on_taken(phone, answer)  # noqa: E731
        return Line(self._office, phone.jar, self.late, on_taken, lambda: self.start(phone), faults, meanwhile)

    def sync(self, phone: Phone, line: Line, tab: int = 0) -> str:
        """Exchange until the phone rests; how that ended."""
        told: str = self._call(phone, "sync", line.carry, tab=phone.tabs[tab % len(phone.tabs)])
        return told

    def join(self, phone: Phone, line: Line, code: str) -> Row | None:
        """Type the code."""
        outcome: Row | None = self._attempt(phone, "join", line.carry, code=code, person=phone.worker.name)
        return outcome

    def leave(self, phone: Phone, line: Line) -> None:
        """It is taken off the office's list, by itself."""
        self._attempt(phone, "leave", line.carry)

    def unsent(self, phone: Phone) -> str:
        """The text of the file with everything that it has not sent."""
        text: str = self._call(phone, "unsent")
        return text

    def read_in(self, phone: Phone, text: str) -> bool:
        """Take the changes of such a file into the queue; whether that worked."""
        told: Row | None = self._attempt(phone, "read_in", text=text)
        assert told is None or told["outcome"] == "read", told
        return told is not None

    def open_job(self, phone: Phone, job_id: str) -> None:
        """Look at a job: its history is kept from then on."""
        self._attempt(phone, "open_job", job=job_id)

    def job_file(self, phone: Phone, job_id: str) -> str | None:
        """A job as a file, in base 64; None where the phone's storage does not hold it."""
        file: str | None = self._call(phone, "job_file", job=job_id)
        return file

    def take_job(self, phone: Phone, file: str) -> Row | None:
        """Take a job's file in; how much was new, or the fault for which it is not taken. None where that failed."""
        told: Row | None = self._attempt(phone, "take_job", file=file)
        return told

    def dismiss(self, phone: Phone, change_id: str) -> None:
        """The person has read why a change was refused."""
        self._call(phone, "dismiss", change=change_id)

    def plan_trouble(self, phone: Phone, how: str, after: int) -> None:
        """Its battery ends, or its disk is full, once so many more writes went well."""
        phone.is_in_trouble = True
        self._call(phone, "trouble", how=how, after=after)

    def calm(self, phone: Phone) -> None:
        """Nothing planned happens any more."""
        self._call(phone, "calm")
        phone.is_in_trouble = False

    def contents(self, phone: Phone) -> Contents:
        """Everything in its storage, by store."""
        kept: Contents = self._call(phone, "contents")
        return kept

    def contents_of(self, copy: Copy) -> Contents:
        """Everything in the storage of a copy."""
        kept: Contents = self._pipe.call("contents", lambda: 0, disk=copy.disk)
        return kept

    def shown(self, phone: Phone, tab: int = 0) -> list[Row]:
        """The records that a tab shows."""
        rows: list[Row] = self._call(phone, "shown", tab=phone.tabs[tab % len(phone.tabs)])
        return rows

    def loaded(self, phone: Phone) -> list[Row]:
        """The records that it would show if the app were opened now."""
        rows: list[Row] = self._call(phone, "loaded")
        return rows

    def copy(self, phone: Phone) -> None:
        """A backup of the whole phone."""
        copy = Copy(f"{phone.disk} copy {len(phone.copies)} of life {phone.life}", phone.jar.token)
        self._call(phone, "copy", to=copy.disk)
        phone.copies.append(copy)

    def put_back(self, phone: Phone, copy: Copy) -> None:
        """The phone is as it was when the copy was made."""
        self._shut(phone)
        self._pipe.call("copy", lambda: 0, disk=copy.disk, to=phone.disk)
        phone.jar.token = copy.token
        phone.life += 1
        self.start(phone)

    def wipe(self, phone: Phone) -> None:
        """Installed anew: nothing of what it held is left."""
        self._shut(phone)
        self._pipe.call("wipe", lambda: 0, disk=phone.disk)
        phone.jar.token = None
        phone.life += 1
        self.start(phone)

    def as_first_version(self, phone: Phone) -> None:
        """The phone as the app's first version would have kept it, then opened by this one."""
        self._shut(phone)
        self._pipe.call("version_1", lambda: 0, disk=phone.disk)
        self.start(phone)

    def _shut(self, phone: Phone) -> None:
        self._pipe.call("crash", lambda: self._clock_of(phone), disk=phone.disk)
        self._pipe.is_dead = False
        phone.tabs = []
