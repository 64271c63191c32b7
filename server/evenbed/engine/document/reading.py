"""JSON to frozen dataclasses, with every problem found and named; never a traceback, never a half-read value."""

import math
from collections.abc import Callable, Sequence
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import datetime
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from evenbed.engine.document.fields import Facts
from evenbed.engine.problems import MOST_PROBLEMS, BadDocumentError, Problem, problem_at, shown, whole_characters

T = TypeVar("T")
FREE_KEYS = frozenset({"id", "name", "note", "typed"})  # people's own words beside any entry
UNREADABLE = object()


def read_json(shape: type[T], given: object) -> tuple[T, tuple[str, ...]]:
    """Read `given` (parsed JSON) as the dataclass `shape`.

    Returns the value and the paths of keys nobody knows, which are left out. A key with a default may be missing
    or null. Raises BadDocumentError with every problem of form; problems of sense are the trade's modules' to find.
    """
    reader = _Reader()
    value = reader.object_at("", shape, given)
    if reader.problems:
        raise BadDocumentError(reader.problems)
    return value, tuple(reader.unknown[:MOST_PROBLEMS])


def facts_of(one: "Field[Any]") -> Facts:
    """The facts of a described field."""
    facts: Facts = one.metadata["facts"]
    return facts


def key_of(one: "Field[Any]") -> str:
    """A field's name in JSON: its own, or the one its facts give."""
    return facts_of(one).key or one.name


@cache
def _members_of(shape: type[Any]) -> dict[str, tuple["Field[Any]", Any]]:
    """JSON key → the field and its type, for one dataclass."""
    hints = get_type_hints(shape)
    return {key_of(one): (one, hints[one.name]) for one in fields(shape)}


class _Reader:
    """Walks the value and the shape together, collecting problems and unknown keys."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []
        self.unknown: list[str] = []

    def refuse(self, path: str, code: str, **values: float | str) -> Any:
        self.problems.append(problem_at(path, code, **values))
        return UNREADABLE

    def object_at(self, path: str, shape: type[Any], given: object) -> Any:
        if not isinstance(given, dict):
            return self.refuse(path, "not_an_object", got=shown(given))
        known = _members_of(shape)  # type: ignore[arg-type]  # a class has a hash
        self.unknown += [_join(path, shown(k).strip('"')) for k in given if k not in known and k not in FREE_KEYS]
        values = {}
        for key, (one, hint) in known.items():
            inner = given.get(key)
            is_left_out = inner is None and one.default is not MISSING
            values[one.name] = one.default if is_left_out else self.field_at(_join(path, key), one, hint, inner)
        return UNREADABLE if UNREADABLE in values.values() else shape(**values)

    def field_at(self, path: str, one: "Field[Any]", hint: Any, given: object) -> Any:
        if given is not None:
            return self.value_at(path, hint, facts_of(one), given)
        return self.refuse(path, "missing") if one.default is MISSING else one.default

    def value_at(self, path: str, hint: Any, facts: Facts, given: object) -> Any:
        simple = _SIMPLE.get(hint)
        if simple is not None:
            return simple(self, path, facts, given)
        origin = _origin_of(hint)
        if origin in (UnionType, Union):
            return self.union_at(path, get_args(hint), facts, given)
        if origin is Literal:
            return self.choice_at(path, get_args(hint), given)
        if origin is tuple:
            return self.list_at(path, get_args(hint), facts, given)
        return self.object_at(path, hint, given)

    def union_at(self, path: str, hints: tuple[Any, ...], facts: Facts, given: object) -> Any:
        kept, shapes, words = _sorted_out(hints)
        if shapes:
            return self.kind_at(path, shapes, facts, given)
        if words and isinstance(given, str):
            return self.choice_at(path, get_args(words[0]), given)
        return self.value_at(path, kept[0], facts, given)

    def kind_at(self, path: str, shapes: list[Any], facts: Facts, given: object) -> Any:
        if len(shapes) == 1 or not isinstance(given, dict):
            return self.value_at(path, shapes[0], facts, given)
        by_kind = {get_args(get_type_hints(s)["kind"])[0]: s for s in shapes}
        kind = given.get("kind")
        kind = next(iter(by_kind)) if kind is None else kind
        if not isinstance(kind, str) or kind not in by_kind:
            return self.refuse(_join(path, "kind"), "not_one_of", choices=", ".join(by_kind), got=shown(kind))
        return self.object_at(path, by_kind[kind], given)

    def choice_at(self, path: str, choices: tuple[Any, ...], given: object) -> Any:
        if any(given == c and type(given) is type(c) for c in choices):
            return given
        return self.refuse(path, "not_one_of", choices=", ".join(str(c) for c in choices), got=shown(given))

    def list_at(self, path: str, hints: tuple[Any, ...], facts: Facts, given: object) -> Any:
        if not isinstance(given, list | tuple):
            return self.refuse(path, "not_a_list", got=shown(given))
        is_open = hints[-1] is Ellipsis
        if is_open and len(given) > facts.most:
            return self.refuse(path, "too_many", count=len(given), most=facts.most)
        if not is_open and len(given) != len(hints):
            return self.refuse(path, "wrong_count", expected=len(hints), got=len(given))
        if is_open and hints[0] is float and (numbers := _numbers(facts, given)) is not None:
            return numbers
        each = [hints[0]] * len(given) if is_open else list(hints)
        values = [
            self.value_at(f"{path}[{i}]", h, facts, g) for i, (h, g) in enumerate(zip(each, given, strict=True))
        ]
        return UNREADABLE if UNREADABLE in values else tuple(values)

    def number_at(self, path: str, facts: Facts, given: object) -> Any:
        if isinstance(given, bool) or not isinstance(given, int | float):
            return self.refuse(path, "not_a_number", got=shown(given))
        try:
            value = float(given) + 0.0  # makes -0.0 plain 0.0: equal documents give equal answers, to the last sign
        except OverflowError:
            value = math.inf
        if not math.isfinite(value):
            return self.refuse(path, "not_finite", got=shown(given))
        if facts.low is not None and value < facts.low:
            return self.refuse(path, "too_small", value=value, low=facts.low)
        if facts.high is not None and value > facts.high:
            return self.refuse(path, "too_large", value=value, high=facts.high)
        return value

    def count_at(self, path: str, facts: Facts, given: object) -> Any:
        value = self.number_at(path, facts, given)
        if value is UNREADABLE or value == int(value):
            return value if value is UNREADABLE else int(value)
        return self.refuse(path, "not_a_whole_number", got=shown(given))

    def text_at(self, path: str, facts: Facts, given: object) -> Any:
        if not isinstance(given, str):
            return self.refuse(path, "not_a_text", got=shown(given))
        if len(given) > facts.longest:
            return self.refuse(path, "too_long", length=len(given), most=facts.longest)
        if whole_characters(given) != given:
            return self.refuse(path, "half_a_character", got=shown(given))
        if facts.is_time and not _is_time(given):
            return self.refuse(path, "not_a_time", got=shown(given))
        return given

    def truth_at(self, path: str, _facts: Facts, given: object) -> Any:
        return given if isinstance(given, bool) else self.refuse(path, "not_true_or_false", got=shown(given))


_SIMPLE: dict[Any, Callable[[_Reader, str, Facts, object], Any]] = {
    float: _Reader.number_at,
    int: _Reader.count_at,
    str: _Reader.text_at,
    bool: _Reader.truth_at,
}


@cache
def _origin_of(hint: Any) -> Any:
    return get_origin(hint)


@cache
def _sorted_out(hints: tuple[Any, ...]) -> tuple[list[Any], list[Any], list[Any]]:
    """Of a union's members: all but None, the dataclasses, the closed sets of words."""
    kept = [h for h in hints if h is not NoneType]
    return kept, [h for h in kept if is_dataclass(h)], [h for h in kept if get_origin(h) is Literal]


def _numbers(facts: Facts, given: Sequence[object]) -> tuple[float, ...] | None:
    """A long list of good numbers at once, as one by one they would be read; None where any of them is not good."""
    if not all(type(one) in (float, int) for one in given):
        return None
    try:
        values = [float(one) + 0.0 for one in given if isinstance(one, float | int)]
    except OverflowError:
        return None
    low, high = facts.low, facts.high
    is_good = all(map(math.isfinite, values)) and (
        not values or ((low is None or low <= min(values)) and (high is None or max(values) <= high))
    )
    return tuple(values) if is_good else None


def _is_time(text: str) -> bool:
    try:
        moment = datetime.fromisoformat(text)
        return moment.utcoffset() is not None and moment.timestamp() is not None
    except (ValueError, OverflowError):
        return False


def _join(path: str, key: str) -> str:
    return f"{path}.{key}" if path else key
