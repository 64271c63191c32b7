"""Bad documents: each kind gets its problem at its place, through the engine's one door."""

import json
from typing import Any

import pytest
from tests.answers import check_answer
from tests.bad_designs import DESIGNS
from tests.bad_documents import HUGE, INF, KINDS, MILLION, NAN, changed, good
from tests.documents import Json, dotted, places_of, problems_of, value_at

from evenbed.engine.bridge import answer_text
from evenbed.engine.problems import MOST_PROBLEMS


def test_the_good_document_is_good() -> None:
    answer = json.loads(answer_text("plan", json.dumps(good())))
    assert "problems" not in answer, answer["problems"]
    assert answer["notices"] == []


TEXTS: list[tuple[str, str]] = [
    ("", "not_json"),
    ("   ", "not_json"),
    ("no JSON at all", "not_json"),
    ('{"document": 1', "not_json"),
    ('{"document": 1,}', "not_json"),
    ("{'document': 1}", "not_json"),
    ("\ufeff{}", "not_json"),
    ("\x00", "not_json"),
    (MILLION, "not_json"),
    ('{"document": ' + MILLION + "}", "not_json"),
    ("[" * 100_000, "not_json"),
    ('{"a":' * 100_000, "not_json"),
    ("[" * 50_000 + "]" * 50_000, "not_json"),
    ("null", "not_an_object"),
    ("[]", "not_an_object"),
    ("true", "not_an_object"),
    ("1", "not_an_object"),
    ('"a room"', "not_an_object"),
    (" " * 8_000_001, "too_long"),
    ("NaN", "not_finite"),
    ("-Infinity", "not_finite"),
]


@pytest.mark.parametrize(("text", "code"), TEXTS, ids=[f"{n} {text[:12]!r}" for n, (text, _) in enumerate(TEXTS)])
def test_a_text_that_is_no_room_is_refused_as_a_whole(text: str, code: str) -> None:
    (problem,) = json.loads(answer_text("plan", text))["problems"]
    assert (problem["path"], problem["code"]) == ("", code)
    assert len(problem["message"]) < 300


@pytest.mark.parametrize(
    ("document", "path", "code"), [k[1:] for k in (*KINDS, *DESIGNS)], ids=[k[0] for k in (*KINDS, *DESIGNS)]
)
def test_each_kind_of_bad_document_gets_its_problem_at_its_place(document: Json, path: str, code: str) -> None:
    found = problems_of(document)
    assert (path, code) in found
    assert len(found) <= 12


def test_every_text_place_refuses_a_million_characters() -> None:
    for path in places_of(good()):
        if isinstance(value_at(good(), path), str):
            text = answer_text("plan", json.dumps(changed(path, "x" * 1_000_000)))
            assert "problems" in json.loads(text), path
            assert len(text) < 2_000, path


def test_every_number_place_refuses_nan_words_and_a_truth_value() -> None:
    for path in places_of(good()):
        given_value = value_at(good(), path)
        if isinstance(given_value, int | float) and not isinstance(given_value, bool):
            wrong: list[Any] = [NAN, INF, "12", True, [], {}, HUGE]
            for bad in wrong:
                found = problems_of(changed(path, bad))
                assert found[0][0].startswith(dotted(path)), (path, bad)


def test_every_problem_of_form_is_told_at_once() -> None:
    document = changed("readings.1.down", "x") | {"mix": {"air": 7}, "bed": {"build": 3}}
    assert set(problems_of(document)) == {
        ("readings[1].down", "not_a_number"),
        ("mix.air", "too_large"),
        ("bed.build", "not_one_of"),
    }


def test_a_thousand_mistakes_are_told_in_a_list_that_ends() -> None:
    document = changed("readings", [{"down": "x", "at": [0, 0]}] * 20_000)
    assert len(problems_of(document)) == MOST_PROBLEMS
    assert len(problems_of(changed("readings", [{"down": 1}] * 20_001))) == 1


@pytest.mark.parametrize("junk", ["\ud800", "\udfff x", "é\x00\u2028", "{value}", "%s", '"quoted"', "\\", "../../x"])
def test_strange_texts_come_back_whole_or_are_refused_and_always_travel(junk: str) -> None:
    for path in ("readings.0.id", "setups.0.id", "openings.0.id", "marks.0.id", "bed.build", "readings.6.mark"):
        text = answer_text("quick_plan", json.dumps(changed(path, junk)))
        text.encode("utf-8")
        check_answer(text)
    answer_text("plan", json.dumps(good() | {junk: NAN})).encode("utf-8")
    text = answer_text("plan", json.dumps(changed("readings.6.mark", junk) | {junk: 1}))
    text.encode("utf-8")
    check_answer(text)
