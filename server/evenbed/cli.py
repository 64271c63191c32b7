"""The command line. What concerns whole databases is in `keeping`, job files in `carrying`; `scan` has its own."""

import argparse
import json
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

from evenbed.access.joining import FROM_THE_SERVER, found, invite_foreman
from evenbed.access.people import UnknownPersonError, invite_again
from evenbed.api.plans import answer_from_bytes, problem_answer
from evenbed.app import create_app
from evenbed.carrying import CARRYING_FAULTS, add_carrying
from evenbed.demo.load import load_demo
from evenbed.engine.bridge import MOST_CHARACTERS
from evenbed.keeping import add_keeping
from evenbed.scan import add_scan
from evenbed.serving import serve
from evenbed.settings import Settings, SettingsError, settings_from
from evenbed.store.database import shown_url
from evenbed.store.devices import Device
from evenbed.store.faults import StoreError
from evenbed.store.migrate import migrate
from evenbed.store.work import Store
from evenbed.sync.proof import differences

BAD_INPUT = 2
MOST_BYTES = 4 * MOST_CHARACTERS + 4  # of a document: one character more than the engine takes, at four bytes each
Command = Callable[[argparse.Namespace, Settings], int]


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status: 0 done, 1 failed, 2 bad input."""
    given = _parser().parse_args(arguments)
    command: Command = given.run
    try:
        return command(given, _settings(given))
    except (SettingsError, StoreError, UnknownPersonError, *CARRYING_FAULTS, OSError) as error:
        print(f"evenbed: {error}", file=sys.stderr)
        return 1


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="evenbed", description="Mortar beds for tile: read the floor, choose the top, set the rails, fill, wait."
    )
    commands = parser.add_subparsers(required=True, metavar="command")
    plan = commands.add_parser("plan", help="print the plan of a room document as JSON; 2 means problems")
    plan.add_argument("file", help="a JSON file, or - for standard input")
    plan.set_defaults(run=run_question, question="plan")
    levels = commands.add_parser("levels", help="print the adjusted levels of a document as JSON; 2 means problems")
    levels.add_argument("file", help="a JSON file, or - for standard input")
    levels.set_defaults(run=run_question, question="levels")
    add_scan(commands)
    openapi = commands.add_parser("openapi", help="print the service's OpenAPI description as JSON")
    openapi.set_defaults(run=run_openapi)
    serving = _with_database(commands, "serve", run_serve, "bring the database up to date and serve app and data")
    serving.add_argument("--host", help="address to listen on (EVENBED_HOST)")
    serving.add_argument("--port", type=int, help="port to listen on, 0 for any free one (EVENBED_PORT)")
    serving.add_argument("--demo", action="store_true", help="put the demo job in first")
    serving.add_argument("--new-code", action="store_true", help="make a join code for one more foreman's device")
    serving.add_argument("--web", type=Path, help="folder of the built app (EVENBED_WEB)")
    _with_database(commands, "demo", run_demo, "put an invented job with two rooms into the database")
    joining = _with_database(commands, "join-code", run_join_code, "make a join code for one foreman's device")
    joining.add_argument("--person", help="for another device of somebody known instead, by name or id")
    _with_database(commands, "people", run_people, "list everybody who was let in, and their devices")
    _with_database(
        commands, "verify", run_verify, "make every record again from the log and compare; read every photo"
    )
    add_keeping(partial(_with_database, commands))
    add_carrying(partial(_with_database, commands))
    return parser


def _with_database(
    commands: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, run: Command, about: str
) -> argparse.ArgumentParser:
    parser = commands.add_parser(name, help=about)
    parser.add_argument("--data", type=Path, help="folder of the database (EVENBED_DATA)")
    parser.add_argument("--database", help="database URL in place of a file in that folder (EVENBED_DATABASE)")
    parser.set_defaults(run=run)
    return parser


def _settings(given: argparse.Namespace) -> Settings:
    """The environment's settings, with what the command line says on top: both are checked alike."""
    told = {name: getattr(given, name, None) for name in ("host", "port", "data", "database", "web")}
    return settings_from(os.environ | {f"EVENBED_{k.upper()}": str(v) for k, v in told.items() if v is not None})


def run_question(given: argparse.Namespace, _settings: Settings) -> int:
    """Print the engine's answer to a document, or the problems."""
    answer = _answer_for(given.question, given.file)
    sys.stdout.buffer.write(answer + b"\n")
    return BAD_INPUT if "problems" in json.loads(answer) else 0


def _answer_for(question: str, name: str) -> bytes:
    try:
        with sys.stdin.buffer if name == "-" else Path(name).open("rb") as source:
            body = source.read(MOST_BYTES)
    except (OSError, ValueError) as error:
        return problem_answer("unreadable", getattr(error, "strerror", None) or str(error))
    return answer_from_bytes(question, body)


def run_openapi(_given: argparse.Namespace, settings: Settings) -> int:
    """Print the description."""
    description = json.dumps(create_app(settings).openapi(), indent=2, ensure_ascii=False)
    sys.stdout.buffer.write(description.encode() + b"\n")
    return 0


def run_serve(given: argparse.Namespace, settings: Settings) -> int:
    """Serve until stopped."""
    code = _founded(settings)
    with closing(_store(settings)) as store:
        if given.new_code and code is None:
            code = invite_foreman(store, _now())
        if given.demo:
            _add_demo(store)
    _say_code(code)
    return serve(create_app(settings), settings)


def run_demo(_given: argparse.Namespace, settings: Settings) -> int:
    """Put the demo job in; a second time changes nothing."""
    _say_code(_founded(settings))
    with closing(_store(settings)) as store:
        _add_demo(store)
    return 0


def _add_demo(store: Store) -> None:
    added = load_demo(store)
    print(f"Demo job: {added} changes added." if added else "The demo job is here already; nothing was changed.")


def run_join_code(given: argparse.Namespace, settings: Settings) -> int:
    """Print a join code: for one device, once, for a day. The code is the last word."""
    migrate(settings.database_url)
    with closing(_store(settings)) as store:
        first = found(store, _now())
        if given.person:
            person, code = invite_again(store, given.person, _now())
            whom = f"another device of {person.name} ({person.role})"
        else:
            whom, code = "one foreman's device", first or invite_foreman(store, _now())
    print(f"Join code for {whom}, once and until {_clock(_now() + FROM_THE_SERVER)}: {code}")
    return 0


def run_people(_given: argparse.Namespace, settings: Settings) -> int:
    """Print everybody with their devices."""
    migrate(settings.database_url)
    with closing(_store(settings)) as store, store.reading() as work:
        people, devices = work.people.all(), work.devices.all()
    for person in people:
        print(f"{person.name}, {person.role} ({person.id})")
        for device in devices:
            if device.person.id == person.id:
                print(f"    {device.name}: {_story(device)} ({device.id})")
    print(f"{len(people)} people; {sum(device.removed_at is None for device in devices)} devices may come in.")
    return 0


def _story(device: Device) -> str:
    told = [f"joined {_clock(device.joined_at)}"]
    if device.last_seen_at:
        told.append(f"last seen {_clock(device.last_seen_at)}")
    if device.removed_at:
        told.append(f"removed {_clock(device.removed_at)}")
    return ", ".join(told)


def _clock(at: datetime) -> str:
    """A moment by this machine's own clock."""
    return at.astimezone().strftime("%Y-%m-%d %H:%M %Z")


def run_verify(_given: argparse.Namespace, settings: Settings) -> int:
    """Prove that the log holds everything."""
    migrate(settings.database_url)
    with closing(_store(settings)) as store, store.reading() as work:
        archive = work.archive
        count, wrong = differences(archive.log(), archive.records(), archive.assignments())
        photos, damaged = work.photos.proved()
    for line in wrong:
        print(f"differs from the log: {line}")
    for photo in damaged:
        print(f"photo with other bytes than its hash: {photo}")
    print(f"{count} records made again from the log; {len(wrong)} differences.")
    print(f"{photos} {'photo' if photos == 1 else 'photos'} read; {len(damaged)} damaged.")
    return 1 if wrong or damaged else 0


def _founded(settings: Settings) -> str | None:
    """The database brought up to date; the first join code where it is new."""
    print(f"Database: {shown_url(settings.database_url)} (bringing it up to date)", flush=True)
    migrate(settings.database_url)
    with closing(_store(settings)) as store:
        return found(store, _now())


def _say_code(code: str | None) -> None:
    if code:
        until = _clock(_now() + FROM_THE_SERVER)
        print(
            f"Join code: {code} (for one foreman's device, until {until}; others are invited in the app)", flush=True
        )
    else:
        print("Join code: shown at the first start; `evenbed join-code` makes one for a foreman's device", flush=True)


def _store(settings: Settings) -> Store:
    return Store(settings.database_url, settings.busy_timeout_s)


def _now() -> datetime:
    return datetime.now(UTC)
