"""What may happen at a step, how often in comparison, and with what: the machine draws from these evenly."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from hypothesis import strategies as st

Method = TypeVar("Method", bound=Callable[..., Any])
_MARK = "_happening"


class NothingToDoError(Exception):
    """As things stand, this cannot happen."""


@dataclass(frozen=True)
class Happening:
    """A method of the machine. Where nothing can be done it raises NothingToDoError before it does anything."""

    name: str
    often: int
    told: dict[str, st.SearchStrategy[Any]]


def happens(often: int = 1, **told: st.SearchStrategy[Any]) -> Callable[[Method], Method]:
    """This may happen at a step, with arguments drawn from these."""

    def marked(method: Method) -> Method:
        setattr(method, _MARK, Happening(method.__name__, often, told))
        return method

    return marked


def happenings_of(machine: type) -> list[Happening]:
    """Everything that may happen to the machine, each as often as it says."""
    methods = [getattr(machine, name) for name in dir(machine)]
    marks: list[Happening] = [getattr(method, _MARK) for method in methods if hasattr(method, _MARK)]
    return [one for one in marks for _ in range(one.often)]
