"""What lies between a phone and the service, and what goes wrong there, one request after the other."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from tests.machine.office import Office
from tests.machine.pipe import Answer, Question

Fault = Literal[
    "fine",
    "request lost",
    "reply lost",
    "delivered twice",
    "delivered late",
    "sign-in page",
    "proxy fails",
    "phone dies before",
    "phone dies after",
    "service dies",
    "service starts again",
    "meanwhile",
]
OK = 200
SHORT_PAGE = 4
SIGN_IN = Answer(200, "<html>Welcome to the hotel. Your room number, please.</html>", "text/html")
BAD_GATEWAY = Answer(502, "<html>Bad gateway</html>", "text/html")


@dataclass(frozen=True)
class Held:
    """A request on its way, with the token it carries."""

    question: Question
    token: str | None


@dataclass
class Jar:
    """Where the browser of one phone keeps its cookie."""

    token: str | None = None


@dataclass
class Line:
    """One phone's way to the service during one command: it breaks as told, then holds.

    `die` ends the phone; `meanwhile` lets something else happen before the request arrives.
    """

    office: Office
    jar: Jar
    late: list[Held]
    on_taken: Callable[[Answer], None]
    die: Callable[[], None]
    faults: list[Fault] = field(default_factory=list)
    meanwhile: Callable[[], None] = lambda: None

    def carry(self, question: Question) -> Answer | None:
        """The answer to the phone's next request; None where none comes."""
        fault = self.faults.pop(0) if self.faults else "fine"
        before: dict[str, Callable[[], Answer | None]] = {
            "sign-in page": lambda: SIGN_IN,
            "proxy fails": lambda: BAD_GATEWAY,
            "request lost": lambda: None,
            "delivered late": lambda: self._hold(question),
            "phone dies before": self._die,
            "service dies": lambda: self._cut_off(question),
        }
        if fault in before:
            return before[fault]()
        return self._with(fault, question)

    def _with(self, fault: Fault, question: Question) -> Answer | None:
        if fault == "service starts again":
            self.office.start_again()
        if fault == "meanwhile":
            self.meanwhile()
        if fault == "reply lost":
            self._send(Held(question, self.jar.token))
            return None
        answer = self._deliver(question)
        if fault == "delivered twice":
            answer = self._deliver(question)
        if fault == "phone dies after":
            self.die()
        return answer

    def _hold(self, question: Question) -> Answer | None:
        self.late.append(Held(question, self.jar.token))
        return None

    def _die(self) -> Answer | None:
        self.die()
        return None

    def _cut_off(self, question: Question) -> Answer | None:
        self.office.cut_off(lambda: self._deliver(question))
        return None

    def _deliver(self, question: Question) -> Answer:
        answer, cookie = self._send(Held(question, self.jar.token))
        if cookie is not None:
            self.jar.token = cookie
        return answer

    def _send(self, held: Held) -> tuple[Answer, str | None]:
        answer, cookie = send(self.office, held)
        if held.question.path == "/api/push" and answer.status == OK:
            self.on_taken(answer)
        return answer, cookie


def send(office: Office, held: Held) -> tuple[Answer, str | None]:
    """The request reaches the service now; a pull gets short pages, so that a few records take several."""
    path = held.question.path.replace("limit=500", f"limit={SHORT_PAGE}")
    return office.answer(held.question.method, path, held.question.body, held.token)
