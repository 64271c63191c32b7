"""The command that makes readings of a dense scan: the same as the service does, without one."""

import argparse
import json
import sys
from collections.abc import Callable, Mapping
from dataclasses import asdict
from functools import partial
from pathlib import Path
from typing import Any, get_args

from evenbed.engine.bridge import document_from_text
from evenbed.engine.problems import BadDocumentError, problem_at
from evenbed.scans.faults import ScanError
from evenbed.scans.limits import wishes_with_limits
from evenbed.scans.outline import rings_from
from evenbed.scans.reducing import readings_from
from evenbed.scans.room import Room
from evenbed.scans.wishes import MM, BedWish, Two, Wishes
from evenbed.settings import Settings
from evenbed.wire.scans import LEAST_CELL, MOST_CELL, ReadingStage, ScanReply, Stage
from evenbed.wire.values import Standard

BAD_INPUT = 2
SETUP, BED_SETUP = "scan", "bed_scan"
_PLACES = "X,Y,X,Y"


def add_scan(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add the command."""
    parser = commands.add_parser("scan", help="make readings of a PLY, XYZ or CSV file of points; 2 means problems")
    parser.add_argument("file", type=Path, help="the scan")
    parser.add_argument("--room", type=Path, required=True, help="a room document whose outline the scan is to fill")
    parser.add_argument("--unit", choices=("auto", *MM), default="auto", help="what the scan is measured in")
    parser.add_argument(
        "--placing", choices=("as_it_is", "corner"), default="as_it_is", help="how it lies in the room"
    )
    parser.add_argument("--in-scan", type=_two, metavar=_PLACES, help="two places as the scan tells them")
    parser.add_argument("--in-room", type=_two, metavar=_PLACES, help="the same two in the room, mm")
    parser.add_argument("--up", choices=("z", "y"), default="z", help="which of its axes points up")
    parser.add_argument("--cell", type=partial(_between, LEAST_CELL, MOST_CELL), help="side of a cell, mm")
    parser.add_argument("--stage", choices=get_args(ReadingStage), default="subfloor", help="what was scanned")
    parser.add_argument("--standard", choices=get_args(Standard), help="limits of a bed's flatness; else the room's")
    parser.add_argument("--longest-edge", type=partial(_between, 5.0, 5e3), help="of the tile, mm; else the room's")
    parser.add_argument("--minimum-points", type=partial(_between, 1, 1e5), default=8, help="that a reading needs")
    parser.add_argument(
        "--document", action="store_true", help="print the document, these readings in place of its own"
    )
    parser.set_defaults(run=run_scan)


def _two(text: str) -> Two:
    a, b, c, d = (float(part) for part in text.split(","))
    return a, b, c, d


def _between(low: float, high: float, text: str) -> float:
    value = float(text)
    if not low <= value <= high:
        raise argparse.ArgumentTypeError(f"must be from {low:g} to {high:g}; it is {text}")
    return value


def run_scan(given: argparse.Namespace, _settings: Settings) -> int:
    """Print the readings and the report on the scan, or the problems."""
    try:
        document = document_from_text(given.room.read_text(encoding="utf-8-sig"))
        told = document if isinstance(document, dict) else {}
        rings, wishes = rings_from(told.get("outline")), wishes_with_limits(_wishes(given), told)
        reply = readings_from(given.file, Room(rings), wishes, _shown_progress())
    except BadDocumentError as bad:
        return _refuse([asdict(problem) for problem in bad.problems])
    except UnicodeDecodeError as error:
        return _refuse([asdict(problem_at("", "not_json", why=f"it is not UTF-8 at byte {error.start}"))])
    except ScanError as error:
        print(f"evenbed: {given.file}: {error}", file=sys.stderr)
        return _refuse([error.item.model_dump()])
    _print(document_with(document, reply) if given.document else reply.model_dump(mode="json"))
    return 0


def _wishes(given: argparse.Namespace) -> Wishes:
    """What was wished for on the command line; two places given say how the scan lies."""
    fits = given.in_scan is not None or given.in_room is not None
    return Wishes(
        unit=given.unit,
        placing="two_points" if fits else given.placing,
        up=given.up,
        cell=given.cell,
        minimum_points=int(given.minimum_points),
        in_scan=given.in_scan,
        in_room=given.in_room,
        bed=BedWish(given.standard, given.longest_edge) if given.stage == "bed" else None,
    )


def _refuse(problems: list[dict[str, Any]]) -> int:
    _print({"problems": problems})
    return BAD_INPUT


def _print(answer: Mapping[str, Any]) -> None:
    sys.stdout.buffer.write(json.dumps(answer, ensure_ascii=False).encode("utf-8", "replace") + b"\n")


def _shown_progress() -> Callable[[Stage, float], None]:
    """Where a person watches, one line that says how far it has come."""
    if not sys.stderr.isatty():
        return lambda _stage, _done: None
    return lambda stage, done: print(f"\r{stage} {done:4.0%}    ", end="", file=sys.stderr, flush=True)


def document_with(document: Mapping[str, Any], reply: ScanReply) -> dict[str, Any]:
    """The document with the scan's readings in place of its own, from a level line through the highest of them.

    A scan of the bed takes the place of what was read of the bed, and stands beside the subfloor's readings.
    """
    line, stage = max(one.z for one in reply.readings), reply.report.stage
    found: list[dict[str, Any]] = [
        {"id": f"s{n}", "setup": SETUP, "at": one.at, "down": round(line - one.z, 3)}
        for n, one in enumerate(reply.readings, start=1)
    ]
    setup = {"id": SETUP, "kind": "laser"}
    if stage == "subfloor":
        return dict(document) | {"setups": [setup], "readings": found}
    for one in found:
        one |= {"id": f"b{one['id']}", "setup": BED_SETUP, "stage": stage}
    kept = [one for one in document.get("readings", ()) if one.get("stage") != stage]
    setups = [one for one in document.get("setups", ()) if one.get("id") != BED_SETUP]
    return dict(document) | {"setups": [*setups, setup | {"id": BED_SETUP}], "readings": [*kept, *found]}
