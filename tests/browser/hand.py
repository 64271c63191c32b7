"""What a person does with the app, whatever the browser: told once, in taps, keys and waits."""

from abc import ABC, abstractmethod


class Hand(ABC):
    """A hand on the app. How a tap, a key or a wait is done is the browser's; the steps of the job are told here."""

    @abstractmethod
    def tap(self, mark: str) -> None:
        """Tap what carries the mark."""

    @abstractmethod
    def fill(self, mark: str, text: str) -> None:
        """Type into a text field."""

    @abstractmethod
    def keys(self, *keys: str) -> None:
        """Press keys of the pad."""

    @abstractmethod
    def wait_for(self, mark: str) -> object:
        """Wait until something with the mark is there."""

    @abstractmethod
    def wait_for_text(self, mark: str, pattern: str) -> object:
        """Wait until the marked element says something the pattern finds."""

    def join(self, code: str, person: str) -> None:
        """Join the office from the settings."""
        self.tap("open-settings")
        self.fill("join-code", code)
        self.fill("join-person", person)
        self.tap("join-now")
        self.wait_for("joined")
        self.tap("back")

    def begin_room(self, job: str, place: str, room: str) -> None:
        """A new job with a first room, from the list of jobs."""
        self.tap("new-job")
        self.fill("job-name", job)
        self.fill("job-place", place)
        self.tap("begin-job")
        self.fill("room-name", room)
        self.tap("begin-room")
        self.wait_for("keypad")

    def walk(self, walls: list[tuple[str, str]]) -> None:
        """Tape walls given as feet and the turn after each; the last one closes the figure."""
        for feet, turn in walls[:-1]:
            self.keys(*feet, "feet")
            self.tap(f"turn-{turn}")
        self.keys(*walls[-1][0], "feet")
        self.tap("close-figure")
        self.wait_for("walk-again")

    def read(self, readings: list[tuple[str, int]]) -> None:
        """Take readings given as whole inches and sixteenths: the last key of each goes on by itself."""
        for number, (inches, sixteenths) in enumerate(readings, start=1):
            self.keys(*inches, f"part-{sixteenths}")
            self.wait_for_text("entry-what", rf"\b{number + 1}\b")
