"""The contract: every plan is what the schema says, every document that is good by the schema's lights is read."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from tests.answers import check_answer
from tests.bad_documents import good
from tests.documents import SQUARE, Json, plan_of, problems_of
from tests.rooms import random_room
from tests.share import share_of

import evenbed
from evenbed.engine.bridge import answer_text
from evenbed.engine.contract import (
    QUESTION_SHAPES,
    answer_schema,
    asked_schema,
    document_schema,
    refusal_schema,
)
from evenbed.engine.identity import identity

PACKAGE = Path(evenbed.__file__).parent
DEMO_ROOMS = sorted(PACKAGE.glob("demo/*_*.json"))
DOCUMENT = Draft202012Validator(document_schema())
MINIMAL = {
    "document": 1,
    "outline": {"vertices": SQUARE},
    "readings": [{"down": float(n), "at": corner} for n, corner in enumerate(SQUARE)],
}
WHOLE = share_of(15)  # rooms asked for what is unknown too, which takes ten times as long

# Names that other programs read: a key of the plan, and the keys inside it (of its first entry where it is a list).
NAMES = {
    "engine": {"version", "hash"},
    "outline": {"vertices", "area", "perimeter", "misclosure"},
    "outline.misclosure": {"dx", "dy", "length", "ratio"},
    "levels": {"heights", "setups", "marks", "sigma0", "next_readings"},
    "levels.heights.0": {"reading", "at", "z", "residual", "sigma"},
    "levels.setups.0": {"id", "line_height", "sigma"},
    "surface": {"points", "estimated", "triangles", "highest", "lowest", "contours"},
    "bed": {"top", "thickness", "volume", "mass", "load", "doorways"},
    "bed.top.0": {"a", "b", "c", "polygon"},
    "bed.thickness": {"min", "max", "mean", "min_at", "max_at"},
    "bed.load": {"mean", "max"},
    "bed.chipping.0": {"at", "depth", "area", "saves_volume"},
    "rails.0": {"id", "from", "to", "stations", "settings"},
    "rails.0.stations.0": {"at", "along", "subfloor", "top", "shim"},
    "sections.0": {"id", "polygon", "volume", "batches", "order"},
    "materials.0": {"item", "quantity", "unit", "packages", "why"},
    "joints": {"edition", "perimeter", "width", "width_by_movement", "spacing", "field", "panels", "tile_module"},
    "joints.spacing": {"least", "most", "used"},
    "joints.panels.0": {"polygon", "length", "width"},
    "readiness.0": {"milestone", "at", "equivalent_age", "needs", "basis"},
    "cautions.0": {"code", "text", "where"},
}


@pytest.mark.parametrize(
    "schema",
    [*(made(question) for made in (asked_schema, answer_schema) for question in QUESTION_SHAPES), refusal_schema()],
)
def test_the_schemas_are_schemas(schema: Json) -> None:
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("seed", range(50))
def test_an_invented_room_and_its_plan_are_what_the_schemas_say(seed: int) -> None:
    room = random_room(seed)
    DOCUMENT.validate(room)
    text = answer_text("plan" if seed < WHOLE else "quick_plan", json.dumps(room))
    assert "problems" not in json.loads(text)
    check_answer(text)


def test_the_demo_has_rooms() -> None:
    assert len(DEMO_ROOMS) >= 2


@pytest.mark.parametrize("path", DEMO_ROOMS, ids=[path.stem for path in DEMO_ROOMS])
def test_a_demo_room_and_its_plan_are_what_the_schemas_say(path: Path) -> None:
    room = json.loads(path.read_text(encoding="utf-8"))
    DOCUMENT.validate(room)
    text = answer_text("plan", json.dumps(room))
    assert "problems" not in json.loads(text)
    check_answer(text)


@pytest.mark.parametrize("document", [MINIMAL, good()], ids=["minimal", "full"])
def test_a_document_gives_every_name_of_the_contract(document: Json) -> None:
    DOCUMENT.validate(document)
    plan = plan_of(document)
    for path, names in NAMES.items():
        inner: Any = plan
        for step in path.split("."):
            inner = inner[int(step)] if isinstance(inner, list) else inner[step]
        assert names <= inner.keys(), path


def test_the_full_document_names_its_doorway_and_mark_as_the_contract_does() -> None:
    plan = plan_of(good())
    assert {"id", "finished_height", "step", "kind"} <= plan["bed"]["doorways"][0].keys()
    assert plan["levels"]["marks"][0].keys() >= {"id", "z", "sigma"}


@pytest.mark.parametrize(
    "key", ["openings", "fixtures", "setups", "marks", "bed", "rails", "mix", "climate", "curing"]
)
def test_null_stands_for_the_default(key: str) -> None:
    assert plan_of(MINIMAL | {key: None}) == plan_of(MINIMAL)
    DOCUMENT.validate(MINIMAL | {key: None})


def test_a_null_kind_of_top_is_the_default_kind() -> None:
    assert plan_of(MINIMAL | {"bed": {"top": {"kind": None}}}) == plan_of(MINIMAL)


def test_keys_nobody_knows_are_left_out_and_named() -> None:
    document = good()
    document["colour"] = "red"
    document["bed"]["covering"]["pattern"] = {"deep": [1]}
    document["readings"][2]["wobble"] = None
    document["readings"][2]["typed"] = {"down": "9/32 in"}
    notices = [(notice["path"], notice["code"]) for notice in plan_of(document)["notices"]]
    assert set(notices) == {
        ("colour", "unknown_key"),
        ("bed.covering.pattern", "unknown_key"),
        ("readings[2].wobble", "unknown_key"),
    }
    assert plan_of(document) | {"notices": []} == plan_of(good())


def test_corners_win_over_taped_walls_and_it_is_said() -> None:
    document = good()
    document["outline"]["walls"] = [{"length": 1000, "turn": 90}] * 4
    plan = plan_of(document)
    assert [(n["path"], n["code"]) for n in plan["notices"]] == [("outline.walls", "vertices_stand")]
    assert plan | {"notices": []} == plan_of(good())


def test_the_schema_refuses_what_the_engine_refuses_in_a_range() -> None:
    for document in (MINIMAL | {"mix": {"air": 7}}, MINIMAL | {"document": 2}, {"document": 1}):
        assert problems_of(document)
        assert not DOCUMENT.is_valid(document)


def test_a_room_a_kilometre_wide_still_fits_the_plans_schema() -> None:
    far = [[-1e6, -1e6], [1e6, -1e6], [1e6, 1e6], [-1e6, 1e6]]
    readings = [{"down": 1e6 * (-1) ** n, "at": corner} for n, corner in enumerate(far)]
    check_answer(answer_text("plan", json.dumps(MINIMAL | {"outline": {"vertices": far}, "readings": readings})))


def test_the_engines_hash_is_the_same_twice_and_a_sha_256() -> None:
    assert identity() == identity()
    assert plan_of(MINIMAL)["engine"] == {"version": identity().version, "hash": identity().hash}
    assert len(bytes.fromhex(identity().hash)) == 32


def hash_in(home: Path) -> str:
    """The engine's hash by a Python of its own, over the files under `home`."""
    code = "from evenbed.engine.identity import identity; print(identity().hash)"
    told = os.environ | {"PYTHONPATH": str(home), "PYTHONDONTWRITEBYTECODE": "1"}
    run = subprocess.run([sys.executable, "-c", code], env=told, capture_output=True, text=True, check=True)
    return run.stdout.strip()


def test_one_changed_byte_or_one_renamed_file_changes_the_engines_hash(tmp_path: Path) -> None:
    copy = tmp_path / "evenbed"
    shutil.copytree(PACKAGE, copy, ignore=shutil.ignore_patterns("__pycache__"))
    whole = hash_in(tmp_path)
    assert whole == hash_in(PACKAGE.parent)
    source = copy / "engine" / "mix.py"
    source.write_bytes(source.read_bytes() + b"\n")
    changed = hash_in(tmp_path)
    (copy / "engine" / "bed.py").with_name("extra.py").write_text("", encoding="utf-8")
    assert len({whole, changed, hash_in(tmp_path)}) == 3
